"""A wrong partner told by a meter: the charted pair is open, and its wires read a speaker each with another wire."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.patterns.chart import Chart, Pair

# A speaker of 16 ohm reads 16 ohm of direct current at most (two retailers' tables, seen 2026); above is a network or
# an input. Below 1 ohm two wires touch: 15 ft of No. 24 each way is 0.77 ohm (a handbook's wire table).
LEAST_OHM, MOST_OHM = 1.0, 16.0


class Ohms(NamedTuple):
    """A reading between two cavities; None: open."""

    a: str
    b: str
    ohm: float | None


class Leg(NamedTuple):
    """A wire of a charted pair, and the cavity with which it reads a speaker instead."""

    kept: str
    partner: str
    ohm: float


class Partner(NamedTuple):
    """A charted pair that reads open, and one or both of its wires with the partners that they read."""

    pair: Pair
    legs: tuple[Leg, ...]


def partners(chart: Chart, readings: Iterable[Ohms]) -> list[Partner]:
    """Every pair whose partner is another one, in the chart's order. Of two cavities read twice the last counts.

    Left out is a pair of which a wire has two such partners, or both wires the same one: three wires on one speaker, or
    a short. Which speaker lies between two wires no meter tells.
    """
    last = {frozenset((each.a, each.b)): each.ohm for each in readings}
    at: dict[str, list[Leg]] = {}
    for cavities, ohm in last.items():
        if ohm is not None and LEAST_OHM <= ohm <= MOST_OHM and len(cavities) == 2:
            one, other = sorted(cavities)
            at.setdefault(one, []).append(Leg(one, other, ohm))
            at.setdefault(other, []).append(Leg(other, one, ohm))
    made: list[Partner] = []
    for pair in chart.pairs:
        own = frozenset((pair.plus, pair.minus))
        if own not in last or last[own] is not None:
            continue
        legs = [leg for cavity in (pair.plus, pair.minus) for leg in at.get(cavity, ())]
        if legs and len({leg.kept for leg in legs}) == len({leg.partner for leg in legs}) == len(legs):
            made.append(Partner(pair, tuple(legs)))
    return made
