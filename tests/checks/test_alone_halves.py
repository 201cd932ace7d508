"""Pairs that are opened and used by one half, and bands that don't come: jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import LINK, alike, found, told
from tests.graph import test_signals as signals

PAIRS = LINK.replace("    CARRIES\n", "").replace("CAVITIES", "1/2: FL WH WH/BK, 3/4: FR GY GY/BK, 5/6: RL GN GN/BK")
CHAINS = "found:\n  - dash.FL > spk.FL\n  - dash.FR > spk.FR\n"
DSP = (
    "dsp: {kind: processor amplifier, inputs: {in1..2: 2..20 V differential}, outputs: {out1..2: 50 W @ 4 ohm}, "
    "routes: {out1..2: in1..2}}"
)
LOOM = "looms: {T1: {ends: {unit: 8-way, car: 8-way}, leads: {unit.1/2: FL WH WH/BK, car.1/2: FL WH WH/BK}}}\n"
CUT = "cut: [dash.FL]\n"
INSTEAD = "radio.FR: dsp.in1; dsp.out1: dash.car.FL"


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        # nothing is done with either half, or both are used
        ("", CUT, []), ("dash.unit.FL: dsp.in1; dsp.out1: dash.car.FL", CUT, []),
        # the radio's half is taken: both wires, or one alone; a cap on the other half gives the speaker no sound
        ("dash.unit.FL: dsp.in1", CUT, ["dash cavity 1 (white, FL+), unit side is taken to dsp in1+"]),
        ("dash.unit.2: dsp.in1-", CUT, ["dash cavity 2 (white with black stripe, FL−), unit side is taken"]),
        ("dash.unit.FL: dsp.in1", f"{CUT}capped: [dash.car.FL]\n", ["the other half: speaker FL+ is silent."]),
        # a radio has no output for RL, and no speaker hangs there
        ("dash.unit.RL: dsp.in1", "cut: [dash.RL]\n", []),
        # two pairs, the first of which is fine
        ("dash.unit.FL: dsp.in1; dash.unit.FR: dsp.in2", "cut: [dash.FL, dash.FR]\n", ["cavity 1", "cavity 3"]),
        ("dash.unit.FL: dsp.in1; dsp.out1: dash.car.FL; dash.unit.FR: dsp.in2", "cut: [dash.FL, dash.FR]\n",
         ["dash cavity 3 (grey, FR+), unit side is taken to dsp in2+"]),
        # the speakers' half is driven anew: the radio's is capped, by both wires or by one, or hangs open
        (INSTEAD, CUT, ["dash cavity 1 (white, FL+), unit side is live from radio FL+ and left open, while dsp out1+"]),
        (INSTEAD, f"{CUT}capped: [dash.unit.FL]\n", []),
        (INSTEAD, f"{CUT}capped: [dash.unit.1]\n", ["dash cavity 2 (white with black stripe, FL−), unit side is live"]),
        (f"{INSTEAD}; dsp.out2: dash.car.FR", "cut: [dash.FL, dash.FR]\ncapped: [dash.unit.FL]\n",
         ["dash cavity 3 (grey, FR+), unit side is live from radio FR+ and left open, while dsp out2+"]),
        (f"{INSTEAD}; dsp.out2: dash.car.FR", "cut: [dash.FL, dash.FR]\n", ["dash cavity 1", "dash cavity 3"]),
    ],
)  # fmt: skip
def test_a_pair_used_by_one_half(joints: str, more: str, parts: list[str]) -> None:
    alike(told("H03", signals.wiring_of(joints, DSP, PAIRS + more + CHAINS)), parts)


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("T1.unit.FL: dsp.in1", "", ["dash cavity 1 (white, FL+), unit side is taken to dsp in1+"]),
        (
            "dsp.out1: T1.car.FL",
            "",
            ["T1 unit end 1 (white, FL+) is live from radio FL+ and left open, while dsp out1+"],
        ),
        ("dsp.out1: T1.car.FL", "capped: [T1.unit.FL]\n", []),
        ("dsp.out1: T1.car.FL", "depinned: [T1.unit.1, T1.unit.2]\n", []),
        ("T1.unit.FL: dsp.in1; dsp.out1: T1.car.FL", "", []),
    ],
)
def test_a_pair_used_by_one_end_of_a_loom(joints: str, more: str, parts: list[str]) -> None:
    findings = found("H03", signals.wiring_of(joints, DSP, PAIRS + LOOM + more + CHAINS, mate="T1: dash"))
    alike([each.message for each in findings], parts)
    assert all(each.path[:2] == ("radio.FL+", "dash.unit.1") for each in findings)


DECK = "deck: {kind: radio, outputs: {a: 4 V %s, b: 4 V}}; "
STAGE = "%s: {kind: %s, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 4 V}, routes: {out1: in1 %s, out2: in2}}; "
AMP = STAGE % ("amp", "amplifier", "")
LOW_CUT = ["FL gets 100 to 20000 Hz from deck a, and 20 to 100 Hz is missing."]


@pytest.mark.parametrize(
    ("units", "joints", "parts"),
    [
        # a speaker that nothing feeds, and one that gets all, before one that doesn't
        (DECK % "100.. Hz" + AMP, "deck.a: amp.in1; amp.out1: spk.FR", ["FR gets 100 to 20000 Hz from deck a"]),
        (DECK % "100.. Hz" + AMP, "deck.b: amp.in2; amp.out2: spk.FL; deck.a: amp.in1; amp.out1: spk.FR", ["FR gets"]),
        # two silent ones
        (DECK % "..80 Hz" + STAGE % ("amp", "amplifier", "100.. Hz"), "deck.a: amp.in1; amp.out1: [spk.FL, spk.FR]",
         ["FL gets nothing of what its output plays from deck a: it stays silent.", "FR gets nothing"]),
        # what is cut off in a processor of ours is meant; in the car's own amplifier, and in the radio, it isn't
        (DECK % "" + STAGE % ("dsp", "processor", "100.. Hz") + AMP,
         "deck.a: dsp.in1; dsp.out1: amp.in1; amp.out1: spk.FL", []),
        (DECK % "" + STAGE % ("dsp", "factory amplifier", "100.. Hz") + AMP,
         "deck.a: dsp.in1; dsp.out1: amp.in1; amp.out1: spk.FL", LOW_CUT),
        (DECK % "100.. Hz" + STAGE % ("dsp", "processor", "") + AMP,
         "deck.a: dsp.in1; dsp.out1: amp.in1; amp.out1: spk.FL", LOW_CUT),
        # in two of ours, one at each end; two that leave nothing are a slip
        (DECK % "" + STAGE % ("dsp", "processor", "200.. Hz") + STAGE % ("eq", "processor", "..5000 Hz") + AMP,
         "deck.a: dsp.in1; dsp.out1: eq.in1; eq.out1: amp.in1; amp.out1: spk.FL", []),
        (DECK % "" + STAGE % ("dsp", "processor", "200.. Hz") + STAGE % ("eq", "processor", "..100 Hz") + AMP,
         "deck.a: dsp.in1; dsp.out1: eq.in1; eq.out1: amp.in1; amp.out1: spk.FL", ["FL gets nothing of what"]),
    ],
)  # fmt: skip
def test_a_band_that_is_meant(units: str, joints: str, parts: list[str]) -> None:
    speakers = "speakers: {FL FR: {nominal: 4 ohm}}\n"
    alike(told("C10", signals.wiring_of(joints, units.removesuffix("; "), speakers=speakers)), parts)
