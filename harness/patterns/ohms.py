"""A wrong partner told by a meter: the charted pair is open, and one of its wires reads a speaker with another."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.patterns.chart import Chart, Pair, Reading
from harness.patterns.known.wrong_partner import partnered

# A loudspeaker of 8 ohm reads up to 8 ohm of direct current, its wires in the car a few tenths (a retailer's table,
# seen 2026); twice that leaves room for the meter's leads. Above, it is a network or an input.
MOST_OHM = 16.0


class Ohms(NamedTuple):
    """A reading between two cavities; None: open."""

    a: str
    b: str
    ohm: float | None


class Partner(NamedTuple):
    """A charted pair that reads open, and the cavity with which one of its wires reads a speaker."""

    pair: Pair
    kept: str
    wrong: str
    partner: str
    ohm: float

    @property
    def reading(self) -> Reading:
        """The chart with that partner, to be judged and corrected as one told by tones is."""
        return partnered(self.pair, self.wrong, self.partner)


def partners(chart: Chart, readings: Iterable[Ohms]) -> list[Partner]:
    """Every pair whose partner is another one, in the chart's order. Of two cavities read twice the last counts.

    A pair that has two such partners is left out: the readings then show three wires on one speaker, or a short.
    """
    last = {frozenset((each.a, each.b)): each.ohm for each in readings}
    made: list[Partner] = []
    for pair in chart.pairs:
        own = frozenset((pair.plus, pair.minus))
        if own not in last or last[own] is not None:
            continue
        found = []
        for cavities, ohm in last.items():
            right = own & cavities
            if ohm is None or ohm > MOST_OHM or len(right) != 1 or len(cavities) != 2:
                continue
            (kept,), (wrong,), (partner,) = right, own - right, cavities - right
            found.append(Partner(pair, kept, wrong, partner, ohm))
        if len(found) == 1:
            made += found
    return made
