"""Bands of frequency: what two share, what several make together, what is missing of one.

A band is its two ends in hertz. An open end is 0 below and infinity above: `band` makes them of None.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

Band = tuple[float, float]
# the band in which ANSI/CTA-2006 rates an amplifier for general purposes; a page, seen 2026
FULL_RANGE: Band = (20.0, 20_000.0)
# what a crossover moved a little may miss; common practice, no source
SLACK_OCTAVES = 1.0


def band(low_hz: float | None, high_hz: float | None) -> Band:
    """A band of its ends, None for an open one. Raises ValueError where the low end isn't below the high one."""
    made = (low_hz if low_hz is not None else 0.0, high_hz if high_hz is not None else math.inf)
    if not 0 <= made[0] < made[1]:
        raise ValueError(f"a band runs from low to high: {low_hz} to {high_hz} Hz")
    return made


def overlap(one: Band, other: Band) -> Band | None:
    """What two bands share, in hertz; None where they share nothing."""
    low, high = max(one[0], other[0]), min(one[1], other[1])
    return (low, high) if low < high else None


def common(bands: Iterable[Band]) -> Band | None:
    """What all of them share: the band behind stages in a row. All of it where there are none."""
    left: Band | None = (0.0, math.inf)
    for each in bands:
        left = overlap(left, each) if left is not None else None
    return left


def union(bands: Iterable[Band]) -> tuple[Band, ...]:
    """What they make together, lowest first; bands that touch or overlap are one."""
    made: list[Band] = []
    for low, high in sorted(bands):
        if made and low <= made[-1][1]:
            made[-1] = made[-1][0], max(made[-1][1], high)
        else:
            made.append((low, high))
    return tuple(made)


def octaves(each: Band) -> float:
    """How wide a band is; infinite with an open end."""
    return math.inf if each[0] <= 0 else math.log2(each[1] / each[0])


def missing(wanted: Band, got: Iterable[Band], slack_octaves: float = 0.0) -> tuple[Band, ...]:
    """The gaps in what is wanted that nothing fills, wider than the slack, lowest first.

    What nobody hears isn't wanted: open ends of `wanted` count as 20 Hz and 20 kHz.
    """
    asked = overlap(wanted, FULL_RANGE)
    if asked is None:
        return ()
    gaps: list[Band] = []
    low = asked[0]
    for each in union(got):
        part = overlap(each, asked)
        if part is None:
            continue
        gaps.append((low, part[0]))
        low = part[1]
    gaps.append((low, asked[1]))
    return tuple(gap for gap in gaps if octaves(gap) > slack_octaves + 1e-9)


def is_full_range(got: Iterable[Band], slack_octaves: float = SLACK_OCTAVES) -> bool:
    """Whether they make 20 Hz to 20 kHz, but for an octave at most at each end and between them."""
    return not missing(FULL_RANGE, got, slack_octaves)


def missing_of_channels(
    wanted: Mapping[str, Band], got: Mapping[str, Iterable[Band]], slack_octaves: float = SLACK_OCTAVES
) -> dict[str, tuple[Band, ...]]:
    """The channels of which something is missing, in the order of `wanted`, each with its gaps."""
    gaps = {name: missing(asked, got.get(name, ()), slack_octaves) for name, asked in wanted.items()}
    return {name: each for name, each in gaps.items() if each}
