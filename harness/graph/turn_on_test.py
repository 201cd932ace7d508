"""The turn-on test: what to read at each unit's supply, ground and trigger, key by key."""

from __future__ import annotations

import re
from typing import NamedTuple

from harness.electrical.turn_on import MOST_WITHOUT_FEED_V
from harness.graph.conductor import Hop
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.parts import Unit

KEYS = ("off", "accessory", "run", "crank")
RECORDED_KEYS = ("out", *KEYS[1:])  # what a record calls them, in their order
WRITE = "write"
# Battery at rest and charging: a fault-finding guide's figures, seen 2026.
REST = "12.4 to 12.7 V"
# Reference values of a maker's workshop tables: ACC and amplifier-on lines.
ACC_ON = "10 to 14 V"
TRIGGER_ON = "10 to 12 V"
# Common practice, no source.
OFF = "below 1 V"
GROUND = "0 V"
# What is still called right beside the printed bands, as a meter, a lamp left on, a surface charge and a shop's charger
# move them: 12 V of a battery common practice, no source; 15 V a trade guide's page, seen 2026.
_STILL_RIGHT_V = {REST: (12.0, 15.0), ACC_ON: (10.0, 15.0), TRIGGER_ON: (10.0, 15.0)}
_BAND = re.compile(r"([0-9.]+) to ([0-9.]+) V")
_BELOW = re.compile(r"below ([0-9.]+) V")


class Reading(NamedTuple):
    """One place to put the meter's + probe (− on the body) and what it should show in each key state.

    `expected` follows KEYS; `write` where nothing is known. `source` is what feeds it in the plan, empty where
    nothing does; of a plug it is the half at which the branch is made. `via` are the contacts where the wire is
    held on its way, the one nearest to the terminal first: a loom's lead, a terminal that it goes on from.
    """

    unit: str
    terminal: str
    source: str
    expected: tuple[str, str, str, str]
    via: tuple[str, ...] = ()


class TurnOn(NamedTuple):
    """All readings, and the units that no lead wakes (by signal or by bus) with what wakes them."""

    readings: tuple[Reading, ...]
    without_lead: tuple[tuple[str, str], ...]


def turn_on_test(wiring: Wiring) -> TurnOn:
    """Supply, ground and trigger of every unit that the plan adds a wire to; factory units are left alone."""
    readings: list[Reading] = []
    others: list[tuple[str, str]] = []
    touched = {name for name, _, _ in wiring.touched()}
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone or not _ours(unit, touched):
            continue
        for terminal in unit.terminals:
            name = f"{unit.name}.{terminal}"
            kind = wiring.contact(name).function.kind
            wakes = any(word.split()[0].lower() == terminal.lower() for word in unit.wakes)
            if wakes or kind == "battery":
                readings.append(_by_way(wiring, _reading(wiring, unit, terminal)))
            elif kind == "ground":
                source = _first(wiring, name, ("ground", "chassis", "battery"))
                expected = (GROUND,) * 4 if wiring.planned.joined(name, CHASSIS) else (WRITE,) * 4
                readings.append(_by_way(wiring, Reading(unit.name, terminal, source, expected)))
        others += [(unit.name, word) for word in unit.wakes if word.split()[0].lower() in ("signal", "bus")]
    return TurnOn(tuple(readings), tuple(others))


def _ours(unit: Unit, touched: set[str]) -> bool:
    """Whether the plan joins or lays anything to it, and it is no radio, which was there before."""
    return unit.kind != "radio" and any(f"{unit.name}.{terminal}" in touched for terminal in unit.terminals)


