"""What lies between the battery and the loads: cables with their protection, and the stretches before a fuse.

A fuse block's way is a fuse where its rating is written; where it isn't, and a `fuse` follows in the chain, that
one is the way's. A relay's contact counts as closed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from harness.electrical.conductors import ohm_per_m
from harness.graph.conductor import BODY, FUSE, INSIDE, JOINT, PLANNED, Conductor
from harness.graph.kept import kept
from harness.graph.meeting import grounded_nets
from harness.graph.wiring import Wiring
from harness.model.job import Segment
from harness.place import Place

UNFUSED = math.inf


class Cable(NamedTuple):
    """One piece of cable or lead that we lay, from its fed end. `through_a` is the greatest current that no fuse
    before it stops: infinite where there is none.
    """

    near: str
    far: str
    segment: Segment
    through_a: float


class Stretch(NamedTuple):
    """A way from a source up to its first fuse, or to a load where there is none.

    `length_m` is None where a piece has no length. `cables` are the pieces laid; `hops` the contacts in order.
    """

    source: str
    end: str
    fused: bool
    length_m: float | None
    cables: tuple[Segment, ...]
    path: tuple[str, ...]


class Fuse(NamedTuple):
    """A fuse of the plan: its two contacts, rating (None: not recorded) and where it is written."""

    a: str
    b: str
    rating_a: float | None
    place: Place


@kept
def segments(wiring: Wiring) -> dict[tuple[str, str], Segment]:
    """The piece of a chain between two contacts, by the conductor that it is."""
    return {(each.a, each.b): each for each in wiring.job.segments}


def ohms(segment: Segment, celsius: float) -> float:
    """The resistance of a piece of cable; nothing where the file says no length and size, or it is no wire."""
    if segment.size is None or segment.length_m is None:
        return 0.0
    return segment.length_m * ohm_per_m(segment.size, segment.metal, celsius)


def segment_of(wiring: Wiring, conductor: Conductor) -> Segment | None:
    """The piece of a run or found chain that a conductor is, or None; a joint may lie beside one."""
    return segments(wiring).get((conductor.a, conductor.b)) if conductor.kind != JOINT else None


@kept
def posts(wiring: Wiring) -> tuple[str, ...]:
    """Where current comes from: the battery's + and that of every further battery."""
    more = [
        f"{unit.name}.+" for unit in wiring.job.parts.units.values()
        if unit.kind == "battery" and unit.name not in wiring.gone
    ]  # fmt: skip
    return ("battery.+", *more)


@kept
def fuses(wiring: Wiring) -> dict[tuple[str, str], Fuse]:
    """Every fuse that the plan uses, by its conductor's ends, in the order of the job.

    A way of a fuse block on which nothing hangs is none; nor is one whose fuse stands in the chain behind it.
    """
    made: dict[tuple[str, str], Fuse] = {}
    units, laid = wiring.job.parts.units, segments(wiring)
    for conductor in wiring.conductors:
        if conductor.kind != FUSE or not conductor.states & PLANNED:
            continue
        segment = laid.get(conductor[:2])
        if segment is not None:
            made[conductor[:2]] = Fuse(conductor.a, conductor.b, segment.fuse_a, segment.place)
            continue
        ways_a, way = units[conductor.name].power.ways_a, wiring.contact(conductor.b).last  # of a fuse block
        if _used_way(wiring, conductor) and (way in ways_a or not _fuse_follows(wiring, conductor.b)):
            made[conductor[:2]] = Fuse(conductor.a, conductor.b, ways_a.get(way), conductor.place)
    return made


def _used_way(wiring: Wiring, conductor: Conductor) -> bool:
    """Whether anything hangs on a fuse: on one in a chain always, on a way of a fuse block not always."""
    return segment_of(wiring, conductor) is not None or len(wiring.planned.conductors(conductor.b)) > 1


def _fuse_follows(wiring: Wiring, way: str) -> bool:
    """Whether the chain from a way begins with its fuse, before any cable."""
    return any(each.kind == FUSE and each.a == way for each in wiring.planned.conductors(way) if each.b != way)


def neighbours(wiring: Wiring, here: str) -> Iterator[tuple[str, Conductor | None]]:
    """What current from `here` reaches next: over conductors as planned, and over a relay's contact (None)."""
    for conductor in wiring.planned.conductors(here):
        if conductor.kind not in (BODY, INSIDE):
            yield conductor.other(here), conductor
    if other := _over_relays(wiring).get(here):
        yield other, None


