"""One search played against the oracle: a plan, a fault put in, the tool asks, the oracle answers."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

from harness.graph.wiring import Wiring
from harness.locate.circuit import Circuit
from harness.locate.session import Session
from harness.locate.simulate import Simulator
from harness.locate.symptoms import read_symptoms
from tests.locate.oracle import PROTECTING, Bench, Broken, Car, read
from tests.locate.plans import random_plan

SILENT = ("silent", "silent", "silent", "silent", "silent", "intermittent")


class Wrong(AssertionError):
    """The search and the oracle disagree."""


def planted(dice: random.Random, car: Car) -> tuple[Broken, dict[str, str]]:
    """A fault that is heard, and what is heard. Of each kind of fault some; an open one is the commonest."""
    faults = list(car.faults())
    pools = {
        "open": [each for each in faults if each.mode == "open" and not each.dead],
        "dead": [each for each in faults if each.dead],
        "turned": [each for each in faults if each.mode == "turned"],
        "whole": list(car.wholes()),
        "crossed": list(car.crossings()),
        "short": list(car.shorts()),
    }
    for kind in [
        dice.choice(["open", "open", "open", "dead", "whole", "turned", "crossed", "short"]),
        "open",
        "turned",
        "dead",
    ]:
        dice.shuffle(pools[kind])
        for fault in pools[kind]:
            heard = _plain(Bench(car).world((fault,)).heard())
            if heard and len({word[:5] for word in heard.values()}) == 1:
                return fault, heard
    raise ValueError("a plan in which nothing can be heard to break")


def is_short(fault: Broken) -> bool:
    return fault.mode.partition(",")[0] in ("shorted", "body", "touching", *PROTECTING)


def symptoms_of(heard: dict[str, str], silent: str) -> list[str]:
    words = {"nothing": silent, "reversed": "reversed"}
    return [f"{name} {words.get(word, 'wrong place')}" for name, word in heard.items()]


def broken(session: Session, car: Car, faults: Any) -> tuple[Broken, ...]:
    """The tool's faults as the oracle takes them. Of a whole plug the tool knows the terminals that matter here."""
    made = []
    for fault in faults:
        pieces = session.circuit.pieces
        piece = pieces[fault.piece]
        kind = {"source": "output", "channel": "output", "turn-on": "giver"}.get(piece.kind, piece.kind)
        dead = None if piece.wires else (kind, car.terminal(piece.name) if kind == "giver" else piece.name)
        mode = "open" if fault.mode == "loose" else fault.mode
        others = pieces[fault.other].wires if fault.other >= 0 else frozenset()
        wires = _wires(piece.kind, piece.wires)
        if piece.whole and piece.kind in ("plug", "mated"):
            wires = next(each.wires for each in car.wholes() if wires <= each.wires)
        instead = pieces[fault.other].name if fault.other >= 0 and dead else ""
        made.append(Broken(mode, wires, _wires(piece.kind, others), dead, instead))
    return tuple(made)


def _wires(kind: str, wires: frozenset[tuple[str, str]]) -> frozenset[tuple[str, str]]:
    """The oracle calls every end of a loom in a plug a pin; the tool only where a free lead hangs on it."""
    if kind == "plug":
        return frozenset((f"{pin}~pin", half) for pin, half in wires)
    if kind == "lead":
        return frozenset((a if "~" in a else f"{a}~pin", b if "~" in a else f"{b}~pin") for a, b in wires)
    return wires


def same(one: Broken, other: Broken) -> bool:
    if one.mode != other.mode or {one.dead and one.dead[1], one.instead} != {
        other.dead and other.dead[1],
        other.instead,
    }:
        return False
    if one.dead and other.dead and one.dead[0] != other.dead[0]:
        return False
    return {one.wires, one.others} == {other.wires, other.others}


def play(seed: int, simulator: Callable[[Circuit], Simulator] = Simulator) -> int:
    """One round; gives how many suspects are left. Raises Wrong where the fault isn't among them, or an allowed test
    would split them. One in six of what is silent comes and goes instead.
    """
    dice = random.Random(f"round {seed}")
    plan = random_plan(seed)
    job = read(plan.text)
    car = Car(job)
    fault, heard = planted(dice, car)
    wiring = Wiring(job)
    silent = dice.choice(SILENT)
    silent = "protects" if is_short(fault) else silent
    session = Session(wiring, read_symptoms(wiring, symptoms_of(heard, silent)), simulator=simulator)
    bench = Bench(car)
    about = f"seed {seed}: {fault} heard as {heard}"
    _suspects(session, bench, fault, heard, about, all_faults=seed % 5 == 0)
    for _ in range(30):
        test = session.next_test()
        if test is None:
            break
        result = bench.answer((fault,), test, *_about(session, test))
        if result not in session.results(test):
            raise Wrong(f"{about}: {test} answers {result}, foreseen were {list(session.results(test))}")
        session.answer(result)
    else:
        raise Wrong(f"{about}: no end after thirty tests")
    ends = [broken(session, car, suspect.faults) for suspect in session.ranked] if session.suspects else []
    if not any(len(each) == 1 and same(each[0], fault) for each in ends):
        raise Wrong(
            f"{about}: ended with {ends} after {[(a.test.kind, a.test.plus, a.result) for a in session.answers]}"
        )
    _unsplit(session, bench, ends, about)
    return len(ends)


