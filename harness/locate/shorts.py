"""Pairs that touch what they must not: which outputs that stills, and what a meter reads with a plug apart."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator
from functools import cached_property

from harness.locate.circuit import Circuit
from harness.locate.faults import BODY, SHORTED, TOUCHING, WITH_UNIT, Fault, crossings, possible
from harness.locate.reach import Reaches

READ = {SHORTED: "short", BODY: "to the body", TOUCHING: "to a pair"}
READ |= {mode: READ[plain] for mode, plain in WITH_UNIT.items()}
# What ohms tell behind a point: across a speaker's coil they are asked for by themselves.
BEHIND_SPEAKER = ("to the body", "to a pair")
BEHIND_INPUT = ("short", *BEHIND_SPEAKER)


class Shorts:
    """Shorts of one circuit. An output that works into one stays silent; some units then still all that they drive."""

    def __init__(self, circuit: Circuit, reaches: Reaches) -> None:
        self.circuit, self.reaches = circuit, reaches
        self._stilled: dict[tuple[int, bool], frozenset[int]] = {}
        self._beside: dict[int, list[int]] = {}
        self._on: dict[Fault, set[str]] = {}
        self._behind: dict[tuple[int, int], frozenset[int]] = {}
        self._drivers: dict[int, set[str]] = {}
        for leg in circuit.legs:
            for step in leg.steps:
                for number in step.pieces:
                    self._drivers.setdefault(number, set()).add(leg.driver)

    def drivers(self, fault: Fault) -> set[str]:
        """The outputs that a short lies on."""
        known = self._on.get(fault)
        if known is None:
            known = self._drivers.get(fault.piece, set()) | self._drivers.get(fault.other, set())
            self._on[fault] = known
        return known

    def _apart(self, fault: Fault) -> bool:
        """Whether the two that touch are different outputs’."""
        return not self._drivers.get(fault.piece, set()) & self._drivers.get(fault.other, set())

    def stilled(self, fault: Fault) -> frozenset[int]:
        """The pieces of all outputs that say nothing."""
        unit = fault.mode in WITH_UNIT
        made = self._of(fault.piece, unit)
        return made if fault.other < 0 else made | self._of(fault.other, unit)

    def _of(self, number: int, unit: bool) -> frozenset[int]:
        known = self._stilled.get((number, unit))
        if known is None:
            outputs = self.circuit.outputs
            found = self._drivers.get(number, set())
            if unit:
                units = {outputs[name].unit for name in found}
                found = {name for name, each in outputs.items() if each.power and each.unit in units}
            known = frozenset(number for name in found for number in outputs[name].pieces)
            self._stilled[number, unit] = known
        return known

    @cached_property
    def protecting(self) -> frozenset[int]:
        """The pieces whose short may still more than its own output: of a unit that drives several."""
        outputs = self.circuit.outputs
        driven = [each.unit for each in outputs.values() if each.power]
        several = {name for name, each in outputs.items() if each.power and driven.count(each.unit) > 1}
        return frozenset(number for number, names in self._drivers.items() if names & several)

    def among(self, mode: str, numbers: Iterable[int], fits: Callable[[Fault], bool]) -> Iterator[Fault]:
        """Shorts of one kind at some pieces, as far as they fit: of the others there are too many to look at each."""
        pairs = WITH_UNIT.get(mode, mode) == TOUCHING
        places: Container[int] = self.protecting if mode in WITH_UNIT else self._drivers
        for number in numbers:
            if number not in places:
                continue
            fault = Fault(mode, number)
            if (not pairs and not fits(fault)) or not possible(self.circuit, mode, number):
                continue
            if not pairs:
                yield fault
                continue
            for other in self._mixed(number):
                fault = Fault(mode, min(number, other), max(number, other))
                if self._apart(fault) and fits(fault):
                    yield fault

    def _mixed(self, number: int) -> list[int]:
        """The pieces that lie beside one and may touch it."""
        known = self._beside.get(number)
        if known is None:
            found = crossings(self.circuit, number)
            known = self._beside[number] = [each for each in found if each not in self.circuit.grounded]
        return known

    def behind(self, leg: int, at: int) -> frozenset[int]:
        """The pieces from a point on to everything that hangs there."""
        known = self._behind.get((leg, at))
        if known is None:
            known = self._behind[leg, at] = frozenset(
                number for each in self.circuit.beyond(leg, at) for step in each.steps[at:] for number in step.pieces
            )
        return known

    def reads(self, leg: int, at: int) -> Callable[[Fault], str]:
        """`short`, `to the body`, `to a pair` by what a meter finds behind a point that is parted; else empty."""
        behind = self.behind(leg, at)

        def read(fault: Fault) -> str:
            word = READ.get(fault.mode, "")
            return word if word and (fault.piece in behind or fault.other in behind) else ""

        return read