@kept
def _over_relays(wiring: Wiring) -> dict[str, str]:
    """The other end of a relay's contact, by either; of relays that stay in the car."""
    units = wiring.job.parts.units.values()
    names = [unit.name for unit in units if unit.kind == "relay" and unit.name not in wiring.gone]
    return {f"{name}.{here}": f"{name}.{other}" for name in names for here, other in (("30", "87"), ("87", "30"))}


class Reach(NamedTuple):
    """What the sources reach: by contact, what gets through (see `let_through`) and the contact before it."""

    through_a: dict[str, float]
    before: dict[str, str]


def let_through(wiring: Wiring) -> dict[str, float]:
    """The greatest current that the fuses between the sources and a contact let pass, by contact, in amperes.

    Of several ways the worst counts: the widest path, by the smallest fuse on it. Ground is not gone into: a feed
    that meets it is another fault. A fuse without a rating lets everything pass, and is told for itself.
    """
    return reach(wiring).through_a


def way_from_source(wiring: Wiring, contact: str) -> tuple[str, ...]:
    """The contacts from the source to one that it reaches, on the way that lets most through."""
    before = reach(wiring).before
    way = [contact]
    while way[-1] in before:
        way.append(before[way[-1]])
    return tuple(reversed(way))


@kept
def reach(wiring: Wiring) -> Reach:
    """The widest way from the sources to each contact of the feed side."""
    grounded = grounded_nets(wiring)
    known = fuses(wiring)
    through: dict[str, float] = {}
    before: dict[str, str] = {}
    number, leaving, relays = wiring.planned.net_number, wiring.planned.conductors, _over_relays(wiring)
    # by what gets through, greatest first, what waits to be looked at: few fuses differ, so this is no heap
    waiting = {UNFUSED: [(post, "") for post in posts(wiring) if number(post) not in grounded]}
    while waiting:
        most = max(waiting)
        row = waiting.pop(most)
        for here, came_from in row:
            if here in through or number(here) in grounded:
                continue
            through[here] = most
            if came_from:
                before[here] = came_from
            if over := relays.get(here):
                row.append((over, here))
            for conductor in leaving(here):
                a, b, kind, _, _, _ = conductor
                other = b if a == here else a
                if other in through or kind in (BODY, INSIDE):
                    continue
                rating = None
                if kind == FUSE and (fuse := known.get((a, b))) is not None:
                    rating = fuse.rating_a
                if rating is None or rating >= most:
                    row.append((other, here))
                else:
                    waiting.setdefault(rating, []).append((other, here))
    return Reach(through, before)


@kept
def cables(wiring: Wiring) -> list[Cable]:
    """Every piece of cable of the feed side that has a size, from its fed end, in the order of the job."""
    if not wiring.job.has_runs:
        return []
    through, before = reach(wiring)
    made = []
    for segment in wiring.job.segments:
        near, far = segment.a, segment.b
        if segment.laid and segment.kind == "wire" and near in through and far in through:
            if before.get(near) == far or through[far] > through[near]:  # written from the load to the source
                near, far = far, near
            made.append(Cable(near, far, segment, through[near]))
    return made


@kept
def stretches(wiring: Wiring) -> list[Stretch]:
    """The ways from each source to its first fuse or, where there is none, to a load."""
    made: list[Stretch] = []
    known = fuses(wiring)
    grounded = grounded_nets(wiring)
    for post in posts(wiring):
        if wiring.planned.net_number(post) in grounded:
            continue
        seen = {post}
        row: list[tuple[str, float | None, tuple[Segment, ...], tuple[str, ...]]] = [(post, 0.0, (), (post,))]
        for here, length_m, laid, path in row:
            ends = 0
            for other, conductor in neighbours(wiring, here):
                if other in seen:
                    continue
                if conductor is not None and conductor.kind == FUSE and not _used_way(wiring, conductor):
                    continue  # a way of a fuse block with nothing on it
                if conductor is not None and conductor[:2] in known:
                    made.append(Stretch(post, here, True, length_m, laid, path))
                    ends += 1
                    continue
                seen.add(other)
                ends += 1
                segment = segment_of(wiring, conductor) if conductor is not None else None
                piece, cable = length_m, laid
                if segment is not None and segment.laid and segment.kind == "wire":
                    piece = None if length_m is None or segment.length_m is None else length_m + segment.length_m
                    cable = (*laid, segment)
                row.append((other, piece, cable, (*path, other)))
            if not ends and laid:
                made.append(Stretch(post, here, False, length_m, laid, path))
    return made
