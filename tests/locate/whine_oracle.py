"""Noise in a car, flooded contact by contact: where it is heard, and what each trial of a whine hunt answers.

Built on the oracle of `oracle.py`, which takes the reader only. What it assumes, by the trade's whine hunt (common
practice): noise gets in at one place and goes on with the signal; a unit is noisy by its own fault, by its feed or by a
poor ground; a grounded signal between two units on different points closes a loop, heard behind its cable; a radio's
own supply and ground are one with it; what is picked up on the way needs the engine, a unit's own noise and a bad
contact don't.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from tests.locate.oracle import Car, Ends, World

NOISE, SOME, CLEAN = "noise", "thinned", "signal"


class Noisy(NamedTuple):
    """`mode` is noisy, hiss or poor; at wires or at a thing: (kind, name), of a loop `giver>taker`."""

    mode: str
    wires: frozenset[Ends] = frozenset()
    thing: tuple[str, str] = ("", "")


def is_shield(car: Car, ends: Ends) -> bool:
    """Whether a conductor is a signal's −, by which a unit may find ground as well."""
    return any(_is_port(car, end) for end in ends)


def _is_port(car: Car, name: str) -> bool:
    contact = car.job.contacts.get(name)
    return contact is not None and contact.kind == "unit" and name[-1:] in "+-" and contact.last != "B+"


class Noises:
    """One noisy place in one car. `off` are contacts whose leads are off, `clips` what is laid for a try, `player` the
    output in whose place a player on its own battery is.
    """

    def __init__(
        self, car: Car, fault: Noisy, *, off: Iterable[str] = (), clips: Iterable[Ends] = (), player: str = ""
    ) -> None:
        self.car, self.fault, self.player = car, fault, player
        away = set(off)
        self.gone = [ends for ends, kind in car.kind.items() if away & set(ends) and kind not in ("inside", "bond")]
        self.clips = list(clips)
        self.world = World(car, (), self.clips, self.gone)
        self.parted = World(car, (), self.clips, [*self.gone, *fault.wires])
        shields = [ends for ends in car.kind if is_shield(car, ends)]
        self.body = World(car, (), self.clips, [*self.gone, *shields])
        self.poor = World(car, (), self.clips, [*self.gone, *shields, *fault.wires])
        self.swapped: dict[str, str] = {}

    def unit(self, name: str) -> bool:
        """Whether a unit puts noise on all that it gives."""
        if self.fault.thing == ("unit", name):
            return True
        if self.car.job.parts.units[name].kind == "radio":
            return False  # its own supply and ground are taken as one with it
        if self.fault.mode == "poor":
            ground = f"{name}.GND"
            return self.body.joined(ground, "chassis") and not self.poor.joined(ground, "chassis")
        feed = f"{name}.B+"
        return self.world.joined(feed, "battery.+") and not self.parted.joined(feed, "battery.+")

    def output(self, name: str) -> str:
        """What an output gives."""
        if name == self.player:
            return CLEAN
        name = self.swapped.get(name, name)
        _, _, unit, inputs = self.car.outputs[name]
        if self.unit(unit) or self.fault.thing == ("output", name):
            return NOISE
        words = []
        for each in inputs:
            at = self.swapped.get(each, each)
            words.append(NOISE if self.fault.thing == ("input", each) else self.at(f"{at}+", f"{at}-"))
        if words and all(word == NOISE for word in words):
            return NOISE
        return SOME if set(words) - {CLEAN} else CLEAN

    def at(self, plus: str, minus: str) -> str:
        """What is across two contacts."""
        for name, (out, back, unit, _) in self.car.outputs.items():
            if not (self.world.joined(out, plus) and self.world.joined(back, minus)):
                continue
            passed = self.fault.wires and self.fault.mode != "poor"
            if passed and not (self.parted.joined(out, plus) and self.parted.joined(back, minus)):
                return NOISE
            if self.fault.thing[0] == "loop" and name != self.player and plus != out and self._in_loop(unit, plus):
                return NOISE
            return self.output(name)
        return CLEAN

    def _in_loop(self, unit: str, plus: str) -> bool:
        """Whether a contact is on a cable of the loop; not where the two have one point for ground after all."""
        giver, _, taker = self.fault.thing[1].partition(">")
        if unit != giver or points_of(self.car, giver, self.body) & points_of(self.car, taker, self.body):
            return False
        inputs = {name for _, _, made_by, inputs in self.car.outputs.values() if made_by == taker for name in inputs}
        return any(self.world.joined(f"{name}+", plus) for name in inputs)

    def speaker(self, name: str) -> str:
        return self.at(f"spk.{name}+", f"spk.{name}-")

    def heard(self) -> list[str]:
        """The speakers with noise; what only some of the summed channels bring may go unnoticed."""
        return [name for name in self.car.job.parts.speakers if self.speaker(name) == NOISE]


