"""Levels by channel, loads, watts, other ways to wire speakers, against hand sums and published values."""

from __future__ import annotations

import pytest

from harness.planning.channel_levels import output_lines, rewired, stage_lines
from tests.conftest import Wired

JOB = """
units:
  radio: {{kind: radio, outputs: {{FL FR: {source}}}}}
  dsp:
    kind: processor amplifier
    inputs: {{in1..2: {window}}}
    outputs: {{out1..2: {output}, rca1: 4 V grounded}}
    routes:
      out1: in1 80..20000 Hz -3 dB 2 ms
      out2: in2
      rca1: in1 + in2 ..80 Hz
  bass: {{kind: amplifier, inputs: {{in1: 0.2..4 V grounded}}, outputs: {{out1: 300 W @ 4 ohm least 2 ohm}}}}
speakers:
  FL FR: {{place: doors, nominal: {nominal}}}
  SUB: {{place: boot, coils: 2 x 2 ohm series}}
joints:
  solder at the radio with heat shrink:
    radio.FL: dsp.in1
    radio.FR: dsp.in2
    dsp.out1: spk.FL
    dsp.out2: spk.FR
runs:
  - dsp.rca1 > 5 m rca > bass.in1
  - bass.out1 > {cable} > spk.SUB
"""
USUAL = {
    "source": "18 W @ 4 ohm btl", "window": "2..20 V differential", "output": "50 W @ 4 ohm least 2 ohm",
    "nominal": "4 ohm", "cable": "4 ft 12 AWG",
}  # fmt: skip


def job(**others: str) -> str:
    return JOB.format(**(USUAL | others))


def test_each_step_of_each_channel_stands_once_source_first(wired: Wired) -> None:
    lines = stage_lines(wired(job()))
    assert [(line.driver.name, [each.name for each in line.receivers]) for line in lines] == [
        ("radio.FL", ["dsp.in1"]), ("dsp.out1", ["spk.FL"]), ("dsp.rca1", ["bass.in1"]), ("bass.out1", ["spk.SUB"]),
        ("radio.FR", ["dsp.in2"]), ("dsp.out2", ["spk.FR"]),
    ]  # fmt: skip
    rca = lines[2]
    assert rca.channels == ("radio.FL", "radio.FR")
    assert rca.bands == {"radio.FL": (20.0, 80.0), "radio.FR": (20.0, 80.0)}
    assert [line.delay_s for line in lines] == [None, 0.002, None, None, None, None]


def test_volts_and_headroom(wired: Wired) -> None:
    lines = {line.driver.name: line for line in stage_lines(wired(job()))}
    radio, out = lines["radio.FL"], lines["dsp.out1"]
    assert radio.level is not None
    assert radio.fit is not None
    assert out.level is not None
    # 18 W at 4 ohm are 8.5 V, a workshop manual (maker withheld); sqrt(18 * 4) = 8.485
    assert radio.level.volts == pytest.approx(8.485, abs=1e-3)
    # 20 log10(20 / 8.485) = 7.45 dB
    assert radio.fit.headroom_db == pytest.approx(7.45, abs=0.005)
    # 50 W at 4 ohm are 14.1 V: sqrt(200) = 14.142
    assert out.level.volts == pytest.approx(14.142, abs=1e-3)


def test_too_hot_says_whole_decibels_of_the_pad(wired: Wired) -> None:
    """8.485 V into 4 V at most: 20 log10(2.121) = 6.53 dB, so that a pad takes 7 dB off."""
    lines = stage_lines(wired(job(window="0.2..4 V differential")))
    assert lines[0].fit is not None
    assert (lines[0].fit.verdict, lines[0].fit.pad_db) == ("too hot", 7)


def test_what_is_not_written_is_none_and_not_nothing(wired: Wired) -> None:
    wiring = wired(job(source="btl", window="differential", output="btl"))
    radio = stage_lines(wiring)[0]
    assert (radio.level, radio.fit, radio.bands, radio.delay_s) == (None, None, {}, None)
    out = output_lines(wiring)[0]
    assert (out.volts, out.delivery) == (None, None)
    assert out.nominal_ohm == pytest.approx(4)


