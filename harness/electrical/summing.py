"""Signals that are summed: how loud the sum is at most and likely, and where unlike ones cancel."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from harness.electrical.bands import FULL_RANGE, Band, overlap

# Two signals a delay apart are opposite at (2k + 1)/(2 delay); in step volts add, unrelated powers add: 6.02 dB and
# 3.01 dB for two alike; any acoustics text.


class Hole(NamedTuple):
    """Where a sum falls, and by how many decibels below its peaks; infinite where both are alike."""

    hz: float
    depth_db: float


def in_step_v(levels_v: Sequence[float]) -> float:
    """The most that a sum can be, RMS: all alike and at once. The worst case for the input behind it."""
    return math.fsum(levels_v)


def unrelated_v(levels_v: Sequence[float]) -> float:
    """The sum of signals that have nothing to do with each other, RMS."""
    return math.sqrt(math.fsum(level * level for level in levels_v))


def rise_db(count: int, *, in_step: bool) -> float:
    """What a sum of `count` alike is above one of them; take as much off each to keep the sum at one's level.

    Raises ValueError for a count below 1.
    """
    if count < 1:
        raise ValueError(f"a sum needs a signal: {count}")
    return (20 if in_step else 10) * math.log10(count)


def sum_at_v(one_v: float, other_v: float, delay_s: float, hz: float, *, turned: bool = False) -> float:
    """RMS of the sum at one frequency, of two signals alike but for level and delay; `turned`: one is reversed."""
    angle = 2 * math.pi * hz * delay_s + (math.pi if turned else 0.0)
    return math.sqrt(max(0.0, one_v * one_v + other_v * other_v + 2 * one_v * other_v * math.cos(angle)))


def nulls_hz(delay_s: float, low_hz: float, high_hz: float, *, turned: bool = False) -> tuple[float, ...]:
    """Where two signals cancel that are a delay apart, inside a band only, its ends counted.

    (2k + 1)/(2 delay); where one is reversed k/delay, 0 Hz not counted. Raises ValueError for an open upper end.
    """
    if delay_s <= 0:
        return ()
    if math.isinf(high_hz):
        raise ValueError("an open band has nulls without end")
    shift = 1.0 if turned else 0.5
    first = max(0, math.ceil(low_hz * delay_s - shift - 1e-12))
    last = math.floor(high_hz * delay_s - shift + 1e-12)
    return tuple((k + shift) / delay_s for k in range(first, last + 1))


def depth_db(one_v: float, other_v: float) -> float:
    """How far two signals that are opposite fall below the same two in step; infinite where they are alike."""
    if one_v + other_v <= 0:
        return 0.0
    left_v = abs(one_v - other_v)
    return 20 * math.log10((one_v + other_v) / left_v) if left_v else math.inf


def holes(
    delay_s: float, one: Band, other: Band, one_v: float = 1.0, other_v: float = 1.0, *, turned: bool = False
) -> tuple[Hole, ...]:
    """The holes of a sum, only where both bands play and somebody hears it, lowest first.

    Without any delay a reversed one takes the whole shared band away, which isn't a hole: `sum_at_v` tells.
    """
    shared = overlap(one, other)
    heard = overlap(shared, FULL_RANGE) if shared is not None else None
    if heard is None:
        return ()
    deep = depth_db(one_v, other_v)
    return tuple(Hole(hz, deep) for hz in nulls_hz(delay_s, *heard, turned=turned))
