"""Who took a record, and when, as messages say it: both, one of them, or neither; read off by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.finding import Finding
from harness.prove import prove
from tests.checks.marks import FOLDER
from tests.checks.test_alone_records import FL, JOB

RUNS = (FOLDER / "J31/bad_ground_not_laid.yaml").read_text(encoding="utf-8")
WHEN, BY = "when: 2026-03-02 09:10", "by: JM"
WAYS = [((WHEN, BY), " (JM 2026-03-02)"), ((BY,), " (JM)"), ((WHEN,), " (2026-03-02)"), ((), "")]


def told(folder: Path, job: str, code: str, *records: str) -> list[Finding]:
    """What one code finds, where nothing is added to the records."""
    path = folder / "job.yaml"
    path.write_text(job, encoding="utf-8")
    path.with_name("job.evidence.yaml").write_text("".join(f"- {{{each}}}\n" for each in records), encoding="utf-8")
    report = prove(path, mends=False).report
    assert report.verdict != "unreadable", [finding.message for finding in report.findings]
    return [each for each in report.findings if each.code == code]


@pytest.mark.parametrize(("said", "shown"), WAYS)
@pytest.mark.parametrize(
    ("code", "job", "record", "before", "behind"),
    [
        ("J26", JOB, "checked: J1, found: loose", "joint J1: found loose", ". What hangs on it is silent"),
        (
            "J26",
            JOB,
            "built: dash.car.1/5, is: not made",
            "car side: planned joined to amp out1+, built not made",
            ". What hangs",
        ),
        ("J26", JOB, "built: J1, is: not made", "joint J1: planned joined to amp in1+, not made", ". What hangs on it"),
        ("J28", JOB, "checked: dash.car.1, found: burnt", "car side: found burnt", ". Left so, it fails"),
        (
            "J31",
            RUNS,
            "built: RUN 2, fact: lays amp.GND to gnd.G1, is: not laid",
            "planned, and not laid",
            ". What hangs",
        ),
    ],
)
def test_a_finding_of_a_record_names_who_took_it(
    tmp_path: Path, code: str, job: str, record: str, before: str, behind: str, said: tuple[str, ...], shown: str
) -> None:
    (finding,) = told(tmp_path, job, code, ", ".join((*said, record)))
    assert f"{before}{shown}{behind}" in finding.message


@pytest.mark.parametrize(("said", "shown"), WAYS)
@pytest.mark.parametrize(
    ("record", "start", "do"),
    [
        # what isn't in the job, by its name or by its contacts, and a line that isn't there
        ("checked: amp, found: tug", "The check of amp", "Check it again under its new name, in a record with `replac"),
        ("tone: old.car.1/5, charted: FL, heard: FL", "The tone of old.car.1/5", "Tone it again under its new name"),
        ("struck: 9", "The striking of line 9", "Look which record was meant, and strike that: ringout record JOB str"),
        ("car: Bench hatch, fact: RD, tone: dash.car.1/5, charted: FL, heard: FL", "The tone of dash.car.1/5",
         "Tone it again and add a record, or put the chart back if the change was a slip."),
    ],
)  # fmt: skip
def test_a_record_that_no_longer_holds_names_who_took_it(
    tmp_path: Path, record: str, start: str, do: str, said: tuple[str, ...], shown: str
) -> None:
    (finding,) = told(tmp_path, JOB, "J07", ", ".join((*said, record)))
    assert finding.message.startswith(f"{start}{shown.replace('JM 2026', 'JM, 2026')} can't be counted any more: ")
    assert finding.do.startswith(do)


RELEASED = "when: 2026-03-02 16:30, by: JM, signed: released, reason: customer waits"


@pytest.mark.parametrize(
    ("said", "shown"), [((WHEN, "by: RK"), "RK 2026-03-02"), (("by: RK",), "RK"), ((), "somebody")]
)
def test_what_voids_a_release_names_who_found_it(tmp_path: Path, said: tuple[str, ...], shown: str) -> None:
    found = ", ".join((*said, "checked: J1, found: loose"))
    (finding,) = told(tmp_path, JOB, "J27", f"{WHEN}, {BY}, {FL}", RELEASED, found)
    assert finding.message.startswith(f"JM 2026-03-02 signed to let the job go; since then {shown} recorded: ")
