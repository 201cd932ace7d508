"""Pairs that are joined again, cavities that the plan speaks for, settings: jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from harness.prove import prove_text
from tests.checks.alone import alike, found, told
from tests.checks.test_alone_halves import CUT, PAIRS
from tests.checks.test_alone_steps import BEFORE, FUSE, KEY_OFF, OFF, ON
from tests.checks.test_alone_steps import JOB as STEPS
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals

LISTENS = ["cavity 1 (white, FL+), car side is opened and joined again, only so that dsp in1+ can listen."]


@pytest.mark.parametrize(
    ("joints", "speakers", "parts"),
    [
        ("dash.unit.FL: [dash.car.FL, dsp.in1]", "FL FR C", LISTENS),
        # nothing listens: by itself, or with one more speaker on it
        ("dash.unit.FL: dash.car.FL", "FL FR C", []), ("dash.unit.FL: [dash.car.FL, spk.C]", "FL FR C", []),
        # one wire of the two, by either; a pair of which no speaker is written
        ("dash.unit.1: [dash.car.1, dsp.in1+]", "FL FR C", []), ("dash.unit.FL: [dash.car.FL, dsp.in1]", "FR C", []),
        # what was never there is no source of the car's, nor a speaker of it
        ("dash.unit.RL: [dash.car.RL, dsp.in1, dsp.out1]", "FL RL", []),
        ("dash.unit.FL: [dash.car.FL, dsp.in1, spk.C]", "FR C", []),
        # two pairs, the first of which goes through the processor
        ("dash.unit.FR: dsp.in2; dsp.out1: dash.car.FR; dash.unit.FL: [dash.car.FL, dsp.in1]", "FL FR C", LISTENS),
    ],
)  # fmt: skip
def test_a_pair_that_is_joined_again(joints: str, speakers: str, parts: list[str]) -> None:
    units = "dsp: {kind: processor, inputs: {in1..2: 1..9 V}, outputs: {out1: 4 V}}"
    cut = "cut: [dash.FL, dash.FR]\n" if "unit.FR" in joints else CUT.replace("FL", "RL") if "RL" in joints else CUT
    chain = "found:\n  - dash.FL > spk.FL\n" if "FL" in speakers else ""
    text = f"speakers: {{{speakers}: {{nominal: 4 ohm}}}}\n"
    alike(told("H13", signals.wiring_of(joints, units, f"{PAIRS}{cut}{chain}", speakers=text)), parts)


@pytest.mark.parametrize(
    ("joints", "more", "cavities"),
    [
        ("", "", "3 (MUTE), 4 (SWC)"),
        # what is said of either half
        ("", "cut: [dash.car.3]\n", "4 (SWC)"), ("", "capped: [dash.unit.3]\n", "4 (SWC)"),
        ("", "capped: [dash.car.3]\n", "4 (SWC)"), ("", "depinned: [dash.unit.4]\n", "3 (MUTE)"),
        ("", "depinned: [dash.car.3]\n", "4 (SWC)"), ("dash.unit.3: amp.rem", "", "4 (SWC)"),
        ("dash.car.4: amp.rem", "", "3 (MUTE)"), ("dash.car.4: amp.rem; dash.unit.3: dsp.rem", "", ""),
    ],
)  # fmt: skip
def test_cavities_that_the_plan_speaks_for(joints: str, more: str, cavities: str) -> None:
    start, end = joined.HEAD.index("    cavities: {1: B+"), joined.HEAD.index("  gate:")
    rows = "    cavities: {1: B+ YE, 2: GND BK, 3: MUTE BN, 4: SWC VT, 5: empty, 6: unknown WH}\n"
    head = joined.HEAD[:start] + rows + joined.HEAD[end:]
    head = head.replace(", leads: {3/4: CAN YE/GN YE/BN, car.6: unknown WH}", "")
    parts = [f"T1 has no pin for dash cavity {cavities}: what runs there is lost."] if cavities else []
    alike(told("H08", joined.wiring_of(joints, more, "T1: dash", head)), parts)


UNSAVED = "The plan relies on {} in dsp, and no settings file is named: if it dies, the tune dies with it.".format


@pytest.mark.parametrize(
    ("kind", "says", "made"),
    [
        ("processor", "", ""), ("processor", ", settings: bench.set", ""),
        ("processor", ", routes: {out1: in1}", "1 route"),
        ("processor amplifier", ", routes: {out1: in1, out2: in2}", "2 routes"),
        ("processor", ", set: {gain out1: -6 dB}", "1 setting"),
        ("processor", ", set: {gain out1: -6 dB, gain out2: -6 dB}", "2 settings"),
        ("processor", ", routes: {out1: in1}, set: {gain out1: -6 dB}", "1 route and 1 setting"),
        # the file is named; an amplifier with knobs has none
        ("processor", ", routes: {out1: in1}, settings: bench.set", ""),
        ("processor", ", set: {gain out1: -6 dB}, settings: bench.set", ""), ("amplifier", ", routes: {out1: in1}", ""),
    ],
)  # fmt: skip
def test_settings_that_nobody_saved(kind: str, says: str, made: str) -> None:
    unit = f"dsp: {{kind: {kind}, inputs: {{in1..2: 1..9 V}}, outputs: {{out1..2: 4 V}}{says}}}"
    messages = told("J10", signals.wiring_of("radio.FL: dsp.in1; dsp.out1: spk.FL", unit))
    assert messages == ([UNSAVED(made)] if made else [])
    # of one that isn't in use nothing is asked, before one that is
    spare = f"{unit.replace('dsp:', 'spare:')}; {unit}"
    assert told("J10", signals.wiring_of("radio.FL: dsp.in1; dsp.out1: spk.FL", spare)) == messages


def test_12_volts_are_followed_from_the_car_s_wire() -> None:
    """The processor's turn-on and the car's lamp wire meet on an input: what the car gives is there whoever wakes."""
    (finding,) = found("F24", joined.wiring_of("dsp.rem-out: amp.in1+; dash.5: dsp.rem-out"))
    assert finding.path[-2:] == ("dsp.rem-out", "amp.in1+")
    assert finding.path[0].startswith("dash.")


def test_work_on_a_constant_wire_of_the_car_with_the_key_off() -> None:
    """The dash's B+ is live whether the key is in or out; its turn-on wire isn't."""
    job = STEPS.replace("    dash.3: amp.rem\n", "    dash.3: amp.rem\n    dash.4: box.B+\n")
    job = job.replace("speakers:", "  box: {kind: interface, draws: 1 A}\nspeakers:")
    for join, many in (("join: J6", 1), ("join: J5", 0)):
        others = "join: J1, J2, J3, J4, J5" if many else "join: J1, J2, J3, J4, J6"
        steps = "".join(f"  - {step}\n" for step in (*BEFORE, KEY_OFF, join, OFF, others, FUSE, ON))
        report = prove_text(job + steps, "job.yaml", steps=True).report
        messages = [each.message for each in report.findings if each.code == "J13"]
        assert len(messages) == many, messages
        assert all("works on dash cavity 4 (yellow, B+)" in each for each in messages)
