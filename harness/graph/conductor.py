"""What lies between two contacts, and in which state of the car it is there."""

from __future__ import annotations

from typing import NamedTuple

from harness.place import Place

FOUND = 1
PLANNED = 2
BOTH = FOUND | PLANNED

# kinds of conductor
MATED = "mated"  # the two halves of a plug, still joined
PLUGGED = "plugged"  # a loom's end in one half of a plug
INSIDE = "inside"  # a plug's cavity to its unit's terminal
BOND = "bond"  # joined inside a unit
LEAD = "lead"  # a wire of a loom
WIRE = "wire"  # the car's own wire
RUN = "run"  # a wire that we lay
FUSE = "fuse"
JOINT = "joint"
BODY = "body"  # metal of the car


def ranked(*groups: tuple[str, ...]) -> dict[str, int]:
    """Kinds by how likely they are to blame: those of the first group before those of the second."""
    return {kind: at for at, kinds in enumerate(groups) for kind in kinds}


# What a person made is likelier to be wrong than what a maker made (common practice, no source); likelier still what is
# said to be turned round, and what was moved or crosses over to another cavity.
TURNED, ELSEWHERE = "turned", "elsewhere"
RANK = ranked(
    (TURNED,), (ELSEWHERE,), (JOINT,), (RUN, FUSE), (PLUGGED,), (LEAD,), (WIRE,), (MATED,), (INSIDE,), (BOND,), (BODY,)
)
MADE = frozenset((JOINT, RUN, FUSE, PLUGGED, LEAD, WIRE, MATED))  # and no inside of a unit, nor the body


class Conductor(NamedTuple):
    """One way for current between contacts `a` and `b`; `states` says as found, as planned or both.

    `name` is the joint's, loom's or plug's; `place` is where the job file says so.
    """

    a: str
    b: str
    kind: str
    states: int
    name: str
    place: Place

    def other(self, contact: str) -> str:
        return self.b if contact == self.a else self.a


class Hop(NamedTuple):
    """One step of a path: the conductor taken and the contact reached."""

    conductor: Conductor
    contact: str


def crosses(conductor: Conductor) -> bool:
    """Whether a wire of a loom leads to another cavity than it comes from; a lead with a name of its own doesn't."""
    a, b = conductor.a.split("."), conductor.b.split(".")
    return conductor.kind == LEAD and len(a) == len(b) and a[-1] != b[-1]