def points_of(car: Car, unit: str, body: World) -> set[str]:
    """The ground points that a unit reaches without the body itself and without shields."""
    to_body = [ends for ends, kind in car.kind.items() if kind in ("ground", "strap")]
    shields = [ends for ends in car.kind if is_shield(car, ends)]
    held = World(car, (), _more(body, car), [*to_body, *shields])
    return {f"gnd.{point}" for point in car.job.parts.grounds if held.joined(f"{unit}.GND", f"gnd.{point}")}


def _more(body: World, car: Car) -> list[Ends]:
    return [ends for ends in body.edges if ends not in car.kind]


def faults(car: Car) -> Iterator[Noisy]:
    """Every place that may be noisy, each in every way that it can be."""
    for fault in (*car.faults(), *car.wholes()):
        if fault.dead and fault.mode == "open":
            kind, name = fault.dead
            if kind in ("output", "input"):
                yield Noisy("hiss", thing=(kind, name))
            elif kind == "unit":
                yield Noisy("noisy", thing=(kind, name))
                yield Noisy("hiss", thing=(kind, name))
        elif fault.wires and fault.mode == "open":
            kinds = {car.kind[each] for each in fault.wires}
            if kinds & {"run", "joint", "plug"}:
                yield Noisy("noisy", fault.wires)
            if kinds & {"joint", "plug"}:
                yield Noisy("hiss", fault.wires)
            if not kinds & {"fuse", "strap"}:
                yield Noisy("poor", fault.wires)
    whole = World(car, ())
    for giver in car.job.parts.units.values():
        for taker in car.job.parts.units.values():
            apart = [points_of(car, unit.name, whole) for unit in (giver, taker)]
            if giver is not taker and all(apart) and not apart[0] & apart[1] and _shares_ground(car, giver, taker):
                yield Noisy("noisy", thing=("loop", f"{giver.name}>{taker.name}"))


def _shares_ground(car: Car, giver: Any, taker: Any) -> bool:
    """Whether a grounded output of one is wired to a grounded input of the other."""
    whole = World(car, ())
    return any(
        out.signal.form == into.signal.form == "grounded"
        and whole.joined(f"{giver.name}.{out.name}+", f"{taker.name}.{into.name}+")
        for out in giver.ports.values()
        for into in taker.ports.values()
        if out.way == "out" and into.way == "in"
    )


def answer(car: Car, fault: Noisy, test: Any, ports: Ends, loop: tuple[str, str]) -> str:
    """What a test answers. `ports`: the two exchanged by a swap, or the output that a player takes the place of;
    `loop`: of a ground for a try the unit's terminal and the point.
    """
    now = Noises(car, fault)
    if test.kind == "signal":
        return now.at(test.plus, test.minus)
    if test.kind == "engine":
        return "stays" if fault.mode == "hiss" else "goes"
    if test.kind == "drop":
        return "more" if fault.mode == "poor" and not now.poor.joined(test.plus, "chassis") else "under 0.1 V"
    if test.kind in ("swap in", "swap out"):
        changed = Noises(car, fault)
        changed.swapped = {ports[0]: ports[1], ports[1]: ports[0]}
        return "moves" if changed.speaker(test.speaker) != now.speaker(test.speaker) else "stays"
    if test.kind == "mute":
        tried = Noises(car, fault, off=(test.plus, test.minus))
    elif test.kind == "feed":
        tried = Noises(car, fault, player=ports[0])
    elif test.kind == "one ground":
        tried = Noises(car, fault, off=(loop[0],), clips=(loop,))
    else:
        raise ValueError(test.kind)
    return "goes" if tried.speaker(test.speaker or now.heard()[0]) == CLEAN else "stays"
