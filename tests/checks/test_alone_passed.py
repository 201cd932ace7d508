"""What is passed over stands before what is told: signals and steps of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, found, told
from tests.checks.test_alone_halves import CUT, DSP, INSTEAD, PAIRS
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals
from tests.graph.test_supply import wiring_of as supplied

MIX = "mix: {kind: processor, inputs: {in1..3: 1..9 V}, outputs: {out1: 4 V}, routes: {out1: in1 + in2 + in3}}"


@pytest.mark.parametrize(
    ("bands", "told_of"),
    [
        # 0.9 ms: 5/1.8 and 7/1.8 kHz. Two inputs late by as much against the third: the first written is told
        (("2000..4000 Hz 0.9 ms", "2000..4000 Hz", "2000..4000 Hz"), "in1 runs 0.9 ms behind in2"),
        (("2000..4000 Hz", "2000..4000 Hz", "2000..4000 Hz 0.9 ms"), "in3 runs 0.9 ms behind in1"),
        # 1.2 ms: 5/2.4, 7/2.4 and 9/2.4 kHz, one hole more
        (("2000..4000 Hz 0.9 ms", "2000..4000 Hz", "2000..4000 Hz 1.2 ms"), "in3 runs 1.2 ms behind in2"),
        # the first two share no band
        (("..100 Hz", "2000..4000 Hz 0.9 ms", "2000..4000 Hz"), "in2 runs 0.9 ms behind in3"),
    ],
)
def test_the_worst_of_three_that_are_summed(bands: tuple[str, str, str], told_of: str) -> None:
    deck = "deck: {{kind: radio, outputs: {{a: 4 V {}, b: 4 V {}, c: 4 V {}}}}}; ".format(*bands)
    joints = "deck.a: mix.in1; deck.b: mix.in2; deck.c: mix.in3; mix.out1: spk.FL"
    alike(told("C11", signals.wiring_of(joints, deck + MIX)), [f"mix {told_of} and both play 2000 to 4000 Hz"])


def test_a_sum_that_is_summed_again() -> None:
    """What comes late by one input is told where the two meet, and not at the next sum, where it is one input."""
    deck = "deck: {kind: radio, outputs: {a: 4 V 0.9 ms, b: 4 V, c: 4 V ..100 Hz}}; "
    pre = "pre: {kind: processor, inputs: {in1..2: 1..9 V}, outputs: {out1: 4 V}, routes: {out1: in1 + in2}}; "
    mix = pre.replace("pre:", "mix:").removesuffix("; ")
    joints = "deck.a: pre.in1; deck.b: pre.in2; pre.out1: mix.in1; deck.c: mix.in2; mix.out1: spk.FL"
    alike(told("C11", signals.wiring_of(joints, deck + pre + mix)), ["pre in1 runs 0.9 ms behind in2"])


@pytest.mark.parametrize(
    ("route", "parts"),
    [
        # of what is summed into in1, four signals are looked at: the late one is the fourth, or the fifth
        ("in1 + in2 + in3 + in5", ["mix in1 runs 0.9 ms behind in2 and both play 2000 to 4000 Hz"]),
        ("in1 + in2 + in3 + in4 + in5", []),
    ],
)
def test_how_many_signals_of_one_input_are_looked_at(route: str, parts: list[str]) -> None:
    low = ", ".join(f"{name}: 4 V ..100 Hz" for name in "abcd")
    deck = f"deck: {{kind: radio, outputs: {{{low}, e: 4 V 0.9 ms 2000..4000 Hz, f: 4 V 2000..4000 Hz}}}}; "
    pre = f"pre: {{kind: processor, inputs: {{in1..5: 1..9 V}}, outputs: {{out1: 4 V}}, routes: {{out1: {route}}}}}; "
    mix = "mix: {kind: processor, inputs: {in1..2: 1..9 V}, outputs: {out1: 4 V}, routes: {out1: in1 + in2}}"
    joints = "; ".join(f"deck.{name}: pre.in{at}" for at, name in enumerate("abcde", 1))
    joints += "; pre.out1: mix.in1; deck.f: mix.in2; mix.out1: spk.FL"
    alike(told("C11", signals.wiring_of(joints, deck + pre + mix)), parts)


@pytest.mark.parametrize(
    ("features", "parts"),
    [
        ("belt chime: {from: radio, to: [spk.FL], kind: warning, key: out}", ["belt chime to speaker FL must pass"]),
        ("belt chime: {from: radio, to: [spk.FL], kind: warning}", []),
        # one that sounds while driving, before one that must be heard with the key out; both with the key out
        (("park tone: {from: radio, to: [spk.FL], kind: warning}; "
         "belt chime: {from: radio, to: [spk.FL], kind: warning, key: out}"), ["belt chime to speaker FL must pass"]),
        (("park tone: {from: radio, to: [spk.FL], kind: warning, key: out}; "
         "belt chime: {from: radio, to: [spk.FL], kind: warning, key: out}"), ["belt chime to", "park tone to"]),
    ],
)  # fmt: skip
def test_a_chime_through_a_unit_that_sleeps(features: str, parts: list[str]) -> None:
    """The amplifier wakes by the radio's turn-on, which is there with the radio on."""
    amp = "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1: 50 W}, routes: {out1: in1}, wakes: rem}"
    head = signals.HEAD.replace("btl 8 V}", "btl 8 V}, gives: {AMP-ON: 100 mA}")
    more = f"{PAIRS}{CUT}features:\n" + "".join(f"  {row}\n" for row in features.split("; "))
    more += "found:\n  - dash.FL > spk.FL\n"
    joints = "dash.unit.FL: amp.in1; amp.out1: dash.car.FL; radio.AMP-ON: amp.rem"
    alike(told("C16", signals.wiring_of(joints, amp, more, head=head)), parts)


