"""What speaks against the plan, and that nothing is verified beside it. By hand from the job's text."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.finding import Finding
from harness.graph.proven import open_evidence
from harness.planning.states import PairStates
from harness.prove import Proof, prove
from render.documents.as_built import sheets as as_built
from render.documents.customer import sheets as customer
from render.documents.handover import sheets as handover
from render.documents.masthead import masthead
from render.documents.plug_sheet import sheets as plug_sheet
from render.documents.splice_list import sheets as splice_list
from tests.session.hazel import JOB, hazel

TONED = tuple(
    f"tone: dash.car.{a}/{b}, charted: {who}, heard: {who}, plus: {a}, unplugged: dash, key: out"
    for a, b, who in ((1, 7, "FL"), (2, 8, "FR"))
)
HEARD = tuple(f"plays: radio.{who}, heard: {who}, follows: both" for who in ("FL", "FR", "RL"))
TRIED = tuple(
    f"{verb}: {what}, result: works" for verb in ("before", "after") for what in ("reverse beep", "hands-free")
)
PROVED = (*TONED, *HEARD, *TRIED)


def told(proof: Proof, letter: str = "J") -> list[Finding]:
    return [each for each in proof.report.findings if each.code[0] == letter]


# (record, code, kind); bands: a coil of 4 ohm reads 2.48 to 4.0, ACC and trigger 10 V at least, below 1 V when off
CASES = [
    ("volts: amp.GND, reads: 12.6 V, key: out", "J23", "live ground"),
    ("volts: amp.GND, reads: 0.4 V, key: run", "J22", "volts"),
    ("volts: amp.B+, reads: 9 V, key: out", "J22", "volts"),
    ("volts: amp.rem, reads: 12.6 V, key: out", "J22", "asleep"),
    ("volts: dash.car.1/7, reads: 11 V, key: out", "J23", "dc"),
    ("volts: dash.car.1/7, reads: -0.2 V, key: out", "J23", "dc"),
    ("volts: dash.unit.4, reads: 124 V, key: run", "J22", "sense"),
    ("volts: dash.unit.4, reads: 3 ohm, key: run", "J22", "sense"),
    ("ohm: amp.out1, reads: open", "J22", "ohms"),
    ("ohm: dash.car.1/7, reads: open, unplugged: dash", "J22", "ohms"),
    ("ohm: dash.car.1, reads: 5 kohm, unplugged: dash", "J22", "body"),
    ("seen: amp, shows: blinks, key: run", "J22", "light"),
]


@pytest.mark.parametrize(("record", "code", "kind"), CASES)
def test_a_reading_against_the_plan_is_told_and_counted(record: str, code: str, kind: str, tmp_path: Path) -> None:
    proof = hazel(tmp_path, *PROVED, record)
    assert proof.wiring is not None
    assert [each.kind for each in open_evidence(proof.wiring).contrary] == [kind]
    assert [each.code for each in told(proof)] == [code]
    assert proof.report.verdict == ("stop" if code == "J23" else "mend")


# the last word on its subject counts; a battery at 12.9 V and a trigger at 12.3 V are still right
@pytest.mark.parametrize(
    "records",
    [
        ("volts: amp.GND, reads: 12.6 V, key: out", "volts: amp.GND, reads: 0 V, key: out"),
        ("volts: amp.rem, reads: 12.6 V, key: out", "volts: amp.rem, reads: 0.1 V, key: locked, waited: 15 min"),
        ("volts: amp.rem, reads: 12.3 V, key: run",),
        ("volts: amp.B+, reads: 12.9 V, key: out",),
        ("volts: dash.car.1/7, reads: 11 V, key: out", "ohm: dash.car.1/7, dc: 0 V, reads: 3.4 ohm, unplugged: dash"),
        ("volts: dash.car.1/7, reads: 8 V, key: run, step: 31",),
        ("ohm: amp.out1, reads: 0.9 ohm",),  # its leads on: the output itself is read beside the speaker
    ],
)
def test_what_holds_no_more_or_is_right(records: tuple[str, ...], tmp_path: Path) -> None:
    proof = hazel(tmp_path, *PROVED, *records)
    assert proof.wiring is not None
    assert not open_evidence(proof.wiring).contrary
    assert not told(proof)


def test_short_of_a_finding_nothing_is_verified_either(tmp_path: Path) -> None:
    """A fate that differs is a NOTE (J04), volts within a written wait none at all: neither job is verified."""
    assert hazel(tmp_path, *PROVED).report.verdict == "verified"
    for record in ("built: T1.aerial, is: loose", "volts: amp.rem, reads: 12 V, key: locked, waited: 8 min"):
        proof = hazel(tmp_path, *PROVED, record)
        assert proof.wiring is not None
        assert len(open_evidence(proof.wiring).contrary) == 1
        assert proof.report.verdict == "consistent-not-verified"
        assert masthead(proof).state.endswith("; 1 record speaks against the plan")


def test_built_onto_another_output(tmp_path: Path) -> None:
    """FL's lead at out 2, which plays FR: FL plays the right side. With the radio's own output on it: two outputs."""
    (finding,) = told(hazel(tmp_path, "built: T1.car.FL, is: amp.out2"))
    assert finding.code == "J25"
    assert "FL gets radio FR, planned radio FL" in finding.message
    (finding,) = told(hazel(tmp_path, 'built: T1.car.FL, is: "amp.out1, radio.FL"'))
    assert finding.code == "J24"
    assert "C01" in finding.message or "C02" in finding.message


def test_the_paper_calls_it_contradicted_everywhere(tmp_path: Path) -> None:
    """The tone of FL said RL; an output was played and failed; a signature that has no effect isn't a release."""
    proof = hazel(
        tmp_path,
        "tone: dash.car.1/7, charted: FL, heard: RL, plus: 1, reads: 3.4 ohm, unplugged: dash, key: out",
        "plays: radio.FL, heard: RL, follows: both",
        "built: T1.car.FL, is: as planned",
        "signed: released, reason: customer leaves",
    )
    for sheets in (plug_sheet, splice_list, as_built, handover):
        assert "contradicted: RL heard" in repr(list(sheets(proof))), sheets.__module__
    said = repr(list(handover(proof)))
    assert "Output radio.FL: contradicted: RL heard" in said
    assert "Output radio.FR: not heard yet" in said
    assert "Released by" not in said
    assert "has no effect" in said
    assert "1 wire pair tried and not as expected" in repr(list(customer(proof)))
    assert masthead(proof).counts.endswith("1 contradicted")


