"""The questions of `locate` against a check of the same job in one process."""

from __future__ import annotations

from pathlib import Path

from harness.locate.session import Session
from harness.locate.symptoms import read_symptoms
from harness.prove import prove
from tests.benchmarks.ratio import Result, alternate

SAMPLES = Path(__file__).parents[2] / "samples"
JOBS = ("hatch-plug-in", "estate-bus-amplifier")
FIRST, FURTHER, DOUBLE = 2.0, 0.2, 20.0


def _session(path: Path, double: bool = False) -> Session:
    wiring = prove(path, mends=False).wiring
    if wiring is None:
        raise ValueError(f"{path} can't be read")
    return Session(wiring, read_symptoms(wiring, ["FL silent"]), double=double)


def _asked(path: Path) -> tuple[Session, str]:
    """A search that waits for an answer, and one of its answers."""
    session = _session(path)
    test = session.next_test()
    if test is None:
        raise ValueError("nothing to ask")
    return session, next(iter(session.results(test)))


def questions(rounds: int) -> list[Result]:
    """The first question, a job read and proved for it; the next one, after an answer; the first with double faults."""
    made = []
    for name in JOBS:
        path = SAMPLES / f"{name}.yaml"

        def check(path: Path = path) -> None:
            prove(path, mends=False)

        floor, first = alternate(check, lambda path=path: _session(path).next_test(), rounds)  # type: ignore[misc]
        made.append(Result(f"locate, first question, {name} / check", floor * 1e3, first * 1e3, "ms", FIRST))
        waiting = [_asked(path) for _ in range(rounds + 1)]

        def further(waiting: list[tuple[Session, str]] = waiting) -> None:
            session, result = waiting.pop()
            session.answer(result)
            session.next_test()

        floor, more = alternate(check, further, rounds)
        made.append(Result(f"locate, a further question, {name} / check", floor * 1e3, more * 1e3, "ms", FURTHER))
        few = max(1, rounds // 4)
        floor, double = alternate(check, lambda path=path: _session(path, True).next_test(), few)  # type: ignore[misc]
        made.append(Result(f"locate, double faults, {name} / check", floor * 1e3, double * 1e3, "ms", DOUBLE))
    return made
