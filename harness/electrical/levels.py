"""Levels: volts and power, decibels, sums, windows, and where two unlike signals cancel."""

from __future__ import annotations

import math
from typing import NamedTuple

# Rated resistors of the E24 series, IEC 60063.
E24 = (
    1.0,
    1.1,
    1.2,
    1.3,
    1.5,
    1.6,
    1.8,
    2.0,
    2.2,
    2.4,
    2.7,
    3.0,
    3.3,
    3.6,
    3.9,
    4.3,
    4.7,
    5.1,
    5.6,
    6.2,
    6.8,
    7.5,
    8.2,
    9.1,
)


def volts_of(power_w: float, load_ohm: float) -> float:
    """V = sqrt(P R), RMS."""
    return math.sqrt(power_w * load_ohm)


def decibels(ratio: float) -> float:
    """Of a ratio of volts; minus infinity for 0."""
    return 20 * math.log10(ratio) if ratio > 0 else -math.inf


def gain(level_db: float) -> float:
    """The ratio of volts that a number of decibels is."""
    return 10 ** (level_db / 20)


class Pad(NamedTuple):
    """Two resistors, in line and across, in ohm, and the decibels that they take off with the load across."""

    in_line_ohm: float
    across_ohm: float
    loss_db: float


def pad_for(loss_db: float, whole_ohm: float, load_ohm: float = math.inf) -> Pad:
    """The pad of E24 values nearest to a loss, not below it: about `whole_ohm` seen from the source.

    `load_ohm` is the input behind it. Raises ValueError for a loss of 0 or less.
    """
    if loss_db <= 0:
        raise ValueError(f"a pad takes something off: {loss_db:g} dB")
    share = gain(-loss_db)
    best: Pad | None = None
    wanted = whole_ohm * share
    for across in _values_near(wanted):
        loaded = across if math.isinf(load_ohm) else across * load_ohm / (across + load_ohm)
        for in_line in _values_near(loaded * (1 / share - 1)):
            pad = Pad(in_line, across, -decibels(loaded / (in_line + loaded)))
            if pad.loss_db >= loss_db - 1e-9 and (best is None or pad.loss_db < best.loss_db):
                best = pad
    assert best is not None, "the next value up always takes off enough"
    return best


def _values_near(ohm: float) -> list[float]:
    """Three E24 values around a resistance, the greatest at least as great."""
    decade = math.floor(math.log10(ohm))
    values = sorted(each * 10.0**power for power in (decade - 1, decade, decade + 1) for each in E24)
    above = next(at for at, value in enumerate(values) if value >= ohm * (1 - 1e-9))
    return [float(f"{value:.3g}") for value in values[max(0, above - 1) : above + 2]]


def summed(levels_v: list[float]) -> float:
    """At most: all in step."""
    return sum(levels_v)


def nulls_hz(delay_s: float, low_hz: float, high_hz: float) -> tuple[float, ...]:
    """Where two equal signals cancel that are a delay apart: (2k + 1)/(2 delay), inside a band only."""
    if delay_s <= 0 or high_hz <= low_hz:
        return ()
    first = math.ceil(low_hz * delay_s - 0.5 - 1e-12)
    made = []
    k = max(0, first)
    while (hz := (2 * k + 1) / (2 * delay_s)) <= high_hz * (1 + 1e-12):
        if hz >= low_hz * (1 - 1e-12):
            made.append(hz)
        k += 1
    return tuple(made)


Band = tuple[float, float]


def overlap(one: Band, other: Band) -> Band | None:
    """What two bands share, in hertz; None where they share nothing."""
    low, high = max(one[0], other[0]), min(one[1], other[1])
    return (low, high) if low < high else None
