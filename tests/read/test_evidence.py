# ruff: noqa: E501 - a record is one line
"""The evidence file read: half records, wrong records with their place, and what makes a record stale."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove

JOB = """\
ringout: 1
title: Bench
car: {name: Bench hatch, year: 2022, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/9: FL WH WH/BK 0.5 mm2
      2/10: FR GY GY/BK 0.5 mm2
      7: B+ YE
  boot:
    cavities:
      1/2: SUB BU BU/BK
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V clean step 31}}
speakers:
  FL FR SUB: {nominal: 4 ohm}
"""
RECORDS = """\
- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/9, fact: [1 FL+ WH 0.5 mm2, 9 FL- WH/BK 0.5 mm2, seen from wire], charted: FL, heard: FL, plus: 1}
- {when: 2026-03-02 09:44, by: JM, tone: dash.car.2/10, fact: [2 FR+ GY 0.5 mm2, 10 FR- GY/BK 0.5 mm2, seen from wire], charted: FR, heard: FR, plus: 2}
- {when: 2026-03-02 09:50, by: JM, volts: dash.unit.7, fact: [7 B+ YE, seen from wire], reads: 12.5 V, key: out}
- {when: 2026-03-02 09:55, by: JM, tone: boot.car.1/2, fact: [1 SUB+ BU, 2 SUB- BU/BK], charted: SUB, heard: SUB, plus: 1}
"""
NAMES = ["dash.car.1/9", "dash.car.2/10", "dash.unit.7", "boot.car.1/2"]


def _stale(tmp_path: Path, job: str, records: str = RECORDS) -> list[str]:
    """The records that no longer hold, by what they are about."""
    (tmp_path / "bench.yaml").write_text(job)
    (tmp_path / "bench.evidence.yaml").write_text(records)
    proof = prove(tmp_path / "bench.yaml")
    assert proof.job is not None, [finding.message for finding in proof.report.findings]
    return [record.what for record in proof.job.records if record.stale]


def test_all_hold_as_written(tmp_path: Path) -> None:
    assert _stale(tmp_path, JOB) == []


@pytest.mark.parametrize(
    ("old", "new", "stale"),
    [
        ("1/9: FL WH", "1/9: C WH", ["dash.car.1/9"]),  # function
        ("1/9: FL WH", "9/1: FL WH", ["dash.car.1/9"]),  # the other wire is +
        ("FL WH WH/BK", "FL BN WH/BK", ["dash.car.1/9"]),  # colour of the + wire
        ("FL WH WH/BK", "FL WH WH/RD", ["dash.car.1/9"]),  # stripe of the − wire
        ("FR GY GY/BK 0.5 mm2", "FR GY GY/BK 0.75 mm2", ["dash.car.2/10"]),  # size
        ("FR GY GY/BK 0.5 mm2", "FR GY GY/BK 0.5 mm2 twisted", ["dash.car.2/10"]),  # twist
        ("2/10: FR", "2/11: FR", ["dash.car.2/10"]),  # partner
        ("7: B+ YE", "7: B+ RD", ["dash.unit.7"]),
        ("7: B+ YE", "8: B+ YE", ["dash.unit.7"]),  # the cavity is gone
        ("view: wire", "view: mating", NAMES[:3]),  # every number of that plug means another place
        ("1/2: SUB BU BU/BK", "1/2: SUB BU BU/BK 1 mm2", ["boot.car.1/2"]),
    ],
)
def test_one_change_makes_stale_what_rested_on_it(tmp_path: Path, old: str, new: str, stale: list[str]) -> None:
    """Exactly the records that used the cavity changed, and no other."""
    assert old in JOB
    assert _stale(tmp_path, JOB.replace(old, new)) == stale


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("title: Bench", "title: Another name  # with a remark"),
        ("    place: behind the radio", "    place: under the seat"),
        ("latch: top", "latch: bottom"),
        ("chart: bench sheet 1", "chart: bench sheet 2"),
        ("      1/9: FL WH WH/BK 0.5 mm2\n      2/10: FR GY GY/BK 0.5 mm2\n",
         "      2/10: FR GY GY/BK 0.5 mm2\n      1/9: FL WH WH/BK 0.5 mm2\n"),
        ("FL WH WH/BK 0.5 mm2", "FL white WH/BK 0.50 mm2"),  # the same, spelt otherwise
        ("1/9: FL WH WH/BK 0.5 mm2", "1: FL+ WH 0.5 mm2\n      9: FL- WH/BK 0.5 mm2"),  # a pair in two rows
        ("7: B+ YE", "7: {function: B+, colour: YE, note: warm}"),
        ("speakers:", "features: {belt tone: radio}\nspeakers:"),
        ("boot:\n    cavities:", "boot:\n    place: boot\n    cavities:\n      5: GND BK"),  # another plug, a new row
    ],
)  # fmt: skip
def test_what_makes_nothing_stale(tmp_path: Path, old: str, new: str) -> None:
    """Remarks, order, titles, places, other spellings, other plugs."""
    assert old in JOB
    assert _stale(tmp_path, JOB.replace(old, new)) == []


def test_chart_corrected_to_what_was_heard(tmp_path: Path) -> None:
    """FR was heard where FL was charted: once the chart says FR there, the tone holds; any other change doesn't."""
    records = RECORDS.replace("charted: FL, heard: FL", "charted: FL, heard: FR")
    swapped = JOB.replace("1/9: FL WH WH/BK", "1/9: FR WH WH/BK").replace("2/10: FR GY", "2/10: FL GY")
    assert _stale(tmp_path, swapped, records) == ["dash.car.2/10"]
    assert _stale(tmp_path, JOB.replace("1/9: FL", "1/9: C"), records) == ["dash.car.1/9"]


@pytest.mark.parametrize(
    ("line", "code", "column"),
    [
        ("- {when: 2026-03-02 09:40, by: JM, to", "R30", 1),
        ("- {when: 2026-02-30 09:40, by: JM, tone: dash.car.1/9}\n", "R09", 10),  # no such day
        ("- {by: JM, ton: dash.car.1/9}\n", "R07", 12),
        ("- {by: JM, tone: dash.car.1/9, reads: 3,5 ohm}\n", "R09", 39),
        ("- {by: JM, tone: dash.car.1/9, seen: dash.7}\n", "R08", 32),  # two verbs
        ("- {by: JM, heard: FL}\n", "R09", 3),  # none
        ("- {by: JM, signed: later}\n", "R09", 20),
        ("- by JM\n", "R08", 3),
    ],
)
def test_wrong_records_at_their_place(tmp_path: Path, line: str, code: str, column: int) -> None:
    """On the fifth line, behind four that are right."""
    (tmp_path / "bench.yaml").write_text(JOB)
    (tmp_path / "bench.evidence.yaml").write_text(RECORDS + line)
    findings = prove(tmp_path / "bench.yaml").report.findings
    places = [(each.code, each.places[0].place) for each in findings if each.code.startswith("R")]
    assert (code, 5, column) in [(told, place.line, place.column) for told, place in places], places
