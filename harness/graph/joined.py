"""What a person joins to a contact in the plan."""

from __future__ import annotations

from harness.graph.conductor import FOUND, FUSE, JOINT, RUN, Conductor
from harness.graph.wiring import Wiring


def made_at(wiring: Wiring, name: str) -> list[Conductor]:
    """Joints and runs of ours that end at a contact."""
    if name not in wiring.laid:
        return []
    return [
        conductor
        for conductor in wiring.planned.conductors(name)
        if conductor.kind in (JOINT, RUN, FUSE) and not conductor.states & FOUND
    ]
