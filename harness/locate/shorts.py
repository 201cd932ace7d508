"""What makes a unit protect itself, pairs that touch above all: which outputs that stills, what a meter reads of it."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator
from functools import cached_property

from harness.locate.circuit import CHANNEL, Circuit
from harness.locate.faults import (
    BODY,
    CROSSED,
    FAULTY,
    HOT,
    LOAD,
    LOOSE,
    OPEN,
    PROTECTING,
    SAGS,
    SHORTED,
    TOUCHING,
    WITH_UNIT,
    Fault,
    crossings,
    possible,
)  # fmt: skip
from harness.locate.reach import Reaches

READ = {SHORTED: "short", BODY: "to the body", TOUCHING: "to a pair", LOAD: "too low"}
READ |= {mode: READ[plain] for mode, plain in WITH_UNIT.items() if plain in READ}
_NONE = frozenset[str]()
# What ohms tell behind a point: across a speaker's coil they are asked for by themselves.
ACROSS_SPEAKER = ("short", "too low")
BEHIND_SPEAKER = ("to the body", "to a pair")
BEHIND_INPUT = ("short", *BEHIND_SPEAKER)


class Shorts:
    """Shorts of one circuit. An output that works into one stays silent; some units then still all that they drive."""

    def __init__(self, circuit: Circuit, reaches: Reaches) -> None:
        self.circuit, self.reaches = circuit, reaches
        self._stilled: dict[tuple[int, str, bool], frozenset[int]] = {}
        self._known: dict[tuple[int, str], frozenset[int]] = {}
        self._drives: dict[frozenset[int], bool] = {}  # whether one of such outputs drives a speaker itself
        self._beside: dict[int, list[int]] = {}
        self._on: dict[Fault, set[str]] = {}
        self._behind: dict[tuple[int, int], frozenset[int]] = {}
        self._drivers: dict[int, set[str]] = {}
        self._loads: dict[int, set[str]] = {}  # by speaker
        for leg in circuit.legs:
            for step in leg.steps:
                for number in step.pieces:
                    self._drivers.setdefault(number, set()).add(leg.driver)
            if leg.speaker and circuit.outputs[leg.driver].power:
                self._loads.setdefault(circuit.speakers[leg.speaker], set()).add(leg.driver)

    def drivers(self, fault: Fault) -> set[str]:
        """The outputs on whose leads the cause is: with those off it is gone. None of what a unit has by itself."""
        plain = WITH_UNIT.get(fault.mode, fault.mode)
        if plain == LOAD:
            return self._loads.get(fault.piece, set())
        if plain in (FAULTY, SAGS, HOT):
            return set()
        known = self._on.get(fault)
        if known is None:
            known = self._drivers.get(fault.piece, set()) | self._drivers.get(fault.other, set())
            self._on[fault] = known
        return known

    def stilled(self, fault: Fault) -> frozenset[int]:
        """The pieces of all outputs that say nothing."""
        made = self._of(fault.piece, fault.mode)
        return made if fault.other < 0 else made | self._of(fault.other, fault.mode)

    def parted(self, faults: Iterable[Fault]) -> set[int]:
        """The pieces through which nothing comes: open ones, and outputs that are stilled."""
        gone = set[int]()
        for fault in faults:
            if fault.mode in (OPEN, LOOSE):
                gone.add(fault.piece)
            elif fault.mode in PROTECTING:
                gone |= self.stilled(fault)
        return gone

    def is_last(self, fault: Fault) -> bool:
        """Whether an output that it stills drives a speaker itself: then it is its unit that is seen to protect."""
        stilled = self.stilled(fault)
        known = self._drives.get(stilled)
        if known is None:
            known = self._drives[stilled] = not self._last.isdisjoint(stilled)
        return known

    @cached_property
    def _last(self) -> frozenset[int]:
        outputs = self.circuit.outputs
        return frozenset(n for leg in self.circuit.legs if leg.speaker for n in outputs[leg.driver].pieces)

    def _of(self, number: int, mode: str) -> frozenset[int]:
        known = self._known.get((number, mode))
        if known is None:
            known = self._known[number, mode] = self._found(number, mode)
        return known

    def _found(self, number: int, mode: str) -> frozenset[int]:
        plain = WITH_UNIT.get(mode, mode)
        # what lies on leads stills the same outputs whichever it is, and so does what a unit has by itself
        group = plain if plain in (LOAD, FAULTY, SAGS, HOT) else SHORTED
        key = (number, group, mode in WITH_UNIT)
        known = self._stilled.get(key)
        if known is None:
            outputs = self.circuit.outputs
            units = set[str]()
            if plain == LOAD:
                found = set(self._loads.get(number, ()))
            elif plain in (SAGS, HOT) or (plain == FAULTY and number in self._units):
                found, units = set[str](), self._of_unit(number, plain)
            elif plain == FAULTY:
                found = {name for name, each in outputs.items() if number in each.pieces}
            else:
                found = set(self._drivers.get(number, ()))
            if mode in WITH_UNIT:
                units |= {outputs[name].unit for name in found}
            found |= {name for name, each in outputs.items() if each.power and each.unit in units}
            known = frozenset(number for name in found for number in outputs[name].pieces)
            self._stilled[key] = known
        return known

    @cached_property
    def _units(self) -> dict[int, str]:
        return {number: unit for unit, number in self.circuit.units.items()}

    def _of_unit(self, number: int, mode: str) -> set[str]:
        """The units that a piece is, or whose feed or ground goes through it."""
        if mode != SAGS:
            return {self._units[number]} if number in self._units else set()
        return {
            line.unit
            for line in self.circuit.lines
            if (line.kind == "feed" and number in line.needed)
            or (line.kind == "ground" and number in line.needed | line.hum)
        }

    @cached_property
    def by_themselves(self) -> dict[str, frozenset[int]]:
        """By mode the pieces that can make a unit that drives speakers protect itself, without its leads."""
        pieces = self.circuit.pieces
        outputs = [
            each for each in self.circuit.outputs.values() if each.power and pieces[each.pieces[0]].kind == CHANNEL
        ]
        driving = {each.unit for each in outputs}
        units = frozenset(number for number, unit in self._units.items() if unit in driving)
        lines = {n for line in self.circuit.lines if line.unit in driving for n in line.needed | line.hum}
        own = frozenset(n for each in outputs for n in each.pieces)
        sags = frozenset(number for number in lines if self._of_unit(number, SAGS) & driving)
        return {LOAD: frozenset(self._loads), FAULTY: own | units, SAGS: sags, HOT: units}

    @cached_property
    def protecting(self) -> frozenset[int]:
        """The pieces whose short may still more than its own output: of a unit that drives several."""
        outputs = self.circuit.outputs
        driven = [each.unit for each in outputs.values() if each.power]
        several = {name for name, each in outputs.items() if each.power and driven.count(each.unit) > 1}
        return frozenset(number for number, names in self._drivers.items() if names & several)

    def _is_one_of_several(self, number: int, plain: str) -> bool:
        """Whether a unit that protects itself stills more than what is wrong does by itself."""
        return self._of(number, plain) != self._of(number, next(m for m, p in WITH_UNIT.items() if p == plain))

    def among(self, mode: str, numbers: Iterable[int], fits: Callable[[Fault], bool]) -> Iterator[Fault]:
        """Shorts of one kind at some pieces, as far as they fit: of the others there are too many to look at each."""
        plain = WITH_UNIT.get(mode, mode)
        places: Container[int] = self.protecting if mode in WITH_UNIT else self._drivers
        pairs = plain == TOUCHING
        if plain in self.by_themselves:
            places = self.by_themselves[plain] - (frozenset(self._units) if mode in WITH_UNIT else frozenset())
            if mode in WITH_UNIT:
                places = frozenset(number for number in places if self._is_one_of_several(number, plain))
        done = set[int]()  # pieces of which every pair was looked at
        for number in numbers:
            if number not in places:
                continue
            fault = Fault(mode, number)
            if (not pairs and not fits(fault)) or not possible(self.circuit, mode, number):
                continue
            if not pairs:
                yield fault
                continue
            own, fit = self._drivers.get(number, _NONE), dict[frozenset[int], bool]()
            done.add(number)
            mutual = number not in self.circuit.grounded and possible(self.circuit, CROSSED, number)
            for other in self._mixed(number):
                if mutual and other in done:
                    continue  # told from its side
                if not own.isdisjoint(self._drivers.get(other, _NONE)):
                    continue  # of one output, no other is meant
                fault, also = Fault(mode, min(number, other), max(number, other)), self._of(other, mode)
                if also not in fit:  # the same for all that still the same outputs
                    fit[also] = fits(fault)
                if fit[also]:
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
            legs = self.circuit.beyond(leg, at)
            known = self._behind[leg, at] = frozenset(
                number for each in legs for step in each.steps[at:] for number in step.pieces
            ) | {self.circuit.speakers[each.speaker] for each in legs if each.speaker}
        return known

    def reads(self, leg: int, at: int) -> Callable[[Fault], str]:
        """What a meter finds behind a point that is parted, a word of `READ`; else empty."""
        behind = self.behind(leg, at)

        def read(fault: Fault) -> str:
            word = READ.get(fault.mode, "")
            return word if word and (fault.piece in behind or fault.other in behind) else ""

        return read
