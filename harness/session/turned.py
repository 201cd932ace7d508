"""Pairs with their + on the other wire: turned in this car, or wrong in the chart. A second look tells."""

from __future__ import annotations

from harness.graph.plus_side import OtherPlus, other_plus
from harness.graph.wiring import Wiring
from harness.model.evidence import AS_MARKED, TURNED
from harness.session.talk import LEFT_OUT, Choice, Outcome, Question, Section, Talk, Task
from harness.session.words import listed

NAME = "turned"
_FIRST = (
    "The speaker's marks tell it, and so does the radio's side of the plug: there no speaker can turn a pair.",
    "At the radio's side: the polarity pulse of the test sounds and a checker or scope, or the unit's own print.",
)
_CAUTIONS = (
    "The radio plays for that: nothing of yours joined to it, its volume at the lowest, no wire on the body.",
    "No chart is changed by a guess: other jobs may use the same one.",
)
_HERE, _MARKED, _RADIO = "here", "marked", "radio"


def section(wiring: Wiring) -> Section | None:
    """One task a pair that answers as charted, with + where it isn't awaited. None where there is none."""
    left = [each for each in other_plus(wiring) if not each.chart_wrong]
    if not left:
        return None
    tasks = tuple(_task(each) for each in left)
    return Section(NAME, "Say which is turned, speaker or chart", _FIRST, _CAUTIONS, tasks, 0)


def _task(each: OtherPlus) -> Task:
    words = f"{each.name}: + found on {each.found}, written on {each.awaited}."
    return Task(each.name, (words,), lambda: _talk(each), each.contacts)


def _talk(each: OtherPlus) -> Talk:
    base = each.plus.function.base
    if each.awaited != each.plus.cavity:  # written as turned, and it isn't
        answer = yield Question(
            f"{base} is written as turned, and answers as if it weren't",
            (Choice("its leads were exchanged: they lie as marked now", _MARKED), Choice("not known yet: later", "")),
        )
        if answer != _MARKED:
            return _later()
        return _recorded(each, AS_MARKED, "seen at the speaker")
    answer = LEFT_OUT
    if not each.radio:
        answer = yield Question(
            f"{base}: what is turned?",
            (
                Choice("the speaker, in this car only: seen at its marks, or known", _HERE),
                Choice("not known yet: later", LEFT_OUT),
                Choice("+ at the radio's side was read, or is printed there", _RADIO),
            ),
        )
        if answer == LEFT_OUT:
            return _later()
    if answer == _RADIO:
        plus, minus = each.plus.cavity, each.minus.cavity
        radio = yield Question(
            f"The radio has its + on {plus} or on {minus}?",
            (
                Choice(f"on {plus}, as charted: then the speaker is turned", plus),
                Choice(f"on {minus}: then the chart has the two exchanged", minus),
                Choice("not sure: later", LEFT_OUT),
            ),
        )
        if radio == LEFT_OUT:
            return _later()
        what = f"{each.plug}.unit.{plus}/{minus}"
        fields = (("polarity", what), ("plus", radio), ("how", "at the radio's side"))
        if radio == plus:
            words = f"The chart is right: the radio has + on {plus}. What is turned lies behind it, in this car."
            return Outcome(fields, (words,), then=NAME)
        words = f"The chart has {plus} and {minus} exchanged: the radio's + and the speaker's lie on {minus}."
        return Outcome(fields, (words,), True)
    if each.radio:
        sure = yield Question(
            f"The radio has + on {each.radio}, as charted. Write {base} as turned in this car?",
            (Choice("yes, in this car only; the chart stays", _HERE), Choice("not now: later", LEFT_OUT)),
        )
        if sure == LEFT_OUT:
            return _later()
    return _recorded(each, TURNED, "by the radio's side" if each.radio else "seen at the speaker")


def _later() -> Outcome:
    return Outcome((), ("It stays open, in the list of what there is to do; the chart stays as it is.",))


def _recorded(each: OtherPlus, how_it_lies: str, how: str) -> Outcome:
    name = next(iter(each.moved), each.plus.function.base)
    words = [
        f"{name}: its leads are {how_it_lies} in this car, by record; the chart stays. The plan is held against it."
    ]
    if beside := [other for other in each.speakers if other != name]:
        words.append(
            f"On the same pair: {listed(beside)}. What is turned as well is recorded the same way: ringout record … "
            f'"polarity: spk.{beside[0]}" "found: {how_it_lies}"'
        )
    return Outcome((("polarity", f"spk.{name}"), ("found", how_it_lies), ("how", how)), tuple(words), rests_on=())
