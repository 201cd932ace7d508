"""The next tone: the one that parts the readings that are left, with the least way for the probes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from harness.patterns.chart import Chart, Corrected, Tone
from harness.patterns.face import number_of
from harness.patterns.fitting import expected

Outcome = tuple[str, str]  # the pair that answers and its +; both empty: silence


class Probe(NamedTuple):
    """Two cavities for the next tone, and what each reading then expects: (pair, its +), or empty for silence.

    `meter`: those of them where the chart as written has something that bears no tone; they are metered first.
    """

    a: str
    b: str
    outcomes: tuple[Outcome, ...]
    meter: tuple[str, ...] = ()


def next_tone(chart: Chart, left: Sequence[Corrected], tones: Sequence[Tone]) -> Probe | None:
    """The tone after which the fewest readings are left at worst; among such, the nearest to the last one.

    None where no tone parts them, or none that keeps off what one of them has as a feed, data or another wire that
    bears no tone, and off what the chart as written has as restraint or high voltage. Cavities of which it has another
    such wire come last, and are metered first.
    """
    where = tones[-1] if tones else None
    best: tuple[tuple[int, int, float, tuple[tuple[str, int, str], ...]], Probe] | None = None
    for a, b in _candidates(chart, left, tones):
        outcomes = tuple(_outcome(each, a, b) for each in left)
        worst = max(Counter(outcomes).values())
        if worst == len(left):
            continue
        meter = tuple(cavity for cavity in (a, b) if cavity in chart.keep_off)
        key = (len(meter), worst, _way(chart, where, a, b), (number_of(a), number_of(b)))
        if best is None or key < best[0]:
            best = key, Probe(a, b, outcomes, meter)
    return best[1] if best else None


def to_confirm(chart: Chart, only: Corrected, tones: Sequence[Tone]) -> Probe | None:
    """The nearest pair of the only reading left that nobody toned where that has it."""
    where = tones[-1] if tones else None
    made = []
    for a, b in _candidates(chart, (only,), tones):
        meter = tuple(cavity for cavity in (a, b) if cavity in chart.keep_off)
        key = (len(meter), _way(chart, where, a, b), number_of(a), number_of(b))
        made.append((key, Probe(a, b, (_outcome(only, a, b),), meter)))
    return min(made)[1] if made else None


def _candidates(chart: Chart, left: Sequence[Corrected], tones: Sequence[Tone]) -> list[tuple[str, str]]:
    """Pairs of cavities where some reading hears something and that nobody toned yet, + first."""
    off = chart.never.union(*(each.keep_off for each in left))
    taken = {tone.cavities for tone in tones}
    made: dict[frozenset[str], tuple[str, str]] = {}
    for each in left:
        for pair in each.pairs:
            cavities = frozenset((pair.plus, pair.minus))
            if cavities not in taken and off.isdisjoint(cavities):
                made.setdefault(cavities, (pair.plus, pair.minus))
    return list(made.values())


def _outcome(chart: Corrected, a: str, b: str) -> Outcome:
    said = expected(chart, a, b)
    return (said.pair.name, said.plus) if said and said.pair else ("", "")


def _way(chart: Chart, where: Tone | None, a: str, b: str) -> float:
    """How far two probes move, in cavities along rows and across; either may go to either cavity."""
    spots = chart.face.spots()
    if where is None or not {a, b, where.a, where.b} <= spots.keys():
        return 0.0

    def far(one: str, two: str) -> int:
        (x1, y1), (x2, y2) = spots[one], spots[two]
        return abs(x1 - x2) + abs(y1 - y2)

    return min(far(where.a, a) + far(where.b, b), far(where.a, b) + far(where.b, a))
