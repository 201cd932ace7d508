"""In which order units wake: amplifiers together with what feeds them, and units that wait for each other."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from harness.graph.bonded import passed_on
from harness.graph.waking import CAR, Giver, Wake, is_alone, who_wakes_whom
from harness.graph.wiring import Wiring
from harness.graph.woken import Way, way, woken

if TYPE_CHECKING:
    import networkx as nx

_NOT_BEFORE = ("radio", "factory amplifier", "control unit", "cluster", "relay", "switch")


class Together(NamedTuple):
    """An amplifier that wakes by the source that wakes the unit at its input; `free` is that unit's spare output."""

    wake: Wake
    giver: Giver
    feeder: str
    free: str
    way: Way


class Loop(NamedTuple):
    """Units that only each other wake. `wake` is the one to wake from outside, `way` from what holds it now."""

    units: tuple[str, ...]
    wake: Wake
    giver: Giver
    way: Way


def together(wiring: Wiring) -> Iterator[Together]:
    """Amplifiers that wake with the unit that feeds their input, though it has a turn-on output free."""
    free = dict(_free_outputs(wiring))
    if not free:
        return
    by_unit: dict[str, dict[str, Giver]] = {}
    for each in woken(wiring):
        if not each.wake.coil:
            by_unit.setdefault(each.wake.unit, {}).update((giver.contact, giver) for giver in each.sources)
    for each in woken(wiring):
        if each.wake.coil or "amplifier" not in wiring.job.parts.units[each.wake.unit].kind:
            continue
        for feeder in feeders(wiring, each.wake.unit):
            common = next((giver for giver in each.sources if giver.contact in by_unit.get(feeder, {})), None)
            if feeder in free and common is not None:
                found = way(wiring, common, each.wake.contact, own_joint=True)
                yield Together(each.wake, common, feeder, free[feeder], found)
                break


def _free_outputs(wiring: Wiring) -> Iterator[tuple[str, str]]:
    for unit in wiring.job.parts.units.values():
        if unit.gives_a and unit.kind not in _NOT_BEFORE and unit.name not in wiring.gone:
            contacts = (f"{unit.name}.{terminal}" for terminal in unit.gives_a)
            spare = next((each for each in contacts if is_alone(wiring, each)), "")
            if spare:
                yield unit.name, spare


def feeders(wiring: Wiring, unit: str) -> list[str]:
    """The other units whose outputs are joined to the + of an input of this one, in the order of its inputs."""
    made: dict[str, None] = {}
    for port in wiring.job.parts.units[unit].ports.values():
        if port.way == "in" and port.plus in wiring.ports:
            for name in wiring.planned.net(port.plus):
                other = wiring.ports.get(name)
                if other is None or other.way == "in" or other.unit == unit:
                    continue
                if other.name not in passed_on(wiring.job.parts.units[other.unit]):
                    made[other.unit] = None
    return list(made)


def loops(wiring: Wiring) -> Iterator[Loop]:
    """Units that wait for each other: none of them is woken by the car, or by a unit that the car wakes."""
    if not _asleep(wiring):
        return
    import networkx as nx

    graph: nx.DiGraph = who_wakes_whom(wiring)
    awake = {CAR, *nx.descendants(graph, CAR)}
    order = {name: number for number, name in enumerate(wiring.job.parts.units)}
    parts = [part for part in nx.strongly_connected_components(graph) if len(part) > 1 and awake.isdisjoint(part)]
    for part in sorted(parts, key=lambda part: min(order[name] for name in part)):
        units = tuple(sorted(part, key=order.__getitem__))
        yield _loop(wiring, units)


def _asleep(wiring: Wiring) -> bool:
    """Whether a unit that another one would wake is reached from nowhere: most jobs end here, without networkx."""
    wakers: dict[str, set[str]] = {}
    for each in woken(wiring):
        wakers.setdefault(each.wake.unit, set()).update(giver.unit for giver in each.sources)
    wakes_whom: dict[str, list[str]] = {}
    for unit, by in wakers.items():
        for giver in by:
            wakes_whom.setdefault(giver, []).append(unit)
    row = [CAR, *(name for name in wiring.job.parts.units if name not in wakers)]
    awake = set(row)
    for here in row:
        for unit in wakes_whom.get(here, ()):
            if unit not in awake:
                awake.add(unit)
                row.append(unit)
    return any(by and unit not in awake for unit, by in wakers.items())


def _loop(wiring: Wiring, units: tuple[str, ...]) -> Loop:
    """The unit to wake from outside is the one whose inputs no other of them feeds: the first in the signal."""
    first = next((unit for unit in units if not set(feeders(wiring, unit)) & set(units)), units[0])
    for each in woken(wiring):
        if each.wake.unit == first and not each.wake.coil:
            giver = next((giver for giver in each.sources if giver.unit in units), None)
            if giver is not None:
                return Loop(units, each.wake, giver, way(wiring, giver, each.wake.contact))
    raise LookupError(f"nothing of {units} wakes {first}")
