"""Levels on the way to an input's window, read from jobs. Every expected value is a hand sum, written beside it."""

from __future__ import annotations

import pytest

from harness.graph.levels import Arriving, arriving
from harness.prove import prove_text

HEAD = """\
ringout: 1
title: Levels on a bench
car: {name: Bench car, steering: left}
"""
SPEAKERS = """\
speakers:
  SUB: {place: boot, nominal: 4 ohm, new: 8 inch}
"""
RADIO = "  radio: {kind: radio, outputs: {FL FR: btl 8.5 V 0.9 ms}}\n"


def _job(units: str, joints: str) -> str:
    return f"{HEAD}units:\n{units}{SPEAKERS}joints:\n  screw:\n{joints}"


def _at(text: str) -> dict[str, Arriving]:
    proof = prove_text(text, "job.yaml", mends=False)
    assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
    return {each.feed.receiver.name: each for each in arriving(proof.wiring)}


def _codes(text: str) -> list[str]:
    return [each.code for each in prove_text(text, "job.yaml", mends=False).report.findings]


def _do(text: str, code: str) -> str:
    return next(each.do for each in prove_text(text, "job.yaml", mends=False).report.findings if each.code == code)


AMP = """\
  amp:
    kind: amplifier
    inputs: {in1: WINDOW}
    outputs: {out1: 110 W @ 4 ohm least 2 ohm}
    routes: {out1: in1}
"""
PLAIN = "    radio.FL: amp.in1\n    amp.out1: spk.SUB\n"


def test_two_windows_of_one_amplifier() -> None:
    """8.5 V on the high input of 2.5 to 35 V: 20 log (35/8.5) = 12.29 dB of headroom. On the line input of 0.3 to
    5 V: 20 log (8.5/5) = 4.609 dB too hot, 5 whole ones.
    """
    # an amplifier as they are sold, windows 0.3 to 5 V and 2.5 to 35 V: common practice, no source
    high = _job(RADIO + AMP.replace("WINDOW", "2.5..35 V differential"), PLAIN)
    line = _job(RADIO + AMP.replace("WINDOW", "0.3..5 V differential"), PLAIN)
    assert _at(high)["amp.in1"].hot.headroom_db == pytest.approx(12.29, abs=0.005)
    assert _at(line)["amp.in1"].hot.headroom_db == pytest.approx(-4.609, abs=0.0005)
    assert not {"C06", "C07"} & set(_codes(high))
    assert "pad of 5 dB" in _do(line, "C06")


@pytest.mark.parametrize(
    ("outputs", "bridge", "volts"),
    [
        # sqrt(110 x 4)
        ("out1..2: 110 W @ 4 ohm least 2 ohm", "", 20.976),
        # sqrt(180 x 2)
        ("out1..2: 180 W @ 2 ohm least 2 ohm", "", 18.974),
        # bridged at 4 ohm each half sees 2 ohm: twice sqrt(180 x 2), which on 4 ohm are 360 W: 37.947²/4
        ("out1..2: 180 W @ 2 ohm least 2 ohm", "out1+/out2-", 37.947),
    ],
)
def test_an_amplifier_sold_as_110_180_and_360_w(outputs: str, bridge: str, volts: float) -> None:
    """110 W at 4 ohm, 180 W at 2, 360 W bridged at 4, read at a high input of 2.5 to 35 V behind it."""
    # an amplifier as they are sold: common practice, no source; V = sqrt(P R)
    four = (
        f"  four: {{kind: amplifier, inputs: {{in1..2: 0.3..5 V differential}}, outputs: {{{outputs}}}, "
        f"routes: {{out1..2: in1..2}}, bridges: out1+/out2-}}\n"
    )
    joints = f"    four.{bridge or 'out1'}: amp.in1\n    amp.out1: spk.SUB\n"
    text = _job(four + AMP.replace("WINDOW", "2.5..35 V differential"), joints)
    made = _at(text)["amp.in1"]
    assert made.level.volts == pytest.approx(volts, abs=0.0005)
    # 20 log (35/37.947) = -0.702 dB: the bridge alone is too hot, by a pad of one whole decibel
    assert ("C06" in _codes(text)) is bool(bridge)
    if bridge:
        assert made.hot.headroom_db == pytest.approx(-0.702, abs=0.0005)
        assert made.hot.pad_db == 1


