"""What somebody would write down at a car with some faults in it: the oracle's floods as lines of an evidence file.

Of the package under test it takes nothing; `oracle` takes the reader.
"""

from __future__ import annotations

import random
from typing import NamedTuple

from tests.locate.oracle import Bench, Broken, Car, World

_SHORT = ("shorted", "body", "touching")


class Spot(NamedTuple):
    """One thing that is done at one place: tone, ohm, volts or sound."""

    verb: str
    contacts: tuple[str, ...]


def spots(car: Car) -> list[Spot]:
    """Everything that is tried: each pair at the dash's car side and at the last unit's outputs, each unit's supply."""
    made = []
    for name, contact in car.job.contacts.items():
        if (
            contact.kind == "plug"
            and contact.half == "car"
            and contact.owner == "dash"
            and contact.function.sign == "+"
        ):
            other = next(
                each.name for each in car.job.contacts.values()
                if each.owner == "dash" and each.half == "car" and each.function.name == f"{contact.function.base}-"
            )  # fmt: skip
            made += [Spot("tone", (name, other)), Spot("ohm", (name, other))]
    for unit in car.job.parts.units.values():
        if unit.kind not in ("radio", "fuse block"):
            made += [Spot("volts", (f"{unit.name}.{each}",)) for each in ("B+", "GND", "rem")]
        for port in unit.ports.values():
            ends = (f"{unit.name}.{port.name}+", f"{unit.name}.{port.name}-")
            if port.way == "out" and unit.kind != "radio" and all(end in car.job.contacts for end in ends):
                made.append(Spot("sound", ends))
                if car.drives(f"{unit.name}.{port.name}"):
                    made.append(Spot("ohm", ends))
    return made


def record(bench: Bench, faults: tuple[Broken, ...], spot: Spot) -> str:
    """The line that is written at a spot, without `when` and `by`."""
    what = _named(spot.contacts)
    if spot.verb == "volts":
        return f"volts: {what}, key: run, reads: {_volts(bench, faults, spot.contacts[0])}"
    if spot.verb == "sound":
        reads = "4 V" if bench.world(faults).at(*spot.contacts) else "0 V"
        return f"volts: {what}, signal: 1 kHz, key: run, reads: {reads}"
    owner = spot.contacts[0].partition(".")[0]
    world, whole = (_toward_speakers(bench.car, each, spot) for each in (faults, ()))
    short = _read_shorts(bench, faults, spot)
    if spot.verb == "ohm":
        found = bench._coils(world, *spot.contacts)
        reads = "0.2 ohm" if "shorted" in short else f"{3.6 / len(found):.2f} ohm" if found else "open"
        return f"ohm: {what}, unplugged: {owner}, reads: {reads}, body: {'2 ohm' if 'body' in short else 'open'}"
    heard = [] if "shorted" in short else sorted(bench._coils(world, *spot.contacts))
    plus = _plus(bench.car, world, spot, heard)
    said = f"tone: {what}, unplugged: dash, heard: {' '.join(heard) or 'nothing'}"
    return f"{said}, plus: {plus}" if plus and whole else said


def _named(contacts: tuple[str, ...]) -> str:
    if len(contacts) == 1:
        return contacts[0]
    first, second = contacts
    return f"{first}/{second.rpartition('.')[2]}"


def _volts(bench: Bench, faults: tuple[Broken, ...], contact: str) -> str:
    world = bench.world(faults)
    if contact.endswith(".rem"):
        return "12.2 V" if world.live(contact) else "0 V"
    if contact.endswith(".B+"):
        return "12.6 V" if world.joined(contact, "battery.+") else "0 V"
    car = bench.car
    shields = [ends for ends in car.kind if any(_is_port(car, end) for end in ends)]
    direct = World(car, faults, without=shields)
    return "0.03 V" if direct.joined(contact, "chassis") else "9 V"


def _is_port(car: Car, name: str) -> bool:
    contact = car.job.contacts.get(name)
    return contact is not None and contact.kind == "unit" and name[-1:] in "+-" and contact.last != "B+"


def _toward_speakers(car: Car, faults: tuple[Broken, ...], spot: Spot) -> World:
    """The plug apart, so that only what hangs behind it is left; a unit's leads stay, the unit is off them."""
    cut = [ends for ends, kind in car.kind.items() if kind in ("plug", "mated") and set(spot.contacts) & set(ends)]
    return World(car, faults, without=cut if spot.contacts[0].startswith("dash.") else ())


def _read_shorts(bench: Bench, faults: tuple[Broken, ...], spot: Spot) -> set[str]:
    world = _toward_speakers(bench.car, faults, spot)
    test = type("At", (), {"plus": spot.contacts[0], "minus": spot.contacts[1]})
    return {mode for mode in _SHORT if bench._short_behind(faults, world, test, mode)}


def _plus(car: Car, world: World, spot: Spot, heard: list[str]) -> str:
    """The cavity by which the cones go out, where all that answer say the same."""
    found = {
        end for name in heard for end in spot.contacts
        if world.joined(end, f"spk.{name}{'-' if ('speaker', name) in world.turned else '+'}")
    }  # fmt: skip
    return found.pop().rpartition(".")[2] if len(found) == 1 else ""


def lines(bench: Bench, faults: tuple[Broken, ...], chosen: list[Spot], day: str) -> str:
    """An evidence file."""
    return "".join(
        f"- {{when: {day} 09:{at:02d}, by: RK, {record(bench, faults, spot)}}}\n" for at, spot in enumerate(chosen)
    )


def some(dice: random.Random, car: Car) -> list[Spot]:
    """A few of the spots, in any order."""
    every = spots(car)
    return dice.sample(every, dice.randint(1, min(6, len(every))))
