"""What a meter read: which record counts, what was apart then, and what stays without an answer."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest

from harness.graph.readings import body_readings, ohms_of, pair_readings
from harness.graph.speaker_readings import speaker_readings
from harness.prove import Proof, prove

JOB = """\
ringout: 1
title: Read at the dash
car: {name: Hazel van, steering: left, lacks: [RL]}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 6, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/7: FL WH WH/BK
      2/8: FR GY GY/BK
      3/9: RL GN GN/BK
units:
  radio: {kind: radio, outputs: {FL FR RL: btl 8 V clean step 31}}
speakers:
  FL FR RL: {nominal: 4 ohm}
inline: {C204: left front pillar}
found:
  - dash.FL > C204.7/8 BU BU/BK > spk.FL
"""
Read = Callable[..., Proof]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """A job with the records given, proved."""

    def make(*records: str, job: str = JOB) -> Proof:
        path = tmp_path / "job.yaml"
        path.write_text(job, encoding="utf-8")
        lines = "".join(f"- {{when: 2026-03-02 09:{at:02}, by: JM, {each}}}\n" for at, each in enumerate(records, 10))
        path.with_name("job.evidence.yaml").write_text(lines, encoding="utf-8")
        proof = prove(path, mends=False)
        assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
        return proof

    return make


# as they are written: 2.2 kohm is 2200 ohm, 300 mohm is 0.3 ohm
@pytest.mark.parametrize(
    ("text", "ohm"),
    [("3.5 ohm", 3.5), ("2.2 kohm", 2200), ("300 mohm", 0.3), ("open", math.inf), ("over", math.inf), ("8.5 V", None)],
)
def test_what_is_a_reading_in_ohms(text: str, ohm: float | None) -> None:
    assert ohms_of(text) == (None if ohm is None else pytest.approx(ohm))


def test_the_last_reading_counts_whichever_wire_is_named_first(read: Read) -> None:
    wiring = read("ohm: dash.car.1/7, reads: 9 ohm", "tone: dash.car.7/1, heard: FL, reads: 3 ohm").wiring
    assert wiring is not None

    assert [(each.contacts, each.ohm) for each in pair_readings(wiring)] == [(("dash.car.7", "dash.car.1"), 3)]


def test_a_word_that_is_no_reading_takes_none_back(read: Read) -> None:
    wiring = read("ohm: dash.car.1/7, reads: 9 ohm, body: open", "tone: dash.car.1/7, heard: FL").wiring
    assert wiring is not None

    assert [each.ohm for each in pair_readings(wiring)] == [9]
    assert [each.ohm for each in body_readings(wiring)] == [math.inf]


def test_each_wire_has_its_own_last_reading_to_the_body(read: Read) -> None:
    wiring = read("ohm: dash.car.1/7, reads: 3 ohm, body: 0.6 ohm", "ohm: dash.car.7, reads: open").wiring
    assert wiring is not None

    assert {each.contacts: each.ohm for each in body_readings(wiring)} == {
        ("dash.car.1",): 0.6,
        ("dash.car.7",): math.inf,
    }


@pytest.mark.parametrize(
    ("unplugged", "speakers"),
    [
        ("dash", ["FL"]),
        ("C204", []),  # behind the pillar's plug nothing is reached
        ("spk.FL", []),
        ("FL", []),
        ("[radio, speakers]", []),
        ("FR", ["FL"]),
    ],
)
def test_what_was_unplugged_was_not_read(read: Read, unplugged: str, speakers: list[str]) -> None:
    wiring = read(f"ohm: dash.car.1/7, reads: 9 ohm, unplugged: {unplugged}").wiring
    assert wiring is not None

    (read_pair,) = speaker_readings(wiring)
    assert [speaker.name for branch in read_pair.met.branches for speaker in branch] == speakers


def test_a_speaker_that_the_car_never_had_is_not_expected(read: Read) -> None:
    wiring = read("ohm: dash.car.3/9, reads: open").wiring
    assert wiring is not None

    assert speaker_readings(wiring)[0].met.branches == ()


def _unchecked(proof: Proof) -> list[str]:
    return [f"{each.what}: {each.why}" for each in proof.report.unchecked]


def test_an_open_pair_with_a_speaker_is_told_and_one_behind_a_capacitor_is_not(read: Read) -> None:
    behind = JOB.replace("FL FR RL: {nominal: 4 ohm}", "FL FR RL: {nominal: 4 ohm, capacitor: 10 uF}")
    record = "ohm: dash.car.1/7, reads: open, unplugged: dash"

    assert [each.code for each in read(record).report.findings if each.code == "J22"] == ["J22"]
    assert not [each for each in read(record, job=behind).report.findings if each.code == "J22"]


def test_a_speaker_whose_ohms_nobody_wrote_is_listed(read: Read) -> None:
    unsaid = JOB.replace("FL FR RL: {nominal: 4 ohm}", "FL FR RL: {place: doors}")
    listed = _unchecked(read("ohm: dash.car.1/7, reads: 1.7 ohm", job=unsaid))

    assert [each for each in listed if "whether 1.7 ohm fits dash cavities 1 and 7" in each and "ohms of FL" in each]


MOVED = """\
looms:
  T1:
    ends: {unit: 12-way, car: 12-way}
    through: 1 7
    leads: {unit.4: FR GY}
moved: {T1.unit.4: T1.unit.5}
capped: [T1.unit.4]
joints: {mate: {T1: dash}}
"""


def test_a_moved_terminal_is_listed_until_the_work_is_recorded_and_told_then(read: Read) -> None:
    """A plan that nobody has built yet isn't told to look at what isn't there."""
    plan, done = read(job=JOB + MOVED), read("built: T1.unit.4, is: capped", job=JOB + MOVED)

    assert [each for each in _unchecked(plan) if "moved to 5, sits (position, lock, tug)" in each]
    assert "H10" not in {finding.code for finding in plan.report.findings}
    assert not [each for each in _unchecked(done) if "moved to 5" in each]
    assert "H10" in {finding.code for finding in done.report.findings}


@pytest.mark.parametrize("record", ["plays: radio.FL, is: FL", "after: belt tone, result: works", "handover: closed"])
def test_what_records_the_work_as_done(read: Read, record: str) -> None:
    assert "H10" in {finding.code for finding in read(record, job=JOB + MOVED).report.findings}


@pytest.mark.parametrize("record", ["handover: paused", "before: belt tone, result: works", "printed: bench sheet"])
def test_what_does_not(read: Read, record: str) -> None:
    assert "H10" not in {finding.code for finding in read(record, job=JOB + MOVED).report.findings}
