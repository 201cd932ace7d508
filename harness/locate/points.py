"""Where the contacts of a record lie on the circuit."""

from __future__ import annotations

from typing import NamedTuple

from harness.locate.circuit import PIN, Circuit


class Point(NamedTuple):
    """A point on a leg, `at` steps behind its output, with the two contacts there, + first."""

    leg: int
    at: int
    plus: str
    minus: str


class Points(NamedTuple):
    """Points of legs by their two contacts and by each of them; of lines, (line, steps) by contact."""

    pairs: dict[frozenset[str], Point]
    single: dict[str, Point]
    lines: dict[str, tuple[int, int]]


def points_of(circuit: Circuit) -> Points:
    """Every contact that a leg or line has; of one on several the first. A lead is meant by its free end."""
    made = Points({}, {}, {})
    for number, leg in enumerate(circuit.legs):
        if leg.loop:
            continue
        ends = [leg.start, *((step.plus, step.minus) for step in leg.steps)]
        for at, (plus, minus) in enumerate(ends):
            if not minus or plus.endswith(PIN) or minus.endswith(PIN):
                continue
            point = Point(number, at, plus, minus)
            made.pairs.setdefault(frozenset((plus, minus)), point)
            for name in (plus, minus):
                made.single.setdefault(name, point)
    for number, line in enumerate(circuit.lines):
        for at, name in enumerate([line.start, *(step.plus for step in line.steps)]):
            made.lines.setdefault(name, (number, at))
    return made
