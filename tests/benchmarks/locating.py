"""A search for a fault against `check` on the same job in one process: its first question, each further, two faults."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from harness.locate.session import Session
from harness.locate.symptoms import read_symptoms
from harness.prove import prove
from tests.benchmarks.jobs import job_text
from tests.benchmarks.ratio import Result, alternate
from tests.conftest import ROOT

FIRST, FURTHER, DOUBLE = 2.0, 0.2, 20.0
CASES = (
    ("hatch-plug-in", "FL silent"), ("hatch-plug-in", "dsp silent"), ("estate-bus-amplifier", "RL intermittent"),
    ("van-odd-but-right", "SUB silent"), ("van-odd-but-right", "FR wrong place"),
    ("hatch-plug-in", "FL protects"), ("hatch-plug-in", "dsp protects"),
)  # fmt: skip


def played_text(contacts: int) -> str:
    """The job of many bays, with a radio in each, so that something plays."""
    made: list[str] = []
    for line in job_text(contacts).splitlines():
        made.append(line)
        bay = line.strip().removeprefix("place: bay ")
        if bay.isdigit():
            made.append(f"    unit: radio{bay}")
        if line == "units:":
            bays = sum(1 for each in made if each.startswith("    unit: radio"))
            made += [f"  radio{at}: {{kind: radio, outputs: {{FL FR RL RR: btl 8 V}}}}" for at in range(bays)]
    return "\n".join(made) + "\n"


def recorded_job(folder: Path) -> Path:
    """The sample with a day's records beside it, those of FL among them."""
    shutil.copytree(ROOT / "samples" / "parts", folder / "parts")
    path = folder / "hatch.yaml"
    shutil.copy(ROOT / "samples" / "hatch-plug-in.yaml", path)
    pairs = ("5/6", "3/4", "7/8", "1/2")
    lines = [
        f"- {{when: 2026-03-02 09:{at:02d}, by: RK, ohm: sound.car.{pairs[at % 4]}, reads: 3.6 ohm}}\n"
        for at in range(40)
    ]
    path.with_name("hatch.evidence.yaml").write_text("".join(lines), encoding="utf-8")
    return path


def started(path: Path, symptom: str, *, double: bool = False) -> Session:
    """A search with its first question, from the file on."""
    wiring = prove(path, mends=False).wiring
    if wiring is None:
        raise ValueError(f"{path} can't be read")
    shown: list[int] = []
    progress = (lambda done, whole: shown.append(done)) if double else None
    session = Session(wiring, read_symptoms(wiring, [symptom]), double=double, progress=progress)
    session.next_test()
    if double and not shown:
        raise ValueError("two faults were looked for without any progress shown")
    return session


def further(path: Path, symptom: str) -> tuple[Session, int]:
    """A search, and how many further questions its longest way has, each answer the one that leaves most."""
    session = started(path, symptom)
    count = 0
    while (test := session.next_test()) is not None:
        results = session.results(test)
        session.answer(max(results, key=lambda word: (bin(results[word]).count("1"), word)))
        count += 1
    return session, count


def against_check(rounds: int, largest: int = 10_000) -> list[Result]:
    """Three results a case: first question, one further on the mean, two faults; then the first on a larger job."""
    results = []
    for sample, symptom in CASES:
        path = ROOT / "samples" / f"{sample}.yaml"
        what = f"{sample.split('-')[0]}, {symptom}"
        floor, subject = alternate(lambda p=path: prove(p), lambda p=path, s=symptom: started(p, s), rounds)  # type: ignore[misc]
        results.append(Result(f"locate, {what}: first question / check", floor * 1e3, subject * 1e3, "ms", FIRST))
        session, count = further(path, symptom)
        if count:
            words = [answer.result for answer in session.answers]

            def again(session: Session = session, words: list[str] = words) -> object:
                session.restart()
                for word in words:
                    session.answer(word)
                return session.next_test()

            floor, subject = alternate(lambda p=path: prove(p), again, rounds)  # type: ignore[misc]
            each = subject / (count + 1)
            results.append(Result(f"locate, {what}: each further / check", floor * 1e3, each * 1e3, "ms", FURTHER))
    for sample, symptom in CASES[:4]:
        path = ROOT / "samples" / f"{sample}.yaml"
        what = f"{sample.split('-')[0]}, {symptom}"
        floor, subject = alternate(
            lambda p=path: prove(p), lambda p=path, s=symptom: started(p, s, double=True), max(1, rounds // 3)  # type: ignore[misc]
        )  # fmt: skip
        results.append(Result(f"locate, {what}: two faults / check", floor * 1e3, subject * 1e3, "ms", DOUBLE))
    with tempfile.TemporaryDirectory() as folder:
        path = recorded_job(Path(folder))
        floor, subject = alternate(lambda: prove(path), lambda: started(path, "FL silent"), rounds)
        what = "locate, hatch with 40 records, FL silent: first question / check"
        results.append(Result(what, floor * 1e3, subject * 1e3, "ms", FIRST))
        path = Path(folder) / "bays.yaml"
        path.write_text(played_text(largest), encoding="utf-8")
        floor, subject = alternate(lambda: prove(path), lambda: started(path, "A-0 silent"), max(1, rounds // 3))
        what = f"locate, {largest:,} contacts: first question / check"
        results.append(Result(what, floor * 1e3, subject * 1e3, "ms", FIRST))
    return results
