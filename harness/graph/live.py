"""Live terminals, and what a wire joins to them outside of the units: where outputs meet, where ground is."""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from harness.graph.bonded import bonded, passed_on
from harness.graph.conductor import BOND, Conductor, Hop
from harness.graph.kept import kept
from harness.graph.state import Reached
from harness.graph.wiring import Wiring
from harness.model.contact import Contact
from harness.model.parts import Port


class Meeting(NamedTuple):
    """Live terminals of two or more outputs on one wire; `reached` is the search from the first of them."""

    terminals: tuple[str, ...]
    ports: frozenset[tuple[str, str]]  # (unit, output)
    reached: Reached

    @property
    def minus_only(self) -> bool:
        return all(terminal.endswith("-") for terminal in self.terminals)


def is_ground(contact: Contact) -> bool:
    """Whether a contact is ground for sure; what a loom's maker calls its lead is no proof."""
    return contact.function.kind == "ground" and contact.kind != "loom"


@kept
def grounded_nets(wiring: Wiring) -> frozenset[int]:
    """The nets as planned that hold a contact which is ground for sure."""
    number = wiring.planned.net_number
    return frozenset(number(name) for name in wiring.contacts_for("ground") if is_ground(wiring.contact(name)))


def outside(wiring: Wiring, start: str) -> Reached:
    """Everything that conducts to `start` as planned without passing through ground, nearest first."""
    return wiring.planned.around(start, wall=lambda name: is_ground(wiring.contact(name)))


@kept
def live_terminals(wiring: Wiring) -> list[tuple[str, Port]]:
    """Every + terminal of an output that its unit drives, and every − that it does not tie to ground inside."""
    made: list[tuple[str, Port]] = []
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        inside, ground, passed = bonded(unit), f"{unit.name}.GND", passed_on(unit)
        for port in unit.ports.values():
            if port.way == "in" or port.name in passed:
                continue
            made += [(t, port) for t in (port.plus, port.minus) if inside.get(t) != ground]
    return made


@kept
def meetings(wiring: Wiring) -> list[Meeting]:
    """Where live terminals of different outputs conduct to each other, + before −, in the order of the file.

    Terminals that a unit itself joins inside count once: that is its maker's doing.
    """
    by_net: dict[int, list[tuple[str, Port]]] = defaultdict(list)
    for terminal, port in live_terminals(wiring):
        by_net[wiring.planned.net_number(terminal)].append((terminal, port))
    made: list[Meeting] = []
    for live in by_net.values():
        if len({(port.unit, port.name) for _, port in live}) < 2:
            continue
        made += _clusters(wiring, sorted(live, key=lambda each: each[0].endswith("-")))
    return sorted(made, key=lambda meeting: meeting.minus_only)


def _clusters(wiring: Wiring, live: list[tuple[str, Port]]) -> list[Meeting]:
    made: list[Meeting] = []
    left = dict(live)
    while left:
        first = next(iter(left))
        reached = outside(wiring, first)
        here = {terminal: left.pop(terminal) for terminal in list(left) if terminal in reached}
        kept: dict[str, str] = {}
        for terminal, port in here.items():
            root = bonded(wiring.job.parts.units[port.unit]).get(terminal, terminal)
            kept.setdefault(root, terminal)
        terminals = tuple(kept.values())
        ports = frozenset((here[t].unit, here[t].name) for t in terminals)
        if len(ports) > 1:
            made.append(Meeting(terminals, ports, reached))
    return made


def seen_at(wiring: Wiring, conductor: Conductor | None, otherwise: str) -> str:
    """The end of a conductor that one holds in the car: a plug's cavity or a lead before a unit's terminal."""
    if conductor is None:
        return otherwise
    rank = {"plug": 0, "loom": 0, "speaker": 1, "unit": 2}
    return min((conductor.a, conductor.b), key=lambda name: rank.get(wiring.contact(name).kind, 3))


def grounded_inside(hop: Hop, wiring: Wiring) -> Port | None:
    """The input whose own bond is this step to ground, or None."""
    conductor = hop.conductor
    if conductor.kind != BOND:
        return None
    for name in (conductor.a, conductor.b):
        port = wiring.ports.get(name)
        if port is not None and port.way == "in":
            return port
    return None
