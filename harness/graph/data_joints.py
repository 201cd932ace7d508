"""The joints made on a data bus."""

from __future__ import annotations

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.job import Joint


@kept
def data_joints(wiring: Wiring) -> list[tuple[Joint, str, str]]:
    """(joint, the data wire that it touches: the car's before a unit's, its end), in the order of the job.

    A contact that nobody charted as data counts where it conducts to one that is.
    """
    wires = wiring.contacts_for("data")
    if not wires:
        return []
    state = wiring.planned
    nets: dict[int, str] = {}
    for name in sorted(wires, key=lambda wire: wiring.contact(wire).kind != "plug"):
        nets.setdefault(state.net_number(name), name)
    made = []
    for joint in wiring.job.joints:
        ends = [end for link in joint.links for end in link]
        own = [end for end in ends if wiring.contact(end).function.kind == "data"]
        own.sort(key=lambda end: wiring.contact(end).kind != "plug")
        beyond = next(((nets[number], end) for end in ends if (number := state.net_number(end)) in nets), None)
        if own:
            made.append((joint, own[0], own[0]))
        elif beyond is not None:
            made.append((joint, *beyond))
    return made
