"""Ends without a fate: leads joined to nothing, and the ends of cuts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.conductor import INSIDE, PLUGGED
from harness.graph.fates import LOOSE
from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.place import Place


class LooseEnd(NamedTuple):
    """The contacts of one row (a pair written as one row has two), where it stands, and whose they are."""

    contacts: tuple[str, ...]
    place: Place
    owner: str
    cut: bool


@kept
def loose_ends(wiring: Wiring) -> tuple[LooseEnd, ...]:
    """Rows of leads with a loose one, ends of a loom apart; then cut ends that nothing was done with."""
    return (*_leads(wiring), *_cut_ends(wiring))


def _leads(wiring: Wiring) -> Iterator[LooseEnd]:
    parts = wiring.job.parts
    for owner in (*parts.looms, *parts.units):
        if owner in wiring.gone:
            continue
        rows: dict[tuple[Place, str], list[str]] = {}
        for each in wiring.fates.leads(owner):
            if each.fate == LOOSE and not _on_a_plug(wiring, each.lead.name):
                rows.setdefault((each.lead.place, each.lead.end), []).append(each.lead.name)
        for (place, _), names in rows.items():
            yield LooseEnd(tuple(names), place, owner, False)


def _on_a_plug(wiring: Wiring, name: str) -> bool:
    """A unit's terminal that sits in one of the car's plugs is no flying lead."""
    return any(conductor.kind == INSIDE for conductor in wiring.planned.conductors(name))


def _cut_ends(wiring: Wiring) -> Iterator[LooseEnd]:
    job = wiring.job
    rows: dict[tuple[Place, str], list[str]] = {}
    for name, place in job.cut.items():
        contact = wiring.contact(name)
        if contact.kind != "plug":
            continue
        cavity = contact.last
        if not wiring.fates.has(contact.owner, cavity):
            continue
        fate = wiring.fates.cavity(contact.owner, cavity)
        for half, to in (("unit", fate.unit_to), ("car", fate.car_to)):
            end = f"{contact.owner}.{half}.{contact.last}"
            plugged = any(c.kind == PLUGGED for c in wiring.planned.conductors(end))
            if not to and not plugged and end not in job.capped and end not in job.depinned:
                rows.setdefault((place, half), []).append(end)
    for (place, _), names in rows.items():
        yield LooseEnd(tuple(dict.fromkeys(names)), place, wiring.contact(names[0]).owner, True)
