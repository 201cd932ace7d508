"""Which code hides which: for each line of the table a job on which both would be told, and only the cause is."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.checks import all_checks
from harness.checks.hides import HIDES
from harness.checks.registry import run_checks
from harness.graph.wiring import Wiring
from harness.prove import prove
from tests.checks.hiding_jobs import FIXTURES, JOBS
from tests.checks.marks import FOLDER

TABLE = sorted((cause, hidden) for cause, lesser in HIDES.items() for hidden in lesser)


def test_every_line_has_its_job_and_every_job_its_line() -> None:
    jobs = JOBS.keys() | FIXTURES.keys()
    assert not JOBS.keys() & FIXTURES.keys()
    assert set(TABLE) == jobs, (
        f"without a job in hiding_jobs.py: {sorted(set(TABLE) - jobs)}; not in hides.py: {sorted(jobs - set(TABLE))}"
    )


def test_every_code_of_the_table_is_a_check() -> None:
    assert {code for pair in TABLE for code in pair} <= {each.code for each in all_checks()}


def test_nothing_hides_in_a_circle() -> None:
    """A code that hid what hides it would leave the reader with neither."""

    def below(code: str, seen: frozenset[str]) -> None:
        for lesser in HIDES.get(code, ()):
            assert lesser not in seen, f"{code} hides {lesser}, and that hides it in the end"
            below(lesser, seen | {lesser})

    for code in HIDES:
        below(code, frozenset({code}))


def wiring_of(pair: tuple[str, str], folder: Path) -> Wiring:
    if pair in FIXTURES:
        path = FOLDER / f"{FIXTURES[pair]}.yaml"
    else:
        path = folder / "job.yaml"
        path.write_text(JOBS[pair], encoding="utf-8")
    proof = prove(path, mends=False)
    assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
    return proof.wiring


@pytest.mark.parametrize("pair", [p for p in TABLE if p in JOBS or p in FIXTURES], ids=" hides ".join)
def test_only_the_cause_is_told(pair: tuple[str, str], tmp_path: Path) -> None:
    wiring = wiring_of(pair, tmp_path)
    cause, hidden = (next(each for each in all_checks() if each.code == code) for code in pair)
    alone = [run_checks(wiring, [each])[0] for each in (cause, hidden)]
    assert all(alone), f"alone: {[len(each) for each in alone]}"
    together = run_checks(wiring, [cause, hidden])[0]
    assert {finding.code for finding in together} == {cause.code}
    everything = run_checks(wiring)[0]
    assert hidden.code not in {finding.code for finding in everything}


def test_what_has_another_cause_is_told_beside_it(tmp_path: Path) -> None:
    """Hiding goes by the contacts concerned and not by the codes: the other speaker's fault stays."""
    pair = ("H12", "C14")
    path = tmp_path / "job.yaml"
    path.write_text(JOBS[pair].replace("  FL SUB: {nominal", "  FL SUB RR: {nominal"), encoding="utf-8")
    found = prove(path, mends=False).report.findings
    assert {"H12", "C14"} <= {finding.code for finding in found}
    assert all("RR" in finding.places[0].name for finding in found if finding.code == "C14")
