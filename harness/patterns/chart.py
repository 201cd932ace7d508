"""A chart of one plug, what was toned at it, and a reading of the chart: where its rows really are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from harness.patterns.face import Face, Moves

UNKNOWN = "unknown"
VOID = frozenset(("", "empty", UNKNOWN))  # nothing that could be anywhere else


class Pair(NamedTuple):
    """Two cavities that carry one channel, + first. `answers` are the speakers that may be heard from it."""

    name: str
    plus: str
    minus: str
    answers: frozenset[str] = frozenset()

    def heard_in(self, names: frozenset[str]) -> bool:
        return self.name in names or not names.isdisjoint(self.answers)


class Tone(NamedTuple):
    """A tone put on two cavities: the speakers that answered (none: silence), and the cavity found to be +, or ''."""

    a: str
    b: str
    heard: frozenset[str]
    plus: str = ""

    @property
    def cavities(self) -> frozenset[str]:
        return frozenset((self.a, self.b))


@dataclass(frozen=True, slots=True)
class Chart:
    """What is written of a plug: its face, its pairs, and what its other cavities hold (`empty`, `unknown` too).

    A cavity in neither isn't recorded. `keep_off` are those whose charted content no tone may be put on, `never`
    those that aren't even metered on the word of a chart that is wrong: restraint and high voltage.
    """

    face: Face
    pairs: tuple[Pair, ...]
    held: Mapping[str, str] = field(default_factory=dict)
    keep_off: frozenset[str] = frozenset()
    never: frozenset[str] = frozenset()
    # what was counted of it once, as a plug of many rows has many readings
    counted: dict[str, int] = field(init=False, default_factory=dict, compare=False, repr=False)

    @property
    def content(self) -> dict[str, str]:
        """Cavity -> `FL+`, `FL-`, or what else it holds."""
        made = dict(self.held)
        for pair in self.pairs:
            made[pair.plus], made[pair.minus] = f"{pair.name}+", f"{pair.name}-"
        return made

    @property
    def count(self) -> int:
        """How many cavities the plug has, as far as it is known."""
        return len(set(self.face.cavities) | set(self.content))


class Reading(NamedTuple):
    """One way in which the chart may be wrong.

    `moves` says of each cavity as charted where that really is (those left out stay), `names` which channel's name
    stands for which. `carried`: whole rows were put at the wrong cavities, colours and all; else the colours are
    right and the channels' words stand at the wrong cavities. `whole`: it is about the whole chart, not one pair.
    """

    pattern: str
    how: str
    moves: Moves
    names: Mapping[str, str] = {}
    carried: bool = False
    whole: bool = True


AS_CHARTED = Reading("as charted", "as charted", {})


class Corrected(NamedTuple):
    """The chart as a reading has it: its pairs, the content of each cavity, and where no tone may go.

    `charted` are the channels of the chart as written: a reading that has one of them nowhere doesn't explain it.
    """

    reading: Reading
    pairs: tuple[Pair, ...]
    content: dict[str, str]
    keep_off: frozenset[str]
    charted: frozenset[str]

    @property
    def key(self) -> frozenset[tuple[str, str]]:
        """Two readings with the same key put everything at the same cavities."""
        return frozenset((cavity, held) for cavity, held in self.content.items() if held not in VOID)


def corrected(chart: Chart, reading: Reading) -> Corrected | None:
    """The chart as it would be, or None where something charted would lie at no cavity, or two at one."""
    there = set(chart.face.cavities)
    content: dict[str, str] = {}
    for cavity, held in chart.content.items():
        target = reading.moves.get(cavity, cavity)
        if there and target != cavity and target not in there:
            target = ""
        if held in VOID:
            if target:
                content.setdefault(target, held)
            continue
        if not target or content.get(target, "") not in VOID:
            return None
        content[target] = held
    pairs = tuple(_moved(pair, reading, chart) for pair in chart.pairs)
    for pair in pairs:
        content[pair.plus], content[pair.minus] = f"{pair.name}+", f"{pair.name}-"
    off = frozenset(reading.moves.get(cavity, cavity) for cavity in chart.keep_off)
    return Corrected(reading, pairs, content, off, frozenset(pair.name for pair in chart.pairs))


def _moved(pair: Pair, reading: Reading, chart: Chart) -> Pair:
    name = reading.names.get(pair.name, pair.name)
    answers = pair.answers
    if name != pair.name:  # what answers hangs on the channel and not on the cavities
        own = next((other.answers for other in chart.pairs if other.name == name), None)
        answers = own if own is not None else frozenset(reading.names.get(each, each) for each in answers)
    moves = reading.moves
    return Pair(name, moves.get(pair.plus, pair.plus), moves.get(pair.minus, pair.minus), answers)
