"""What can be looked at, metered or toned at a plug, and what a map says to it.

What a test costs, in seconds, is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.model.function import Function
from harness.model.parts import Row
from harness.patterns.face import number_of
from harness.patterns.ohms import MOST_OHM
from harness.read.maps import Map

# kinds of test, cheapest first
HOUSING, WAYS, KEYING, CAVITY = "housing", "ways", "keying", "cavity"
OHM, BODY, TONE, PLUS = "ohm", "body", "tone", "plus"
KINDS = (HOUSING, WAYS, KEYING, CAVITY, BODY, OHM, TONE, PLUS)
LOOKS = frozenset((HOUSING, WAYS, KEYING, CAVITY))
SECONDS = {HOUSING: 20, WAYS: 20, KEYING: 20, CAVITY: 20, BODY: 60, OHM: 60, TONE: 180, PLUS: 240}

# answers that are no value of a map's own
EMPTY, FILLED, NONE, OTHER = "empty", "filled", "none", "other"
SPEAKER, OPEN, SHORT, GROUND = "speaker", "open", "short", "ground"
LEAST_OHM = 1.0  # below, a speaker pair is shorted or the two are joined

# units behind which a meter reads no loudspeaker: their inputs are kilohms (common practice, no source)
_BEHIND = frozenset(("amplifier", "factory amplifier", "processor", "processor amplifier"))
_OPEN_TO_ALL = frozenset((EMPTY, "audio", "ground"))


class Test(NamedTuple):
    """One test: of the housing, of cavity `a`, or of the two cavities `a` and `b`."""

    kind: str
    a: str = ""
    b: str = ""

    @property
    def seconds(self) -> int:
        return SECONDS[self.kind]

    @property
    def order(self) -> tuple[int, tuple[str, int, str], tuple[str, int, str]]:
        return KINDS.index(self.kind), number_of(self.a), number_of(self.b)

    @property
    def where(self) -> str:
        return f"{self.a}/{self.b}" if self.b else self.a


class Says(NamedTuple):
    """What a map says to a test. Neither `answers` nor `filled`: nothing, so that every answer goes with it.

    `answers` are those that go with it; `filled`: any but empty. `rows` are what it says that in.
    """

    answers: frozenset[str] = frozenset()
    filled: bool = False
    rows: tuple[Row, ...] = ()

    @property
    def named(self) -> frozenset[str]:
        """The answers to ask for: of a tone that may be heard in several ways, the map's own word."""
        own = frozenset(row.function.base for row in self.rows) & self.answers
        return own or self.answers

    @property
    def silent(self) -> bool:
        return not self.answers and not self.filled

    def allows(self, answer: str) -> bool:
        """Whether an answer goes with it."""
        if self.silent:
            return True
        if self.filled:
            return answer != EMPTY
        if answer == FILLED:
            return self.answers != {EMPTY}
        return answer in self.answers


SILENT = Says()


