"""The sounds as they stand in the files, against numpy's transform and the standard library's reader of wav files."""

from __future__ import annotations

import io
import wave
from functools import cache

import numpy as np
import pytest

from harness.sound.fourier import real_series
from harness.sound.kit import SOUNDS, SoundFile, sheet, sound_files
from harness.sound.wav import wav

RATE = 44_100


@cache
def files(level: float = -20.0, side: str = "both") -> tuple[SoundFile, ...]:
    return tuple(sound_files(level, side))


def channels(data: bytes) -> np.ndarray:
    """Both channels as shares of full scale, 32767."""
    with wave.open(io.BytesIO(data)) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (2, 2, RATE)
        raw = file.readframes(file.getnframes())
    return np.frombuffer(raw, dtype="<i2").reshape(-1, 2).T / 32767


def of(name: str, letter: str = "b") -> np.ndarray:
    (found,) = [file for file in files() if file.name[1] == letter and file.sound.name == name]
    left, right = channels(found.data)
    assert np.array_equal(left, right)
    return left


def steady(sound: np.ndarray) -> np.ndarray:
    """Ten seconds from the middle: whole periods of all that swings."""
    return sound[5 * RATE : 15 * RATE]


def power_share(sound: np.ndarray, low_hz: float, high_hz: float) -> float:
    """How much of the power lies between two frequencies."""
    power = np.abs(np.fft.rfft(sound)) ** 2
    hertz = np.fft.rfftfreq(len(sound), 1 / RATE)
    return float(power[(hertz >= low_hz) & (hertz <= high_hz)].sum() / power.sum())


def rms_dbfs(sound: np.ndarray) -> float:
    """AES17 (from memory): RMS, counted by a sine whose peaks reach full scale, whose RMS is 1/sqrt(2)."""
    return float(20 * np.log10(np.sqrt(np.mean(sound**2)) * np.sqrt(2)))


def test_ten_files_softer_first() -> None:
    """Five sounds; -40 stands before -20 in the order of names; the name states the level."""
    names = [file.name for file in files()]

    assert len(names) == 10
    assert names == sorted(names)
    assert [name.rsplit("-at-", 1)[1] for name in names] == ["minus-40-dbfs.wav", "minus-20-dbfs.wav"] * 5


@pytest.mark.parametrize("letter", ["a", "b"])
@pytest.mark.parametrize("name", ["50-hz-sine", "500-hz-warble", "8500-9500-hz-sweep", "pink-noise"])
def test_level(name: str, letter: str) -> None:
    """As the name says, within a tenth of a decibel."""
    assert rms_dbfs(steady(of(name, letter))) == pytest.approx({"a": -40, "b": -20}[letter], abs=0.1)


@pytest.mark.parametrize("number", range(10))
def test_peak_is_as_stated_and_nothing_is_clipped(number: int) -> None:
    file = files()[number]  # made when asked for: not by every worker before its first test
    left, _ = channels(file.data)

    assert 20 * np.log10(np.abs(left).max()) == pytest.approx(file.peak_dbfs, abs=0.05)
    assert np.abs(left).max() < 0.999


def test_sine() -> None:
    """50 Hz: all but a millionth of the power in a band of 2 Hz."""
    assert power_share(steady(of("50-hz-sine")), 49, 51) > 0.999999


def test_warble() -> None:
    """500 Hz, 5 % to both sides, 5 times a second. Of a swinging sine 98 % of the power lies within the swing and its
    rate to both sides, 25 + 5 Hz (handbook rule of frequency modulation, from memory).
    """
    sound = steady(of("500-hz-warble"))
    crossings = np.flatnonzero((sound[:-1] < 0) & (sound[1:] >= 0))
    exact = crossings + sound[crossings] / (sound[crossings] - sound[crossings + 1])
    hertz = RATE / np.diff(exact)

    assert power_share(sound, 470, 530) > 0.98
    assert hertz.mean() == pytest.approx(500, abs=1)
    assert (hertz.min(), hertz.max()) == (pytest.approx(475, abs=1.5), pytest.approx(525, abs=1.5))


def test_sweep() -> None:
    """8.5 to 9.5 kHz: nearly all of the power there, and each fifth of the band has a fifth of it."""
    sound = steady(of("8500-9500-hz-sweep"))
    fifths = [power_share(sound, low, low + 200) for low in range(8500, 9500, 200)]

    assert power_share(sound, 8480, 9520) > 0.99
    assert fifths == pytest.approx([0.2] * 5, abs=0.02)


