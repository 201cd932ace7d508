"""The order of work: one job of two pairs, its steps left out, doubled or put elsewhere; who is told at which step.

No outside source: the rules are those that `ringout explain` prints of J16 to J19.
"""

from __future__ import annotations

import pytest

from harness.finding import Finding
from harness.prove import prove_text

JOB = """\
ringout: 1
title: Two pairs and a supply
car: {name: Hazel van, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 4, view: wire, latch: top, count: across, first: top left}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/2: FL WH WH/BK
      3: AMP-ON BU
      4: B+ YE
      5/6: FR GY GY/BK
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V clean step 31}, gives: {AMP-ON: 100 mA}}
  amp:
    kind: amplifier
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 50 W @ 4 ohm least 2 ohm}
    routes: {out1..2: in1..2}
    wakes: rem 20 mA
    class: D
speakers: {FL FR: {nominal: 4 ohm}}
grounds: {G1: {place: left seat crossmember, metal: bare}}
cut: [dash.FL, dash.FR]
joints:
  solder at behind the radio with tape:
    dash.unit.FL: amp.in1
    dash.unit.FR: amp.in2
    dash.car.FL: amp.out1
    dash.car.FR: amp.out2
    dash.3: amp.rem
runs:
  - battery.+ > 12 in 8 AWG > fuse 15 A > 12 ft 8 AWG via bulkhead grommet > amp.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
steps:
"""
OFF = "power: key off, battery negative off, then wait"
ON = "power: battery negative on, then key on"
PULL, PUT = "unplug: dash", "mate: dash"
TONE, CUT_FL, CUT_FR, JOIN = (
    "tone: every pair",
    "cut: dash.FL behind the plug",
    "cut: dash.FR behind the plug",
    "join: J1, J2, J3, J4, J5",
)
LAY, FUSE = "lay: all runs, every fuse out, the battery end not joined yet", "fuse: battery end joined, then fuses in"
WHOLE = (OFF, PULL, TONE, CUT_FL, CUT_FR, JOIN, LAY, PUT, FUSE, ON)


def told(code: str, steps: tuple[str, ...], job: str = JOB) -> list[Finding]:
    text = job + "".join(f"  - {step}\n" for step in steps)
    report = prove_text(text, "job.yaml", steps=True).report
    assert report.verdict != "unreadable", [finding.message for finding in report.findings]
    return [each for each in report.findings if each.code == code]


def numbers(findings: list[Finding]) -> list[int]:
    """The number of the step at which each is told."""
    return sorted(each.places[0].place.line - JOB.count("\n") for each in findings)


@pytest.mark.parametrize("code", ["G10", "J13", "J14", "J15", "J16", "J17", "J18", "J19"])
def test_the_whole_order_is_safe(code: str) -> None:
    assert told(code, WHOLE) == []


@pytest.mark.parametrize(
    ("steps", "at", "part"),
    [
        # the radio is still on the wires, each time that one is toned
        ((OFF, TONE, PULL, CUT_FL, CUT_FR, JOIN, LAY, PUT, FUSE, ON), [2], "with radio"),
        ((OFF, TONE, TONE, PULL, TONE, CUT_FL, CUT_FR, JOIN, LAY, PUT, FUSE, ON), [2, 3], "with radio"),
        # the amplifier is already
        ((OFF, PULL, TONE, CUT_FL, CUT_FR, JOIN, TONE, LAY, PUT, FUSE, ON), [7], "with amp"),
        # the key is on
        ((OFF, PULL, ON, TONE, OFF, CUT_FL, CUT_FR, JOIN, LAY, PUT, FUSE, ON), [4], "with the key on"),
        # one fault doesn't end the search for the next
        ((OFF, PULL, ON, TONE, OFF, CUT_FL, CUT_FR, JOIN, TONE, LAY, PUT, FUSE, ON), [4, 9], "tones"),
    ],
)
def test_a_tone_at_a_wrong_moment(steps: tuple[str, ...], at: list[int], part: str) -> None:
    findings = told("J18", steps)
    assert numbers(findings) == at
    assert all(part in each.message for each in findings)


@pytest.mark.parametrize(
    ("left_out", "parts"),
    [
        ((CUT_FR,), ["not cut"]), ((PUT,), ["dash not plugged together again"]),
        ((LAY, FUSE), ["RUN 1 not laid, RUN 2 not laid"]),
        ((JOIN,), ["J1 not joined, J2 not joined, J3 not joined and 2 more"]),
        ((FUSE,), ["with an end open"]), ((), []),
    ],
)  # fmt: skip
def test_a_step_that_is_left_out(left_out: tuple[str, ...], parts: list[str]) -> None:
    """Told at the last step; three are named."""
    steps = tuple(step for step in WHOLE if step not in left_out)
    findings = told("J19", steps)
    assert numbers(findings) == [len(steps)] * len(parts)
    for finding, part in zip(findings, parts, strict=True):
        assert part in finding.message