class Facts:
    """What one map says, test by test. `rows` by cavity in small letters; a cavity with two rows says nothing."""

    def __init__(self, map_: Map) -> None:
        self.map = map_
        plug = map_.plug
        self.rows: dict[str, Row] = {}
        doubled = set()
        for row in plug.rows:
            key = row.cavity.lower()
            if key in self.rows:
                doubled.add(key)
            self.rows[key] = row
        for key in doubled:
            del self.rows[key]
        drawn = plug.face.drawn if plug.face else ()
        self.drawn = {number.lower() for line in drawn for number in line if number is not None}
        self.ways = plug.ways or len(self.drawn) or None
        unit = map_.units.get(plug.car.lower())
        self.speakers = not plug.car  # the format's own meaning of a plug without `car:`
        self.amplified = unit is not None and unit.kind in _BEHIND
        self._said: dict[Test, Says] = {}

    def says(self, test: Test) -> Says:
        """What the map says to a test."""
        known = self._said.get(test)
        if known is None:
            known = self._said[test] = getattr(self, f"_{test.kind}")(test)
        return known

    def tests(self) -> Iterable[Test]:
        """The tests to which it says something that another map may contradict."""
        for kind in (HOUSING, WAYS, KEYING):
            if not self.says(Test(kind)).silent:
                yield Test(kind)
        for key, row in self.rows.items():
            if not self._cavity(Test(CAVITY, key)).silent:
                yield Test(CAVITY, key)
            if row.function.kind == "ground":
                yield Test(BODY, key)
        for a, b in self.pairs():
            first, second = sorted((a, b), key=number_of)
            yield from (Test(kind, first, second) for kind in (OHM, TONE, PLUS))

    def pairs(self) -> list[tuple[str, str]]:
        """Speaker pairs of the map as cavities in small letters, + first."""
        signs: dict[str, dict[str, list[str]]] = {}
        for key, row in self.rows.items():
            if row.function.kind == "audio" and row.function.sign:
                signs.setdefault(row.function.base, {}).setdefault(row.function.sign, []).append(key)
        return [
            (by["+"][0], by["-"][0]) for by in signs.values() if len(by.get("+", ())) == 1 and len(by.get("-", ())) == 1
        ]

    # -- looks ----------------------------------------------------------------------------------------------

    def _housing(self, _: Test) -> Says:
        return _words(self.map.plug.housing)

    def _keying(self, _: Test) -> Says:
        return _words(self.map.plug.face.keying if self.map.plug.face else "")

    def _ways(self, _: Test) -> Says:
        return Says(frozenset((str(self.ways),))) if self.ways else SILENT

    def _cavity(self, test: Test) -> Says:
        row = self.rows.get(test.a)
        if row is None:
            # a face that was drawn has no other cavities than those
            return Says(frozenset((EMPTY,))) if self.drawn and test.a not in self.drawn else SILENT
        if row.function.kind == "empty":
            return Says(frozenset((EMPTY,)), rows=(row,))
        colour = row.colour
        if colour is not None and colour.base != "unknown" and colour.stripe != "unknown" and not colour.unread:
            return Says(frozenset((colour.short.upper(),)), rows=(row,))
        if row.function.kind == "unknown" and (colour is None or colour.base == "unknown"):
            return SILENT
        return Says(filled=True, rows=(row,))

    # -- the meter: key out, the plug off its unit -------------------------------------------------------------

    def _ohm(self, test: Test) -> Says:
        one, two = self.rows.get(test.a), self.rows.get(test.b)
        gap = _gap(one, two)
        if gap:
            return Says(frozenset((OPEN,)), rows=gap)
        if one is None or two is None:
            return SILENT
        rows = (one, two)
        if _is_pair(one.function, two.function):
            if self.amplified:
                return Says(frozenset((OPEN,)), rows=rows)
            if not self.speakers:
                return SILENT
            # a tweeter may sit behind a capacitor, which a meter reads as open
            tweeter = one.function.driver == "TW"
            return Says(frozenset((SPEAKER, OPEN)) if tweeter else frozenset((SPEAKER,)), rows=rows)
        kinds = {one.function.kind, two.function.kind}
        if kinds == {"ground"}:
            return Says(frozenset((SHORT,)), rows=rows)
        if not self.speakers or not kinds <= _OPEN_TO_ALL or one.function.base == two.function.base:
            return SILENT
        if kinds == {"audio"} and one.function.channel == two.function.channel:
            return SILENT  # two drivers of one channel may share a wire
        return Says(frozenset((OPEN,)), rows=rows)

    def _body(self, test: Test) -> Says:
        row = self.rows.get(test.a)
        if row is None or row.function.kind not in _OPEN_TO_ALL:
            return SILENT
        if row.function.kind == "ground":
            return Says(frozenset((GROUND,)), rows=(row,))
        if row.function.kind == "audio" and not self.speakers:
            return SILENT
        return Says(frozenset((OPEN,)), rows=(row,))

    # -- tones: the plug off its unit, on the wires to the speakers ------------------------------------------------

    def _tone(self, test: Test) -> Says:
        one, two = self.rows.get(test.a), self.rows.get(test.b)
        gap = _gap(one, two)
        if gap:
            return Says(frozenset((NONE,)), rows=gap)
        if one is None or two is None or not self.speakers or not _is_pair(one.function, two.function):
            return SILENT
        return Says(_heard(one.function), rows=(one, two))

    def _plus(self, test: Test) -> Says:
        one, two = self.rows.get(test.a), self.rows.get(test.b)
        if one is None or two is None or not self.speakers or not _is_pair(one.function, two.function):
            return SILENT
        return Says(frozenset((test.a if one.function.sign == "+" else test.b,)), rows=(one, two))


def _words(text: str) -> Says:
    plain = " ".join(text.lower().split())
    return Says(frozenset((plain,))) if plain and plain != "unknown" else SILENT


def _gap(*rows: Row | None) -> tuple[Row, ...]:
    """Rows of which one is empty: nothing conducts there, whatever the other one is."""
    written = tuple(row for row in rows if row is not None)
    return written if any(row.function.kind == "empty" for row in written) else ()


def _is_pair(one: Function, two: Function) -> bool:
    return one.kind == two.kind == "audio" and one.base == two.base and {one.sign, two.sign} == {"+", "-"}


_DRIVERS = ("TW", "MID", "WF")


def _heard(function: Function) -> frozenset[str]:
    """What a person may say who hears a pair: `FL-TW` is also just left front; `FL` may be heard from any driver."""
    channel = function.channel or function.base
    if function.driver:
        return frozenset((function.base, channel))
    return frozenset((channel, *(f"{channel}-{driver}" for driver in _DRIVERS)))


def reading(kind: str, ohm: float | None) -> str:
    """The answer that a reading in ohms is; None: open."""
    if kind == BODY:
        return GROUND if ohm is not None and ohm < LEAST_OHM else OPEN
    if ohm is None or ohm > MOST_OHM:
        return OPEN
    return SHORT if ohm < LEAST_OHM else SPEAKER
