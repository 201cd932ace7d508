"""Places where many joints by hand lie side by side."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.splices import splices
from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.model.job import Joint

# Two pairs in one place go back behind a radio; more make a lump (common practice, no source).
FEW = 4
# Nobody is asked for a stagger before four pairs and one wire more share a place (common practice, no source).
MANY = 8
# A joint with its cover is about this long, so closer than this they lie on each other (common practice, no source).
APART_M, APART_WORDS = 0.040, "40 mm"


class Lump(NamedTuple):
    """Joints at one place as written, and how many wires are joined in them."""

    at: str
    joints: tuple[Joint, ...]
    splices: int


@kept
def lumps(wiring: Wiring) -> tuple[list[Lump], list[Lump]]:
    """Places with splices side by side: (more than a few, written as too close; many, with nothing written)."""
    wire_to_wire = {name for name, method in methods().items() if not method.plugs_in and not method.at_terminal}
    at: dict[str, list[Joint]] = {}
    for joint in wiring.job.joints:
        if joint.method in wire_to_wire and joint.at:
            at.setdefault(joint.at.lower(), []).append(joint)
    close, silent = [], []
    for joints in at.values():
        near = _lump([joint for joint in joints if joint.stagger_m is not None and _is_close(joint.stagger_m)])
        unsaid = _lump([joint for joint in joints if joint.stagger_m is None])
        if near.splices > FEW:
            close.append(near)
        elif near.splices + unsaid.splices > MANY and unsaid.joints:
            silent.append(_lump([each for each in joints if each.stagger_m is None or _is_close(each.stagger_m)]))
    return close, silent


def _is_close(stagger_m: float) -> bool:
    return stagger_m < APART_M * (1 - 1e-9)


def _lump(joints: list[Joint]) -> Lump:
    return Lump(joints[0].at if joints else "", tuple(joints), sum(len(splices(joint)) for joint in joints))
