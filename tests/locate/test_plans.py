"""A thousand random plans, a fault in each: found, or left in a set that no allowed test splits. By the oracle."""

from __future__ import annotations

import ast
from collections.abc import Callable
from pathlib import Path

import pytest

from harness.locate import arriving
from harness.locate.circuit import Circuit
from harness.locate.faults import OPEN, PROTECTING
from harness.locate.reach import Reach
from harness.locate.simulate import Faults, Simulator
from harness.locate.symptoms import Symptom
from harness.locate.tests import Test as Probe
from tests.locate.plans import random_plan
from tests.locate.rounds import Wrong, play, play_double

PLANS, CHUNK = 1000, 50


@pytest.mark.parametrize("first", range(0, PLANS, CHUNK))
def test_each_fault_is_found(first: int) -> None:
    left = [play(seed) for seed in range(first, first + CHUNK)]

    assert sum(1 for each in left if each == 1) > 0.75 * CHUNK, "of shorts only what a plug parts is told apart"


@pytest.mark.parametrize("first", range(0, 80, 20))
def test_two_faults_are_found(first: int) -> None:
    """Two opens that are heard otherwise than each alone."""
    assert all(play_double(seed) <= 12 for seed in range(first, first + 20))


def test_half_of_the_plans_are_no_rows() -> None:
    """At least two branches, plugs that several channels share, or grounds that are bridged."""
    odd = [random_plan(seed).odd for seed in range(PLANS)]

    assert sum(1 for each in odd if each) >= PLANS // 2
    for what in ("branches", "shared plugs", "bridged grounds"):
        assert sum(1 for each in odd if what in each) >= PLANS // 10


def test_the_oracle_takes_the_reader_only(root: Path) -> None:
    tree = ast.parse((root / "tests" / "locate" / "oracle.py").read_text(encoding="utf-8"))
    modules = [node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    modules += [name.name for node in ast.walk(tree) if isinstance(node, ast.Import) for name in node.names]

    assert {name for name in modules if name.startswith(("harness", "render", "tests"))} == {
        "harness.read.job", "harness.read.troubles",
    }  # fmt: skip


# -- simulators that are wrong, each in one way --------------------------------------------------------------


class LooksOneStepOn(Simulator):
    def _at_point(self, faults: Faults, test: Probe) -> str:
        last = len(self.circuit.legs[test.leg].steps)
        return super()._at_point(faults, test._replace(at=min(test.at + 1, last)))


class SwapsTheWrongWay(Simulator):
    def _swap(self, faults: Faults, test: Probe) -> str:
        return "moves" if super()._swap(faults, test) == "stays" else "stays"


class TakesEveryFuseForWhole(Simulator):
    def _fuse(self, faults: Faults, test: Probe) -> str:
        return "whole"


class ForgetsThatPlugsAreShared(Simulator):
    def explains(self, faults: Faults, symptoms: tuple[Symptom, ...]) -> bool:
        return not any(self.circuit.pieces[each.piece].whole for each in faults) and super().explains(faults, symptoms)


class TakesBridgedGroundsForSingle(Simulator):
    def __init__(self, circuit: Circuit) -> None:
        lines = tuple(
            line._replace(needed=frozenset(number for step in line.steps for number in step.pieces))
            for line in circuit.lines
        )
        super().__init__(circuit._replace(lines=lines))


class SilencesWhatIsOnlyThinner(Simulator):
    def arrives(self, faults: Faults, reach: Reach) -> str:
        word = super().arrives(faults, reach)
        return arriving.NOTHING if word == arriving.THINNED and faults[0].mode == OPEN else word


class LosesTheTurnOnOfOthers(Simulator):
    def __init__(self, circuit: Circuit) -> None:
        super().__init__(circuit._replace(lines=tuple(line._replace(giver="") for line in circuit.lines)))


class MeasuresOhmsTheWrongWay(Simulator):
    def _ohms(self, faults: Faults, test: Probe) -> str:
        return "as expected" if super()._ohms(faults, test) != "as expected" else "open"


class ClipsPastEverything(Simulator):
    def _clip(self, faults: Faults, test: Probe) -> str:
        return "plays"


class SeesVoltsBehindEveryBreak(Simulator):
    def answer(self, faults: Faults, test: Probe) -> str:
        word = super().answer(faults, test)
        return {"0 V": "12 V", "12 V": "0 V"}.get(word, word)


class TakesBranchesForOneWire(Simulator):
    """Each speaker of an output hangs on everything that any of them hangs on."""

    def heard(self, faults: Faults) -> dict[str, str]:
        made = super().heard(faults)
        for leg in self.circuit.legs:
            for other in self.circuit.legs:
                if leg.speaker in made and other.speaker and leg.driver == other.driver:
                    made.setdefault(other.speaker, made[leg.speaker])
        return made


class TurnsNothingRound(Simulator):
    def _at_point(self, faults: Faults, test: Probe) -> str:
        word = super()._at_point(faults, test)
        return "signal" if word == "reversed" and test.at < 2 else word


class ReadsNoShort(Simulator):
    def _ohms(self, faults: Faults, test: Probe) -> str:
        return "as expected" if faults[0].mode in PROTECTING else super()._ohms(faults, test)


class ReadsTheBodyOnBothSides(Simulator):
    def _clear(self, faults: Faults, test: Probe) -> str:
        return "to the body" if faults[0].mode.startswith("body") else super()._clear(faults, test)


class PlaysIntoTheShort(Simulator):
    def _at_point(self, faults: Faults, test: Probe) -> str:
        return arriving.NOTHING if faults[0].mode in PROTECTING else super()._at_point(faults, test)


WRONG = [
    ReadsNoShort, ReadsTheBodyOnBothSides, PlaysIntoTheShort,
    LooksOneStepOn, SwapsTheWrongWay, TakesEveryFuseForWhole, ForgetsThatPlugsAreShared, TakesBridgedGroundsForSingle,
    SilencesWhatIsOnlyThinner, LosesTheTurnOnOfOthers, MeasuresOhmsTheWrongWay, ClipsPastEverything,
    SeesVoltsBehindEveryBreak, TakesBranchesForOneWire, TurnsNothingRound,
]  # fmt: skip


@pytest.mark.parametrize("simulator", WRONG, ids=lambda each: each.__name__)
def test_a_wrong_simulator_is_noticed(simulator: Callable[[Circuit], Simulator]) -> None:
    """Of the same plans at least one fails for each of them."""
    assert any(_fails(seed, simulator) for seed in range(PLANS))


def _fails(seed: int, simulator: Callable[[Circuit], Simulator]) -> bool:
    try:
        play(seed, simulator)
    except Wrong:
        return True
    return False
