"""Cables behind a fuse that is greater than they can carry, each branch once, where it begins."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import NamedTuple

from harness.electrical.fuses import fuse_for, value_below_a
from harness.electrical.sizing import sizes_like
from harness.graph.cable import Cable, Fuse, cables, fuses, way_from_source
from harness.graph.kept import kept
from harness.graph.shop import cable_limit_a
from harness.graph.supply import supply
from harness.graph.wiring import Wiring
from harness.units import WireSize

# A step-down has thicker cable between the fuse and itself; copper-clad only fails where copper would do.
BEHIND_ITS_FUSE, STEP_DOWN, COPPER_CLAD = "behind its fuse", "step-down", "copper-clad"


class Overfused(NamedTuple):
    """A cable, the fuse before it and what it can carry, amperes; what would mend it.

    `fuse_a` is a value that is sold and that this cable allows (None: there is none so small); `size` the thinnest
    size that the fuse there is protects (None: no size on the list).
    """

    cable: Cable
    kind: str
    limit_a: float
    copper_limit_a: float
    fuse_a: float | None
    size: WireSize | None
    way: tuple[str, ...]


@kept
def overfused(wiring: Wiring) -> list[Overfused]:
    """In the order of the job; pieces further along a branch that is told already are left out."""
    wrong: dict[str, Overfused] = {}
    good: dict[str, Cable] = {}
    for cable in cables(wiring):
        size = cable.segment.size
        if size is None or math.isinf(cable.through_a):
            continue
        limit_a = cable_limit_a(wiring, size, cable.segment.metal)
        if cable.through_a <= limit_a * (1 + 1e-6):
            good[cable.far] = cable
            continue
        copper_a = cable_limit_a(wiring, size, "copper")
        way = way_from_source(wiring, cable.far)
        wrong[cable.far] = Overfused(
            cable, BEHIND_ITS_FUSE, limit_a, copper_a, _fuse(wiring, cable, limit_a), _size(wiring, cable), way
        )
    made = []
    for each in wrong.values():
        kind = _kind(wiring, each, wrong, good)
        if kind is None:
            continue
        if each.cable.through_a <= each.copper_limit_a * (1 + 1e-6):
            kind = COPPER_CLAD
        made.append(each._replace(kind=kind))
    return made


def _kind(wiring: Wiring, each: Overfused, wrong: dict[str, Overfused], good: dict[str, Cable]) -> str | None:
    """By the cable that comes before it on its way back to the fuse; None where it is told with that one."""
    known = fuses(wiring)
    back = each.way[-2::-1]  # from before its far end to the source
    for here, earlier in zip(back, (*back[1:], ""), strict=True):
        if here in wrong:
            # what comes before it lets no less through: of one size it is told for both
            return None if wrong[here].cable.segment.size == each.cable.segment.size else STEP_DOWN
        if here in good:
            return STEP_DOWN
        if (earlier, here) in known or (here, earlier) in known:
            break
    return BEHIND_ITS_FUSE


def _fuse(wiring: Wiring, cable: Cable, limit_a: float) -> float | None:
    """The fuse to fit before this cable: for what flows in it where that is known, else the greatest allowed."""
    solved = supply(wiring)
    ends = (cable.segment.a, cable.segment.b)
    if solved is not None and not solved.collapsed and (flowing := solved.current_a.get(ends)):
        choice = fuse_for(abs(flowing), limit_a)
        return choice.rating_a if choice.fits else None
    return value_below_a(limit_a)


def _size(wiring: Wiring, cable: Cable) -> WireSize | None:
    assert cable.segment.size is not None
    for size in sizes_like(cable.segment.size):
        if cable_limit_a(wiring, size, cable.segment.metal) >= cable.through_a * (1 - 1e-6):
            return size
    return None


def piece_words(wiring: Wiring, cable: Cable) -> str:
    """`the 8 AWG cable to amp B+`: a piece by its size and what hangs at its end."""
    size = cable.segment.size.text if cable.segment.size else "cable"
    metal = " copper-clad" if cable.segment.metal == "CCA" else ""
    return f"the {size}{metal} cable to {end_words(wiring, cable.far, cable.near)}"


def end_words(wiring: Wiring, contact: str, before: str) -> str:
    """The contact that a piece from `before` ends at; for a point within a run the next one that has a name.

    A run may be written back to where it began: then that is its end.
    """
    while wiring.contact(contact).kind == "run":
        ends = [each.other(contact) for each in wiring.planned.conductors(contact)]
        contact, before = next((end for end in ends if end != before), before), contact
    return wiring.words(contact)


def least_limit_behind(wiring: Wiring, fuse: Fuse) -> float:
    """The least that any cable between a fuse and the next ones carries, amperes; infinite where none has a size."""
    known = fuses(wiring)
    least = math.inf
    for cable in cables(wiring):
        if cable.segment.size is None:
            continue
        way = way_from_source(wiring, cable.far)
        steps = list(pairwise(way))
        last = next((step for step in reversed(steps) if step in known or step[::-1] in known), None)
        if last is not None and {fuse.a, fuse.b} == set(last):
            least = min(least, cable_limit_a(wiring, cable.segment.size, cable.segment.metal))
    return least
