"""Wires of the car that are worked on by hand: joined, cut, or the end of a run. A loom plugged in picks no wire."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.place import Place


class Work(NamedTuple):
    """What is done by hand at a contact of a plug, in words, and where that is written."""

    words: str
    place: Place


@kept
def worked(wiring: Wiring) -> dict[str, Work]:
    """Contact of a plug -> the first thing done by hand to its wire, in the order of the job."""
    made: dict[str, Work] = {}
    for name, work in _done(wiring):
        if name not in made and wiring.contact(name).kind == "plug":
            made[name] = work
    return made


def _done(wiring: Wiring) -> Iterator[tuple[str, Work]]:
    job = wiring.job
    for name, place in job.cut.items():
        yield name, Work("it is cut", place)
    for joint in job.joints:
        work = Work(f"{joint.name} is made on it", joint.place)
        for link in joint.links:
            yield link.a, work
            yield link.b, work
    for segment in job.segments:
        if segment.laid:
            work = Work("a run is joined to it", segment.place)
            yield segment.a, work
            yield segment.b, work