@pytest.mark.parametrize(
    ("record", "words"),
    [
        ("ohm: dash.car.1/7, reads: open, unplugged: dash", "contradicted: open read"),
        ("ohm: dash.car.1, reads: 5 kohm, unplugged: dash", "contradicted: 5 kohm read"),
        ("volts: dash.car.1/7, reads: 11 V, key: out", "contradicted: 11 V DC read"),
        ("ohm: dash.car.1/7, reads: 3.4 ohm, unplugged: dash", ""),
    ],
)
def test_a_pair_that_a_reading_speaks_against_is_not_measured(record: str, words: str, tmp_path: Path) -> None:
    """Of the two pairs in use one was toned, the other only read: it is measured where its speaker reads so."""
    proof = hazel(tmp_path, TONED[1], record)
    counts = proof.report.counts

    assert (counts.measured, counts.toned, counts.contradicted) == (int(not words), 1, int(bool(words)))
    assert proof.wiring is not None
    states = PairStates(proof.wiring).by_cavity("dash")
    assert states["1"] == (words or "measured")
    assert f"Pair dash.1/7: {words or 'measured, not toned'}" in repr(list(handover(proof)))


def test_without_records_nothing_is_looked_for(tmp_path: Path) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(JOB, encoding="utf-8")
    proof = prove(path, mends=False)
    assert proof.wiring is not None
    assert open_evidence(proof.wiring).contrary == ()


def test_a_release_falls_with_what_is_found_after_it(tmp_path: Path) -> None:
    """Found before it: it stands once that is made anew. Found after it: void, also when mended; a new one stands."""
    release = "signed: released, reason: customer waits"
    toned = (TONED[0], *HEARD, *TRIED)  # FR isn't toned
    loose, made = "checked: J4, found: loose", "built: J4"
    for records, verdict in (
        ((release,), "released"),
        ((loose, made, release), "released"),
        ((loose, release), "mend"),
        ((release, loose), "mend"),
        ((release, loose, made), "consistent-not-verified"),
        ((release, loose, made, release), "released"),
        ((release, "built: J4, is: not made", made), "consistent-not-verified"),
    ):
        assert hazel(tmp_path, *toned, *records).report.verdict == verdict, records
    said = repr(list(handover(hazel(tmp_path, *toned, release, loose))))
    assert "That no longer stands: since then JM 2026-03-02 recorded joint J4: found loose" in said


def test_what_nobody_read_is_listed_beside_verified(tmp_path: Path) -> None:
    """Three terminals of amp, its light, five joints, two ends each of fader and balance, until a record is there."""
    proof = hazel(tmp_path, *PROVED)
    assert masthead(proof).state == "VERIFIED; not all read: volts, lights, joints, fader and balance"
    open_ = [each.what for each in proof.report.unchecked]
    assert "the light of amp" in open_
    assert "whether joints J1, J2, J3, J4 and J5 hold" in open_
    assert "Whether joints J1, J2, J3, J4 and J5 hold" in repr(list(handover(proof)))
    ends = "what answers radio with fader full front, fader full rear, balance full left and balance full right"
    assert open_.count(ends) == 1
    assert f"W{ends[1:]}" in repr(list(handover(proof)))
    volts = ("volts: amp.B+, reads: 12.5 V, key: out", "volts: amp.GND, reads: 0 V, key: out")
    rest = ("volts: amp.rem, reads: 11.5 V, key: run", "seen: amp, shows: green")
    joints = tuple(f"checked: J{at}, found: tug" for at in range(1, 6))
    still = masthead(hazel(tmp_path, *PROVED, *volts, *rest, *joints)).state
    assert still == "VERIFIED; not all read: fader and balance"
    turned = (  # FL, FR and RL play
        "plays: radio, faded: front, heard: FL FR", "plays: radio, faded: rear, heard: RL",
        "plays: radio, balanced: left, heard: FL RL", "plays: radio, balanced: right, heard: FR",
    )  # fmt: skip
    assert masthead(hazel(tmp_path, *PROVED, *volts, *rest, *joints, *turned)).state == "VERIFIED"


# both speakers answered, the charted one among them: README, "What was recorded"
@pytest.mark.parametrize("heard", ["FL FR", '"FL, FR"'])
def test_speakers_heard_may_stand_with_commas(heard: str, tmp_path: Path) -> None:
    """Either way FL is heard, as charted, and FR beside it, which is not: no pattern of the chart, and not toned."""
    proof = hazel(tmp_path, TONED[0].replace("heard: FL", f"heard: {heard}"))
    assert [each.code for each in told(proof, "A")] == ["A14"]
    assert "1/7 charted FL, heard FL" in told(proof, "A")[0].do
    assert (proof.report.counts.contradicted, proof.report.counts.toned) == (1, 0)
