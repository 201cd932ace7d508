"""Whether a look found it right: what `checked` and `seen` say in words of contacts, units and other things."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.evidence import FAILS, Record
from harness.model.good_and_bad import LIGHTS_RIGHT, LIGHTS_WRONG, RIGHT, WRONG, judged


class Look(NamedTuple):
    """A look that counts: its record, what it says in words, and whether that is right; None where it can't be told."""

    record: Record
    said: str
    right: bool | None


@kept
def looks(wiring: Wiring) -> tuple[Look, ...]:
    """The last look at each thing, but those at joints by their names and at the lights of units. What was built anew
    at the same contacts since answers it.
    """
    last: dict[str, Record] = {}
    units = {name.lower() for name in wiring.job.parts.units}
    for record in wiring.job.records:
        if record.stale or record.joint:
            continue
        names = record.contacts or (record.what.lower(),)
        if record.verb == "built":
            for name in names:
                last.pop(name, None)
        elif _said(record) and (record.verb == "checked" or _of_no_light(record, units)):
            last.update(dict.fromkeys(names, record))
    return tuple(Look(each, _said(each), _right(each)) for each in dict.fromkeys(last.values()))


def _of_no_light(record: Record, units: set[str]) -> bool:
    return record.verb == "seen" and (bool(record.contacts) or record.what.lower() not in units)


def _said(record: Record) -> str:
    words = [record.word(key) for key in ("found", "is", "shows", "result")]
    return ", ".join(filter(None, words))


def _right(record: Record) -> bool | None:
    if record.word("result") in FAILS:
        return False
    return judged(_said(record), WRONG, RIGHT)


@kept
def lights(wiring: Wiring) -> dict[str, Record]:
    """The last look at the light of each unit, by the unit's name."""
    last = {}
    units = {name.lower(): name for name in wiring.job.parts.units}
    for record in wiring.job.records:
        name = units.get(record.what.lower())
        if record.verb == "seen" and not record.stale and record.word("shows") and name is not None:
            last[name] = record
    return last


def light_is_right(shows: str) -> bool | None:
    """Whether what a unit's light shows is right; None where the words don't tell."""
    return judged(shows, LIGHTS_WRONG, LIGHTS_RIGHT)
