"""What a plan serves: speakers, outputs, lines, functions. What a mend takes from it, the mend must say."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from harness.graph.feeding import is_live
from harness.graph.wiring import GROUND, Wiring

_PASSED = ("audio", "port", "empty", "unknown")
_SHARED = ("data", "mic", "mute", "control", "digital", "optical")


@dataclass(slots=True)
class Served:
    """What works as planned.

    `speakers` get a signal; `ports` are wires of inputs that lead to another unit's output, and of outputs that
    lead to another's input or to a speaker, rightly or not (of a source only whether it has any); `beside` are
    the other speakers on the same output; `lines` are terminals that are fed, woken or on their bus, and wires
    that pass a plug; `features` are what the car did and still does.
    """

    speakers: set[str] = field(default_factory=set)
    ports: dict[str, set[str]] = field(default_factory=dict)  # unit -> terminals
    beside: dict[str, set[str]] = field(default_factory=dict)
    lines: set[str] = field(default_factory=set)
    features: set[str] = field(default_factory=set)

    def lost_in(self, after: Served) -> tuple[str, ...]:
        """What of this isn't there any more, as a sentence names it."""
        lost = sorted(self.speakers - after.speakers)
        whole = []
        for unit, ports in self.ports.items():
            kept = after.ports.get(unit, set())
            if not ports & kept:
                whole.append(unit)
            else:
                lost += sorted({f"{unit}.{terminal.rstrip('+-')}" for terminal in ports - kept})
        lost += sorted(line for line in self.lines - after.lines if line.partition(".")[0] not in whole)
        lost += sorted(self.features - after.features)
        shared = set()
        for speaker, others in after.beside.items():
            if speaker in self.speakers:
                new = (others & self.speakers) - self.beside.get(speaker, set())
                shared |= {tuple(sorted((speaker, other))) for other in new}
        lost += [f"{a} apart from {b}" for a, b in sorted(shared)]
        return (*sorted(whole), *lost)


def served(wiring: Wiring) -> Served:
    """What the plan serves."""
    made = Served()
    _signals(wiring, made)
    _lines(wiring, made)
    for feature in wiring.job.features:
        unit = wiring.job.parts.units.get(feature.unit)
        if unit is None or unit.name in wiring.gone:
            continue
        number = wiring.planned.net_number
        nets = {number(f"{unit.name}.{t}") for t in unit.terminals if f"{unit.name}.{t}" in wiring.job.contacts}
        if all(c.rstrip("+-") in made.speakers or number(c) in nets for c in feature.contacts):
            made.features.add(feature.name)
    return made


def _signals(wiring: Wiring, made: Served) -> None:
    signals, number = wiring.signals, wiring.planned.net_number
    on: dict[str, set[str]] = {}
    for receiver in signals.speaker_receivers:
        for way in signals.ways(receiver):
            made.speakers.add(receiver.name)
            on.setdefault(way.hops[-1].feed.driver.name, set()).add(receiver.name)
    for speakers in on.values():
        for each in speakers:
            made.beside.setdefault(each, set()).update(speakers - {each})
    givers: dict[int, set[str]] = {}
    takers: dict[int, set[str]] = {}
    for driver in signals.drivers:
        for name in (driver.plus, driver.minus):
            givers.setdefault(number(name), set()).add(driver.port.unit)
    for receiver in signals.receivers:
        for name in (receiver.plus, receiver.minus):
            takers.setdefault(number(name), set()).add(receiver.port.unit if receiver.port else "")
    for receiver in signals.receivers:
        if receiver.port is not None:
            _wired(made, receiver.port.unit, (receiver.plus, receiver.minus), number, givers)
    for driver in signals.drivers:
        unit = driver.port.unit
        if wiring.job.parts.units[unit].is_source:
            if any(takers.get(number(name), set()) - {unit} for name in (driver.plus, driver.minus)):
                made.ports.setdefault(unit, set()).add("")
        else:
            _wired(made, unit, (driver.plus, driver.minus), number, takers)


def _wired(
    made: Served, unit: str, names: tuple[str, ...], number: Callable[[str], int], others: dict[int, set[str]]
) -> None:
    for name in names:
        if others.get(number(name), set()) - {unit}:
            made.ports.setdefault(unit, set()).add(name.partition(".")[2])


def _lines(wiring: Wiring, made: Served) -> None:
    contacts, planned = wiring.job.contacts, wiring.planned
    live = {planned.net_number(name): name for name in contacts if is_live(wiring, name)}
    ground = {planned.net_number(name) for name in contacts if wiring.role(name) == GROUND}
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        wakes = {each.split()[0] for each in unit.wakes}
        for terminal in unit.terminals:
            name = f"{unit.name}.{terminal}"
            contact = contacts.get(name)
            if contact is None or name in wiring.ports:
                continue
            number = planned.net_number(name)
            kind = contact.function.kind
            if kind == "ground":
                fed = number in ground
            elif kind in _SHARED:
                fed = any(contacts[n].function == contact.function and contacts[n].owner != unit.name
                          for n in planned.net(name))  # fmt: skip
            elif kind in ("battery", "switched", "trigger", "light") or terminal in wakes:
                fed = number in live and contacts[live[number]].owner != unit.name
            else:
                fed = False
            if fed:
                made.lines.add(name)
    for plug in wiring.job.parts.plugs.values():
        for row in plug.rows:
            unit_half, car_half = f"{plug.name}.unit.{row.cavity}", f"{plug.name}.car.{row.cavity}"
            if row.function.kind not in _PASSED and planned.joined(unit_half, car_half):
                made.lines.add(f"{plug.name}.{row.cavity}")
