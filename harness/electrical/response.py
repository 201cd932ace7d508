"""A response measured in thirds of an octave: how flat it is, and where it ends."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

# Nominal mid-band frequencies of one-third-octave bands, hertz. IEC 61260-1 (the exact ones are 1000 · 10^(n/10)).
CENTRES_HZ = (
    20.0, 25.0, 31.5, 40.0, 50.0, 63.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 315.0, 400.0, 500.0, 630.0, 800.0,
    1000.0, 1250.0, 1600.0, 2000.0, 2500.0, 3150.0, 4000.0, 5000.0, 6300.0, 8000.0, 10000.0, 12500.0, 16000.0, 20000.0,
)  # fmt: skip
CORNER_DB = 3.0  # a corner is where the level has fallen to half the power, 10 log10 2 = 3.01 dB


class Shape(NamedTuple):
    """`within_db` is half of what lies between the highest and lowest level of the band that passes.

    `low_hz` and `high_hz` are its corners; None where the response still holds at that end of what was measured.
    """

    within_db: float
    low_hz: float | None
    high_hz: float | None


def shape(levels_db: Sequence[float], first_hz: float) -> Shape:
    """The shape of a response, band after band from the one at `first_hz` on.

    The level that passes is the median of all levels within 6 dB of the highest. Corners are found between two
    centres on a line over the logarithm of frequency, 3 dB below it.

    Raises ValueError for fewer than three levels, or where the bands aren't those of the series.
    """
    if first_hz not in CENTRES_HZ:
        raise ValueError(f"{first_hz:g} Hz is no centre of a third of an octave")
    start = CENTRES_HZ.index(first_hz)
    if len(levels_db) < 3 or start + len(levels_db) > len(CENTRES_HZ):
        raise ValueError("a response has at least three levels, and none above 20 kHz")
    highest = max(levels_db)
    passing = sorted(level for level in levels_db if level >= highest - 6.0)
    middle = len(passing) // 2
    passes = passing[middle] if len(passing) % 2 else (passing[middle - 1] + passing[middle]) / 2
    edge = passes - CORNER_DB
    inside = [at for at, level in enumerate(levels_db) if level >= edge]
    low, high = inside[0], inside[-1]
    flat = levels_db[low : high + 1]
    return Shape(
        (max(flat) - min(flat)) / 2,
        _crossing(levels_db, start, low - 1, low, edge) if low else None,
        _crossing(levels_db, start, high + 1, high, edge) if high < len(levels_db) - 1 else None,
    )


def _crossing(levels_db: Sequence[float], start: int, outside: int, inside: int, edge_db: float) -> float:
    """Where the line between two neighbouring levels passes the edge, in hertz."""
    fallen, held = levels_db[outside], levels_db[inside]
    share = (edge_db - fallen) / (held - fallen)
    a, b = math.log(CENTRES_HZ[start + outside]), math.log(CENTRES_HZ[start + inside])
    return math.exp(a + share * (b - a))