def _reading(wiring: Wiring, unit: Unit, terminal: str) -> Reading:
    """By what feeds it: battery, ACC and the amplifier-on line are known; another unit's output follows that unit."""
    name = f"{unit.name}.{terminal}"
    if wiring.planned.joined(name, "battery.+"):
        return Reading(unit.name, terminal, "battery.+", (REST, REST, REST, WRITE))
    source = _feeder(wiring, unit, name)
    if not source:
        return Reading(unit.name, terminal, "", (WRITE,) * 4)
    function = wiring.contact(source).function
    expected = (OFF, WRITE, WRITE, WRITE)
    if function.kind == "battery":
        expected = (REST, REST, REST, WRITE)
    elif function.base in ("ACC", "75"):
        expected = (OFF, ACC_ON, ACC_ON, WRITE)
    elif function.base in ("IGN", "15", "15a"):
        expected = (OFF, WRITE, ACC_ON, WRITE)
    elif function.kind == "trigger" and wiring.contact(source).kind == "plug":
        expected = (OFF, WRITE, TRIGGER_ON, WRITE)
    return Reading(unit.name, terminal, source, expected)


_FEEDS = ("battery", "switched", "trigger", "aerial", "light")


def _feeder(wiring: Wiring, unit: Unit, name: str) -> str:
    """What a terminal hangs on: the battery, a cavity, else another unit's output, the nearest of a kind; or empty."""
    units, nearest = wiring.job.parts.units, dict[str, str]()
    for other in wiring.planned.around(name):
        contact = wiring.contact(other)
        if contact.kind == "battery":  # its −: that on its + is told by the caller
            nearest.setdefault("battery", other)
        elif contact.kind == "plug" and contact.function.kind in _FEEDS:
            nearest.setdefault(contact.half, other)
        elif contact.kind == "unit" and contact.owner != unit.name and contact.last in units[contact.owner].gives_a:
            nearest.setdefault("output", other)
    return next((nearest[kind] for kind in ("battery", "unit", "output", "car") if kind in nearest), "")


def _by_way(wiring: Wiring, reading: Reading) -> Reading:
    """The reading with the contacts between its source and its terminal, and the true half of a plug."""
    name = f"{reading.unit}.{reading.terminal}"
    source = reading.source
    at = wiring.contact(source) if source else None
    if at is not None and at.kind == "plug":
        halves = tuple(f"{at.owner}.{half}.{at.last}" for half in ("unit", "car"))
        source = wiring.planned.nearest(name, halves.__contains__)
    hops = wiring.planned.path(name, source) if source else _away(wiring, name)
    held = [wiring.contact(hop.contact) for hop in hops]
    via: dict[str, str] = {}  # the first contact of each owner, as the hand meets it
    for each in held:
        if each.owner == reading.unit:
            continue
        if at is not None and each.owner == at.owner:
            break
        if each.kind in ("loom", "unit", "speaker", "plug"):
            via.setdefault(each.owner, each.name)
    return reading._replace(source=source, via=tuple(via.values()))


def _away(wiring: Wiring, name: str) -> tuple[Hop, ...]:
    """The way to the nearest contact that a terminal is joined to, where nothing feeds it; empty where it is bare."""
    own = wiring.contact(name).owner
    near = wiring.planned.nearest(
        name, lambda other: wiring.contact(other).kind != "run" and wiring.contact(other).owner != own
    )
    return wiring.planned.path(name, near) if near else ()


def _first(wiring: Wiring, name: str, kinds: tuple[str, ...]) -> str:
    return next((other for other in wiring.planned.around(name) if wiring.contact(other).kind in kinds), "")


def fits_band(volts: float, expected: str) -> bool | None:
    """Whether a reading is what was expected in words; None where nothing was."""
    if expected in _STILL_RIGHT_V:
        low_v, high_v = _STILL_RIGHT_V[expected]
        return low_v <= volts <= high_v
    if band := _BAND.fullmatch(expected):
        return float(band[1]) <= volts <= float(band[2])
    if below := _BELOW.fullmatch(expected):
        return volts < float(below[1])
    if expected == GROUND:
        return abs(volts) <= MOST_WITHOUT_FEED_V
    return None