def test_a_feed_before_its_ground() -> None:
    supply = "lay: the supply, its fuse out"
    steps = (OFF, PULL, TONE, CUT_FL, CUT_FR, JOIN, PUT, supply, "fuse: in", ON, OFF, "lay: the ground", ON)
    findings = told("J17", steps)
    assert numbers(findings) == [10]
    assert "amp B+ is live from" in findings[0].message


KEY_OFF = "power: battery negative on"
BEFORE = (OFF, PULL, TONE, CUT_FL, CUT_FR, LAY, PUT)


@pytest.mark.parametrize(
    ("steps", "parts"),
    [
        # the radio's turn-on wire is live with the key on, and its outputs; nothing of that with the key off
        (
            (*BEFORE, ON, "join: J5", OFF, "join: J1, J2, J3, J4", FUSE, ON),
            ["Step 9 (join) works on dash cavity 3 (blue"],
        ),
        ((*BEFORE, KEY_OFF, "join: J5", OFF, "join: J1, J2, J3, J4", FUSE, ON), []),
        (
            (*BEFORE, ON, "join: J1", OFF, "join: J2, J3, J4, J5", FUSE, ON),
            ["FL+), unit side, live from radio FL+, with"],
        ),
        ((*BEFORE, KEY_OFF, "join: J1", OFF, "join: J2, J3, J4, J5", FUSE, ON), []),
        # the battery's post is always; the two steps are two
        (
            (*BEFORE, KEY_OFF, JOIN, FUSE, ON),
            ["Step 10 (fuse) works on battery +, live by itself, with battery on, key off"],
        ),
        ((*BEFORE, ON, "join: J5", FUSE, OFF, "join: J1, J2, J3, J4", ON), ["Step 9 (join)", "Step 10 (fuse)"]),
    ],
)
def test_work_on_what_is_live(steps: tuple[str, ...], parts: list[str]) -> None:
    findings = told("J13", steps)
    assert len(findings) == len(parts), [finding.message for finding in findings]
    for finding, part in zip(findings, parts, strict=True):
        assert part in finding.message


OPENED = (OFF, PULL, TONE, CUT_FL, CUT_FR, PUT)
CLOSED = (OFF, JOIN, LAY, FUSE, ON)
TO_CAR = "car side with amp %s already on it"


@pytest.mark.parametrize(
    ("code", "steps", "at", "parts"),
    [
        # both cut ends at the radio are live as soon as the key is on, and not with the key off
        ("J14", (*OPENED, ON, *CLOSED), [7, 7], ["cavity 1 (white, FL+), unit", "cavity 5 (grey, FR+), unit"]),
        ("J14", (*OPENED, KEY_OFF, *CLOSED), [], []),
        ("J14", (*OPENED, KEY_OFF, ON, *CLOSED), [8, 8], ["bare and live from radio FL+", "live from radio FR+"]),
        # one of them joined on before that, the first or the second
        ("J14", (*OPENED, "join: J1", ON, OFF, "join: J2, J3, J4, J5", LAY, FUSE, ON), [8], ["cavity 5 (grey"]),
        ("J14", (*OPENED, "join: J2", ON, OFF, "join: J1, J3, J4, J5", LAY, FUSE, ON), [8], ["cavity 1 (white, FL+)"]),
        # the amplifier is on one of the toned pairs already, on the first or on the second
        ("J18", (OFF, PULL, CUT_FL, CUT_FR, "join: J1, J3", TONE, "join: J2, J4, J5", LAY, PUT, FUSE, ON), [6],
         [TO_CAR % "out1+"]),
        ("J18", (OFF, PULL, CUT_FL, CUT_FR, "join: J2, J4", TONE, "join: J1, J3, J5", LAY, PUT, FUSE, ON), [6],
         [TO_CAR % "out2+"]),
    ],
)  # fmt: skip
def test_between_two_steps(code: str, steps: tuple[str, ...], at: list[int], parts: list[str]) -> None:
    findings = told(code, steps)
    assert numbers(findings) == at
    assert all(part in each.message for each, part in zip(findings, parts, strict=True))


