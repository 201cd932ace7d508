"""The samples of each test sound: numbers between -1 and 1 at a given rate. No noise source, no clock.

Levels are in dBFS as in AES17 and IEC 61606: a sine whose peaks just reach full scale has 0 dBFS, both as peak
and as RMS (from memory).
"""

from __future__ import annotations

import math
import random
from array import array

from harness.sound.fourier import real_series

FADE_S = 0.5
# Hann pulses of equal area: out for a short time, back eight times as long and an eighth as far.
PULSE_OUT_S = 0.010
PULSE_BACK = 8
PULSE_EVERY_S = 0.5
PINK_LINES = 1 << 16  # samples of a period of the pink noise
PINK_LOW_HZ, PINK_HIGH_HZ = 20.0, 20_000.0
_PINK_SEED = 1


def sine(frequency_hz: float, peak: float, length_s: float, rate_hz: int) -> array[float]:
    """A sine from its zero on."""
    step = math.tau * frequency_hz / rate_hz
    return array("d", (peak * math.sin(step * n) for n in range(round(length_s * rate_hz))))


def warble(
    centre_hz: float, swing_hz: float, times_per_s: float, peak: float, length_s: float, rate_hz: int
) -> array[float]:
    """A sine whose frequency itself swings as a sine, by `swing_hz` to both sides, so that no room stands still."""
    step, swing = math.tau * centre_hz / rate_hz, math.tau * times_per_s / rate_hz
    index = swing_hz / times_per_s
    return array(
        "d", (peak * math.sin(step * n - index * math.cos(swing * n) + index) for n in range(round(length_s * rate_hz)))
    )


def sweep(
    low_hz: float, high_hz: float, times_per_s: float, peak: float, length_s: float, rate_hz: int
) -> array[float]:
    """A sine that goes up and down between two frequencies at an even pace: all of the band gets as much."""
    made = array("d")
    phase = 0.0
    for n in range(round(length_s * rate_hz)):
        made.append(peak * math.sin(phase))
        place = (n * times_per_s / rate_hz) % 1.0
        up = 2 * place if place < 0.5 else 2 - 2 * place
        phase = (phase + math.tau * (low_hz + (high_hz - low_hz) * up) / rate_hz) % math.tau
    return made


def pulses(peak: float, length_s: float, rate_hz: int) -> array[float]:
    """Pulses that are short and high to the plus side, long and low to the minus side, and have no DC.

    The high side is where the sample value is positive: a speaker joined + to + moves its cone outward with it.
    They grow over `FADE_S` and shrink again, each keeping its own shape.
    """
    made = array("d", bytes(8 * round(length_s * rate_hz)))
    out = round(PULSE_OUT_S * rate_hz)
    back = out * PULSE_BACK
    every = round(PULSE_EVERY_S * rate_hz)
    rest = every - out - back
    for start in range(rest // 2, len(made) - out - back + 1, every):
        high = peak * faded(start / rate_hz, length_s, 2 * FADE_S)
        for n in range(out):
            made[start + n] = high * _hann(n, out)
        for n in range(back):
            made[start + out + n] = -high / PULSE_BACK * _hann(n, back)
    return made


def pink(rms: float, length_s: float, rate_hz: int) -> array[float]:
    """Noise with the same power in each third of an octave, 20 Hz to 20 kHz, at an RMS value.

    A sum of sines on the lines of one period (1.5 s at 44,100 Hz), each of a power as one over its frequency and
    of a phase drawn from a fixed seed. So a reading averaged over 1.5 s or more has no scatter.
    """
    draw = random.Random(_PINK_SEED)
    line_hz = rate_hz / PINK_LINES
    low, high = math.ceil(PINK_LOW_HZ / line_hz), min(math.floor(PINK_HIGH_HZ / line_hz), PINK_LINES // 2 - 1)
    scale = rms / math.sqrt(sum(0.5 / k for k in range(low, high + 1)))
    spectrum = [0j] * (PINK_LINES // 2)
    for k in range(low, high + 1):
        phase = math.tau * draw.random()
        spectrum[k] = scale / math.sqrt(k) * complex(math.cos(phase), math.sin(phase))
    period = array("d", real_series(spectrum))
    count = round(length_s * rate_hz)
    return (period * (count // PINK_LINES + 1))[:count]


def fade(samples: array[float], rate_hz: int) -> array[float]:
    """The samples rising from nothing in the first `FADE_S` and falling to nothing in the last."""
    length_s = len(samples) / rate_hz
    made = array("d", samples)
    edge = min(len(made), math.ceil(FADE_S * rate_hz))
    for n in {*range(edge), *range(len(made) - edge, len(made))}:
        made[n] *= faded(n / rate_hz, length_s, FADE_S)
    return made


def faded(at_s: float, length_s: float, over_s: float) -> float:
    """The share of the level at a time: half a cosine up at the start and down at the end."""
    near = min(at_s, length_s - at_s) / over_s
    return 1.0 if near >= 1 else 0.5 - 0.5 * math.cos(math.pi * max(near, 0.0))


def _hann(n: int, count: int) -> float:
    return 0.5 - 0.5 * math.cos(math.tau * n / count)
