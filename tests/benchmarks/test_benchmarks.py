"""The benchmarks run; what they measure is read by a person. Nothing here looks at a time."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove
from tests.benchmarks.__main__ import NAMES, results_of
from tests.benchmarks.jobs import job_text
from tests.benchmarks.ratio import Result, alternate, table


@pytest.mark.parametrize("name", NAMES)
def test_a_benchmark_runs(name: str) -> None:
    results = results_of(name, 1, 100)
    assert results
    assert all(each.floor >= 0 and each.subject > 0 for each in results)
    assert all(each.what in table(results) for each in results)


@pytest.mark.parametrize("contacts", [100, 1_000, 3_000])
def test_a_job_has_a_joint_a_lead_and_a_finding_for_ten_contacts(contacts: int, tmp_path: Path) -> None:
    path = tmp_path / "bays.yaml"
    path.write_text(job_text(contacts), encoding="utf-8")
    proof = prove(path, mends=False)
    assert proof.job is not None
    counts = {
        "contacts": len(proof.job.contacts),
        "joints": 10 * len(proof.job.joints),
        "leads": 10 * sum(len(loom.leads) for loom in proof.job.parts.looms.values()),
        "findings": 10 * len(proof.report.findings),
    }
    assert all(0.85 * contacts <= count <= 1.15 * contacts for count in counts.values()), counts


def test_a_verdict_follows_the_ratio() -> None:
    verdicts = [Result("x", 2.0, subject, "ms", 1.5, 1.2).verdict for subject in (2.0, 2.8, 3.2)]
    assert verdicts == ["goal met", "within", "TOO MUCH"]


def test_floor_and_subject_take_turns() -> None:
    order: list[str] = []
    alternate(lambda: order.append("floor"), lambda: order.append("subject"), 3)
    assert order == ["floor", "subject"] * 4
