"""Everything the plan does, as (what, where it is written, which contacts): joints, fates, runs, plugging in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.place import Place


class Touch(NamedTuple):
    """One act of the plan: in words, its place, and the contacts that it changes."""

    words: str
    place: Place
    contacts: tuple[str, ...]


def touches(wiring: Wiring) -> Iterator[Touch]:
    """Every act, one for each line of the job file, in the order of the file's headings."""
    job = wiring.job
    board = wiring.board
    for joint in job.joints:
        yield Touch("joined", joint.place, tuple(end for link in joint.links for end in link))
    for words, said in (("cut", job.cut), ("capped", job.capped), ("depinned", job.depinned)):
        by_place: dict[Place, list[str]] = {}
        for contact, place in said.items():
            by_place.setdefault(place, []).append(contact)
        for place, contacts in by_place.items():
            yield Touch(words, place, tuple(contacts))
    runs: dict[Place, list[str]] = {}
    for segment in job.segments:
        if segment.laid:
            runs.setdefault(segment.place, []).extend((segment.a, segment.b))
    for place, contacts in runs.items():
        yield Touch("part of a run", place, tuple(contacts))
    for pin, (cavity, place) in job.moved.items():
        owner, end, _ = pin.split(".")
        mate = board.mated(owner, end)
        row = board.row(mate.plug, cavity) if mate else None
        yield Touch("given a moved terminal", place, (f"{mate.plug}.{mate.half}.{row.cavity}",) if mate and row else ())
    plugs: dict[tuple[Place, str], None] = dict.fromkeys((mate.place, mate.plug) for mate in job.mates)
    for place, plug in plugs:
        cavities = dict.fromkeys(job.parts.plugs[plug].cavities)
        yield Touch(
            "opened by a loom", place, tuple(f"{plug}.{half}.{c}" for c in cavities for half in ("unit", "car"))
        )
