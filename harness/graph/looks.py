"""Whether a look found it right: what `checked` and `seen` say in words of contacts, units and other things."""

from __future__ import annotations

import re
from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.evidence import FAILS, Record

# Words that say that something is wrong, unless `no` or `not` stands before them.
_WRONG = frozenset(
    (
        "loose", "broken", "burnt", "burned", "scorched", "hot", "smoke", "smokes", "painted", "rust", "rusty",
        "corroded", "corrosion", "torn", "cracked", "wet", "damp", "water", "missing", "wrong", "bad",
        "damaged", "melted", "cut", "worn", "bent", "chafed", "crushed", "pinched", "short", "shorted",
        "unlocked", "reversed", "blown", "dead", "noisy", "leaking", "fault", "faults", "faulty", "swapped", "crossed",
    )
)  # fmt: skip
# Words that say that it is right, unless `no` or `not` stands before them.
_RIGHT = frozenset(
    (
        "position", "lock", "locked", "seated", "sits", "tug", "tugged", "hold", "holds", "held", "firm",
        "tight", "ok", "okay", "good", "fine", "clean", "dry", "right", "insulated", "covered", "made", "fused",
        "steady",
    )
)  # fmt: skip
# What was wrong and isn't any more, unless it has still to `be` done.
_MENDED = frozenset(
    (
        "removed", "cleaned", "mended", "repaired", "replaced", "scraped", "tightened", "remade",
    )
)  # fmt: skip
_NOT = frozenset(("no", "not", "isn't", "doesn't", "never", "nothing", "without"))
_TO_DO = frozenset((*_NOT, "be"))
_LIGHTS_WRONG = frozenset(
    (
        "red", "blinks", "blinking", "blink", "flashes", "flashing", "dark", "off", "out", "none", "nothing",
        "dead", "protect", "protects", "protection", "fault", "error", "clip", "clipping", "overheat",
    )
)  # fmt: skip
_LIGHTS_RIGHT = frozenset(("steady", "green", "blue", "white", "on", "lit"))


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
    return _judged(_said(record), _WRONG, _RIGHT)


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
    return _judged(shows, _LIGHTS_WRONG, _LIGHTS_RIGHT)


def _judged(said: str, wrong: frozenset[str], right: frozenset[str]) -> bool | None:
    before, known, found = "", False, False
    for word in re.split(r"[\s,.;]+", said.lower()):
        denied = before in _NOT
        if word in _MENDED and before not in _TO_DO:
            return True
        found = found or (word in wrong and not denied) or (word in right and denied)
        known = known or word in right or (word in wrong and denied)
        before = word
    return False if found else True if known else None
