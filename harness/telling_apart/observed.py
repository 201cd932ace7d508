"""What was observed, as people type it: `cavity 7: GN/YE`, `ohm 1/11: 3.8 ohm`, `ways: 20`."""

from __future__ import annotations

import re

from harness.model.colour import read_colour
from harness.model.function import read_function
from harness.patterns.face import number_of
from harness.read import patterns as p
from harness.telling_apart.session import Observation
from harness.telling_apart.tests import (
    BODY,
    CAVITY,
    EMPTY,
    FILLED,
    HOUSING,
    KEYING,
    KINDS,
    NONE,
    OHM,
    OTHER,
    PLUS,
    TONE,
    WAYS,
    Test,
    reading,
)

_ONE = frozenset((CAVITY, BODY))
_TWO = frozenset((OHM, TONE, PLUS))
_OHM = re.compile(r"([0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?: ?(k?)(?:ohms?|Ω|Ω))?", re.IGNORECASE)
MOST = 200  # characters of one observation
EXAMPLES = "cavity 7: GN/YE, cavity 8: empty, ways: 20, ohm 1/11: 3.8 ohm, body 19: 0.2 ohm, tone 1/11: FL"


class NotObserved(Exception):
    """It isn't understood; `at` is where in the text, from 0."""

    def __init__(self, why: str, at: int = 0) -> None:
        self.at = at
        super().__init__(why)


def read_observation(text: str) -> Observation:
    """One observation. Raises NotObserved."""
    if len(text) > MOST:
        raise NotObserved(f"an observation has at most {MOST} characters")
    head, colon, value = text.partition(":")
    at = len(head) + 1 + len(value) - len(value.lstrip())
    value = " ".join(value.split())
    if not colon or not value:
        raise NotObserved(f"“{text.strip()}” says nothing; write for instance {EXAMPLES}")
    words = head.lower().split()
    kind = words[0] if words else ""
    if kind not in KINDS:
        raise NotObserved(f"“{head.strip()}” is none of {', '.join(KINDS)}; write for instance {EXAMPLES}")
    test = _test(kind, words[1:])
    return Observation(test, _answer(test, value, at), f"{' '.join(words)}: {value}")


def _test(kind: str, words: list[str]) -> Test:
    where = "".join(words)
    if kind in _ONE:
        if not re.fullmatch(p.CAVITY, where, re.IGNORECASE):
            raise NotObserved(f"“{kind} {where}” wants one cavity: {kind} 7")
        return Test(kind, where)
    if kind in _TWO:
        a, _, b = where.partition("/")
        if not all(re.fullmatch(p.CAVITY, each, re.IGNORECASE) for each in (a, b)) or a == b:
            raise NotObserved(f"“{kind} {where}” wants two cavities: {kind} 1/11")
        return Test(kind, *sorted((a, b), key=number_of))
    if where:
        raise NotObserved(f"“{kind}” is of the whole plug; write {kind}: and what it is")
    return Test(kind)


def _answer(test: Test, value: str, at: int) -> str:
    low = value.lower()
    if low == OTHER and test.kind not in (OHM, BODY, PLUS):
        return OTHER
    if test.kind in (HOUSING, KEYING):
        return low
    if test.kind == WAYS:
        if not re.fullmatch("[0-9]{1,3}", value) or not int(value):
            raise NotObserved(f"“{value}” is no number of cavities", at)
        return str(int(value))
    if test.kind == CAVITY:
        return low if low in (EMPTY, FILLED) else _colour(value, at)
    if test.kind == PLUS:
        if low not in (test.a, test.b):
            raise NotObserved(f"+ is {test.a} or {test.b}", at)
        return low
    if test.kind == TONE:
        function = read_function(value)
        if low == NONE:
            return NONE
        if function is None or function.kind != "audio" or function.sign or not function.channel:
            raise NotObserved(f"“{value}” is no speaker; write FL, FR, RL, RR, C, SUB, FL-TW …, none or other", at)
        return function.base
    if low == "open":
        return reading(test.kind, None)
    number = _OHM.fullmatch(value)
    if number is None:
        raise NotObserved(f"“{value}” is no reading; write 3.8 ohm, or open", at)
    return reading(test.kind, float(number[1]) * (1000 if number[2] else 1))


def _colour(value: str, at: int) -> str:
    colour = read_colour("-".join(value.split()))
    if colour is None or colour.unread or colour.base == "unknown" or colour.stripe == "unknown":
        raise NotObserved(f"“{value}” is no colour by itself; write letters as WH/BK, empty, filled or other", at)
    return colour.short.upper()


def read_lines(text: str) -> list[tuple[int, int, str]]:
    """The observations of a file: line and column from 1, and the text. `#` begins a comment, `- ` may stand first."""
    made = []
    for number, line in enumerate(text.splitlines(), 1):
        said = re.sub(r"(^|\s)#.*", "", line)
        column = len(said) - len(said.lstrip())
        said = said.strip()
        if said.startswith("- "):
            column += 2 + len(said[2:]) - len(said[2:].lstrip())
            said = said[2:].strip()
        if said:
            made.append((number, column + 1, said))
    return made
