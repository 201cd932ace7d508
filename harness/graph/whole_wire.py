"""A wire from end to end, contact by contact: the path of a finding whose cause and outcome lie far apart."""

from __future__ import annotations

from collections.abc import Callable

from harness.graph.state import State
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS


def far_end(state: State, contact: str, *, not_by: str = "", kind: str = "") -> str:
    """The contact furthest from this one by wire, itself where nothing else conducts to it.

    The car's body is where a ground wire ends: what else hangs on it is no end of this wire. `not_by` leaves out
    the conductor to that neighbour, `kind` all conductors of that kind at this contact.
    """
    without = frozenset(
        each for each in state.conductors(contact) if each.other(contact) == not_by or each.kind == kind
    )
    reached = state.around(contact, without, CHASSIS.__eq__)
    return CHASSIS if CHASSIS in reached else next(reversed(reached))


def to_nearest(state: State, contact: str, wanted: Callable[[str], bool], not_by: str) -> tuple[str, ...]:
    """The contacts from this one to the nearest that is wanted, `not_by` left out; none where there is none."""
    row, came = [contact], {contact: "", not_by: ""}
    for here in row:
        for each in state.conductors(here):
            other = each.other(here)
            if other in came:
                continue
            came[other] = here
            if wanted(other):
                way = [other]
                while came[way[-1]]:
                    way.append(came[way[-1]])
                return tuple(reversed(way))
            row.append(other)
    return ()


def through_cavity(wiring: Wiring, plug: str, cavity: str) -> tuple[str, ...]:
    """The wire of a cavity as found, from its far end on the unit's side through the plug to the one on the car's."""
    unit, car = (f"{plug}.{half}.{cavity}" for half in ("unit", "car"))
    start = far_end(wiring.found, unit, not_by=car)
    return along(wiring, wiring.found, start, far_end(wiring.found, car, not_by=unit))


def along(wiring: Wiring, state: State, start: str, end: str) -> tuple[str, ...]:
    """The contacts from start to end in one state; the start alone where nothing joins them."""
    return wiring.way_in_words(start, state.path(start, end))
