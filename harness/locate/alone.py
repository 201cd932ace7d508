"""What a unit that protects itself shows, and does without its leads: what those tests answer."""

from __future__ import annotations

from harness.locate.circuit import Circuit
from harness.locate.faults import FAULTY, HOT, PROTECTING, WITH_UNIT, Fault
from harness.locate.shorts import Shorts
from harness.locate.tests import MORE_ON, Test


class ByItself:
    """The tests at units of one circuit."""

    def __init__(self, circuit: Circuit, shorts: Shorts) -> None:
        self.circuit, self.shorts = circuit, shorts

    def _unit(self, test: Test) -> str:
        return self.circuit.outputs[self.circuit.legs[test.leg].driver].unit

    def all_off(self, faults: tuple[Fault, ...], test: Test) -> str:
        """All leads off a unit's outputs: does it still protect? Not where its leads or speakers were the cause."""
        unit = self._unit(test)
        on = {self.circuit.outputs[name].unit for fault in faults for name in self.shorts.drivers(fault)}
        return "goes" if unit in on else "stays"

    def look(self, faults: tuple[Fault, ...], test: Test) -> str:
        """Whether a unit shows protect: it does where an output of it that drives a speaker is still."""
        outputs = self.circuit.outputs
        unit = self._unit(test)
        own = {n for each in outputs.values() if each.power and each.unit == unit for n in each.pieces}
        still = {n for fault in faults if fault.mode in PROTECTING for n in self.shorts.stilled(fault)}
        return "shows it" if own & still else "plays on"

    def cool(self, faults: tuple[Fault, ...], test: Test) -> str:
        """Left to cool: does it play at first?"""
        own = self.circuit.units[self._unit(test)]
        return "plays at first" if any(fault.mode == HOT and fault.piece == own for fault in faults) else "at once"

    def offset(self, faults: tuple[Fault, ...], test: Test) -> str:
        """DC of a unit's outputs with their leads off."""
        bad = {each.piece for each in faults if WITH_UNIT.get(each.mode, each.mode) == FAULTY}
        own = [each for each in self.circuit.outputs.values() if each.unit == self._unit(test)]
        found = next((each.name for each in own if not bad.isdisjoint(each.pieces)), "")
        return f"{MORE_ON}{found.replace('.', ' ')}" if found else "under 0.1 V"
