"""Relays: where current enters their contact before any fuse, and what drives their coil without anything across."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from harness.graph.cable import UNFUSED, fuses, let_through, way_from_source
from harness.graph.waking import Giver, coil_plus, givers
from harness.graph.wiring import Wiring
from harness.graph.woken import Way, way
from harness.model.parts import Unit


class Unfused(NamedTuple):
    """A relay's contact that a battery's post feeds with no fuse before it; `path` from the post to it."""

    relay: str
    contact: str
    path: tuple[str, ...]


class BareCoil(NamedTuple):
    """A relay's coil that a unit's output drives, with nothing written across it."""

    relay: str
    coil: str
    giver: Giver
    way: Way


def relays(wiring: Wiring) -> list[Unit]:
    """The relays of the plan, in the order of the job."""
    units = wiring.job.parts.units.values()
    return [unit for unit in units if unit.kind == "relay" and unit.name not in wiring.gone]


def unfused_contacts(wiring: Wiring) -> Iterator[Unfused]:
    """Relays fed before any fuse. Of several behind each other the first; a fuse without a value is one."""
    known = relays(wiring)
    if not known:
        return
    through, fused = let_through(wiring), fuses(wiring)
    ends = {f"{unit.name}.{last}" for unit in known for last in ("30", "87")}
    for unit in known:
        for last in ("30", "87"):
            contact = f"{unit.name}.{last}"
            if through.get(contact) != UNFUSED:
                continue
            path = way_from_source(wiring, contact)
            if not ends.isdisjoint(path[:-1]):
                continue
            if not any(pair in fused or pair[::-1] in fused for pair in pairwise(path)):
                yield Unfused(unit.name, contact, path)


def bare_coils(wiring: Wiring) -> Iterator[BareCoil]:
    """Coils with a unit's output on them and neither diode nor resistor across."""
    known = relays(wiring)
    if not known:
        return
    number = wiring.planned.net_number
    diodes = {
        (number(f"{unit.name}.k"), number(f"{unit.name}.a"))
        for unit in wiring.job.parts.units.values()
        if unit.kind == "diode" and unit.name not in wiring.gone
    }
    for unit in known:
        if unit.power.coil_across:
            continue
        plus = coil_plus(wiring, unit.name)
        minus = f"{unit.name}.{'85' if plus.endswith('.86') else '86'}"
        if (number(plus), number(minus)) in diodes:
            continue
        giver = next((each for each in givers(wiring, plus) if each.unit), None)
        if giver is not None:
            yield BareCoil(unit.name, plus, giver, way(wiring, giver, plus))
