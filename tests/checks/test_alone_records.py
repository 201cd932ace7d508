"""What records decide: one check at a time on a job of a few lines and its records, read off by hand.

No outside source: the rules are those that `ringout explain` prints of each code.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from harness.finding import Finding
from tests.checks.alone import recorded

JOB = """\
ringout: 1
title: A few pairs
car: {name: Bench hatch, year: 2021, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 4, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/5: FL WH WH/BK
      2/6: FR GY GY/BK
      3/7: RL GN GN/BK
units:
  radio: {kind: radio, outputs: {FL FR RL: btl 8.5 V clean step 31}}
  amp:
    kind: amplifier
    inputs: {in1..3: 2..20 V differential}
    outputs: {out1..3: 50 W @ 4 ohm least 2 ohm}
    routes: {out1: in1, out2: in2, out3: in3}
    wakes: signal
speakers: {FL FR RL: {nominal: 4 ohm}}
cut: [dash.FL, dash.FR, dash.RL]
joints:
  crimp with heat shrink:
    dash.unit.FL: amp.in1
    dash.unit.FR: amp.in2
    dash.unit.RL: amp.in3
    dash.car.FL: amp.out1
    dash.car.FR: amp.out2
    dash.car.RL: amp.out3
"""
Told = Callable[..., list[Finding]]


@pytest.fixture
def told(tmp_path: Path) -> Told:
    """What one code finds in the job with the records given, in the order of its places."""

    def make(code: str, *records: str, job: str = JOB) -> list[Finding]:
        return recorded(tmp_path, code, records, job)

    return make


def lines(finding: Finding) -> list[int]:
    return [spot.place.line for spot in finding.places]


FL = "tone: dash.car.1/5, charted: FL, heard: FL, plus: 1"
FR = "tone: dash.car.2/6, charted: FR, heard: FR, plus: 2"
RL = "tone: dash.car.3/7, charted: RL, heard: RL, plus: 3"


def test_each_other_car_is_told_once_with_all_its_records(told: Told) -> None:
    one, other = told("J11", f"car: Alder hatch, {FL}", f"car: Hazel van, {FR}", f"car: alder  HATCH, {RL}")
    assert one.message.startswith("2 records are of another car, Alder hatch, and this job is for Bench hatch 2021")
    assert other.message.startswith("1 record is of another car, Hazel van, and this job")
    assert [lines(one), lines(other)] == [[1, 3], [2]]
    # the car by its name alone, and with its year
    assert told("J11", f"car: Bench hatch, {FL}", f"car: Bench Hatch 2021, {FR}", RL) == []


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        # nobody toned the pair before it, or it was toned with the plug apart, or the unit out
        ((f"{FR}",), ["The tone of dash 2/6 (grey, FR) doesn't say what was unplugged: with radio on the wires"]),
        ((f"{FL}, unplugged: dash", f"{FR}, unplugged: amp"), ["names another plug as unplugged: with radio on"]),
        ((f"{FL}, unplugged: radio", RL), ["The tone of dash 3/7"]),
        ((f"{FL}, unplugged: [amp, dash]", f"{FR}, unplugged: radio"), []),
    ],
)
def test_a_tone_with_a_unit_on_the_wires(told: Told, records: tuple[str, ...], parts: list[str]) -> None:
    messages = [each.message for each in told("C21", *records)]
    assert len(messages) == len(parts), messages
    for message, part in zip(messages, parts, strict=True):
        assert part in message


def test_a_tone_with_a_unit_on_the_wires_of_which_no_output_is_written(told: Told) -> None:
    job = JOB.replace("outputs: {FL FR RL: btl", "outputs: {FL FR: btl")
    (finding,) = told("C21", f"{FL}, unplugged: dash", RL, job=job)
    assert "with radio on the wires" in finding.message
    assert told("C21", RL, job=job.replace("    unit: radio\n", "")) == []
    assert told("C21", f"{FL}, unplugged: RADIO", job=job) == []
    (finding,) = told("C21", f"{RL}, unplugged: amp", job=job)
    assert "names another plug as unplugged: with radio on" in finding.message
    assert told("C21", f"{RL}, unplugged: radio", job=job) == []


@pytest.mark.parametrize(
    ("heard", "parts"),
    [
        ("heard: FL", []),
        ("heard: FR", ["radio FL was played and FR answered; as planned FL must. Sound comes from the wrong place"]),
        ("heard: FL FR", ["radio FL was played and FL and FR answered; as planned FL must. Sound comes from"]),
        # the right one, and too loud
        ("heard: FL, follows: nothing", ["The level of radio FL didn't follow the volume, which the plan has on its"]),
        ("heard: nothing", ["and nothing answered; as planned FL must. FL stays silent."]),
    ],
)
def test_what_answers(told: Told, heard: str, parts: list[str]) -> None:
    """Of the way from output to speaker each end is shown, with nothing between them."""
    job = JOB[: JOB.index("  amp:")] + "speakers: {FL FR RL: {nominal: 4 ohm}}\n"
    job += "joints:\n  crimp with heat shrink:\n    radio.FL: spk.FL\n"
    findings = told("C27", f"plays: radio.FL, {heard}", job=job)
    assert len(findings) == len(parts), findings
    for finding, part in zip(findings, parts, strict=True):
        assert part in finding.message
        assert finding.path[0] == "radio.FL+"
        assert finding.path[-1] == "spk.FL+"


READ = """\
ringout: 1
title: Read at the dash
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 6, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/7: FL WH WH/BK
      2/8: FR GY GY/BK
      3: ILL OG
      4: unknown BU
      5: ILL OG
      6: empty
      9: ACC RD
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V clean step 31}}
speakers:
  FL FR: {nominal: 4 ohm}
