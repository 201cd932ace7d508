"""A mend's edits fit the file however it is written: block or flow, short or long, LF or CR LF, with part files."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.finding import Finding, Mend
from harness.prove import prove
from tests.mend.applying import applied, proved, read

HEAD = """\
ringout: 1
title: Bench
car: {name: Bench car, steering: left}
"""
DASH = """\
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 6, view: wire, latch: top, count: across, first: top left}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/2: FL WH WH/BK
      3/4: FR GY GY/BK
"""
LOOM = """\
  T1:
    ends: {unit: 6-way A, car: 6-way A}
    leads:
      1/2: FL WH WH/BK
      3/4: FR GY GY/BK
      spare: AERIAL BU
"""
UNITS = """\
units:
  radio: {kind: radio, outputs: {FL FR: btl 8 V}}
  dsp: {kind: processor amplifier, inputs: {in1..2: 2..20 V differential}, outputs: {out1..2: 75 W @ 4 ohm least 2 ohm}}
speakers:
  FL FR: {nominal: 4 ohm}
"""
JOB = f"{HEAD}plugs:\n{DASH}looms:\n{LOOM}{UNITS}"

STRAIGHT = ["T1.unit.FL: dsp.in1", "T1.unit.FR: dsp.in2", "T1.car.FL: dsp.out1", "T1.car.FR: dsp.out2"]
TURNED = [*STRAIGHT[:2], "T1.car.FL: dsp.out1 reversed", STRAIGHT[3]]


def block(rows: list[str]) -> str:
    return "joints:\n  mate: {T1: dash}\n  crimp:\n" + "".join(f"    {row}\n" for row in rows)


def mended(tmp_path: Path, text: str, code: str, end: str = "\n") -> tuple[Mend, str]:
    """The one mend of that code, and the text after it; it reads, and no finding of the code is left."""
    job = tmp_path / "job.yaml"
    job.write_bytes(text.replace("\n", end).encode())
    findings = [finding for finding in prove(job).report.findings if finding.code == code]
    assert len(findings) == 1, prove(job).report.findings
    mend = findings[0].mend
    assert mend is not None, findings[0]
    after, _ = applied(read(job), mend.edits)
    report = proved(job, after).report
    assert report.verdict != "unreadable", (mend, report.findings)
    assert code not in {finding.code for finding in report.findings}, mend
    return mend, after


def changed(before: str, after: str, end: str = "\n") -> tuple[list[str], list[str]]:
    """Lines that went and lines that came."""
    old, new = before.replace("\n", end).splitlines(keepends=True), after.splitlines(keepends=True)
    return [line for line in old if line not in new], [line for line in new if line not in old]


# -- joints ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["LF", "CR LF"])
def test_a_row_in_a_line_of_its_own(tmp_path: Path, end: str) -> None:
    text = JOB + "capped: [T1.spare]\n" + block(TURNED).replace("reversed", "reversed   # as found")
    mend, after = mended(tmp_path, text, "B01", end)
    assert changed(text, after, end) == (
        [f"    T1.car.FL: dsp.out1 reversed   # as found{end}"],
        [f"    T1.car.FL: dsp.out1   # as found{end}"],
    )
    assert mend.changes == 1


def test_rows_in_one_line(tmp_path: Path) -> None:
    text = JOB + "capped: [T1.spare]\njoints: {mate: {T1: dash}, crimp: {" + ", ".join(TURNED) + "}}  # all\n"
    _, after = mended(tmp_path, text, "B01")
    assert after == text.replace(" reversed", "")


def test_two_rows_of_one_line_are_exchanged(tmp_path: Path) -> None:
    crossed = [*STRAIGHT[:2], "T1.car.FL: dsp.out2", "T1.car.FR: dsp.out1"]
    text = JOB + "capped: [T1.spare]\njoints:\n  mate: {T1: dash}\n  crimp: {" + ", ".join(crossed) + "}\n"
    mend, after = mended(tmp_path, text, "B03")
    assert after.endswith("T1.car.FL: dsp.out1, T1.car.FR: dsp.out2}\n")
    assert mend.changes == 2
    assert len(mend.edits) == 1


def test_the_long_form_keeps_what_else_it_says(tmp_path: Path) -> None:
    rows = [*STRAIGHT[:2], "T1.car.FL: {to: dsp.out1 reversed, name: J7, at: boot}", STRAIGHT[3]]
    text = JOB + "capped: [T1.spare]\n" + block(rows)
    _, after = mended(tmp_path, text, "B01")
    assert after == text.replace("dsp.out1 reversed", "dsp.out1")


BUS = HEAD + "plugs:\n" + DASH.replace("3/4: FR GY GY/BK", "5/6: CAN YE BN") + UNITS.replace("FL FR:", "FL:")


@pytest.mark.parametrize(
    ("joints", "left"),
    [
        ("joints:\n  solder:\n    dash.5: dash.2  # oh\n", ""),
        ("joints:\n  solder: {dash.5: dash.2}\n", ""),
        ("joints: {solder: {dash.5: dash.2}}\n", ""),
        (
            "joints:\n  solder:\n    # kept\n    dash.5: dash.2\n    dash.1: dsp.in1+\n    dash.2: dsp.in1-\n",
            "joints:\n  solder:\n    # kept\n    dash.1: dsp.in1+\n    dash.2: dsp.in1-\n",
        ),
        (
            "joints:\n  solder: {dash.FL: dsp.in1, dash.5: dash.2}  # two\n",
            "joints:\n  solder: {dash.FL: dsp.in1}  # two\n",
        ),
        (
            "joints:\n  solder: {dash.5: dash.2, dash.FL: dsp.in1}\n",
            "joints:\n  solder: {dash.FL: dsp.in1}\n",
        ),
        (
            "joints:\n  solder:\n    dash.5:\n      to: dash.2\n      cover: tape\n  crimp:\n    dash.FL: dsp.in1\n",
            "joints:\n  crimp:\n    dash.FL: dsp.in1\n",
        ),
        ("joints: {solder: {dash.5: dash.2}, crimp: {dash.FL: dsp.in1}}\n", "joints: {crimp: {dash.FL: dsp.in1}}\n"),
    ],
)
def test_a_joint_undone_takes_an_empty_heading_with_it(tmp_path: Path, joints: str, left: str) -> None:
    mend, after = mended(tmp_path, BUS + joints, "G12")
    assert after == BUS + left
    assert mend.words == "Undo the joint dash.5 to dash.2."


# -- lists ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", "capped: [T1.spare]\n"),
        ("capped: []\n", "capped: [T1.spare]\n"),
        ("depinned: [T1.unit.FR]\n", "depinned: [T1.unit.FR]\ncapped: [T1.spare]\n"),
        ("capped: [T1.unit.FR]\n", "capped: [T1.unit.FR, T1.spare]\n"),
        ("capped: [T1.unit.FR, ]  # one\n", "capped: [T1.unit.FR, T1.spare]  # one\n"),
        ("capped: T1.unit.FR  # one\n", "capped: T1.unit.FR T1.spare  # one\n"),
        ("capped:\n  - T1.unit.FR\n", "capped:\n  - T1.unit.FR\n  - T1.spare\n"),
        ("capped:\n- T1.unit.FR  # one\n", "capped:\n- T1.unit.FR  # one\n- T1.spare\n"),
    ],
)
def test_a_cap_is_written_as_the_list_is(tmp_path: Path, before: str, after: str) -> None:
    rows = [STRAIGHT[0], STRAIGHT[2], *([STRAIGHT[1]] if "FR" not in before else [])]
    rows.append("T1.car.FR: dsp.out2")
    base = JOB + block(rows)
    job = base + before
    _, text = mended(tmp_path, job, "H17")
    assert text == base + after


def test_a_file_without_an_end_to_its_last_line(tmp_path: Path) -> None:
    text = (JOB + block(STRAIGHT)).rstrip("\n")
    _, after = mended(tmp_path, text, "H17")
    assert after == text + "\ncapped: [T1.spare]\n"


FATED = JOB + "joints:\n  mate: {T1: dash}\n  crimp:\n" + "".join(f"    {row}\n" for row in STRAIGHT)


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("capped: [T1.spare, T1.car.FL]\n", "capped: [T1.spare]\n"),
        ("capped: [T1.car.FL, T1.spare]  # two\n", "capped: [T1.spare]  # two\n"),
        ("capped: [T1.car.FL]\ndepinned: [T1.spare]\n", "depinned: [T1.spare]\n"),
        ("capped: T1.spare T1.car.FL\n", "capped: T1.spare\n"),
        ("capped: T1.car.FL T1.spare  # two\n", "capped: T1.spare  # two\n"),
        ("capped: T1.car.FL\ndepinned: [T1.spare]\n", "depinned: [T1.spare]\n"),
        ("capped:\n  - T1.car.FL  # why\n  - T1.spare\n", "capped:\n  - T1.spare\n"),
        ("capped:\n  - T1.car.FL\ndepinned: [T1.spare]\n", "depinned: [T1.spare]\n"),
        ("capped: [T1.spare,\n         T1.car.FL,\n        ]\n", "capped: [T1.spare,\n        ]\n"),
    ],
)
def test_a_cap_is_taken_back_out_of_any_list(tmp_path: Path, before: str, after: str) -> None:
    mend, text = mended(tmp_path, FATED + before, "H02")
    assert text == FATED + after
    assert mend.words == "Leave T1.car.1 and T1.car.2 without a cap."


# -- several files --------------------------------------------------------------------------------------


def with_parts(tmp_path: Path, plugs: str, looms: str, rest: str) -> list[Finding]:
    (tmp_path / "shelf.yaml").write_text(f"ringout: 1\nplugs:\n{plugs}looms:\n{looms}", encoding="utf-8")
    job = tmp_path / "job.yaml"
    # the job's rows take these names from the shelf
    text = f"{HEAD}parts: [shelf.yaml]\nplugs:\n  dash: {{part: dash}}\nlooms:\n  T1: {{part: T1}}\n{UNITS}{rest}"
    job.write_text(text, encoding="utf-8")
    report = prove(job).report
    assert report.verdict != "unreadable", report.findings
    return list(report.findings)


def test_a_cause_in_the_job_is_mended_there_though_its_parts_stand_elsewhere(tmp_path: Path) -> None:
    findings = with_parts(tmp_path, DASH, LOOM, "capped: [T1.spare]\n" + block(TURNED))
    mends = [finding.mend for finding in findings if finding.code == "B01"]
    assert [mend.words for mend in mends if mend] == ["Swap the two wires of the joint T1.car.FL to dsp.out1."]
    assert {Path(edit.place.file).name for mend in mends if mend for edit in mend.edits} == {"job.yaml"}


def test_a_part_file_is_never_edited(tmp_path: Path) -> None:
    """The chart on the shelf names a cavity twice: no change of this job's joints clears it."""
    doubled = DASH + "      1: ACC RD\n"
    findings = with_parts(tmp_path, doubled, LOOM, "capped: [T1.spare]\n" + block(STRAIGHT))
    assert [finding.mend for finding in findings if finding.code == "A05"] == [None]
    for finding in findings:
        for edit in finding.mend.edits if finding.mend else ():
            assert Path(edit.place.file).name == "job.yaml"
