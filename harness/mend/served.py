"""What a plan serves: speakers, outputs, lines, functions. What a mend takes from it, the mend must say."""

from __future__ import annotations

from dataclasses import dataclass, field

from harness.graph.feeding import is_live
from harness.graph.wiring import GROUND, Wiring

_PASSED = ("audio", "port", "empty", "unknown")
_SHARED = ("data", "mic", "mute", "control", "digital", "optical")


@dataclass(slots=True)
class Served:
    """What works as planned.

    `speakers` get a signal; `outputs` of amplifiers and processors carry one to a speaker, and those of a
    source to another unit; `beside` are the other speakers on the same outputs; `lines` are terminals that are
    fed, woken or on their bus, and wires that pass a plug; `features` are what the car did and still does.
    """

    speakers: set[str] = field(default_factory=set)
    outputs: dict[str, set[str]] = field(default_factory=dict)  # unit -> its outputs
    beside: dict[str, set[str]] = field(default_factory=dict)
    lines: set[str] = field(default_factory=set)
    features: set[str] = field(default_factory=set)

    def lost_in(self, after: Served) -> tuple[str, ...]:
        """What of this isn't there any more, as a sentence names it."""
        lost = sorted(self.speakers - after.speakers)
        whole = []
        for unit, outputs in self.outputs.items():
            kept = after.outputs.get(unit, set())
            if not outputs & kept:
                whole.append(unit)
            else:
                lost += sorted(f"{unit}.{output}" for output in outputs - kept)
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
    signals = wiring.signals
    on: dict[str, set[str]] = {}
    for receiver in signals.speaker_receivers:
        for way in signals.ways(receiver):
            made.speakers.add(receiver.name)
            on.setdefault(way.hops[-1].feed.driver.name, set()).add(receiver.name)
            for at, hop in enumerate(way.hops):
                if at or len(way.hops) > 1:
                    unit, _, output = hop.feed.driver.name.partition(".")
                    made.outputs.setdefault(unit, set()).add(output)
    for speakers in on.values():
        for each in speakers:
            made.beside.setdefault(each, set()).update(speakers - {each})


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
