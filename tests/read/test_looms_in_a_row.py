"""Looms plugged into each other, and a loom with an end cut off: read, wired, and refused where it can't be."""

from __future__ import annotations

import pytest

from harness.graph.wiring import Wiring
from harness.model.job import Job
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

JOB = """\
ringout: 1
title: a row
plugs:
  dash: {unit: radio, cavities: {1: B+ YE, 2: ACC RD}}
looms:
  T1: {ends: {unit: 8-way, car: 8-way}, through: 1..2}
  T2: {ends: {unit: 8-way, car: 8-way}, through: [1], leads: {2: ACC RD}}
units:
  radio: {kind: radio}
joints:
  mate: {T1.unit: dash, T2.unit: T1.car, T2.car: dash}
"""


def _read(text: str) -> tuple[Job, Troubles]:
    troubles = Troubles()
    job = read_job_text(text, "job.yaml", troubles)
    assert job is not None
    return job, troubles


def test_a_row_conducts_from_the_unit_to_the_car() -> None:
    job, troubles = _read(JOB)
    assert not troubles.findings
    planned = Wiring(job).planned
    assert planned.joined("dash.unit.1", "dash.car.1")  # T1 1, T2 1
    assert not planned.joined("dash.unit.2", "dash.car.2")  # T2 has separate leads at 2
    assert planned.joined("dash.unit.2", "T2.unit.2")
    assert planned.joined("dash.car.2", "T2.car.2")


def test_a_terminal_pulled_at_either_end_opens_the_row() -> None:
    for contact in ("T1.car.1", "T2.unit.1"):
        job, troubles = _read(f"{JOB}depinned: [{contact}]\n")
        assert not troubles.findings
        assert not Wiring(job).planned.joined("dash.unit.1", "dash.car.1")


def test_a_terminal_moved_meets_the_cavity_that_it_went_to() -> None:
    job, _ = _read(JOB.replace("through: [1], leads: {2: ACC RD}", "through: [3]") + "moved: {T2.unit.3: T2.unit.1}\n")
    planned = Wiring(job).planned
    assert planned.joined("dash.unit.1", "T2.car.3")


@pytest.mark.parametrize(
    ("right", "wrong", "code"),
    [
        ("T2.unit: T1.car", "T2.unit: T1.unit", "R25"),
        ("T2.unit: T1.car", "T2.unit: T2.car", "R25"),
        ("T2.unit: T1.car", "T2: T1.car", "R25"),
        ("T2.unit: T1.car", "T9.unit: T1.car", "R20"),
        ("T1: {ends: {unit: 8-way, car: 8-way}", "T1: {ends: {unit: 8-way}", "R20"),
    ],
)
def test_what_can_not_be_plugged_in_is_refused(right: str, wrong: str, code: str) -> None:
    assert right in JOB
    _, troubles = _read(JOB.replace(right, wrong))
    assert code in {finding.code for finding in troubles.findings}


def test_an_end_cut_off_leaves_loose_ends_at_the_other() -> None:
    text = JOB.replace("leads: {2: ACC RD}}", "leads: {2: ACC RD, pilot: car.1 ILL}, pins: {1: B+}, cut off: car}")
    job, troubles = _read(text.replace("T2.unit: T1.car, T2.car: dash", "T2: dash").replace("T1.unit: dash, ", ""))
    assert not troubles.findings
    loom = job.parts.looms["T2"]
    assert list(loom.ends) == ["unit"]
    # by hand: the wire 1 hangs loose at the unit end, the lead unit.2 was there; what hung at the car end went with it
    assert {(lead.name, lead.function.name) for lead in loom.leads} == {("T2.unit.1", "B+"), ("T2.unit.2", "ACC")}
    assert loom.throughs == ()
    assert loom.cut_off == "car"


@pytest.mark.parametrize("ends", ["{unit: 8-way}", "{car: 8-way}"])
def test_a_loom_of_one_end_has_none_to_lose(ends: str) -> None:
    text = f"ringout: 1\ntitle: a\nlooms:\n  T1: {{ends: {ends}, leads: {{1: B+}}, cut off: unit}}\n"
    _, troubles = _read(text)
    assert [finding.code for finding in troubles.findings] == ["R20"]


def test_days_that_are_none_are_refused() -> None:
    text = JOB.replace("title: a row", "title: a row\ndate: 2026-02-29").replace(
        "through: 1..2}", "through: 1..2, arrives: 2025-04-31}"
    )
    _, troubles = _read(text)
    assert [(finding.code, finding.places[0].name) for finding in troubles.findings] == [
        ("R09", "2026-02-29"), ("R09", "2025-04-31"),
    ]  # fmt: skip
