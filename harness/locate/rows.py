"""What every suspect answers to a test, many at once: shorts that still the same outputs differ by a meter only."""

from __future__ import annotations

from harness.locate import tests as t
from harness.locate.faults import FAULTY, HOT, PROTECTING, SAGS, WITH_UNIT
from harness.locate.shorts import ACROSS_SPEAKER, BEHIND_INPUT, BEHIND_SPEAKER, READ
from harness.locate.simulate import Faults, Simulator
from harness.locate.tests import Test


class Rows:
    """The answers of some suspects of a simulator."""

    def __init__(self, simulator: Simulator, suspects: list[Faults]) -> None:
        self.simulator, self.suspects = simulator, suspects
        self._shorts = [len(faults) == 1 and faults[0].mode in PROTECTING for faults in suspects]
        first: dict[object, int] = {}
        # for each the number of the first that shows as it does wherever no leads are off and no ohms are read
        self._alike = [
            first.setdefault(simulator.shorts.stilled(faults[0]), at) if short else at
            for at, (faults, short) in enumerate(zip(suspects, self._shorts, strict=True))
        ]
        # so of what lies on leads, to the tests that tell of a unit itself: all leads of an output are one to them
        on_leads: dict[object, int] = {}
        self._on_leads = [
            on_leads.setdefault(simulator.shorts.stilled(faults[0]), at) if short and _on_leads(faults[0].mode) else at
            for at, (faults, short) in enumerate(zip(suspects, self._shorts, strict=True))
        ]
        self._at: dict[int, list[tuple[int, str]]] = {}  # what a meter reads of the shorts of each piece
        for at, (faults, short) in enumerate(zip(suspects, self._shorts, strict=True)):
            for number in (faults[0].piece, faults[0].other) if short else ():
                if faults[0].mode in READ:
                    self._at.setdefault(number, []).append((at, READ[faults[0].mode]))

    def of(self, test: Test) -> list[str]:
        """The answer of each to a test, in their order."""
        if test.kind == t.CLEAR:
            speaker = self.simulator.circuit.legs[test.leg].speaker
            return self._read(["clear"] * len(self.suspects), test, BEHIND_SPEAKER if speaker else BEHIND_INPUT)
        if test.kind == t.OHMS:
            made = [
                "as expected" if short else self.simulator.answer(faults, test)
                for faults, short in zip(self.suspects, self._shorts, strict=True)
            ]
            return self._read(made, test, ACROSS_SPEAKER)
        if test.kind in (t.HOLD, t.SWAP_OUT):
            return self._with_leads_off(test)
        if test.kind == t.ALL_OFF:
            return [self.simulator.answer(faults, test) for faults in self.suspects]
        made = []
        for at, same in enumerate(self._on_leads if test.kind in t.OF_ITSELF else self._alike):
            made.append(made[same] if same < at else self.simulator.answer(self.suspects[at], test))
        return made

    def _read(self, made: list[str], test: Test, wanted: tuple[str, ...]) -> list[str]:
        for number in self.simulator.shorts.behind(test.leg, test.at):
            for at, word in self._at.get(number, ()):
                if word in wanted:
                    made[at] = word
        return made

    def _with_leads_off(self, test: Test) -> list[str]:
        """Here it also matters on which outputs a short is."""
        legs, drivers = self.simulator.circuit.legs, self.simulator.shorts.drivers
        own = {legs[number].driver for number in (test.leg, test.partner) if number >= 0}
        known: dict[tuple[int, bool], str] = {}
        made = []
        for same, faults, short in zip(self._alike, self.suspects, self._shorts, strict=True):
            key = (same, short and not own.isdisjoint(drivers(faults[0])))
            if key not in known:
                known[key] = self.simulator.answer(faults, test)
            made.append(known[key])
        return made


def _on_leads(mode: str) -> bool:
    """Whether what makes a unit protect itself lies on its leads and not in the unit, its supply or its ground."""
    return WITH_UNIT.get(mode, mode) not in (FAULTY, SAGS, HOT)
