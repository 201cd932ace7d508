"""Pairs that touch what they must not: which outputs that stills, and what a meter reads with a plug apart."""

from __future__ import annotations

from harness.locate.circuit import Circuit
from harness.locate.faults import BODY, SHORTED, TOUCHING, WITH_UNIT, Fault
from harness.locate.reach import Reaches


class Shorts:
    """Shorts of one circuit. An output that works into one stays silent; some units then still all that they drive."""

    def __init__(self, circuit: Circuit, reaches: Reaches) -> None:
        self.circuit, self.reaches = circuit, reaches
        self._stilled: dict[Fault, frozenset[int]] = {}
        self._drivers: dict[int, set[str]] = {}
        for leg in circuit.legs:
            for step in leg.steps:
                for number in step.pieces:
                    self._drivers.setdefault(number, set()).add(leg.driver)

    def drivers(self, fault: Fault) -> set[str]:
        """The outputs that a short lies on."""
        return self._drivers.get(fault.piece, set()) | self._drivers.get(fault.other, set())

    def apart(self, fault: Fault) -> bool:
        """Whether the two that touch are different outputs’."""
        return not self._drivers.get(fault.piece, set()) & self._drivers.get(fault.other, set())

    def stilled(self, fault: Fault) -> frozenset[int]:
        """The pieces of all outputs that say nothing."""
        known = self._stilled.get(fault)
        if known is None:
            outputs = self.circuit.outputs
            found = self.drivers(fault)
            if fault.mode in WITH_UNIT:
                units = {outputs[name].unit for name in found}
                found = {name for name, each in outputs.items() if each.power and each.unit in units}
            known = self._stilled[fault] = frozenset(number for name in found for number in outputs[name].pieces)
        return known

    def can_protect(self, number: int) -> bool:
        """Whether a short of a piece may still more than its own output: of a unit that drives several."""
        outputs = self.circuit.outputs
        for name in self._drivers.get(number, ()):
            unit = outputs[name].unit
            if outputs[name].power and sum(each.power and each.unit == unit for each in outputs.values()) > 1:
                return True
        return False

    def behind(self, leg: int, at: int) -> frozenset[int]:
        """The pieces from a point on to everything that hangs there."""
        one = self.circuit.legs[leg]
        passed = one.steps[:at]
        return frozenset(
            number
            for each in self.circuit.legs
            if each.driver == one.driver and each.steps[:at] == passed
            for step in each.steps[at:]
            for number in step.pieces
        )

    def read(self, fault: Fault, leg: int, at: int) -> str:
        """`short`, `to the body`, `to a pair` by what a meter finds behind a point that is parted; else empty."""
        if not {fault.piece, fault.other} & self.behind(leg, at):
            return ""
        return {SHORTED: "short", BODY: "to the body", TOUCHING: "to a pair"}.get(
            WITH_UNIT.get(fault.mode, fault.mode), ""
        )
