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
