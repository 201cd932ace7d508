"""How levels are known, what a bridge gives, which coils count; every value is a hand sum beside it."""

from __future__ import annotations

import pytest

from harness.graph import levels, load_words
from tests.graph.test_level_rules import BRIDGED, CHAIN, amp, gives, load_of
from tests.graph.test_signals import wiring_of


@pytest.mark.parametrize(
    ("out", "most"),
    [
        # across a bridge twice the volts of one: 2 x 4 V; 2 x sqrt(50 x 4) V
        ("4 V", (8.0, 4.0)), ("50 W @ 4 ohm", (28.2843, 14.1421)),
    ],
)  # fmt: skip
def test_the_most_that_an_output_and_a_bridge_give(out: str, most: tuple[float, float]) -> None:
    wiring = wiring_of("amp.out1+/out2-: spk.FL; radio.FR: spk.FR", amp(out=out, more=BRIDGED))
    given = {each.name: levels.most_of(each) for each in wiring.signals.drivers}
    volts = {name: round(each[0], 4) for name, each in given.items() if each}
    assert (volts["amp.out1+/out2-"], volts["amp.out2"], volts["radio.FR"]) == (*most, 8.0)


@pytest.mark.parametrize(
    ("units", "how"),
    [
        (amp(), "50 W at 4 ohm"),
        (amp(out="4 V"), "as written"),
        # 8 V in, as much out, of which 3 V come through; 20 V are never reached
        (amp(out="3 V", more=", routes: {out1: in1 0 dB}"), "+0 dB from in1, 3 V at most, which clips there"),
        (amp(out="20 V", more=", routes: {out1: in1 0 dB}"), "+0 dB from in1, 20 V at most"),
        (amp(out="grounded", more=", routes: {out1: in1 + in2 -6 dB}"), "-6 dB from in1 and in2"),
    ],
)
def test_how_a_level_is_known(units: str, how: str) -> None:
    wiring = wiring_of(CHAIN, units)
    level = levels.level_of(wiring, next(each for each in wiring.signals.drivers if each.name == "amp.out1"))
    assert level is not None
    assert level.how == how


@pytest.mark.parametrize("gain", [200, -200])
def test_forty_slips_of_the_pen_in_a_row_say_nothing(gain: int) -> None:
    """200 dB are ten thousand million times: 8 V are 80 GV or 0.8 nV behind one, behind forty no number at all."""
    row = "{{kind: processor, inputs: {{in1: 1..4 V}}, outputs: {{out1: grounded}}, routes: {{out1: in1 {} dB}}}}"
    units = "; ".join(f"u{at}: {row.format(gain)}" for at in range(40))
    joints = "; ".join(["radio.FL: u0.in1", *(f"u{at}.out1: u{at + 1}.in1" for at in range(39))])
    wiring = wiring_of(joints, units)
    given = {each.name: levels.level_of(wiring, each) for each in wiring.signals.drivers}
    first = given["u0.out1"]
    assert first is not None
    assert first.volts == pytest.approx(8 * 10 ** (gain / 20))
    assert given["u39.out1"] is None


@pytest.mark.parametrize(
    ("out", "level"),
    [
        # of a sum one part isn't known: nor is the sum, but for the most that is written
        ("grounded", None), ("3 V", (3.0, 3.0, 0.0)),
    ],
)  # fmt: skip
def test_a_sum_of_which_a_part_is_unknown(out: str, level: tuple[float, float, float] | None) -> None:
    units = (
        f"aux: {{kind: interface, outputs: {{a: grounded}}}}; {amp(out=out, more=', routes: {out1: in1 + in2 -6 dB}')}"
    )
    assert gives(wiring_of("radio.FL: amp.in1; aux.a: amp.in2", units), "amp.out1") == level


def test_what_arrives_where_and_what_is_not_known() -> None:
    """An input without a window stands first; of two outputs on the other one the first gives nobody knows what."""
    plain = "plain: {kind: amplifier, inputs: {in1: differential}, outputs: {out1: 50 W}}"
    aux = "aux: {kind: interface, outputs: {a: grounded}}; bux: {kind: interface, outputs: {b: 2 V}}"
    wiring = wiring_of("aux.a: [plain.in1, amp.in1]; bux.b: amp.in1", f"{aux}; {plain}; {amp()}")
    arrived = [(each.feed.driver.name, each.feed.receiver.name, each.level.volts) for each in levels.arriving(wiring)]
    assert arrived == [("bux.b", "amp.in1", 2.0)]
    unknown = [(each.feed.driver.name, each.feed.receiver.name) for each in levels.unknown_levels(wiring)]
    assert unknown == [("aux.a", "amp.in1")]
    assert [each.name for each in levels.without_window(wiring)] == ["plain.in1"]


def test_a_bridge_that_a_gain_makes() -> None:
    """Half of the radio's 8 V at each of two outputs, one of them turned round: 8 V across both."""
    made = wiring_of(
        "radio.FL: amp.in1; amp.out1+/out2-: spk.FL",
        amp(out="grounded", more=BRIDGED + ", routes: {out1: in1 -6.0206 dB, out2: in1 -6.0206 dB}"),
    )
    assert gives(made, "amp.out1+/out2-") == (8.0, 8.0, 0.0)


def test_the_coils_of_a_speaker_that_comes_out_count_no_more() -> None:
    """A new speaker of 4 ohm and one coil in the place of two coils of 2 ohm: it can be wired in one way."""
    speakers = "speakers: {SUB: {coils: 2 x 2 ohm parallel, new: {nominal: 4 ohm}}}\n"
    wiring = wiring_of("amp.out1: spk.SUB", amp(), speakers=speakers)
    load = load_of(wiring, "amp.out1")
    assert load.nominal_ohm == 4.0
    assert load_words.legal(wiring, load, 1.0) == "4 ohm (one alone)"
    # one of which nothing is written leaves the old one's: 1 ohm side by side, 4 in line
    old = wiring_of("amp.out1: spk.SUB", amp(), speakers=speakers.replace("{nominal: 4 ohm}", "one"))
    words = load_words.legal(old, load_of(old, "amp.out1"), 1.0)
    assert words == "1 ohm (all in parallel) or 4 ohm (all in series)"
    # nothing is known of one whose ohms nobody wrote
    none = wiring_of("amp.out1: spk.SUB", amp(), speakers="speakers: {SUB: {place: boot}}\n")
    assert load_words.legal(none, load_of(none, "amp.out1"), 1.0) == ""


def test_two_plain_speakers_on_one_output() -> None:
    """4 ohm and 4 ohm side by side are 2; with a capacitor of unknown value in front of one no more is known of it."""
    for joint, speakers, ohm in (
        ("amp.out1: [spk.FL, spk.FR]", "FL FR: {nominal: 4 ohm}", 2.0),
        ("amp.out1: spk.FL", "FL: {nominal: 4 ohm, capacitor: unknown}", 4.0),
        ("amp.out1: [spk.FL, spk.FR]", "FL: {nominal: 4 ohm, capacitor: unknown}, FR: {nominal: 2 ohm}", 4 / 3),
    ):
        load = load_of(wiring_of(joint, amp(), speakers=f"speakers: {{{speakers}}}\n"), "amp.out1")
        assert load.nominal_ohm == pytest.approx(ohm)
        assert load.least is not None
        assert load.least.ohm == pytest.approx(ohm)
