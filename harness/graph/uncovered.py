"""Joints by hand whose method leaves live metal, and of which nobody wrote what covers it."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.joints import methods
from harness.model.job import Joint
from harness.place import Place

_NOTHING = frozenset(("", "none", "bare", "unknown"))
_BODY = frozenset(("ground", "chassis"))


def uncovered(wiring: Wiring) -> list[list[Joint]]:
    """The joints without a cover, those under one heading together where it says none, in the order of the job.

    A joint on a ground point is bare by nature.
    """
    known = methods()
    groups: dict[tuple[Place, str], list[Joint]] = {}
    for joint in wiring.job.joints:
        method = known.get(joint.method)
        if method is None or not method.needs_cover or joint.cover.lower() not in _NOTHING:
            continue
        if not all(_BODY & {wiring.contact(end).kind for end in link} for link in joint.links):
            groups.setdefault((where_to_write(joint), joint.at.lower()), []).append(joint)
    return list(groups.values())


def where_to_write(joint: Joint) -> Place:
    """Where its cover is written: at the joint where it says one of its own, else at the heading."""
    return joint.place if joint.cover else joint.heading
