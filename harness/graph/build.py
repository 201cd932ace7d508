"""From the job to its conductors: the car as found, and what the plan opens, plugs in, joins and lays."""

from __future__ import annotations

from collections.abc import Iterator

from harness.graph.conductor import (
    BODY,
    BOND,
    BOTH,
    FOUND,
    FUSE,
    INSIDE,
    JOINT,
    LEAD,
    MATED,
    PLANNED,
    PLUGGED,
    RUN,
    WIRE,
    Conductor,
)
from harness.graph.pins import PlugBoard
from harness.model.contact import CHASSIS
from harness.model.job import Job, Segment
from harness.model.parts import Loom, Plug, Row, Unit
from harness.read.turned_here import other_terminal

# A named tuple made from a tuple: a third of the time, and there is one for every contact and line of a big job.
_new = tuple.__new__


def conductors(job: Job, board: PlugBoard) -> list[Conductor]:
    """Every conductor of both states, in the order of the file's parts."""
    made: list[Conductor] = []
    opened = job.apart.union(mate.plug for mate in job.mates)
    parted = _parted(job)
    for plug in job.parts.plugs.values():
        made += _halves(plug, plug.name in opened, parted)
        if plug.unit or plug.car:
            made += _insides(job, plug)
    made += _car_wiring(job)
    made += [_segment(segment) for segment in job.segments]
    for unit in job.parts.units.values():
        made += _bonds(job, unit)
    for loom in job.parts.looms.values():
        made += _loom(job, loom)
    made += _plugged(job, board)
    made += [
        _new(Conductor, (a, b, JOINT, PLANNED, joint.name, joint.place)) for joint in job.joints for a, b in joint.links
    ]
    for point in job.parts.grounds.values():
        made.append(Conductor(f"gnd.{point.name}", CHASSIS, BODY, BOTH, point.name, point.place))
    made.append(Conductor("battery.-", CHASSIS, BODY, BOTH, "battery", job.contacts["battery.-"].place))
    return made


def _parted(job: Job) -> frozenset[tuple[str, str]]:
    """(plug, cavity) whose halves no longer meet: cut behind the plug, or its terminal pulled."""
    contacts = job.contacts
    return frozenset(
        (contacts[name].owner, contacts[name].last)
        for name in (*job.cut, *job.depinned)
        if contacts[name].kind == "plug"
    )


def standing_rows(plug: Plug) -> list[Row]:
    """One row a cavity, the first written: a second one is a fault of the chart and makes no second wire."""
    first: dict[str, Row] = {}
    for row in plug.rows:
        first.setdefault(row.cavity, row)
    return list(first.values())


def _halves(plug: Plug, opened: bool, parted: frozenset[tuple[str, str]]) -> list[Conductor]:
    name, place = plug.name, plug.place
    made = []
    for cavity in dict.fromkeys(plug.cavities):
        states = FOUND if opened or (name, cavity) in parted else BOTH
        made.append(_new(Conductor, (f"{name}.unit.{cavity}", f"{name}.car.{cavity}", MATED, states, name, place)))
    return made


def _insides(job: Job, plug: Plug) -> Iterator[Conductor]:
    """A cavity is the terminal of that function on the unit that sits there.

    What is cut behind a plug that is apart hangs at the plug, and no longer on the unit.
    """
    cut = {job.contacts[name].last for name in job.cut if job.contacts[name].owner == plug.name}
    hangs = cut if plug.name in job.apart else ()
    for half, unit in (("unit", plug.unit), ("car", plug.car)):
        if not unit:
            continue
        states = FOUND if unit in job.removed else BOTH
        for row in standing_rows(plug):
            terminal = f"{unit}.{row.function.name}"
            if terminal in job.contacts and row.function.kind not in ("empty", "unknown"):
                contact = f"{plug.name}.{half}.{row.cavity}"
                off = half == "unit" and row.cavity in hangs
                yield Conductor(contact, terminal, INSIDE, FOUND if off else states, plug.name, row.place)


def _car_wiring(job: Job) -> Iterator[Conductor]:
    """What needs no chain: a channel goes to the speaker of its name, ground to the body."""
    chained = {name for segment in job.segments if not segment.laid for name in (segment.a, segment.b)}
    fed = {name for name in chained if name.startswith("spk.")}
    for plug in job.parts.plugs.values():
        if plug.car:
            continue
        for row in standing_rows(plug):  # of an inline plug nothing is said that it carries
            contact = f"{plug.name}.car.{row.cavity}"
            if contact in chained:
                continue
            function = row.function
            if function.kind == "ground":
                yield Conductor(contact, CHASSIS, WIRE, BOTH, plug.name, row.place)
            elif function.channel and function.sign:
                terminal = f"spk.{function.name}"
                if terminal in job.contacts and terminal not in fed:
                    place = row.place
                    if terminal in job.turned_here:  # not the chart's doing, so it is told at the speaker
                        place, terminal = job.contacts[terminal].place, other_terminal(terminal)
                    yield Conductor(contact, terminal, WIRE, BOTH, plug.name, place)


def _segment(segment: Segment) -> Conductor:
    if segment.laid:
        kind = FUSE if segment.kind == "fuse" else RUN
        return Conductor(segment.a, segment.b, kind, PLANNED, "run", segment.place)
    return Conductor(segment.a, segment.b, FUSE if segment.kind == "fuse" else WIRE, BOTH, "found", segment.place)


def _bonds(job: Job, unit: Unit) -> Iterator[Conductor]:
    states = FOUND if unit.name in job.removed else BOTH
    name = unit.name
    for bond in unit.bonds:
        first = f"{name}.{bond.terminals[0]}"
        for other in bond.terminals[1:]:
            second = f"{name}.{other}"
            if first in job.contacts and second in job.contacts:
                yield Conductor(first, second, FUSE if bond.fuse else BOND, states, name, bond.place)
    ground = f"{name}.GND"
    for port in unit.ports.values():
        if port.signal.form == "grounded" and ground in job.contacts:
            yield Conductor(port.minus, ground, BOND, states, name, port.place)


def _loom(job: Job, loom: Loom) -> list[Conductor]:
    name = loom.name
    made = []
    for unit, car, place in loom.throughs:
        made.append(_new(Conductor, (f"{name}.unit.{unit}", f"{name}.car.{car}", LEAD, PLANNED, name, place)))
    for lead in loom.leads:
        if lead.own and lead.cavity and lead.name not in job.depinned:
            made.append(Conductor(f"{name}.{lead.end}.{lead.cavity}", lead.name, LEAD, PLANNED, name, lead.place))
    return made


def _plugged(job: Job, board: PlugBoard) -> list[Conductor]:
    """Each pin of a loom's end meets the cavity of the same number, unless its terminal was pulled or moved."""
    made = []
    for loom, end, plug, half, place in job.mates:
        for contact, _, _, stands, _, _, _ in board.pins(loom, end):
            there = board.row(plug, stands)
            if there is not None and contact not in job.depinned:
                meets = f"{plug}.{half}.{there.cavity}"
                made.append(_new(Conductor, (contact, meets, PLUGGED, PLANNED, loom, place)))
    for loom, end, other, other_end, place in job.couplings:
        holes = {pin.stands.lower(): pin.contact for pin in board.pins(other, other_end)}
        for contact, _, _, stands, _, _, _ in board.pins(loom, end):
            hole = holes.get(stands.lower(), "")
            if hole and contact not in job.depinned and hole not in job.depinned:
                made.append(_new(Conductor, (contact, hole, PLUGGED, PLANNED, loom, place)))
    return made