def test_pulse_goes_to_plus_first_and_higher() -> None:
    """Plus 1/10 of full scale (-20 dBFS), minus an eighth of that; plus comes first; two a second; no DC."""
    sound = of("polarity-pulse")
    middle = sound[2 * RATE : 18 * RATE]
    loud = np.flatnonzero(np.abs(sound) > 0)

    assert middle.max() == pytest.approx(0.1, rel=0.001)
    assert middle.min() == pytest.approx(-0.0125, rel=0.01)
    assert sound[loud[0]] > 0
    # one rounding step of 16 bits is 3e-5; what the quantizer leaves is far below it
    assert abs(sound.mean()) < 1e-6
    starts = np.flatnonzero((middle[:-1] < 0.05) & (middle[1:] >= 0.05))
    assert np.diff(starts) == pytest.approx([RATE / 2] * 31, abs=1)


def test_a_pulse_through_a_high_pass_still_begins_with_plus() -> None:
    """A first-order high-pass of 20 Hz, as a coupling capacitor makes: y[n] = a (y[n-1] + x[n] - x[n-1])."""
    sound = of("polarity-pulse")[2 * RATE : 3 * RATE]
    a = 1 / (1 + 2 * np.pi * 20 / RATE)
    passed = np.zeros_like(sound)
    for n in range(1, len(sound)):
        passed[n] = a * (passed[n - 1] + sound[n] - sound[n - 1])

    assert passed.max() > 2 * -passed.min()


# Midband frequencies 1000 * 10^(n/10) Hz, edges a twentieth of a decade to both sides: IEC 61260-1:2014, base ten
CENTRES = [1000 * 10 ** (n / 10) for n in range(-15, 13)]


def test_pink_noise_is_flat_in_thirds_of_an_octave() -> None:
    """31.5 Hz to 16 kHz within half a decibel, and the whole band from 20 Hz to 20 kHz holds all of it."""
    sound = steady(of("pink-noise"))
    levels = [10 * np.log10(power_share(sound, centre * 10**-0.05, centre * 10**0.05)) for centre in CENTRES]

    assert power_share(sound, 19, 20_001) > 0.999
    assert max(levels) - min(levels) < 1.0
    assert np.mean(levels) == pytest.approx(max(levels), abs=0.6)


@pytest.mark.parametrize("number", range(10))
def test_faded_in_and_out(number: int) -> None:
    """It begins and ends at nothing, the first and last 50 ms are far softer than the middle, and no step is heard."""
    left, _ = channels(files()[number].data)
    loudest = np.abs(left).max()

    assert left[0] == left[-1] == 0
    for edge in (left[: RATE // 20], left[-RATE // 20 :]):
        assert np.abs(edge).max() < 0.1 * loudest


def test_same_bytes_each_time() -> None:
    assert [file.data for file in sound_files()] == [file.data for file in files()]


@pytest.mark.parametrize(("side", "silent"), [("left", 1), ("right", 0)])
def test_one_side_alone(side: str, silent: int) -> None:
    for file in files(-30.0, side):
        both = channels(file.data)
        assert np.all(both[silent] == 0)
        assert np.abs(both[1 - silent]).max() > 0
        assert f"-{side}-only-" in file.name


@pytest.mark.parametrize("level", [0.0, -11.9, -41.0, float("nan"), float("inf")])
def test_a_level_that_would_be_cut_off_is_refused(level: float) -> None:
    with pytest.raises(ValueError, match="between"):
        list(sound_files(level))


def test_loudest_level_is_not_clipped() -> None:
    """At -12 dBFS RMS the pink noise, with peaks 9.5 dB above its RMS by AES17, is just below full scale."""
    for file in files(-12.0):
        assert np.abs(channels(file.data)[0]).max() < 0.999


def test_beyond_full_scale_is_refused() -> None:
    from array import array

    with pytest.raises(ValueError, match="full scale"):
        wav(array("d", [0.0, 1.01]), RATE)
    with pytest.raises(ValueError, match="both"):
        wav(array("d", [0.0]), RATE, "top")


def test_series_against_numpy() -> None:
    """numpy.fft.ifft has the same sign and divides by N."""
    draw = np.random.default_rng(5)
    half = draw.normal(size=64) + 1j * draw.normal(size=64)
    whole = np.concatenate([half, np.zeros(64)])

    assert real_series(list(half)) == pytest.approx(np.fft.ifft(whole).real * 128)
    with pytest.raises(ValueError, match="power of two"):
        real_series([0j] * 3)


def test_sheet_names_every_file_and_the_cautions() -> None:
    text = sheet(list(files()))

    for file in files():
        assert file.name in text
    for sound in SOUNDS:
        assert sound.what in text
    for words in ("Measure DC first", "start with the file marked a", "Ears", "output of a radio or an amplifier"):
        assert words in text
    assert text.index("Measure DC first") < text.index(files()[0].name)