@pytest.mark.parametrize(
    ("more", "parts"),
    [
        (CUT, ["cavity 1 (white, FL+), unit side is live from"]),
        # one wire alone is opened, and that one hangs open
        ("cut: [dash.1]\n", ["dash cavity 1 (white, FL+), unit side is live from radio FL+"]),
        ("cut: [dash.2]\n", ["dash cavity 2 (white with black stripe, FL−), unit side is live from radio FL−"]),
        (f"{CUT}capped: [dash.unit.2]\n", ["dash cavity 1 (white, FL+), unit side is live"]),
        (f"{CUT}capped: [dash.unit.1, dash.unit.2]\n", []),
        (f"{CUT}depinned: [dash.unit.1, dash.unit.2]\n", []),
    ],
)
def test_the_radios_half_left_open(more: str, parts: list[str]) -> None:
    joints = INSTEAD if "[dash.FL]" in more else "radio.FR: dsp.in1; dsp.out1+: dash.car.1"
    if "[dash.2]" in more:
        joints = "radio.FR: dsp.in1; dsp.out1-: dash.car.2"
    alike(told("H03", signals.wiring_of(joints, DSP, f"{PAIRS}{more}found:\n  - dash.FL > spk.FL\n")), parts)


LOSSY = """\
units:
  amp: {kind: amplifier, outputs: {out1..2: 50 W @ 4 ohm}, draws: 1 A}
speakers: {FL FR RL RR: {nominal: 4 ohm}}
runs:
"""
THIN, THICK = "15 ft 22 AWG", "1 ft 12 AWG"


@pytest.mark.parametrize(
    ("runs", "parts"),
    [
        # 2 x 15 ft of 22 AWG are 0.48 ohm beside 4 ohm, 10.8 %; 2 x 1 ft of 12 AWG 0.003 ohm; the limit is 5 %
        (f"amp.out1 > {THICK} > spk.FL", []), (f"amp.out1 > {THIN} > spk.FL", ["FL loses 10.8 %"]),
        # a thick one before a thin one, on one output and on two; both thin
        (f"amp.out1 > {THICK} > spk.FL; amp.out1 > {THIN} > spk.FR", ["FR loses 10.8 %"]),
        (f"amp.out1 > {THICK} > spk.FL; amp.out2 > {THIN} > spk.FR", ["FR loses 10.8 %"]),
        (f"amp.out1 > {THIN} > spk.FL; amp.out1 > {THIN} > spk.FR", ["FL loses 10.8 %", "FR loses 10.8 %"]),
        # two in line, 0.48 of 8.48 ohm: told at the one that the cable leads to, and of the next line all the same
        (("amp.out1+ > 30 ft 22 AWG > spk.FL+; spk.FL- > spk.FR+; spk.FR- > amp.out1-; "
         "amp.out1+ > 30 ft 22 AWG > spk.RL+; spk.RL- > spk.RR+; spk.RR- > amp.out1-"),
         ["FL loses 5.7 %", "RL loses 5.7 %"]),
    ],
)  # fmt: skip
def test_volts_lost_in_speaker_wire(runs: str, parts: list[str]) -> None:
    alike(told("D06", supplied(LOSSY + "".join(f"  - {run}\n" for run in runs.split("; ")))), parts)


DECK_AND_BOX = "  deck: {kind: radio, leads: {B+: YE, ACC: RD}}\n  box: {kind: interface, terminals: [ACC]}\n"
FEEDS = "dash.1: deck.%s; dash.8: deck.%s"


@pytest.mark.parametrize(
    ("joints", "line", "parts"),
    [
        (FEEDS % ("B+", "ACC"), 0, []),
        (FEEDS % ("ACC", "B+"), 1, ["deck B+ (yellow) gets dash cavity 8 (red, ACC)"]),
        # by another cavity of the same feed: the joint behind that one is where it goes wrong
        ("dash.8: gate.6; gate.6: deck.B+; dash.1: deck.ACC", 1, ["deck B+ (yellow) gets"]),
        # by what is no cavity: the first joint
        ("dash.8: face.line; face.line: deck.B+; dash.1: deck.ACC", 0, ["deck B+ (yellow) gets"]),
        ("dash.8: gate.5; gate.5: deck.B+; dash.1: deck.ACC", 0, ["deck B+ (yellow) gets"]),
        # nor is a unit's terminal, though it is named ACC
        ("dash.8: box.ACC; box.ACC: deck.B+; dash.1: deck.ACC", 0, ["deck B+ (yellow) gets"]),
    ],
)
def test_where_two_feeds_are_exchanged(joints: str, line: int, parts: list[str]) -> None:
    head = joined.HEAD.replace("removed: [out]", "removed: [out, radio]").replace(
        "units:\n", f"units:\n{DECK_AND_BOX}")  # fmt: skip
    findings = found("F19", joined.wiring_of(joints, head=head))
    alike([each.message for each in findings], parts)
    assert [each.places[0].place.line - joined.FIRST - 2 for each in findings] == [line] * len(parts)
