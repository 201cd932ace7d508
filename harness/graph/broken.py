"""Where the plan breaks a way that the car had: the entry a person must reconsider."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import FUSE, JOINT, LEAD, MATED, PLANNED, PLUGGED, RUN, Hop
from harness.graph.wiring import Wiring
from harness.place import Place


class Break(NamedTuple):
    """The place, the contact meant there, and the contacts concerned (both halves of an opened cavity)."""

    place: Place
    contact: str
    about: tuple[str, ...]
    unit: str = ""  # the unit that comes out, where that is the cause


def first_break(wiring: Wiring, start: str, hops: tuple[Hop, ...]) -> Break | None:
    """The first step of a way as found that no longer conducts as planned; None where all of it does.

    A cavity that a loom opens and passes on conducts.
    """
    job = wiring.job
    here = start
    for hop in hops:
        conductor = hop.conductor
        if not conductor.states & PLANNED and not wiring.planned.joined(here, hop.contact):
            if conductor.kind == MATED:
                return opened_at(wiring, here, hop.contact)
            unit = next((u for c in (here, hop.contact) if (u := job.contacts[c].owner) in job.removed), "")
            place = job.removed.get(unit, conductor.place)
            return Break(place, here, (here, hop.contact), unit)
        here = hop.contact
    return None


def opened_at(wiring: Wiring, near: str, far: str) -> Break:
    """What parts the two halves of a cavity: a cut, a pulled terminal, what the loom's wire is used for, the loom."""
    job = wiring.job
    about = (near, far)
    for table in (job.cut, job.depinned):
        for half in about:
            if half in table:
                return Break(table[half], half, about)
    for half in about:
        contact = job.contacts[half]
        there = [mate for mate in wiring.mates_of.get(contact.owner, ()) if mate.half == contact.half]
        if not there:
            continue
        mate = there[-1]
        own = f"{mate.loom}.{mate.end}.{contact.last}"
        if own in job.depinned:
            return Break(job.depinned[own], own, (*about, own))
        if own in job.moved:
            return Break(job.moved[own][1], own, (*about, own))
        used = _use_of(wiring, half)
        if used is not None:
            return Break(used[0], used[1], (*about, used[1]))
    plug = job.contacts[near].owner
    mates = wiring.mates_of.get(plug)
    return Break(mates[0].place if mates else job.contacts[near].place, near, about)


def _use_of(wiring: Wiring, half: str) -> tuple[Place, str] | None:
    """Where the wire on this half is joined on, or said to be capped."""
    job = wiring.job
    row, seen = [half], {half}
    said: tuple[Place, str] | None = None
    for here in row:
        if here in job.capped and said is None:
            said = (job.capped[here], here)
        for conductor in wiring.planned.conductors(here):
            if conductor.kind in (JOINT, RUN, FUSE):
                return conductor.place, here
            other = conductor.other(here)
            if conductor.kind in (LEAD, PLUGGED) and other not in seen:
                seen.add(other)
                row.append(other)
    return said
