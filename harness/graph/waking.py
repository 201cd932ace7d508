"""The turn-on graph: what gives 12 V to a unit's turn-on terminal, through relays and diodes, and who wakes whom."""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING, NamedTuple

from harness.graph.feeding import is_live
from harness.graph.kept import kept
from harness.graph.meeting import grounded_nets
from harness.graph.wiring import OUTPUT, Wiring
from harness.model.parts import Unit
from harness.units import quantity

if TYPE_CHECKING:
    import networkx as nx

# What gives the 12 V, by the function of its contact; CONTROL is an output that another unit switches.
CONSTANT, SWITCHED, TRIGGER, AERIAL, LIGHT, CONTROL = "constant", "switched", "trigger", "aerial", "light", "control"
_KIND = {"battery": CONSTANT, "switched": SWITCHED, "trigger": TRIGGER, "aerial": AERIAL, "light": LIGHT}
CAR = ""  # the node of the car's own wiring in the graph of who wakes whom


class Giver(NamedTuple):
    """A contact that gives 12 V. `unit` is whose terminal it is, empty for the car's wiring or the battery.

    `gives_a` is what it can give where that is written. `through` are the relays and diodes between it and what it
    wakes, from the woken unit back.
    """

    contact: str
    kind: str
    unit: str
    gives_a: float | None
    through: tuple[str, ...] = ()


class Wake(NamedTuple):
    """A terminal that wants 12 V to wake its unit: a turn-on terminal, or the coil of a relay.

    `draws_a` is None where the file doesn't say.
    """

    unit: str
    contact: str
    draws_a: float | None
    coil: bool = False


def wake_words(unit: Unit) -> list[tuple[str, float | None]]:
    """(terminal, current) of each lead that wakes a unit; `bus` and `signal` are none."""
    made = []
    for words in unit.wakes:
        terminal, _, current = words.partition(" ")
        if terminal.lower() not in ("bus", "signal"):
            made.append((terminal, quantity(current, "current") if current else None))
    return made


def wakes_without_lead(unit: Unit) -> bool:
    """Whether the bus or a signal wakes it, alone or besides a lead."""
    return any(words.partition(" ")[0].lower() in ("bus", "signal") for words in unit.wakes)


@kept
def wakes(wiring: Wiring) -> list[Wake]:
    """Every terminal of the plan that wants 12 V to wake its unit, in the order of the job."""
    made: list[Wake] = []
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        if unit.kind == "relay":
            made.append(Wake(unit.name, coil_plus(wiring, unit.name), unit.power.coil_a, coil=True))
            continue
        names = {terminal.lower(): terminal for terminal in unit.terminals}
        for terminal, draws_a in wake_words(unit):
            made.append(Wake(unit.name, f"{unit.name}.{names[terminal.lower()]}", draws_a))
    return made


def coil_plus(wiring: Wiring, relay: str) -> str:
    """The end of a relay's coil that gets the 12 V: the one that isn't on ground; 86 where neither is."""
    grounded = grounded_nets(wiring)
    first, second = f"{relay}.86", f"{relay}.85"
    if wiring.planned.net_number(first) in grounded and wiring.planned.net_number(second) not in grounded:
        return second
    return first


def givers(wiring: Wiring, contact: str) -> list[Giver]:
    """What gives 12 V in the net of a contact as planned, nearest first; its own unit's outputs don't count."""
    owner = wiring.contact(contact).owner
    return [each for each in givers_of_net(wiring, contact) if each.unit != owner]


def givers_of_net(wiring: Wiring, contact: str) -> list[Giver]:
    """Everything that gives 12 V in the net of a contact as planned, nearest to the contact first asked about."""
    known: dict[int, list[Giver]] = _nets(wiring)
    number = wiring.planned.net_number(contact)
    made = known.get(number)
    if made is None:
        made = known[number] = _look(wiring, contact)
    return made


@kept
def _nets(wiring: Wiring) -> dict[int, list[Giver]]:
    """Filled as it is asked: a net is looked through once."""
    return {}


def _look(wiring: Wiring, contact: str) -> list[Giver]:
    made: dict[tuple[str, str], Giver] = {}
    units = wiring.job.parts.units
    for name in wiring.planned.around(contact):
        about = wiring.contact(name)
        if wiring.role(name) == OUTPUT or not is_live(wiring, name) or _given_elsewhere(wiring, name):
            continue
        kind = _KIND.get(about.function.kind, CONTROL)
        gives_a = None
        if about.kind == "plug":
            plug = wiring.job.parts.plugs[about.owner]
            unit = units.get(plug.unit if about.half == "unit" else plug.car)
        else:
            unit = units.get(about.owner) if about.kind == "unit" else None
        terminal = about.function.name if about.kind == "plug" else about.last
        if about.kind == "unit" and unit is not None and unit.kind != "radio" and kind != CONSTANT:
            kind = CONTROL
        if unit is not None:
            gives_a = unit.gives_a.get(terminal)
        owner = unit.name if unit is not None else CAR
        # a cavity and the terminal of the unit that sits on it are one source
        made.setdefault((owner, terminal), Giver(name, kind, owner, gives_a))
    return list(made.values())


