"""The hunt for a whine in random plans, one noisy place in each: found, or left in a set that no test splits."""

from __future__ import annotations

import ast
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from harness.graph.wiring import Wiring
from harness.locate import tests
from harness.locate.circuit import Circuit
from harness.locate.session import Session
from harness.locate.simulate import Faults, Simulator
from harness.locate.symptoms import read_symptoms
from harness.locate.tests import Test as Probe
from tests.locate import whine_oracle
from tests.locate.oracle import Car, read
from tests.locate.plans import random_plan
from tests.locate.rounds import Wrong, _wires
from tests.locate.whine_oracle import Noises, Noisy

PLANS, CHUNK = 240, 40
TRIED = ("feed", "one ground", "engine")  # asked of every suspect: they part the rarer ones
MODES = {"noisy": "noisy", "hiss": "hiss", "poor ground": "poor"}


def _noisy(session: Session, car: Car, faults: Faults) -> Noisy:
    """A fault of the tool as the oracle takes it."""
    (fault,) = faults
    piece = session.circuit.pieces[fault.piece]
    kind = {"source": "output", "channel": "output"}.get(piece.kind, piece.kind)
    if not piece.wires:
        return Noisy(MODES[fault.mode], thing=(kind, piece.name))
    wires = _wires(piece.kind, piece.wires)
    if piece.whole and piece.kind in ("plug", "mated"):
        wires = next(each.wires for each in car.wholes() if wires <= each.wires)
    return Noisy(MODES[fault.mode], wires)


def _answer(session: Session, car: Car, fault: Noisy, test: Probe) -> str:
    ports, loop = ("", ""), ("", "")
    circuit = session.circuit
    if test.partner >= 0:
        own, other = circuit.legs[test.leg], circuit.legs[test.partner]
        ports = (own.receiver, other.receiver) if test.kind == "swap in" else (own.driver, other.driver)
    elif test.kind == "feed":
        ports = (circuit.legs[test.leg].driver, "")
    elif test.kind == "one ground":
        loop = next((each.terminal, each.point) for each in circuit.loops if each.piece == test.piece)
    return whine_oracle.answer(car, fault, test, ports, loop)


def plan_of(seed: int) -> str | None:
    """A plan in which each unit has one way to ground; what is bridged shares its current, and nobody can say how."""
    plan = random_plan(seed)
    return None if "bridged grounds" in plan.odd else plan.text


def play(seed: int, simulator: Callable[[Circuit], Simulator] = Simulator) -> int:
    """One hunt; gives how many suspects are left, 0 where the plan isn't played. Raises Wrong."""
    text = plan_of(seed)
    if text is None:
        return 0
    dice = random.Random(f"whine {seed}")
    job = read(text)
    car = Car(job)
    pool = list(whine_oracle.faults(car))
    by_kind: dict[str, list[Noisy]] = {}
    for each in pool:
        by_kind.setdefault(f"{each.mode} {each.thing[0]}", []).append(each)
    order = list(by_kind)
    dice.shuffle(order)
    fault, heard = None, []
    for kind in order:
        fault = dice.choice(by_kind[kind])
        heard = Noises(car, fault).heard()
        if heard:
            break
    if fault is None or not heard:
        raise ValueError("a plan in which nothing can be noisy")
    about = f"seed {seed}: {fault} heard at {heard}"
    wiring = Wiring(job)
    session = Session(wiring, read_symptoms(wiring, [f"{name} noise" for name in heard]), simulator=simulator)
    made = [_noisy(session, car, faults) for faults in session.suspects]
    if fault not in made:
        raise Wrong(f"{about}: is no suspect of {made}")
    for each in made:
        if Noises(car, each).heard() != heard:
            raise Wrong(f"{about}: the suspect {each} would be heard at {Noises(car, each).heard()}")
    for each, faults in zip(made, session.suspects, strict=True):
        for test in session.tests:
            if each == fault or test.kind in TRIED:
                foreseen, told = session.simulator.answer(faults, test), _answer(session, car, each, test)
                if foreseen != told:
                    raise Wrong(f"{about}: with {each} {test} answers {told}, foreseen was {foreseen}")
    if seed % 5 == 0:
        forgotten = [each for each in pool if each not in made and Noises(car, each).heard() == heard]
        if forgotten:
            raise Wrong(f"{about}: forgets {forgotten}")
    while (test := session.next_test()) is not None:
        session.answer(_answer(session, car, fault, test))
    ends = [_noisy(session, car, suspect.faults) for suspect in session.ranked]
    if fault not in ends:
        raise Wrong(f"{about}: ended with {ends}")
    for test in session.tests if len(ends) > 1 else ():
        if len({_answer(session, car, each, test) for each in ends}) > 1:
            raise Wrong(f"{about}: {test} splits the end {ends}")
    return len(ends)


@pytest.mark.parametrize("first", range(0, PLANS, CHUNK))
def test_each_noisy_place_is_found(first: int) -> None:
    left = [count for seed in range(first, first + CHUNK) if (count := play(seed))]

    assert len(left) > CHUNK / 2
    assert sum(1 for each in left if each == 1) > 0.5 * len(left), (
        "cables of one feed are not split, nor a place from its own whole plug"
    )


def test_the_oracle_takes_nothing_of_the_package(root: Path) -> None:
    tree = ast.parse((root / "tests" / "locate" / "whine_oracle.py").read_text(encoding="utf-8"))
    modules = {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}

    assert {name for name in modules if name.startswith(("harness", "render", "tests"))} == {"tests.locate.oracle"}


# -- simulators that are wrong, each in one way --------------------------------------------------------------


class MutesWhatIsBehind(Simulator):
    def answer(self, faults: Faults, test: Probe) -> str:
        return "goes" if test.kind == tests.MUTE else super().answer(faults, test)


class TakesThePlayerForTheUnit(Simulator):
    def answer(self, faults: Faults, test: Probe) -> str:
        return super().answer(faults, test._replace(kind=tests.MUTE) if test.kind == tests.FEED else test)


class GroundsNothingForATry(Simulator):
    def answer(self, faults: Faults, test: Probe) -> str:
        return "stays" if test.kind == tests.ONE else super().answer(faults, test)


class HearsTheEngineInEverything(Simulator):
    def answer(self, faults: Faults, test: Probe) -> str:
        return "goes" if test.kind == tests.ENGINE else super().answer(faults, test)


class ForgetsTheLoops(Simulator):
    def explains(self, faults: Any, symptoms: Any) -> bool:
        return self.circuit.pieces[faults[0].piece].kind != "loop" and super().explains(faults, symptoms)


@pytest.mark.parametrize(
    "simulator",
    [MutesWhatIsBehind, TakesThePlayerForTheUnit, GroundsNothingForATry, HearsTheEngineInEverything, ForgetsTheLoops],
)
def test_a_wrong_simulator_is_noticed(simulator: Callable[[Circuit], Simulator]) -> None:
    def fails(seed: int) -> bool:
        try:
            play(seed, simulator)
        except Wrong:
            return True
        return False

    assert any(fails(seed) for seed in range(PLANS))