# IEC 60268-5: the modulus is at least 80 % of the rated ohms: 6.4 of 8, 3.2 of 4 (a reference page, seen 2026)
@pytest.mark.parametrize(("nominal", "least"), [("8 ohm", 6.4), ("4 ohm", 3.2)])
def test_the_least_over_the_band(wired: Wired, nominal: str, least: float) -> None:
    assert output_lines(wired(job(nominal=nominal)))[0].least_ohm == pytest.approx(least)


def test_watts_that_arrive_and_the_share_lost_in_the_wire(wired: Wired) -> None:
    """2 x 10 m of 0.5 mm² (39.0 ohm/km, IEC 60228 class 5) are 0.78 ohm before 4: 4/4.78 squared arrives, 70.0 %."""
    line = next(each for each in output_lines(wired(job(cable="10 m 0.5 mm2"))) if each.load.driver.name == "bass.out1")
    assert line.delivery is not None
    (sub,) = line.delivery.speakers
    assert sub.power_lost == pytest.approx(1 - (4 / 4.78) ** 2, rel=1e-3)
    assert sub.power_w == pytest.approx(300 * (4 / 4.78) ** 2, rel=1e-3)


def test_into_more_ohms_than_rated_the_volts_stay_and_into_fewer_the_watts(wired: Wired) -> None:
    """50 W at 4 ohm: 14.14 V into 8 ohm are 25 W; into 2 ohm 50 W are sqrt(50 * 2) = 10 V."""
    for nominal, volts, watts in (("8 ohm", 14.142, 25.0), ("2 ohm", 10.0, 50.0)):
        line = output_lines(wired(job(nominal=nominal)))[0]
        assert line.volts is not None
        assert (line.volts.volts, line.volts.power_w) == (pytest.approx(volts, abs=1e-3), pytest.approx(watts))


def test_a_double_coil_has_its_other_way_with_what_the_output_takes(wired: Wired) -> None:
    """One double coil of 2 ohm makes 1 or 4 ohm (an owners' forum's table, seen 2026); the output takes 2 or more."""
    (told,) = rewired(wired(job()))
    assert told.reason == "coils"
    assert [(way.ohm, way.allowed) for way in told.ways] == [
        (pytest.approx(1), False), (pytest.approx(4), True),
    ]  # fmt: skip


def test_two_speakers_too_low_side_by_side_and_what_else_they_make(wired: Wired) -> None:
    """Two of 4 ohm: 2 in parallel, 8 in series (an owners' forum on two subwoofers, seen 2026)."""
    pair = """
units:
  radio: {kind: radio, outputs: {FL: 4 V}}
  amp: {kind: amplifier, inputs: {in1: 0.2..4 V}, outputs: {out1: 50 W @ 4 ohm least 4 ohm}}
speakers: {FL RL: {place: doors, nominal: 4 ohm}}
runs: [radio.FL > 1 m rca > amp.in1, amp.out1 > 1 m 14 AWG > spk.FL, amp.out1 > 1 m 14 AWG > spk.RL]
"""
    wiring = wired(pair)
    assert output_lines(wiring)[0].nominal_ohm == pytest.approx(2)
    (told,) = rewired(wiring)
    assert told.reason == "below"
    assert [(way.words, way.ohm, way.allowed) for way in told.ways] == [
        ("speakers in parallel", pytest.approx(2), False), ("speakers in series", pytest.approx(8), True),
    ]  # fmt: skip
    # 2 ohm is what it takes then: both would be told of only if a coil could be wired otherwise, and none can
    assert rewired(wired(pair.replace("least 4 ohm", "least 2 ohm"))) == ()


def test_a_lower_load_that_the_output_takes_is_told(wired: Wired) -> None:
    """Four ohm where 1 is taken: the coils of 2 x 2 ohm side by side make 1."""
    (told,) = rewired(wired(job().replace("300 W @ 4 ohm least 2 ohm", "300 W @ 4 ohm least 1 ohm")))
    assert told.reason == "above"
    assert [way.allowed for way in told.ways] == [True, True]


def test_speakers_with_a_capacitor_are_left_as_they_are(wired: Wired) -> None:
    text = job().replace("coils: 2 x 2 ohm series}", "coils: 2 x 2 ohm series, capacitor: 47 uF}")
    assert rewired(wired(text)) == ()