def _given_elsewhere(wiring: Wiring, name: str) -> bool:
    """Whether a turn-on or aerial wire on a plug's car half came, as found, from another plug of the job.

    Then that plug says whether it still gives, and this end of the wire is no source of its own.
    """
    about = wiring.contact(name)
    if about.half != "car" or about.function.kind not in (TRIGGER, AERIAL):
        return False
    return any(
        other.half == "unit"  # of a plug: as found no loom is there yet
        and other.owner != about.owner
        and other.function.kind == about.function.kind
        for other in map(wiring.contact, wiring.found.net(name))
    )


def sources(wiring: Wiring, contact: str) -> list[Giver]:
    """What wakes a terminal in the end, through relays (their coil's givers count, not what feeds 30) and diodes.

    Each giver once, the nearest way; a relay whose coil nothing reaches gives nothing.
    """
    made = [*givers(wiring, contact)]
    seen = {wiring.planned.net_number(contact)}
    row: deque[tuple[str, tuple[str, ...]]] = deque([(contact, ())])
    across = passers(wiring)
    while row:
        here, through = row.popleft()
        for unit, enters in across.get(wiring.planned.net_number(here), ()):
            if wiring.job.parts.units[unit].kind == "relay" and not _fed_beyond(wiring, unit, here):
                continue
            number = wiring.planned.net_number(enters)
            if number in seen:
                continue
            seen.add(number)
            way = (*through, unit)
            known = {each.contact for each in made}
            made += [each._replace(through=way) for each in givers(wiring, enters) if each.contact not in known]
            row.append((enters, way))
    return made


@kept
def passers(wiring: Wiring) -> dict[int, list[tuple[str, str]]]:
    """By net: the relays and diodes that may bring 12 V into it, each with the contact to go on from.

    That is the end of the relay's coil that gets the 12 V, and the diode's `a`.
    """
    made: dict[int, list[tuple[str, str]]] = {}
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone or unit.kind not in ("relay", "diode"):
            continue
        if unit.kind == "diode":
            exits, enters = [f"{unit.name}.k"], f"{unit.name}.a"
        else:
            exits, enters = [f"{unit.name}.87", f"{unit.name}.30"], coil_plus(wiring, unit.name)
        for number in dict.fromkeys(wiring.planned.net_number(each) for each in exits):
            made.setdefault(number, []).append((unit.name, enters))
    return made


def _fed_beyond(wiring: Wiring, relay: str, here: str) -> bool:
    """Whether the contact of a relay's pair on the other side of `here` has a feed."""
    far = "30" if wiring.planned.joined(here, f"{relay}.87") else "87"
    return bool(givers(wiring, f"{relay}.{far}"))


@kept
def who_wakes_whom(wiring: Wiring) -> nx.DiGraph:
    """Units as nodes and CAR for the car itself; an edge from what gives the 12 V to what it wakes.

    A unit that the bus or a signal wakes is woken by the car, and so is one that no lead wakes (a radio). For
    networkx's algorithms: order, loops.
    """
    import networkx as nx

    graph = nx.DiGraph()
    graph.add_node(CAR)
    led = {wake.unit for wake in wakes(wiring)}
    for unit in wiring.job.parts.units.values():
        if unit.name not in wiring.gone and (unit.name not in led or wakes_without_lead(unit)):
            graph.add_edge(CAR, unit.name)
    for wake in wakes(wiring):
        for giver in sources(wiring, wake.contact):
            graph.add_edge(giver.unit, wake.unit)
    return graph


def is_alone(wiring: Wiring, contact: str) -> bool:
    """Whether nothing outside its own unit is joined to a terminal as planned."""
    owner = wiring.contact(contact).owner
    return all(wiring.contact(name).owner == owner for name in wiring.planned.net(contact))


def unplanned_wakes(wiring: Wiring) -> list[Wake]:
    """The terminals of a job without `runs:` that nothing at all is joined to: their turn-on isn't planned yet.

    Units that the bus or a signal wakes as well are not among them, nor are relays with nothing on them.
    """
    if wiring.job.has_runs:
        return []
    units = wiring.job.parts.units
    return [
        wake
        for wake in wakes(wiring)
        if is_alone(wiring, wake.contact)
        and not wakes_without_lead(units[wake.unit])
        and (not wake.coil or relay_in_use(wiring, wake.unit))
    ]


def relay_in_use(wiring: Wiring, relay: str) -> bool:
    """Whether anything is joined to what a relay switches."""
    return any(not is_alone(wiring, f"{relay}.{last}") for last in ("30", "87"))
