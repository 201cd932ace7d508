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
    at the same contacts since answers it, and of a unit that was hot or burnt a later look that says no such thing.
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
        elif record.verb == "seen":
            last.pop(names[0], None)
    return tuple(Look(each, _said(each), _right(each)) for each in dict.fromkeys(last.values()))


def found_wrong(wiring: Wiring, record: Record) -> bool:
    """Whether a look, at a thing or a unit's light, found something wrong, whatever a later one says."""
    if record.joint or record.verb not in ("checked", "seen"):
        return False
    units = {name.lower() for name in wiring.job.parts.units}
    if record.verb == "checked" or _of_no_light(record, units):
        return _right(record) is False
    return light_is_right(record.word("shows")) is False


def _of_no_light(record: Record, units: set[str]) -> bool:
    if record.verb != "seen":
        return False
    return bool(record.contacts) or record.what.lower() not in units or _of_itself(record)


def _of_itself(record: Record) -> bool:
    """Whether what is said of a unit is that something is wrong with it, in no word of its light: hot, burnt."""
    shows = record.word("shows")
    return bool(shows) and light_is_right(shows) is None and judged(shows, WRONG, RIGHT) is False


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
        if name is None or record.verb != "seen" or record.stale or not record.word("shows"):
            continue
        if not _of_itself(record):
            last[name] = record
    return last


def light_is_right(shows: str) -> bool | None:
    """Whether what a unit's light shows is right; None where the words don't tell."""
    return judged(shows, LIGHTS_WRONG, LIGHTS_RIGHT)
