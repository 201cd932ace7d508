"""Runs that begin, end or are joined on the way at a plug's cavity or at a loom's lead: their wire stays, where it is
joined may change.
"""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import NamedTuple

from harness.model.contact import Contact
from harness.model.job import Job, Segment
from harness.place import Place

_OURS = ("plug", "loom")


class RunEnd(NamedTuple):
    """One end of a wire that we lay, at a cavity or a lead; or the place on its way where it is joined to one.

    `name` is the same in every job taken from this one: runs are counted as they stand, and none comes or goes.
    `contact` is where it is joined now, `far` the other ends of its pieces there, `to` where the run leads. `step` is
    which of the contacts in its chain that is: 0 the first, -1 the last, else counted on the way. A chain of pairs has
    two wires: `wire` counts from 0 to `wires`. `why` it must stay where it is, or empty.
    """

    name: str
    contact: str
    far: tuple[str, ...]
    to: tuple[str, ...]
    place: Place
    step: int
    wire: int
    wires: int
    why: str


def is_run_end(name: str) -> bool:
    """Whether a name is that of a run's end (`run 1 start 0`) and not a contact's."""
    return " " in name


def run_ends(job: Job) -> list[RunEnd]:
    """Every end of a run at a cavity or a lead, in the order of the file."""
    chains: dict[Place, list[Segment]] = {}
    for segment in job.segments:
        if segment.laid:
            chains.setdefault(segment.place, []).append(segment)
    in_order = sorted(chains, key=lambda place: (place.file, place.line, place.column))
    return [end for number, place in enumerate(in_order, 1) for end in _of_chain(job, number, chains[place])]


def _of_chain(job: Job, number: int, pieces: list[Segment]) -> list[RunEnd]:
    contacts = job.contacts
    times = Counter(name for piece in pieces for name in (piece.a, piece.b))
    if not any(contacts[name].kind in _OURS for name in times):
        return []

    def inline(contact: Contact) -> bool:
        return contact.kind == "plug" and contact.owner in job.parts.plugs and job.parts.plugs[contact.owner].inline

    # an inline plug in the middle of a chain is left by another contact than it is reached by
    firsts = [piece for piece in pieces if times[piece.a] == 1 and not inline(contacts[piece.a])]
    lasts = [piece for piece in pieces if times[piece.b] == 1 and not inline(contacts[piece.b])]
    ends = _on_the_way(job, number, pieces)
    told = {end.contact for end in ends}
    for piece in pieces:
        for last, here, far in ((False, piece.a, piece.b), (True, piece.b, piece.a)):
            about = contacts[here]
            if about.kind not in _OURS or here in told:
                continue
            same, other = (lasts, firsts) if last else (firsts, lasts)
            wire = next((at for at, each in enumerate(same) if each is piece), -1)
            to = far
            if 0 <= wire < len(other):
                to = other[wire].a if last else other[wire].b
            name = f"run {number} {'end' if last else 'start'} {wire}"
            why = _why(job, about, piece, pieces, wire, same, last)
            step = -1 if last else 0
            ends.append(RunEnd(name, here, (far,), (to,), piece.place, step, wire, len(same), why))
    return ends


def _on_the_way(job: Job, number: int, pieces: list[Segment]) -> list[RunEnd]:
    """Where a chain of single contacts is joined on its way: both of its pieces there are ends of one joint."""
    contacts, plugs = job.contacts, job.parts.plugs
    nodes = [pieces[0].a, *(piece.b for piece in pieces)]
    in_line = all(one.b == two.a for one, two in pairwise(pieces)) and len(set(nodes)) == len(nodes)
    inline = any(contacts[name].owner in plugs and plugs[contacts[name].owner].inline for name in nodes)
    bare = any(piece.kind == "wire" and piece.length_m is None for piece in pieces)  # two contacts in one step, perhaps
    if not in_line or inline or bare or any(piece.turned or piece.place.file != job.file for piece in pieces):
        return []
    written = [name for name in nodes if contacts[name].kind != "run"]
    ends = []
    for at, (before, here, after) in enumerate(zip(nodes, nodes[1:], nodes[2:], strict=False)):
        if contacts[here].kind in _OURS:
            step = written.index(here)
            to = (nodes[0], nodes[-1])
            ends.append(
                RunEnd(f"run {number} step {step}", here, (before, after), to, pieces[at].place, step, 0, 1, "")
            )
    return ends


def _why(
    job: Job, about: Contact, piece: Segment, pieces: list[Segment], wire: int, same: list[Segment], last: bool
) -> str:
    """Why this end can't be put elsewhere; empty where it can."""
    run = f"a run (line {piece.place.line})"
    if piece.kind == "wire" and piece.length_m is None and len(pieces) > len(same):
        return f"{run} joins {about.words} with others in one step"
    if wire < 0:
        return f"{run} goes on beyond {about.words}"
    if len(same) > 2:
        return f"{run} has {len(same)} wires at once at {about.words}"
    if last and piece.turned:
        return f"{run} is turned round at {about.words}"
    if piece.place.file != job.file:
        return f"{run} at {about.words} stands in {piece.place.file}"
    return ""
