"""Fuses between a unit's ground and the body."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.cable import Fuse, fuses, segments
from harness.graph.conductor import FUSE, Conductor
from harness.graph.grounding import ground_walk, is_body, is_ground_terminal
from harness.graph.meeting import grounded_nets, is_feed
from harness.graph.state import Reached, hops_to
from harness.graph.wiring import Wiring


class FusedGround(NamedTuple):
    """A fuse, the ground terminal behind it, and the contacts from there through the fuse to the body."""

    fuse: Fuse
    terminal: str
    path: tuple[str, ...]


def fused_grounds(wiring: Wiring) -> Iterator[FusedGround]:
    """Every fuse of the plan with a ground terminal on one side and the body on the other, and no feed."""
    grounded = grounded_nets(wiring)
    for fuse in fuses(wiring).values():
        if fuse.a == fuse.b or wiring.planned.net_number(fuse.a) not in grounded:
            continue
        segment = segments(wiring).get((fuse.a, fuse.b))
        if segment is not None and not segment.laid:
            continue
        own = frozenset(each for each in wiring.planned.conductors(fuse.a) if _is(each, fuse))
        sides = [(end, ground_walk(wiring, end, without=own)) for end in (fuse.a, fuse.b)]
        if any(is_feed(wiring, wiring.contact(name)) for _, side in sides for name in side):
            continue
        for (end, lead), (other, rest) in (sides, sides[::-1]):
            terminal = next((name for name in lead if is_ground_terminal(wiring, name)), "")
            body = next((name for name in rest if is_body(wiring, name)), "")
            if terminal and body:
                yield FusedGround(fuse, terminal, (*_back(lead, end, terminal), *_along(rest, other, body)))
                break


def _is(conductor: Conductor, fuse: Fuse) -> bool:
    return conductor.kind == FUSE and conductor[:2] == (fuse.a, fuse.b)


def _along(walk: Reached, start: str, end: str) -> tuple[str, ...]:
    return (start, *(hop.contact for hop in hops_to(walk, end)))


def _back(walk: Reached, start: str, end: str) -> tuple[str, ...]:
    return _along(walk, start, end)[::-1]
