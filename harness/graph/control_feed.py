"""The supply wires of control units, and what the plan hangs on them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.conductor import FOUND, FUSE, INSIDE, JOINT, RUN, Conductor
from harness.graph.meeting import FEED_KINDS, is_ground
from harness.graph.wiring import Wiring

_KIND = "control unit"
# What takes no current from a feed: where one is joined to it, that is another fault.
_NO_TAKER = ("ground", "port", "audio", "data", "mic", "digital", "aerial", "restraint")


class Tap(NamedTuple):
    """Something is fed from a control unit's supply: its cavity, what a person made, its end on that wire, and the
    terminal of the unit that takes the current.
    """

    unit: str
    cavity: str
    conductor: Conductor
    near: str
    taker: str


def taps(wiring: Wiring) -> Iterator[Tap]:
    """Every joint and run on a B+, ACC or IGN wire of a control unit behind which another unit takes current."""
    units = wiring.job.parts.units
    for plug in wiring.job.parts.plugs.values():
        name = next(
            (n for n in (plug.unit, plug.car) if n in units and units[n].kind == _KIND and n not in wiring.gone), ""
        )
        if not name:
            continue
        for row in plug.rows:
            if row.function.kind in FEED_KINDS:
                cavity = f"{plug.name}.car.{row.cavity}"
                for conductor, near in _made_on(wiring, plug.name, cavity):
                    taker = _taker(wiring, conductor, near, {name, plug.unit, plug.car}, cavity)
                    if taker:
                        yield Tap(name, cavity, conductor, near, taker)


def _made(conductor: Conductor) -> bool:
    return conductor.kind in (JOINT, RUN, FUSE) and not conductor.states & FOUND


def _made_on(wiring: Wiring, own: str, cavity: str) -> list[tuple[Conductor, str]]:
    """What a person made on the wire of a cavity, up to a fuse, the battery or another unit's plug."""
    made: list[tuple[Conductor, str]] = []
    row, seen = [cavity], {cavity}
    for here in row:
        for conductor in wiring.planned.conductors(here):
            other = conductor.other(here)
            if _made(conductor):
                made.append((conductor, here))
            elif conductor.kind not in (FUSE, INSIDE) and other not in seen and not _ends(wiring, own, other):
                seen.add(other)
                row.append(other)
    return made


def _ends(wiring: Wiring, own: str, name: str) -> bool:
    """Whether the control unit's wire ends here: at a source, at ground, or where another unit has its plug."""
    contact = wiring.contact(name)
    if contact.kind == "plug" and contact.owner != own:
        plug = wiring.job.parts.plugs[contact.owner]
        return bool(plug.unit or plug.car)
    return contact.kind in ("battery", "unit") or is_ground(wiring, name)


def _taker(wiring: Wiring, conductor: Conductor, near: str, own: set[str], cavity: str) -> str:
    """The nearest terminal of another unit behind a joint that was not on this wire as found; empty for none."""
    start = conductor.other(near)
    row, seen = [start], {near, start}
    for here in row:
        contact = wiring.contact(here)
        if contact.kind == "unit" and contact.owner not in own and contact.owner not in wiring.gone:
            if contact.function.kind not in _NO_TAKER and not wiring.found.joined(here, cavity):
                return here
            continue
        if contact.kind == "battery" or is_ground(wiring, here):
            continue
        for each in wiring.planned.conductors(here):
            other = each.other(here)
            if other not in seen:
                seen.add(other)
                row.append(other)
    return ""
