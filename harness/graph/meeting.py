"""Where two kinds of contact that must not meet are joined, and by what."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from harness.graph.conductor import (
    ELSEWHERE,
    FUSE,
    JOINT,
    LEAD,
    MADE,
    MATED,
    PLUGGED,
    RUN,
    WIRE,
    Conductor,
    Hop,
    crosses,
    ranked,
)  # fmt: skip
from harness.graph.kept import kept
from harness.graph.wiring import GROUND, Wiring
from harness.model.contact import Contact
from harness.place import Place

FEED_KINDS = ("battery", "switched")
Ask = Callable[[str], bool]


class Meeting(NamedTuple):
    """`near` is the last contact of the first kind, `far` the first of the second; `hops` the whole way.

    `conductor` is what a person made between the two, None where nothing on the way was made by one.
    """

    start: str
    near: str
    far: str
    hops: tuple[Hop, ...]
    conductor: Conductor | None

    @property
    def at(self) -> str:
        """The contact on the near side of the conductor to blame; `near` where there is none."""
        here = self.start
        for hop in self.hops:
            if hop.conductor == self.conductor:
                return here
            here = hop.contact
        return self.near


def is_feed(wiring: Wiring, contact: Contact) -> bool:
    """A battery or switched feed, or the supply terminal of a unit.

    A relay's 30 is none: what it switches may as well be ground.
    """
    if contact.kind == "run":
        return False
    if contact.kind == "unit":
        if contact.last == "+":  # only a battery has such a terminal
            return True
        return wiring.job.parts.units[contact.owner].kind != "relay" and contact.function.kind in FEED_KINDS
    return contact.function.kind in FEED_KINDS


@kept
def feeds(wiring: Wiring) -> tuple[str, ...]:
    """Every contact that is a feed, in the order of the job."""
    suspects = wiring.contacts_for(*FEED_KINDS, "terminal")  # the + of a battery is a terminal
    return tuple(name for name in suspects if is_feed(wiring, wiring.contact(name)))


def is_ground(wiring: Wiring, name: str) -> bool:
    """Ground by its function, a ground point, the car's body, or a second battery's −."""
    return wiring.role(name) == GROUND or wiring.contact(name).last == "-"  # only a battery has such a terminal


@kept
def grounded_nets(wiring: Wiring) -> frozenset[int]:
    """The nets as planned that hold ground."""
    number, ports = wiring.planned.net_number, wiring.ports
    by_function = [number(name) for name in wiring.contacts_for("ground") if name not in ports]
    batteries = [name for name in wiring.contacts_for("terminal") if name.endswith(".-")]
    return frozenset([*by_function, *map(number, batteries)])


def reach(wiring: Wiring, start: str, wall: Ask) -> tuple[list[str], str]:
    """All that conducts to `start` as planned without passing a wall, and the wall met first (or empty)."""
    reached = wiring.planned.around(start, wall=wall)
    walls = {name: None for name in reached if name != start and wall(name)}
    return [name for name in reached if name not in walls], next(iter(walls), "")


def meeting(wiring: Wiring, start: str, far: str, first_kind: Ask) -> Meeting:
    """What joins `start` to `far`: looked for only behind the last contact of the first kind on the way."""
    hops = wiring.planned.path(start, far)
    near, since = start, 0
    for at, hop in enumerate(hops):
        if hop.contact != far and first_kind(hop.contact):
            near, since = hop.contact, at + 1
    made = [hop.conductor for hop in hops[since:] if hop.conductor.kind in MADE]
    return Meeting(start, near, far, hops, min(made, key=_order, default=None))


def place_of(wiring: Wiring, conductor: Conductor | None, contact: str) -> Place:
    """Where a person changes it: a moved terminal's entry, else the conductor's line, else the contact's."""
    if conductor is None:
        return wiring.contact(contact).place
    for end in (conductor.a, conductor.b):
        if conductor.kind == "plugged" and end in wiring.job.moved:
            return wiring.job.moved[end][1]
    return conductor.place


# As in `RANK`, but that a joint or a run of ours is likelier to be wrong than a loom's wire that crosses on purpose.
_RANK = ranked((JOINT,), (RUN, FUSE), (ELSEWHERE,), (PLUGGED,), (LEAD,), (WIRE,), (MATED,))


def _order(conductor: Conductor) -> int:
    return _RANK[ELSEWHERE if crosses(conductor) else conductor.kind]
