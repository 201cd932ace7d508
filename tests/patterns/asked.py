"""The judge asked about a plug of `geometry`: its words in, its answer in plain tables out."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.patterns.chart import Chart, Pair, Tone
from harness.patterns.face import Face
from harness.patterns.judging import Verdict, judge
from tests.patterns.geometry import Places, Plug, heard_at


class Answer(NamedTuple):
    """What was said: its kind, each correction with the names of its patterns, and the verdict itself."""

    kind: str
    left: tuple[tuple[frozenset[str], Places], ...]
    verdict: Verdict | None

    @property
    def names(self) -> frozenset[str]:
        return frozenset().union(*(names for names, _ in self.left))


def chart_of(plug: Plug, keep_off: Iterable[str] = ()) -> Chart:
    face = Face(tuple(tuple(row) for row in plug.grid))
    pairs = tuple(Pair(name, plus, minus) for name, (plus, minus) in plug.chart.items())
    return Chart(face, pairs, plug.held, frozenset(keep_off))


def toned(real: Places, places: Iterable[tuple[str, str]], plus: bool = True) -> list[Tone]:
    """A tone on each two cavities, with what the car answers."""
    made = []
    for a, b in places:
        name, at = heard_at(real, a, b)
        made.append(Tone(a, b, frozenset((name,)) - {""}, at if plus else ""))
    return made


def ask(plug: Plug, tones: list[Tone], keep_off: Iterable[str] = ()) -> Answer:
    verdict = judge(chart_of(plug, keep_off), tones)
    if verdict is None:
        return Answer("right", (), None)
    left = tuple(
        (
            frozenset(each.reading.pattern for each in one.corrections),
            {pair.name: (pair.plus, pair.minus) for pair in one.first.pairs},
        )
        for one in verdict.left
    )
    return Answer(verdict.kind, left, verdict)