def test_a_feed_before_its_ground_with_the_battery_on() -> None:
    """The fuse goes in last, and that is the step."""
    supply = "lay: the supply, its fuse out"
    steps = (OFF, PULL, TONE, CUT_FL, CUT_FR, JOIN, PUT, supply, KEY_OFF, "fuse: in", ON, OFF, "lay: the ground", ON)
    (finding,) = told("J17", steps)
    assert numbers([finding]) == [10]


def test_what_is_wanting_most_stands_first() -> None:
    """Without the battery nothing of the plan works."""
    steps = tuple(step for step in WHOLE if step not in (PUT, FUSE, ON))
    (finding,) = told("J19", steps)
    assert "isn't reached: the battery not back on, dash not plugged together again" in finding.message


# A pair that leads to an input, on the same plug, before the pairs of the speakers.
TO_INPUT = (
    JOB.replace("      1/2: FL", "      7/8: in1 BN BN/WH\n      1/2: FL")
    .replace("speakers:", "  voice: {kind: interface, outputs: {out1: 1 V}}\nspeakers:")
    .replace("cut: [", "cut: [dash.7, dash.8, ")
    .replace("    dash.3: amp.rem\n", "    dash.3: amp.rem\n    dash.car.7/8: voice.out1\n")
)


@pytest.mark.parametrize(
    ("first", "then", "parts"),
    [
        # no speaker answers on a wire to an input: it isn't toned, whatever is on it
        ("J6", "J1, J2, J3, J4, J5", []),
        ("J1, J3, J6", "J2, J4, J5", ["tones dash cavity 1 (white, FL+), car side with amp out1+ already on it"]),
    ],
)
def test_a_pair_that_leads_to_an_input_is_not_toned(first: str, then: str, parts: list[str]) -> None:
    cut = "cut: dash.7, dash.8 behind the plug"
    steps = (OFF, PULL, CUT_FL, CUT_FR, cut, f"join: {first}", TONE, f"join: {then}", LAY, PUT, FUSE, ON)
    messages = [each.message for each in told("J18", steps, TO_INPUT)]
    assert len(messages) == len(parts), messages
    assert all(part in message for message, part in zip(messages, parts, strict=True))


def test_a_unit_that_gives_a_feed_is_not_fed_by_itself() -> None:
    """Nothing comes into the converter by its own B+, so nothing goes home from it by a shield."""
    job = JOB.replace("speakers:", "  conv: {kind: interface, gives: {B+: 10 A}, draws: 1 A}\nspeakers:")
    job = job.replace("    dash.3: amp.rem\n", "")
    job = job.replace("steps:", "  - conv.B+ > 1 m 12 AWG > amp.rem\n  - conv.GND > 1 m 12 AWG > gnd.G1\nsteps:")
    laid = ("lay: RUN 1, RUN 3", ON, OFF, "lay: RUN 2, RUN 4", ON)
    steps = (OFF, PULL, TONE, CUT_FL, CUT_FR, "join: J1, J2, J3, J4", PUT, *laid)
    (finding,) = told("J17", steps, job)
    assert " amp B+ is live from battery +" in finding.message


@pytest.mark.parametrize(
    ("joins", "at"),
    [
        # the amplifier's output on the radio's wire that isn't cut: at the first state with the key on, and no more
        (("join: J3", ON, OFF, "join: J5", ON), [3]),
        (("join: J3", KEY_OFF, "join: J5", ON), [5]),
        # the second pair at the second time, though the first still meets
        (("join: J3", ON, OFF, "join: J4", ON), [3, 6]),
        (("join: J3, J4", ON), [3, 3]),
    ],
)
def test_outputs_that_meet_between_steps(joins: tuple[str, ...], at: list[int]) -> None:
    left = ", ".join(joint for joint in ("J1", "J2", "J3", "J4", "J5") if joint not in ", ".join(joins))
    findings = told("J15", (OFF, *joins, OFF, PULL, CUT_FL, CUT_FR, f"join: {left}", LAY, PUT, FUSE, ON))
    assert numbers(findings) == at
    outputs = [("radio FL+ and amp out1+ meet", "radio FR+ and amp out2+ meet")[number] for number in range(len(at))]
    assert all(words in each.message for each, words in zip(findings, outputs, strict=True))


def test_an_end_that_the_plan_leaves_open_is_told_of_the_plan() -> None:
    """No joint takes the radio's left front; its right front is joined after the key was on."""
    job = JOB.replace("    dash.unit.FL: amp.in1\n", "")
    steps = (*OPENED, ON, OFF, "join: J1, J2, J3, J4", LAY, FUSE, ON)
    (finding,) = told("J14", steps, job)
    assert finding.message.startswith("From step 7 (power) on dash cavity 5 (grey, FR+), unit side is bare")
