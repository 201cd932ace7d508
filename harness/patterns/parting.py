"""The next tone: the one that parts the readings that are left, with the least way for the probes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from harness.patterns.chart import Chart, Corrected, Tone
from harness.patterns.face import number_of
from harness.patterns.fitting import expected

Outcome = tuple[str, str]  # the pair that answers and its +; both empty: silence


class Probe(NamedTuple):
    """Two cavities for the next tone, and what each reading then expects: (pair, its +), or empty for silence."""

    a: str
    b: str
    outcomes: tuple[Outcome, ...]


def next_tone(chart: Chart, left: Sequence[Corrected], tones: Sequence[Tone]) -> Probe | None:
    """The tone after which the fewest readings are left at worst; among such, the nearest to the last one.

    None where no tone parts them, or none that keeps off what the chart, rightly or wrongly read, has as a feed,
    data, restraint or high voltage.
    """
    where = tones[-1] if tones else None
    best: tuple[tuple[int, float, tuple[tuple[str, int, str], ...]], Probe] | None = None
    for a, b in _candidates(chart, left, tones):
        outcomes = tuple(_outcome(each, a, b) for each in left)
        worst = max(Counter(outcomes).values())
        if worst == len(left):
            continue
        key = (worst, _way(chart, where, a, b), (number_of(a), number_of(b)))
        if best is None or key < best[0]:
            best = key, Probe(a, b, outcomes)
    return best[1] if best else None


def tones_to_part(chart: Chart, left: Sequence[Corrected], tones: Sequence[Tone]) -> int:
    """How many more tones it takes at worst until one reading is left, each time the best one; 0 for one reading."""
    many = 0
    left, taken = list(left), list(tones)
    while len(left) > 1:
        probe = next_tone(chart, left, taken)
        if probe is None:
            break
        many += 1
        worst = Counter(probe.outcomes).most_common(1)[0][0]
        left = [each for each, outcome in zip(left, probe.outcomes, strict=True) if outcome == worst]
        taken.append(Tone(probe.a, probe.b, frozenset()))
    return many


def nearest(chart: Chart, pairs: Iterable[tuple[str, str]], tones: Sequence[Tone]) -> tuple[str, str] | None:
    """Of some pairs the one with the least way from the last tone."""
    where = tones[-1] if tones else None
    ways = [(_way(chart, where, a, b), number_of(a), number_of(b), (a, b)) for a, b in pairs]
    return min(ways)[3] if ways else None


def _candidates(chart: Chart, left: Sequence[Corrected], tones: Sequence[Tone]) -> list[tuple[str, str]]:
    """Pairs of cavities where some reading hears something and that nobody toned yet, + first."""
    off = chart.keep_off.union(*(each.keep_off for each in left))
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
