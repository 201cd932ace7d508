"""Terminals that the work puts into a housing, moved or put back, and whether somebody saw that they sit."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.model.evidence import PROVES_NOTHING, Record
from harness.place import Place

# What must be seen of a terminal that was put in (a wire-harness maker's page and a college's course, seen 2026).
SEEN = ("position", "lock", "tug")
# What `built` says of a terminal that stayed out.
_OUT = frozenset(("depinned", "pulled", "out", "capped", "empty", "loose"))


class PutIn(NamedTuple):
    """A terminal put in: its contact, where it stands now in words, the plan's line, and what nobody has seen of it."""

    contact: str
    words: str
    place: Place
    missing: tuple[str, ...]


def put_in(wiring: Wiring) -> list[PutIn]:
    """Every terminal of the plan that was moved, or taken out and by its last `built` record put back."""
    job = wiring.job
    last: dict[tuple[str, str], Record] = {}
    for record in job.records:
        if not record.stale:
            last.update({(record.verb, name): record for name in record.contacts})
    made = []
    for name, (cavity, place) in job.moved.items():
        contact = wiring.contact(name)
        words = f"{wiring.words(name)}, moved to {cavity}"
        if name not in job.depinned and contact.last != cavity:
            made.append(PutIn(name, words, place, _missing(last.get(("checked", name)))))
    for name, place in job.depinned.items():
        now = last.get(("built", name))
        said = now.word("is").lower().split() if now else []
        if said and _OUT.isdisjoint(said):
            made.append(PutIn(name, f"{wiring.words(name)}, put back", place, _missing(last.get(("checked", name)))))
    return made


def _missing(record: Record | None) -> tuple[str, ...]:
    if record is None or record.word("result") in PROVES_NOTHING:
        return SEEN
    found = record.word("found").lower().replace(",", " ").split()
    return tuple(word for word in SEEN if word not in found)
