"""Readings under power that say stop: a ground that is live, a terminal with + and − the wrong way round.

Such a reading stays a danger until the same terminal is read again and shows none. Before that, somebody says what was
done about it.
"""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.turn_on import LIVE_V
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.session.talk import Choice, Outcome, Question, Talk, Task
from harness.units import measured

MADE_SAFE = "made safe"
_DONE = (
    Choice("key off and fuses out", "key off, fuses out"),
    Choice("key off and the battery's negative off", "key off, battery negative off"),
    Choice("key off and the plug of that unit out", "key off, unit unplugged"),
)


class Danger(NamedTuple):
    """A reading that says stop and that no later one takes back; `safe` is what was done since, None if nobody said."""

    record: Record
    lines: tuple[str, ...]
    safe: Record | None

    @property
    def words(self) -> str:
        """`STOP on record: amp GND showed 12.6 V (JM 2026-03-02)`."""
        done = f"; {self.safe.word('shows')}" if self.safe is not None else ""
        where = self.record.what.replace(".", " ")
        return f"STOP on record: {where} showed {self.record.word('reads')} ({self.record.signed}){done}"


def danger_at(wiring: Wiring, name: str, volts: float) -> tuple[str, ...]:
    """What to do at once where a ground is live or a wire is joined the wrong way round; empty where neither is so."""
    said = name.replace(".", " ", 1)
    if wiring.contact(name).function.kind == "ground" and abs(volts) >= LIVE_V:
        words = (
            f"STOP: {said} is a ground and shows {volts:g} V: its way to the body is open, "
            "or a feed lies on it. Current may come back through signal leads and burn them."
        )
        do = "Do now: key off, fuses out, the battery's negative off. Find the wire first; then read it again."
        return (words, do)
    if volts <= -LIVE_V:
        words = f"STOP: {volts:g} V at {said}: + and − are the wrong way round, at the meter or at the unit."
        do = (
            "Do now: key off. Look at the meter's leads first; if they are right, fuses out, and put the feed right "
            "before anything is switched on again."
        )
        return (words, do)
    return ()


def dangers(wiring: Wiring) -> list[Danger]:
    """What the last reading of each terminal in a state of the key says stop about, in the order read."""
    last: dict[tuple[str, str], Danger] = {}
    for record in wiring.job.records:
        if record.stale or len(record.contacts) != 1:
            continue
        (name,) = record.contacts
        level = record.word("signal") or record.word("step") or record.word("clean")
        volts = measured(record.word("reads"), "voltage")
        if record.verb == "volts" and not level and volts is not None:
            last.pop((name, record.word("key")), None)
            lines = danger_at(wiring, name, volts)
            if lines:
                last[name, record.word("key")] = Danger(record, lines, None)
        elif record.verb == "seen" and record.word("shows").startswith(MADE_SAFE):
            for at in [each for each in last if each[0] == name]:
                last[at] = last[at]._replace(safe=record)
    return list(last.values())


def made_safe(danger: Danger) -> Task:
    """What was done about it: asked before anything else under power is."""
    return Task(danger.record.what, (danger.words,), lambda: _talk(danger), danger.record.contacts)


def _talk(danger: Danger) -> Talk:
    done = yield Question("Nothing more is asked under power before it is off. What did you do?", _DONE, must=True)
    name = danger.record.what.replace(".", " ")
    fields = (("seen", danger.record.what), ("shows", f"{MADE_SAFE}: {done}"))
    again = (
        f"Put right, with power as it was at that reading, {name} is read again first. Without power 0 V says nothing."
    )
    return Outcome(fields, ("Find the wire now.", again))
