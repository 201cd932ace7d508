"""What a chart, as a reading has it, says of a tone before it is taken, and how that goes with what was heard."""

from __future__ import annotations

import enum
from collections.abc import Iterable
from typing import NamedTuple

from harness.patterns.chart import UNKNOWN, Corrected, Pair, Tone


class Fit(enum.Enum):
    """How a tone goes with a chart."""

    HEARD = "heard where the chart has it"
    QUIET = "silent where the chart has no pair"
    OPEN = "the chart doesn't say"
    SILENT = "silent where the chart has a pair"
    AGAINST = "heard, or found to be +, where the chart has something else"


class Expected(NamedTuple):
    """The pair that must answer, and the cavity that must be +; no pair: silence. None of all this: not said."""

    pair: Pair | None
    plus: str = ""


def expected(chart: Corrected, a: str, b: str) -> Expected | None:
    """What a tone on two cavities must give; None where neither cavity's content is known."""
    for pair in chart.pairs:
        if {a, b} == {pair.plus, pair.minus}:
            return Expected(pair, pair.plus)
    # one wire of a pair has its other wire elsewhere, whatever lies beside it; a feed, or no wire, answers nothing
    told = any(chart.content.get(cavity, UNKNOWN) != UNKNOWN for cavity in (a, b))
    return Expected(None) if told else None


def fit(chart: Corrected, tone: Tone) -> Fit:
    """How one tone goes with the chart."""
    said = expected(chart, tone.a, tone.b)
    if said is None:
        known = not chart.charted.isdisjoint(tone.heard) or any(pair.heard_in(tone.heard) for pair in chart.pairs)
        return Fit.AGAINST if known else Fit.OPEN
    if not tone.heard:
        return Fit.QUIET if said.pair is None else Fit.SILENT
    if said.pair is None or not said.pair.heard_in(tone.heard):
        return Fit.AGAINST
    return Fit.AGAINST if tone.plus and tone.plus != said.plus else Fit.HEARD


class Fits(NamedTuple):
    """How many tones go with a chart in which way."""

    heard: int
    against: int
    silent: int

    @property
    def contradicted(self) -> int:
        return self.against + self.silent


def fits(chart: Corrected, tones: Iterable[Tone]) -> Fits:
    """All tones against one chart."""
    told = [fit(chart, tone) for tone in tones]
    return Fits(*(told.count(each) for each in (Fit.HEARD, Fit.AGAINST, Fit.SILENT)))