CHAIN = """\
  loc:
    kind: line converter
    inputs: {in1..2: transformer}
    outputs: {out1..2: grounded}
    routes: {out1..2: in1..2 -12.0412 dB}
  dsp:
    kind: processor
    inputs: {in1..2: 0.5..4 V grounded}
    outputs: {out1: MOST grounded}
    routes: {out1: in1 + in2 ..80 Hz GAIN 2 ms}
"""
CHAINED = """\
    radio.FL: loc.in1
    radio.FR: loc.in2
    loc.out1: dsp.in1
    loc.out2: dsp.in2
    dsp.out1: amp.in1
    amp.out1: spk.SUB
"""


def _chain(most: str, gain: str) -> str:
    units = CHAIN.replace("MOST ", most).replace("GAIN ", gain) + AMP.replace("WINDOW", "1.8..5 V grounded")
    return _job(RADIO + units, CHAINED)


def test_through_tap_converter_and_sum_to_the_window() -> None:
    """8.5 V less 12.0412 dB (a quarter) are 2.125 V. Twice that less 6.0206 dB (half): in step 2.125 V, unrelated
    sqrt(2) x 2.125/2 = 1.503 V; 20 log (5/2.125) = 7.432 dB of headroom, 20 log (1.8/1.503) = 1.568 dB short.
    """
    made = _at(_chain("", "-6.0206 dB "))
    assert made["dsp.in1"].level.volts == pytest.approx(2.125, abs=0.0005)
    assert made["dsp.in1"].level.gain_db == pytest.approx(-12.0412, abs=0.0005)
    last = made["amp.in1"]
    assert last.level.volts == pytest.approx(2.125, abs=0.0005)
    assert last.level.likely_v == pytest.approx(1.503, abs=0.0005)
    assert last.level.gain_db == pytest.approx(-12.0412, abs=0.0005)
    assert last.hot.headroom_db == pytest.approx(7.432, abs=0.002)
    assert last.small.short_db == pytest.approx(1.568, abs=0.002)
    # what the route leaves, and both delays on the way: 0.9 ms of the radio and 2 ms of the route
    assert last.band_hz == (20.0, 80.0)
    assert last.delay_s == pytest.approx(0.0029)
    assert "C07" in _codes(_chain("", "-6.0206 dB "))


def test_a_stage_clips_at_its_own_most() -> None:
    """2.125 + 2.125 = 4.25 V and 12.0412 dB more would be 17 V: an output of 4 V gives 4 V, 20 log (5/4) = 1.938 dB
    below the window's end.
    """
    made = _at(_chain("4 V ", "12.0412 dB "))["amp.in1"]
    assert (made.level.volts, made.level.likely_v) == (4.0, 4.0)
    assert made.hot.headroom_db == pytest.approx(1.938, abs=0.0005)
    assert "clips" in made.level.how
    # without the output's own most it is 17 V, 20 log (17/5) = 10.63 dB too hot
    text = _chain("", "12.0412 dB ")
    assert _at(text)["amp.in1"].level.volts == pytest.approx(17, abs=0.005)
    assert "pad of 11 dB" in _do(text, "C06")


def test_a_gain_that_is_not_written_is_not_taken_as_none() -> None:
    """No gain and no level of the output: nothing is known of the amplifier's input, and that is listed."""
    text = _chain("", "")
    assert set(_at(text)) == {"dsp.in1", "dsp.in2"}
    unchecked = {each.what: each.why for each in prove_text(text, "job.yaml", mends=False).report.unchecked}
    assert unchecked["the level at amp in1"] == "neither the level of dsp out1 nor the gain to it is written"


def test_units_in_a_ring_end() -> None:
    """Two converters that feed each other have no level, and asking for it ends."""
    ring = (
        "  a: {kind: line converter, inputs: {in1: 1..4 V}, outputs: {out1: grounded}, routes: {out1: in1 -3 dB}}\n"
        "  b: {kind: line converter, inputs: {in1: 1..4 V}, outputs: {out1: grounded}, routes: {out1: in1 -3 dB}}\n"
    )
    assert not _at(_job(ring, "    a.out1: b.in1\n    b.out1: a.in1\n"))
