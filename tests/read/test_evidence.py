# ruff: noqa: E501 - a record is one line
"""The evidence file read: half records and wrong records, with their place. What makes one stale: test_stale."""

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
