"""How a cable behind too great a fuse is told: shared by the checks on fuses and cables."""

from __future__ import annotations

from collections.abc import Iterator

from harness.checks.registry import Fault
from harness.finding import Spot
from harness.graph.overfused import Overfused, overfused, piece_words
from harness.graph.wiring import Wiring


def faults(wiring: Wiring, kind: str, because: str, first: str) -> Iterator[Fault]:
    """One fault a cable of that kind. `because` ends the message; `first`, fuse or size, is offered first."""
    for each in overfused(wiring):
        if each.kind == kind:
            yield _fault(wiring, each, because, first)


def _fault(wiring: Wiring, each: Overfused, because: str, first: str) -> Fault:
    cable = each.cable
    what = piece_words(wiring, cable)
    offers = {
        "fuse": f"fit a fuse of {each.fuse_a:g} A {'where it begins' if first == 'fuse' else 'before it'}"
        if each.fuse_a
        else "",
        "size": f"lay {each.size.text}{' in CCA' if cable.segment.metal == 'CCA' else ''}" if each.size else "",
    }
    order = (first, "size" if first == "fuse" else "fuse")
    said = " or ".join(offers[word] for word in order if offers[word]) or "split the load over cables of their own"
    return Fault(
        at=Spot(cable.segment.place, wiring.words(cable.far)),
        message=f"{what[0].upper()}{what[1:]} lies behind a fuse of {cable.through_a:g} A and carries at most "
        f"{each.limit_a:.3g} A: {because}",
        do=f"{said[0].upper()}{said[1:]}.",
        about=(cable.segment.a, cable.segment.b),
        path=each.way,
    )
