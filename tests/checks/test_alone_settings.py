"""Switches and crossovers as they are set, against what the plan needs: one check at a time, read off by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, found
from tests.graph import test_signals as signals

DECK = "deck: {kind: radio, outputs: {a: 4 V grounded, b: 4 V grounded}}"
SUB = "amp.out1+: spk.SUB+; amp.out2-: spk.SUB-"
PAIR = "amp.out1: spk.FL; amp.out2: spk.FR"
BRIDGED = "SUB is bridged over amp out1 and out2, and the bridge switch is off: hardly any bass, or none."
ALONE = "{} is on amp {} alone, and the bridge switch is on for out1 and out2: not its own signal.".format
TWEETER = "FL-TW gets {} Hz and up from amp out1 and has no capacitor: bass tears its coil.".format
FIRST = "Set the high-pass first and write it in the route, or fit a capacitor in the + wire."
LOW = "amp {} gets a speaker signal from {}, and its input switch is set to low level: it distorts, and the in".format
HIGH = "amp {} gets a line signal from deck {}, and its input switch is set to high level: hiss and little so".format


@pytest.mark.parametrize(
    ("code", "routes", "said", "speakers", "joints", "parts", "do"),
    [
        # a bridge whose switch is off, on, or not written; its load known or not; two channels with the switch on
        ("D09", "out1..2: in1", "bridge: unused", "SUB: {nominal: 4 ohm}", SUB, [BRIDGED],
         "Set the bridge switch of amp on for out1 and out2."),
        ("D09", "out1..2: in1", "bridge: unused", "SUB: {place: boot}", SUB, [BRIDGED],
         "Set the bridge switch of amp on for out1 and out2."),
        ("D09", "out1..2: in1", "bridge: [out1/out2]", "SUB: {nominal: 4 ohm}", SUB, [], ""),
        ("D09", "out1..2: in1", "", "SUB: {nominal: 4 ohm}", SUB, [], ""),
        ("D09", "out1..2: in1..2", "bridge: unused", "FL FR: {nominal: 4 ohm}", PAIR, [], ""),
        ("D09", "out1..2: in1..2", "bridge: [out1/out2]", "FL FR: {nominal: 4 ohm}", PAIR,
         [ALONE("FL", "out1"), ALONE("FR", "out2")], "Set the bridge switch of amp off for out1."),
        # a crossover is set as its route says, otherwise, or stands in one of the two alone
        ("C26", "out1: in1 80.. Hz", "high-pass out1: 80 Hz", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL", [], ""),
        ("C26", "out1: in1 80.. Hz", "high-pass out1: 250 Hz", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL",
         ["The high-pass of amp out1 is set to 250 Hz, its route says 80 Hz"], "Set it to 80 Hz, or write in"),
        ("C26", "out1: in1 ..3000 Hz", "low-pass out1: 250 Hz", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL",
         ["The low-pass of amp out1 is set to 250 Hz, its route says 3000 Hz"], "Set it to 3000 Hz, or"),
        ("C26", "out1: in1 80.. Hz", "low-pass out1: 250 Hz", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL", [], ""),
        ("C26", "out1: in1", "high-pass out1: 250 Hz", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL", [], ""),
        # a tweeter: nothing written, a route that is too low, a switch that is lower than its route, both right
        ("D08", "out1: in1", "", "FL-TW: {nominal: 4 ohm}", "amp.out1: spk.FL-TW", [TWEETER("20")], FIRST),
        ("D08", "out1: in1 100.. Hz", "", "FL-TW: {nominal: 4 ohm}", "amp.out1: spk.FL-TW", [TWEETER("100")], FIRST),
        ("D08", "out1: in1", "high-pass out1: 250 Hz", "FL-TW: {nominal: 4 ohm}", "amp.out1: spk.FL-TW",
         [TWEETER("250")], FIRST),
        ("D08", "out1: in1 3500.. Hz", "high-pass out1: 250 Hz", "FL-TW: {nominal: 4 ohm}", "amp.out1: spk.FL-TW",
         ["gets 250 Hz and up from amp out1, its high-pass set to 250 Hz, and has no capacitor: bass"],
         "Set the high-pass of amp out1 to 3500 Hz as routed, or fit a capacitor in the + wire."),
        ("D08", "out1: in1 3500.. Hz", "high-pass out1: 3500 Hz", "FL-TW: {nominal: 4 ohm}", "amp.out1: spk.FL-TW", [],
         ""),
        ("D08", "out1: in1", "", "FL-TW: {nominal: 4 ohm, capacitor: 4.7 uF}", "amp.out1: spk.FL-TW", [], ""),
        ("D08", "out1: in1", "", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL", [], ""),
        # one switch for both inputs: line signals, a radio's speaker wires, one of each
        ("C28", "out1: in1", "input: low level", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL", [], ""),
        ("C28", "out1: in1", "input: high level", "FL: {nominal: 4 ohm}", "amp.out1: spk.FL",
         [HIGH("in1", "a"), HIGH("in2", "b")], "Set the input of amp to low level."),
        ("C28", "out1: in1", "input: low level", "FL: {nominal: 4 ohm}", "radio.FL: amp.in1; amp.out1: spk.FL",
         [LOW("in1", "radio FL")], "Set the input of amp to high level."),
        ("C28", "out1: in1", "input: high level", "FL: {nominal: 4 ohm}", "radio.FL: amp.in1; amp.out1: spk.FL",
         [HIGH("in2", "b")], "Set the input of amp to low level."),
        ("C28", "out1: in1", "", "FL: {nominal: 4 ohm}", "radio.FL: amp.in1; amp.out1: spk.FL", [], ""),
    ],
)  # fmt: skip
def test_as_it_is_set(code: str, routes: str, said: str, speakers: str, joints: str, parts: list[str], do: str) -> None:
    amp = "amp: {kind: amplifier, inputs: {in1..2: 0.2..20 V}, outputs: {out1..2: 50 W @ 4 ohm}, bridges: out1+/out2-, "
    units = f"{DECK}; {amp}routes: {{{routes}}}" + (f", set: {{{said}}}}}" if said else "}")
    line = "deck.b: amp.in2; " if "radio" in joints else "deck.a: amp.in1; deck.b: amp.in2; "
    wiring = signals.wiring_of(line + joints, units, speakers=f"speakers: {{{speakers}}}\n")
    findings = found(code, wiring)
    alike(sorted(each.message for each in findings), parts)
    assert all(each.do.startswith(do) for each in findings[:1])
    row = signals.HEAD.count("\n") + 2  # the amplifier's, where its switches are written
    assert all(each.places[0].place.line == row for each in findings if code != "D08")
