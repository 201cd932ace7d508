"""Fuses: the greatest that a cable may have before it, the values there are, and the one to fit.

Bases: `fuse chart A`, `fuse chart B`, `CCA fuse`, `fuse values`, `fuse margin`.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from typing import NamedTuple

from harness.electrical.conductors import copper_mm2
from harness.units import WireSize, wire_size

MARGIN = 1.25

# AWG -> A. Chart A is about 300 circular mils per ampere; its last three rows go on so. Chart B is another shop's.
CHARTS: dict[str, dict[str, float]] = {
    "A": {"2/0": 400, "1/0": 325, "1": 250, "2": 200, "4": 125, "6": 80, "8": 50, "10": 30, "12": 20, "14": 15,
          "16": 7.5, "18": 5, "20": 3, "22": 2},
    "B": {"2/0": 430, "1/0": 345, "1": 265, "2": 215, "4": 135, "6": 80, "8": 55, "10": 30, "12": 20, "14": 15,
          "16": 7.5, "18": 5, "20": 3, "22": 2},
}  # fmt: skip

# Rated currents: blade fuses, mini and regular; large blades; bolted links.
BLADE_A = (1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0)
LARGE_BLADE_A = (20.0, 25.0, 30.0, 35.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0)
BOLTED_A = (
    30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0, 125.0, 130.0, 150.0, 175.0, 200.0, 225.0, 250.0, 300.0, 325.0, 350.0,
    400.0, 425.0, 500.0,
)  # fmt: skip
VALUES_A = tuple(sorted({*BLADE_A, *LARGE_BLADE_A, *BOLTED_A}))


class Choice(NamedTuple):
    """The fuse to fit and the next that would do, in amperes; None where there is none.

    `fits` is False where no fuse carries the current and protects the cable: then `rating_a` protects it.
    """

    rating_a: float | None
    runner_up_a: float | None
    fits: bool


def greatest_fuse_a(size: WireSize, metal: str = "copper", chart: str = "A") -> float:
    """The greatest fuse that protects a cable, in amperes, not rounded to a value that is sold.

    Between two rows in proportion of the logarithms of area and current; above and below the chart by the nearest
    row's current per area. Copper-clad aluminium counts by the copper that would conduct as well.
    """
    areas, limits = _rows(chart)
    area = copper_mm2(size, metal)
    at = bisect_left(areas, area)
    if at < len(areas) and areas[at] == area:
        return limits[at]  # the chart's own figure, not one a hair beside it
    if at in (0, len(areas)):
        nearest = min(at, len(areas) - 1)
        return limits[nearest] * area / areas[nearest]
    low, high = at - 1, at
    share = math.log(area / areas[low]) / math.log(areas[high] / areas[low])
    return math.exp(math.log(limits[low]) + share * math.log(limits[high] / limits[low]))


def _rows(chart: str) -> tuple[list[float], list[float]]:
    rows = sorted((wire_size(f"{gauge} AWG").area_mm2, amperes) for gauge, amperes in CHARTS[chart].items())
    return [area for area, _ in rows], [amperes for _, amperes in rows]


def fuse_for(current_a: float, limit_a: float) -> Choice:
    """The smallest value that carries 1.25 times the current and lies within the cable's limit, and the next one.

    Where the margin doesn't fit, the greatest that the cable allows, if that carries the current at all.
    """
    top = bisect_right(VALUES_A, limit_a * (1 + 1e-9))
    allowed = VALUES_A[:top]
    at = bisect_left(allowed, MARGIN * current_a * (1 - 1e-9))
    if at < len(allowed):
        return Choice(allowed[at], allowed[at + 1] if at + 1 < len(allowed) else None, True)
    return Choice(allowed[-1] if allowed else None, None, bool(allowed) and allowed[-1] >= current_a * (1 - 1e-9))


def value_below_a(limit_a: float) -> float | None:
    """The greatest value that is sold and lies within a limit."""
    at = bisect_right(VALUES_A, limit_a * (1 + 1e-9))
    return VALUES_A[at - 1] if at else None
