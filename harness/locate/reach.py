"""What each point of the circuit hangs on: the pieces that silence it alone, those that thin it, those that hum."""

from __future__ import annotations

from typing import NamedTuple

from harness.locate.circuit import Circuit, Leg

_NONE: frozenset[int] = frozenset()


class Reach(NamedTuple):
    """The pieces behind a point. `kills`: without it nothing arrives. `some`: all that part of the signal goes
    through. `hum`: the grounds of the units passed.
    """

    kills: frozenset[int]
    some: frozenset[int]
    hum: frozenset[int]


class Reaches:
    """All reaches of one circuit, each computed when first asked for. Plain sets; nothing is flooded."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._into: dict[str, list[int]] = {}
        self._of_speaker: dict[str, list[str]] = {}
        for number, leg in enumerate(circuit.legs):
            self._into.setdefault(leg.receiver, []).append(number)
            if leg.speaker and leg.receiver not in self._of_speaker.setdefault(leg.speaker, []):
                self._of_speaker[leg.speaker].append(leg.receiver)
        self._power: dict[str, frozenset[int]] = {}
        self._out: dict[str, Reach] = {}
        self._points: dict[tuple[int, int], Reach] = {}
        self._speakers: dict[str, Reach] = {}
        self._receivers: dict[str, Reach] = {}

    def power(self, unit: str) -> frozenset[int]:
        """The pieces without which a unit is off: itself, its supply, ground and turn-on, and what gives that."""
        known = self._power.get(unit)
        if known is None:
            number = self.circuit.units.get(unit)
            self._power[unit] = _NONE  # units that wait for each other end here
            found = set[int]() if number is None else {number}
            for line in self.circuit.lines:
                if line.unit == unit:
                    found |= line.needed
                    if line.giver and line.giver != unit and line.needed:
                        found |= self.power(line.giver)
            known = self._power[unit] = frozenset(found)
        return known

    def out(self, driver: str) -> Reach:
        """At an output's own contacts."""
        known = self._out.get(driver)
        if known is not None:
            return known
        output = self.circuit.outputs[driver]
        own = self.power(output.unit).union(output.pieces)
        hum = self.circuit.grounds(output.unit)
        self._out[driver] = Reach(own, own, hum)  # a loop through units is walked once
        behind = [self._input(name) for name in output.inputs if name in self._into]
        if behind:
            kills = frozenset.intersection(*(each.kills for each in behind))
            some = frozenset().union(*(each.some for each in behind))
            known = Reach(own | kills, own | some, hum.union(*(each.hum for each in behind)))
        else:
            known = Reach(own, own, hum)
        self._out[driver] = known
        return known

    def _input(self, name: str) -> Reach:
        made = self.receiver(name)
        piece = self.circuit.inputs.get(name)
        if piece is None:
            return made
        return Reach(made.kills | {piece}, made.some | {piece}, made.hum)

    def receiver(self, name: str) -> Reach:
        """At an input's or a speaker's terminals, all its feeds together."""
        known = self._receivers.get(name)
        if known is None:
            legs = [self.point(number, len(self.circuit.legs[number].steps)) for number in self._into[name]]
            known = self._receivers[name] = Reach(
                frozenset.intersection(*(each.kills for each in legs)),
                frozenset().union(*(each.some for each in legs)),
                frozenset().union(*(each.hum for each in legs)),
            )
        return known

    def point(self, leg: int, at: int) -> Reach:
        """On a leg, `at` steps behind the output; 0 is the output itself."""
        known = self._points.get((leg, at))
        if known is None:
            one = self.circuit.legs[leg]
            if at == 0:
                start = self.out(one.driver)
                known = (
                    start if not one.loop else Reach(start.kills.union(one.loop), start.some.union(one.loop), start.hum)
                )
            else:
                before = self.point(leg, at - 1)
                passed = one.steps[at - 1].pieces
                needed = [number for number in passed if number not in one.slack]
                known = Reach(before.kills.union(needed), before.some.union(passed), before.hum)
            self._points[leg, at] = known
        return known

    def speaker(self, name: str) -> Reach:
        """What the ear hangs on, the speaker itself with it."""
        known = self._speakers.get(name)
        if known is None:
            number = self.circuit.speakers[name]
            coils = [self.receiver(each) for each in self._of_speaker.get(name, ())]
            if coils:
                known = Reach(
                    frozenset.intersection(*(each.kills for each in coils)) | {number},
                    frozenset().union(*(each.some for each in coils)) | {number},
                    frozenset().union(*(each.hum for each in coils)),
                )
            else:
                known = Reach(frozenset({number}), frozenset({number}), _NONE)
            self._speakers[name] = known
        return known

    def dead(self, leg: int, at: int, gone: frozenset[int]) -> bool:
        """Whether nothing at all arrives at a point with these pieces gone: asked of sums, part by part."""
        one = self.circuit.legs[leg]
        passed = {number for step in one.steps[:at] for number in step.pieces if number not in one.slack}
        return bool(gone & passed.union(one.loop)) or self._out_dead(one.driver, gone, frozenset())

    def _out_dead(self, driver: str, gone: frozenset[int], seen: frozenset[str]) -> bool:
        output = self.circuit.outputs[driver]
        if gone & self.power(output.unit).union(output.pieces):
            return True
        behind = [name for name in output.inputs if name in self._into]
        if driver in seen or not behind:
            return False
        return all(self._in_dead(name, gone, seen | {driver}) for name in behind)

    def _in_dead(self, name: str, gone: frozenset[int], seen: frozenset[str]) -> bool:
        if self.circuit.inputs.get(name) in gone:
            return True
        for number in self._into[name]:
            leg = self.circuit.legs[number]
            needed = {n for step in leg.steps for n in step.pieces if n not in leg.slack}.union(leg.loop)
            if not gone & needed and not self._out_dead(leg.driver, gone, seen):
                return False
        return True

    def speaker_dead(self, name: str, gone: frozenset[int]) -> bool:
        """Whether nothing at all is heard with these pieces gone."""
        if self.circuit.speakers[name] in gone:
            return True
        return all(self._in_dead(each, gone, frozenset()) for each in self._of_speaker.get(name, ()))

    def fed(self, speaker: str) -> bool:
        return speaker in self._of_speaker

    def behind(self, leg: Leg, at: int) -> frozenset[int]:
        """The pieces of one leg from a point on to its receiver, its speaker with them."""
        found = {number for step in leg.steps[at:] for number in step.pieces if number not in leg.slack}
        if leg.speaker:
            found.add(self.circuit.speakers[leg.speaker])
        return frozenset(found)

    def keeps_on(self, unit: str, seen: frozenset[str] = frozenset()) -> frozenset[int]:
        """The pieces that can hold a unit on: itself, every wire of its turn-on's net, and what gives the 12 V."""
        number = self.circuit.units.get(unit)
        found = set[int]() if number is None else {number}
        for line in self.circuit.lines:
            if line.unit == unit and line.kind == "turn-on":
                for other in self.circuit.lines:
                    if other.kind == "turn-on" and other.start == line.start:
                        found |= {number for step in other.steps for number in step.pieces}
                if line.giver and line.giver not in seen | {unit}:
                    found |= self.keeps_on(line.giver, seen | {unit})
        return frozenset(found)
