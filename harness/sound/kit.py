"""The set of sounds that a bay needs, each with what it is for, its level, and the sheet that goes with them."""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterator
from typing import NamedTuple

from harness.sound import tones
from harness.sound.wav import wav

RATE_HZ = 44_100
LENGTH_S = 20.0
LEVEL_DBFS = -20.0
QUIETER_DB = 20.0  # so much below the others are the files to begin with
LEAST_DBFS, MOST_DBFS = -40.0, -12.0  # above, the peaks of the pink noise would be cut off


class Sound(NamedTuple):
    """One sound: its name as part of a file's name, what it is, what it is for, and which level is meant."""

    name: str
    what: str
    use: str
    level: str  # rms | peak


class SoundFile(NamedTuple):
    """One file: levels in dBFS (AES17: a full-scale sine has 0 dBFS, as peak and as RMS)."""

    name: str
    sound: Sound
    level_dbfs: float
    peak_dbfs: float
    length_s: float
    data: bytes


SOUNDS = (
    Sound("50-hz-sine", "sine of 50 Hz", "woofers and subwoofers; a tweeter gives no answer to it", "rms"),
    Sound(
        "500-hz-warble", "sine of 475 to 525 Hz, swinging 5 times a second", "midranges and full-range speakers", "rms"
    ),
    Sound(
        "8500-9500-hz-sweep", "sine going up and down from 8.5 to 9.5 kHz, 4 times a second", "tweeters", "rms",
    ),
    Sound(
        "polarity-pulse",
        f"pulses, two a second: {tones.PULSE_OUT_S * 1000:.0f} ms high to the plus side, then "
        f"{tones.PULSE_OUT_S * tones.PULSE_BACK * 1000:.0f} ms at an eighth to the minus side; no DC",
        "which wire is +: a woofer's cone jumps OUTWARD where + is on +, and creeps back",
        "peak",
    ),
    Sound(
        "pink-noise",
        f"noise with the same power in each third of an octave, 20 Hz to 20 kHz, repeating every "
        f"{tones.PINK_LINES / RATE_HZ:.2f} s",
        "the response of an output or a speaker, in thirds of an octave; average over 2 s or more",
        "rms",
    ),
)  # fmt: skip


def sound_files(level_dbfs: float = LEVEL_DBFS, side: str = "both") -> Iterator[SoundFile]:
    """Two files of each sound, the quiet one first, in the order of their names. Always the same bytes.

    Raises ValueError for a level that isn't between `LEAST_DBFS` and `MOST_DBFS`, or another side.
    """
    if not LEAST_DBFS <= level_dbfs <= MOST_DBFS:  # false for what is no number, too
        raise ValueError(f"a level is between {LEAST_DBFS:g} and {MOST_DBFS:g} dBFS")
    for number, sound in enumerate(SOUNDS, 1):
        shape = _shape(sound.name)
        for letter, dbfs in (("a", level_dbfs - QUIETER_DB), ("b", level_dbfs)):
            level = 10 ** (dbfs / 20)
            samples = array("d", (level * value for value in shape))
            of_side = "" if side == "both" else f"-{side}-only"
            yield SoundFile(
                f"{number}{letter}-{sound.name}{of_side}-at-minus-{-dbfs:g}-dbfs.wav",
                sound,
                dbfs,
                20 * math.log10(max(max(samples), -min(samples))),
                len(samples) / RATE_HZ,
                wav(samples, RATE_HZ, side),
            )


def _shape(name: str) -> array[float]:
    """The samples at 0 dBFS: as a sine's or a pulse's peak, and the noise as the RMS of such a sine."""
    match name:
        case "50-hz-sine":
            made = tones.sine(50, 1, LENGTH_S, RATE_HZ)
        case "500-hz-warble":
            made = tones.warble(500, 25, 5, 1, LENGTH_S, RATE_HZ)
        case "8500-9500-hz-sweep":
            made = tones.sweep(8500, 9500, 4, 1, LENGTH_S, RATE_HZ)
        case "polarity-pulse":
            return tones.pulses(1, LENGTH_S, RATE_HZ)  # these grow by themselves
        case _:
            made = tones.pink(math.sqrt(0.5), LENGTH_S, RATE_HZ)
    return tones.fade(made, RATE_HZ)


CAUTIONS = (
    (
        "Measure DC first, between the two wires and from each to the body: no player or phone goes onto wires "
        "that show any (a live output, a phantom feed), and no speaker either."
    ),
    "Never play into an output of a radio or an amplifier, nor into a speaker pair that still has a unit at its end.",
    "Turn the volume to nothing, start with the file marked a, turn up slowly, stop at the first sound. Only then b.",
    "Ears: the 9 kHz sweep sounds softer than it is. Nobody has the head near a speaker; no headphones.",
    "A tweeter without its capacitor or crossover gets the 9 kHz sweep alone, soft and short.",
    "No sound at 50 Hz says nothing of a tweeter, none at 9 kHz nothing of a woofer. Write down which you played.",
    "Compare front with front and rear with rear; front against rear says little.",
    (
        "Polarity: look at woofers, each on its own, with crossover, delay and processing off. A tweeter doesn't show "
        "it, and behind a high-pass the first jump is the one that counts."
    ),
)


def sheet(files: list[SoundFile]) -> str:
    """The text beside the files: what each is, its level, and the cautions."""
    lines = ["TEST SOUNDS", "", "Before the first one is played", ""]
    lines += [f"  {number}. {words}" for number, words in enumerate(CAUTIONS, 1)]
    lines += [
        "",
        (
            f"Files: PCM 16 bit, two channels, {RATE_HZ} samples a second, faded in and out over "
            f"{tones.FADE_S:g} s (the pulses over {2 * tones.FADE_S:g} s)."
        ),
        "Levels in dBFS: a sine that just reaches full scale has 0 dBFS, as peak and as RMS.",
        "",
    ]
    for file in files:
        means = "RMS" if file.sound.level == "rms" else "peak of a pulse"
        lines += [
            file.name,
            f"  {file.sound.what}",
            f"  for: {file.sound.use}",
            f"  {means} {file.level_dbfs:g} dBFS, highest peak {file.peak_dbfs:.1f} dBFS, {file.length_s:g} s",
            "",
        ]
    return "\n".join(lines)