def _suspects(
    session: Session, bench: Bench, fault: Broken, heard: dict[str, str], about: str, all_faults: bool
) -> None:
    """Every suspect gives what was heard; every test is foreseen right; and nothing that gives it is forgotten."""
    car = bench.car
    made = [broken(session, car, faults) for faults in session.suspects]
    for each in made:
        told = _plain(bench.world(each).heard())
        if not _fits(told, heard):
            raise Wrong(f"{about}: the suspect {each} would be heard as {told}")
    own = next((at for at, each in enumerate(made) if same(each[0], fault)), None)
    if own is None:
        raise Wrong(f"{about}: is no suspect")
    for test in session.tests:
        foreseen = session.simulator.answer(session.suspects[own], test)
        told = bench.answer((fault,), test, *_about(session, test))
        if foreseen != told:
            raise Wrong(f"{about}: {test} answers {told}, foreseen was {foreseen}")
    if all_faults:
        protects = session.symptoms[0].word == "protects"
        for other in car.shorts() if protects else (*car.faults(), *car.wholes(), *car.crossings()):
            if _fits(_plain(bench.world((other,)).heard()), heard) and not any(same(each[0], other) for each in made):
                raise Wrong(f"{about}: forgets {other}")


def _plain(heard: dict[str, str]) -> dict[str, str]:
    return {name: word for name, word in heard.items() if word != "thinned"}


def _fits(told: dict[str, str], heard: dict[str, str]) -> bool:
    """Whether a fault would be heard so; of two channels exchanged the other speaker need not have been named."""

    def kind(word: str) -> str:
        return word.partition(" ")[0]

    if {name: kind(word) for name, word in told.items() if name in heard} != {n: kind(w) for n, w in heard.items()}:
        return False
    return all(name in heard or kind(word) == "plays" for name, word in told.items())


def _about(session: Session, test: Any) -> tuple[frozenset[tuple[str, str]], tuple[str, str]]:
    piece = session.circuit.pieces[test.piece]
    covered = _wires(piece.kind, piece.wires) if test.piece >= 0 else frozenset()
    ports = ("", "")
    if test.partner >= 0:
        own, other = session.circuit.legs[test.leg], session.circuit.legs[test.partner]
        ports = (own.receiver, other.receiver) if test.kind == "swap in" else (own.driver, other.driver)
    return covered, ports


def _unsplit(session: Session, bench: Bench, ends: list[tuple[Broken, ...]], about: str) -> None:
    """No test of the session, and no look across any pair of contacts of the car, tells the ends apart."""
    if len(ends) < 2:
        return
    for test in session.tests:
        answers = {bench.answer(each, test, *_about(session, test)) for each in ends}
        if len(answers) > 1:
            raise Wrong(f"{about}: {test} splits the end {ends}: {answers}")
    for plus, minus in _pairs(bench.car):
        if len({bench.world(each).word(plus, minus) for each in ends}) > 1:
            raise Wrong(f"{about}: volts across {plus} and {minus} split the end {ends}")


def _pairs(car: Car) -> list[tuple[str, str]]:
    """Every pair of contacts that a person can get at and may probe."""
    by_base: dict[str, dict[str, str]] = {}
    for name, contact in car.job.contacts.items():
        if (
            contact.function.sign in ("+", "-")
            and contact.kind in ("unit", "speaker", "plug", "loom")
            and contact.last != "B+"
        ):
            key = f"{contact.owner} {contact.half} {contact.function.base}"
            by_base.setdefault(key, {})[contact.function.sign] = name
            if contact.kind == "loom":
                by_base.setdefault(key + " pin", {})[contact.function.sign] = name + "~pin"
    return [(two["+"], two["-"]) for two in by_base.values() if len(two) == 2]


def play_double(seed: int) -> int:
    """One round with two open faults at once. Raises Wrong where the pair isn't among what is left at the end."""
    dice = random.Random(f"double {seed}")
    plan = random_plan(seed)
    job = read(plan.text)
    car = Car(job)
    bench = Bench(car)
    pool = [fault for fault in car.faults() if fault.mode == "open" and bench.world((fault,)).heard()]
    for _ in range(50):
        pair = tuple(dice.sample(pool, 2))
        heard = _plain(bench.world(pair).heard())
        alone = [_plain(bench.world((fault,)).heard()) for fault in pair]
        if heard and heard not in alone:
            break
    else:
        return 0
    wiring = Wiring(job)
    session = Session(wiring, read_symptoms(wiring, symptoms_of(heard, "silent")), double=True)
    about = f"seed {seed}: {pair} heard as {heard}"
    while (test := session.next_test()) is not None:
        result = bench.answer(pair, test, *_about(session, test))
        if result not in session.results(test):
            raise Wrong(f"{about}: {test} answers {result}, foreseen were {list(session.results(test))}")
        session.answer(result)
    ends = [broken(session, car, suspect.faults) for suspect in session.ranked] if session.suspects else []
    if not any(len(each) == 2 and all(any(same(a, b) for b in each) for a in pair) for each in ends):
        raise Wrong(f"{about}: ended with {ends}")
    return len(ends)
