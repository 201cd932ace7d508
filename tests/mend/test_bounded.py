"""The work of the search is bounded by counted looks, never by the clock, and what was not searched is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.finding import Report, Severity
from harness.graph.wiring import Wiring
from harness.mend import search
from harness.prove import prove


def job_of(blocks: int, folder: Path) -> Path:
    """As many radios and processors side by side, each with split pairs, a loose lead and a half-used pair."""
    plugs, looms, units, mates, rows = [], [], [], [], []
    for k in range(blocks):
        plugs += [
            f"  p{k}:", "    place: here", f"    unit: r{k}", f"    car: f{k}",
            "    face: {rows: 1, columns: 4, view: wire, latch: top, count: across, first: top left}",
            "    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}",
            "    cavities:", "      1/2: in1 WH WH/BK", "      3/4: in2 GY GY/BK",
        ]  # fmt: skip
        looms += [f"  T{k}:", "    ends: {unit: a, car: a}", "    leads:", "      1/2: in1 WH WH/BK"]
        looms += ["      3/4: in2 GY GY/BK", "      spare: MUTE BU"]
        units += [f"  r{k}: {{kind: radio, outputs: {{in1 in2: btl 8 V}}}}"]
        units += [
            f"  d{k}: {{kind: processor amplifier, inputs: {{in1..2: 8 V differential}}, outputs: {{out1..2: 9 W}}}}"
        ]
        units += [f"  f{k}: {{kind: factory amplifier, inputs: {{in1 in2: 8 V differential}}}}"]
        mates += [f"    T{k}: p{k}"]
        rows += [f"    T{k}.unit.1: d{k}.in1+", f"    T{k}.unit.2: d{k}.in2-", f"    T{k}.unit.3: d{k}.in2+"]
        rows += [f"    T{k}.unit.4: d{k}.in1-", f"    T{k}.car.in1: d{k}.out1"]
    lines = ["ringout: 1", "title: Many", "car: {name: Bench car, steering: left}", "plugs:", *plugs, "looms:", *looms]
    lines += ["units:", *units, "joints:", "  mate:", *mates, "  crimp with heat shrink:", *rows]
    job = folder / "many.yaml"
    job.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return job


def severe(report: Report) -> int:
    return sum(finding.severity <= Severity.FIX for finding in report.findings)


def not_searched(report: Report) -> list[str]:
    return [each.what for each in report.unchecked if "smallest change" in each.what]


def test_where_the_work_runs_out_the_report_says_for_how_many(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    job = job_of(3, tmp_path)
    monkeypatch.setattr(search, "WORK_A_RUN", 0)
    report = prove(job).report
    assert severe(report) >= 6
    assert not any(finding.mend for finding in report.findings)
    assert not_searched(report) == [f"the smallest change for {severe(report)} findings"]


def test_enough_work_for_a_job_of_ordinary_size(tmp_path: Path) -> None:
    report = prove(job_of(3, tmp_path)).report
    assert not not_searched(report)
    assert sum(finding.mend is not None for finding in report.findings) >= 6


def test_the_trials_of_a_big_job_are_counted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    job = job_of(30, tmp_path)
    built = 0

    def counted(of):  # type: ignore[no-untyped-def]
        nonlocal built
        built += 1
        return Wiring(of)

    monkeypatch.setattr(search, "Wiring", counted)
    proof = prove(job)
    assert proof.job is not None
    assert severe(proof.report) > 40
    assert not_searched(proof.report)
    # each trial looks at every contact once at least; one trial may begin just before the work is used up
    assert built <= search.WORK_A_RUN // len(proof.job.contacts) + search.ALL_CHECKS
    assert any(finding.mend for finding in proof.report.findings)
