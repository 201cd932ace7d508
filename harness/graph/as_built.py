"""What was built against what was planned, contact by contact that somebody recorded."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.model.evidence import Record


class Built(NamedTuple):
    """One record: the contact in words, its fate as planned and as built, who and when, and whether both agree."""

    contact: str
    name: str
    planned: str
    built: str
    signed: str
    same: bool
    record: Record


def as_built(wiring: Wiring) -> list[Built]:
    """The last record about each contact, in the order of the records."""
    last: dict[str, Record] = {}
    for record in wiring.job.records:
        if record.verb == "built" and not record.stale:
            for name in record.contacts:
                last.pop(name, None)
                last[name] = record
    made = []
    for name, record in last.items():
        planned, built = planned_fate(wiring, name), record.word("is")
        same = _same(wiring, name, planned, built)
        made.append(Built(name, wiring.words(name), planned, built, record.signed, same, record))
    return made


def planned_fate(wiring: Wiring, name: str) -> str:
    """`joined to dsp.in1+`, or the fate in words: passed, intercepted, capped …"""
    to = _joined(wiring, name)
    if to:
        return f"joined to {', '.join(to)}"
    contact = wiring.contact(name)
    if contact.kind == "plug" and wiring.fates.has(contact.owner, contact.last):
        return wiring.fates.cavity(contact.owner, contact.last).fate
    for lead in wiring.fates.leads(contact.owner) if contact.kind in ("loom", "unit") else ():
        if lead.lead.name == name:
            return lead.fate
    return "nothing planned"


def _joined(wiring: Wiring, name: str) -> list[str]:
    """The contacts that a joint of the plan joins it to."""
    made = []
    for joint in wiring.job.joints:
        for a, b in joint.links:
            if name in (a, b):
                made.append(b if name == a else a)
    return made


def _same(wiring: Wiring, name: str, planned: str, built: str) -> bool:
    """Whether what was built is the planned fate, or names what the plan joins it to."""
    word = built.strip().lower().removeprefix("joined to ")
    joined = [each.lower() for each in _joined(wiring, name)]
    if joined:
        return word in joined or word in ("used", "joined") or word in [each.rstrip("+-") for each in joined]
    return word == planned.lower()
