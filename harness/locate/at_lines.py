"""What feeds, grounds and turn-ons answer at a contact: their volts, and whether a unit stays on."""

from __future__ import annotations

from harness.locate.circuit import Circuit
from harness.locate.faults import POOR, SAGS, STUCK, Fault
from harness.locate.reach import Reaches
from harness.locate.shorts import Shorts
from harness.locate.tests import Test


class AtLines:
    """The tests at lines of one circuit, `at` steps behind where a line comes from."""

    def __init__(self, circuit: Circuit, reaches: Reaches, shorts: Shorts) -> None:
        self.circuit, self.reaches, self.shorts = circuit, reaches, shorts
        self._up_to: dict[tuple[int, int], frozenset[int]] = {}

    def dc(self, faults: tuple[Fault, ...], test: Test) -> str:
        """Volts of a feed or turn-on."""
        line = self.circuit.lines[test.line]
        gone = self.shorts.parted(faults)
        dead = self._before(test) & line.needed & gone
        if line.giver:
            dead |= self.reaches.power(line.giver) & gone
        return "0 V" if dead else "12 V"

    def drop(self, faults: tuple[Fault, ...], test: Test) -> str:
        """Volts that a ground loses."""
        line = self.circuit.lines[test.line]
        gone = self.shorts.parted(faults) & (line.needed | line.hum)
        poor = {fault.piece for fault in faults if fault.mode in (POOR, SAGS)}
        return "more" if (gone | poor) & self._before(test) else "under 0.1 V"

    def sag(self, faults: tuple[Fault, ...], test: Test) -> str:
        """Volts of a feed under load."""
        sags = {fault.piece for fault in faults if fault.mode == SAGS}
        if not sags:
            return "over 11 V"
        return "under 11 V" if sags & self._before(test) & self.circuit.lines[test.line].needed else "over 11 V"

    def off(self, faults: tuple[Fault, ...], test: Test) -> str:
        """A turn-on wire taken off: does the unit go off?"""
        stuck = {fault.piece for fault in faults if fault.mode == STUCK}
        line = self.circuit.lines[test.line]
        beyond = {number for step in line.steps[test.at :] for number in step.pieces}
        own = self.circuit.units.get(line.unit, -1)
        return "stays on" if stuck & (beyond | {own}) else "goes off"

    def still(self, faults: tuple[Fault, ...], test: Test) -> str:
        """Volts of a turn-on with the key off, the car asleep."""
        stuck = {fault.piece for fault in faults if fault.mode == STUCK}
        line = self.circuit.lines[test.line]
        own = self.circuit.units.get(line.unit, -1)
        return "over 1 V" if stuck & (self.reaches.keeps_on(line.unit) - {own}) else "under 1 V"

    def _before(self, test: Test) -> frozenset[int]:
        """The pieces of a line up to a contact of it."""
        known = self._up_to.get((test.line, test.at))
        if known is None:
            steps = self.circuit.lines[test.line].steps[: test.at]
            known = self._up_to[test.line, test.at] = frozenset(n for step in steps for n in step.pieces)
        return known