found:
  - dash.FL > spk.FL
"""


@pytest.mark.parametrize(
    ("code", "records", "ends"),
    [
        # two wires that meet nowhere read open; less than 1 ohm is a short, and so much is wire
        ("H15", ("dash.car.3/9, reads: open",), []),
        ("H15", ("dash.car.3/9, reads: 0.4 ohm",), ["3/9"]),
        ("H15", ("dash.car.3/9, reads: 1.5 ohm",), []),
        ("H15", ("dash.car.1/9, reads: 0.1 ohm",), ["1/9"]),
        # of a wire that nobody named, of an empty cavity, of one function twice nothing is said
        ("H15", ("dash.car.3/4, reads: 0.4 ohm",), []),
        ("H15", ("dash.car.4/3, reads: 0.4 ohm",), []),
        ("H15", ("dash.car.3/6, reads: 0.4 ohm",), []),
        ("H15", ("dash.car.6/3, reads: 0.4 ohm",), []),
        ("H15", ("dash.car.3/5, reads: 0.4 ohm",), []),
        # the second of two, and both of two
        ("H15", ("dash.car.3/4, reads: 0.4 ohm", "dash.car.3/9, reads: 0.4 ohm"), ["3/9"]),
        ("H15", ("dash.car.5/9, reads: 0.2 ohm", "dash.car.3/9, reads: 0.4 ohm"), ["5/9", "3/9"]),
        ("H15", ("dash.car.3/9, reads: 0.8 ohm",), ["3/9"]),
        # across a pair: 1-ohm speakers read 0.5 ohm at least
        ("H15", ("dash.car.1/7, reads: 0.1 ohm",), ["1/7"]),
        ("H15", ("dash.car.2/8, reads: 0.1 ohm",), ["2/8"]),
        ("H15", ("dash.car.2/8, reads: 0.6 ohm",), []),
        # wires of two pairs are another fault's
        ("H15", ("dash.car.1/8, reads: 0.1 ohm",), []),
        ("A19", ("dash.car.1/8, reads: 0.1 ohm",), ["1/8"]),
        ("A19", ("dash.car.1/8, reads: 2 ohm",), []),
        ("A19", ("dash.car.1/8, reads: open",), []),
        ("A19", ("dash.car.3/9, reads: 0.1 ohm",), []),
        ("A19", ("dash.car.1/2, reads: open", "dash.car.7/8, reads: 0.1 ohm"), ["7/8"]),
        # a speaker of 4 ohm reads 2.48 (62 %) to 4 ohm, with leads and a meter's error somewhat more
        ("D05", ("dash.car.1/7, reads: 3.5 ohm",), []),
        ("D05", ("dash.car.1/7, reads: 7.2 ohm",), ["1/7"]),
        ("D05", ("dash.car.1/7, reads: 1.7 ohm",), ["1/7"]),
        ("D05", ("dash.car.1/7, reads: 0.1 ohm",), []),
        ("D05", ("dash.car.1/7, reads: 900 ohm",), []),
        ("D05", ("dash.car.1/7, reads: open",), []),
        # what is no speaker at all is told elsewhere, and what stands behind it here
        ("D05", ("dash.car.2/8, reads: 900 ohm", "dash.car.1/7, reads: 7.2 ohm"), ["1/7"]),
        # of a pair that nobody drew the chart's speaker counts; what fits, and wires of two pairs, end nothing
        ("D05", ("dash.car.2/8, reads: 7.2 ohm", "dash.car.1/7, reads: 7.2 ohm"), ["2/8", "1/7"]),
        (
            "D05",
            ("dash.car.1/8, reads: 7.2 ohm", "dash.car.2/8, reads: 3.4 ohm", "dash.car.1/7, reads: 7.2 ohm"),
            ["1/7"],
        ),
    ],
)
def test_what_a_meter_read(told: Told, code: str, records: tuple[str, ...], ends: list[str]) -> None:
    findings = told(code, *(f"ohm: {each}, unplugged: dash" for each in records), job=READ)
    lines_told = [lines(each)[0] for each in findings]
    wanted = [at for at, record in enumerate(records, 1) if record.split(",")[0].removeprefix("dash.car.") in ends]
    assert lines_told == wanted, [each.message for each in findings]


CROSSED = ("built: dash.unit.1/5, is: amp.in2", "built: dash.unit.2/6, is: amp.in1")


@pytest.mark.parametrize(
    ("code", "records", "at", "parts"),
    [
        ("J25", CROSSED, [1, 2], ["FL gets radio FR, planned radio FL.", "FR gets radio FL, planned radio FR."]),
        ("J24", CROSSED, [], []),
        # a pair that goes nowhere brings nothing of this, before those that do
        ("J25", ("built: dash.unit.3/7, is: capped", *CROSSED), [2, 3], ["So built: "]),
        # put right since, or as planned
        ("J25", (*CROSSED, "built: dash.unit.1/5, is: amp.in1", "built: dash.unit.2/6, is: as planned"), [], []),
        # two outputs on one wire is worse, and told so alone
        ("J24", ('built: dash.car.1/5, is: "amp.out1, amp.out2"',), [1], ["So built: C01 "]),
        ("J25", ('built: dash.car.1/5, is: "amp.out1, amp.out2"',), [], []),
        ("J24", ("built: dash.car.3/7, is: amp.out3",), [], []),
    ],
)
def test_what_was_built(told: Told, code: str, records: tuple[str, ...], at: list[int], parts: list[str]) -> None:
    findings = told(code, *records)
    assert [lines(each)[0] for each in findings] == at
    assert all(part in each.message for each in findings for part in parts), [each.message for each in findings]
    assert all("Power nothing." in each.do for each in findings) or code == "J25"


@pytest.mark.parametrize(
    ("seen", "parts"),
    [
        (("1, colour: WH",), []), (("5, colour: WH/BK",), []), (("1, colour: unknown",), []),
        (("5, colour: WH",), ["and plain white was seen: a stripe that faded"]),
        (("1, colour: WH/BK",), ["and white with black stripe was seen: a stripe that the chart left out"]),
        (("5, colour: BK/WH",), ["base and stripe exchanged"]),
        (("5, colour: WH/RD",), ["and white with red stripe was seen: another wire"]),
        (("5, colour: RD/BK",), ["another wire"]), (("1, colour: RD",), ["plain red was seen: another wire"]),
        # one that is right ends nothing; the last look counts
        (("1, colour: WH", "5, colour: WH"), ["a stripe that faded"]),
        (("5, colour: WH", "5, colour: WH/BK"), []),
    ],
)  # fmt: skip
def test_a_colour_that_was_seen(told: Told, seen: tuple[str, ...], parts: list[str]) -> None:
    findings = told("A10", *(f"seen: dash.car.{each}" for each in seen))
    assert len(findings) == len(parts), findings
    for finding, part in zip(findings, parts, strict=True):
        assert part in finding.message


def test_a_pair_that_fell_silent(told: Told) -> None:
    """Told at the silent record, with the one that answered; not of a silence before, of another car, or struck."""
    off = "tone: dash.car.1/5, charted: FL, heard: nothing"
    (finding,) = told("J30", FL, off)
    assert lines(finding) == [2, 1]
    assert 'ringout locate JOB --symptom "FL silent"' in finding.do
    assert not told("J30", off)  # it never answered
    assert not told("J30", off, FL)
    assert not told("J30", FL, f"car: Alder hatch, {off}")
    assert not told("J30", f"car: Alder hatch, {FL}", off)
    assert not told("J30", FL, off, "struck: 2")
    assert not told("J30", FL, off, FL)
    assert not told("J30", FL, "tone: dash.car.1/5, charted: FL, heard: RL")  # that is A25's
    assert not told("J30", FL, f"{off}, unplugged: [dash, speakers]")
    assert [lines(each) for each in told("J30", FL, FR, off, off)] == [[4, 1]]  # the last of both
    # the second pair of the plug
    assert [lines(each) for each in told("J30", FL, FR, "tone: dash.car.2/6, charted: FR, heard: none")] == [[3, 2]]


def test_a_pair_that_another_speaker_answers_too_since(told: Told) -> None:
    """Before it was proved that is A14's to ask; a further driver of the same channel is no stranger."""
    both = "tone: dash.car.1/5, charted: FL, heard: FL RL"
    (finding,) = told("J30", FL, both)
    assert lines(finding) == [2, 1]
    assert "RL answers it too since" in finding.message
    assert "One output drives FL and RL." in finding.message
    assert not told("A14", FL, FR, RL, both)
    assert not told("J30", both)
    assert not told("J30", both, both)
    assert told("A14", FR, RL, both)
    assert not told("J30", FL, both, FL)
    assert not told("J30", FL, "tone: dash.car.1/5, charted: FL, heard: FL FL-TW")


def test_silence_has_more_than_one_word(told: Told) -> None:
    """Two pairs that never answered speak against the chart, whichever word of silence is written."""
    for word in ("none", "nothing", "Silence", "silent"):
        off = [
            f"tone: dash.car.{pair}, charted: {name}, heard: {word}" for pair, name in (("1/5", "FL"), ("2/6", "FR"))
        ]
        assert told("A25", *off), word
        assert not told("A25", FL, FR, *off), word  # they answered: a wire went, not the chart
