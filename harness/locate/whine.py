"""Where noise can come from, for one speaker: all that it passes, and what is left of it once a plug is off.

And what the tests answer that look for it.
"""

from __future__ import annotations

from harness.locate.circuit import LOOP, Circuit
from harness.locate.faults import HISS, NOISES, POOR, Fault
from harness.locate.tests import Test


class Whine:
    """Pieces whose noise reaches a speaker. A turn-on wire carries none; a loop goes by the cable that closes it."""

    def __init__(self, circuit: Circuit) -> None:
        self.circuit = circuit
        self._into: dict[str, list[int]] = {}
        for number, leg in enumerate(circuit.legs):
            self._into.setdefault(leg.receiver, []).append(number)
        self._known: dict[tuple[str, int, bool], frozenset[int]] = {}
        self._own: dict[str, frozenset[int]] = {}

    def own(self, unit: str) -> frozenset[int]:
        """A unit, and what it is fed and grounded by."""
        known = self._own.get(unit)
        if known is None:
            lines = [line for line in self.circuit.lines if line.unit == unit and line.kind != "turn-on"]
            grounds = self.circuit.grounds(unit)
            feeds = {number for line in lines for number in line.needed}
            number = self.circuit.units.get(unit)
            known = self._own[unit] = frozenset(grounds | feeds | (set() if number is None else {number}))
        return known

    def reaching(self, speaker: str, leg: int = -1, *, fed: bool = False) -> frozenset[int]:
        """All that a speaker can have its noise from; with the leads of a leg off its input, or, `fed`, off its output
        with a player on its own battery on them: no ground goes by that cable then.
        """
        known = self._known.get((speaker, leg, fed))
        if known is None:
            found = set[int]()
            seen = set[int]()
            row = [number for number, each in enumerate(self.circuit.legs) if each.speaker == speaker]
            for number in row:
                one = self.circuit.legs[number]
                if number in seen or (number == leg and not fed):
                    continue
                seen.add(number)
                passed = {each for step in one.steps for each in step.pieces}
                if fed and one.driver == self.circuit.legs[leg].driver:
                    found |= {each for each in passed if self.circuit.pieces[each].kind != LOOP}
                    continue
                output = self.circuit.outputs[one.driver]
                found |= passed | set(output.pieces) | self.own(output.unit)
                for name in output.inputs:
                    row += self._into.get(name, [])
                    if name in self.circuit.inputs:
                        found.add(self.circuit.inputs[name])
            known = self._known[speaker, leg, fed] = frozenset(found)
        return known

    def noiseless(self, mode: str) -> set[int]:
        """Pieces of lines that can't be noisy in a way: turn-on wires never are, and a ground is poor or it isn't."""
        lines = {"feed": set[int](), "ground": set[int](), "turn-on": set[int]()}
        for line in self.circuit.lines:
            lines[line.kind].update(number for step in line.steps for number in step.pieces)
        signal = {number for leg in self.circuit.legs for step in leg.steps for number in step.pieces}
        return lines["turn-on"].union(lines["feed" if mode == POOR else "ground"]) - (
            lines["ground"] if mode == POOR else lines["feed"] | signal
        )

    # -- tests -------------------------------------------------------------------------------------------

    def mute(self, faults: tuple[Fault, ...], test: Test) -> str:
        """The noise with the signal leads off an input: what comes from before it is gone."""
        return _still_there(faults, self.reaching(test.speaker, test.leg))

    def feed(self, faults: tuple[Fault, ...], test: Test) -> str:
        """The same with the leads off an output and a player on them: its cable stays, what fed it is gone."""
        return _still_there(faults, self.reaching(test.speaker, test.leg, fed=True))

    def one(self, faults: tuple[Fault, ...], test: Test) -> str:
        """A unit grounded for a try where its giver is: its own way to the body is out of it, and so is the loop."""
        loop = next(each for each in self.circuit.loops if each.piece == test.piece)
        spared = (self.circuit.grounds(loop.taker) - self.circuit.grounds(loop.giver)) | {loop.piece}
        return "goes" if all(fault.piece in spared for fault in faults if fault.mode in NOISES) else "stays"

    def engine(self, faults: tuple[Fault, ...], test: Test) -> str:
        """The engine off, the key on: hiss stays."""
        return "stays" if any(fault.mode == HISS for fault in faults) else "goes"


def _still_there(faults: tuple[Fault, ...], reaching: frozenset[int]) -> str:
    return "stays" if any(fault.piece in reaching for fault in faults if fault.mode in NOISES) else "goes"
