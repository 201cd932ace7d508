"""Levels against published values and hand sums."""

from __future__ import annotations

import math
import random
from pathlib import Path
from typing import Any

import pytest
import yaml

from harness.electrical.levels import (
    E12,
    E24,
    Stage,
    decibels,
    fit,
    gain,
    gain_target,
    levels_through,
    nulls_hz,
    overlap,
    pad_for,
    pad_heat_w,
    power_of,
    tone_for,
    volts_of,
)

CASES = yaml.safe_load((Path(__file__).parents[1] / "worked_examples" / "levels.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case['power_w']} W at {case['load_ohm']} ohm")
def test_volts_for_a_power(case: dict[str, Any]) -> None:
    made = volts_of(case["power_w"], case["load_ohm"])
    assert made == pytest.approx(case["volts"], abs=case["within"])
    assert power_of(made, case["load_ohm"]) == pytest.approx(case["power_w"], rel=1e-12)


def test_half_of_the_load_makes_half_of_a_bridge() -> None:
    """An amplifier sold as 110 W at 4 ohm, 180 W at 2, 360 W bridged at 4: twice the volts of 180 W at 2 ohm,
    sqrt(360) = 18.974 V, on 4 ohm are 37.947 V, and 37.947²/4 = 360 W.
    """
    half_v = volts_of(180, 2)
    assert half_v == pytest.approx(18.974, abs=5e-4)
    assert power_of(2 * half_v, 4) == pytest.approx(360, rel=1e-9)


def test_a_crest_of_10_decibels_is_a_tenth_of_the_power() -> None:
    """A page prints 10 W for 1000 W at 10 dB: a power ratio of 10 leaves 100 W."""
    watts = 1000 * gain(-10) ** 2
    assert watts == pytest.approx(100, rel=1e-12)


def test_decibels_there_and_back() -> None:
    """Twice the volts are 6.0206 dB (20 log 2)."""
    assert decibels(2) == pytest.approx(6.0206, abs=1e-4)
    assert gain(decibels(0.37)) == pytest.approx(0.37)
    assert decibels(0) == -math.inf


def test_a_way_through_tap_converter_and_sum() -> None:
    """8.5 V tapped, -12.0412 dB (a quarter, 2.125 V), twice into a sum of -6.0206 dB (half).

    In step (2.125 + 2.125)/2 = 2.125 V; unrelated sqrt(2) x 2.125/2 = 1.5026 V. Then +12.0412 dB asks for 8.5 V of
    an output that clips at 4 V.
    """
    sources = [Stage(name, source_v=8.5) for name in ("radio FL", "radio FR")]
    taps = [Stage(f"tap {each.words}", (each,)) for each in sources]
    converters = [Stage(f"converter {each.words}", (each,), gain_db=-12.0412) for each in taps]
    both = Stage("sum", tuple(converters), gain_db=-6.0206)
    out = Stage("out", (both,), gain_db=12.0412, most_v=4.0)
    made = {each.words: each for each in levels_through(out)}
    assert list(made)[-1] == "out"
    assert len(made) == 8
    assert made["tap radio FL"].most_v == 8.5
    assert made["converter tap radio FR"].most_v == pytest.approx(2.125, rel=1e-5)
    assert made["sum"].most_v == pytest.approx(2.125, rel=1e-5)
    assert made["sum"].likely_v == pytest.approx(1.5026, abs=1e-4)
    assert not made["sum"].clips
    assert made["out"].wanted_v == pytest.approx(8.5, rel=1e-5)
    assert (made["out"].most_v, made["out"].likely_v, made["out"].clips) == (4.0, 4.0, True)


def test_a_clipped_stage_passes_on_what_it_gives() -> None:
    """10 V into a stage that gives 5 V at most: the next, of 0 dB, wants 5 V and does not clip at 5 V."""
    first = Stage("first", (Stage("source", source_v=10.0),), most_v=5.0)
    made = levels_through(Stage("next", (first,), most_v=5.0))
    assert [(each.most_v, each.clips) for each in made] == [(10.0, False), (5.0, True), (5.0, False)]


def test_a_source_that_is_tapped_twice_is_told_once() -> None:
    """1 V by two ways of 0 dB into a sum: 2 V in step, sqrt(2) V by the rule for unrelated signals."""
    radio = Stage("radio", source_v=1.0)
    made = levels_through(Stage("sum", (Stage("one way", (radio,)), Stage("other way", (radio,)))))
    assert [each.words for each in made] == ["radio", "one way", "other way", "sum"]
    assert (made[-1].most_v, made[-1].likely_v) == pytest.approx((2.0, math.sqrt(2)))


def test_a_source_of_nothing_gives_nothing() -> None:
    assert levels_through(Stage("muted", source_v=0.0)) == (("muted", 0.0, 0.0, 0.0),)


def test_a_stage_needs_volts_or_inputs() -> None:
    source = Stage("source", source_v=1.0)
    for wrong in (Stage("nothing"), Stage("both", (source,), source_v=1.0)):
        with pytest.raises(ValueError, match="volts of its own or inputs"):
            levels_through(Stage("end", (wrong,)))


def test_windows() -> None:
    """8.5 V into 4 V: 20 log (8.5/4) = 6.547 dB, 7 whole ones. 0.4 V into 2 V: 20 log 5 = 13.979 dB short.
    2 V into 4 V: 6.021 dB of headroom.
    """
    hot = fit(8.5, 0.2, 4.0)
    assert (hot.verdict, hot.pad_db, hot.short_db) == ("too hot", 7, 0)
    assert hot.headroom_db == pytest.approx(-6.547, abs=1e-3)
    small = fit(0.4, 2.0, 20.0)
    assert (small.verdict, small.pad_db) == ("too small", 0)
    assert small.short_db == pytest.approx(13.979, abs=1e-3)
    good = fit(2.0, 0.2, 4.0)
    assert (good.verdict, good.pad_db, good.short_db) == ("fits", 0, 0)
    assert good.headroom_db == pytest.approx(6.021, abs=1e-3)


def test_the_ends_of_a_window_fit() -> None:
    assert fit(4.0, 0.2, 4.0).verdict == "fits"
    assert fit(0.2, 0.2, 4.0).verdict == "fits"
    assert fit(400.0, 0.2, None) == ("fits", math.inf, 0, 0.0)
    assert fit(1e-6, None, 4.0).verdict == "fits"
    assert fit(4.0, 4.0, 4.0).verdict == "fits", "a window of one value"
    # 20 log (4.5/4) = 1.023 dB too hot, so 2 whole ones; 20 log (0.2/0.19) = 0.446 dB short
    assert fit(4.5, 0.2, 4.0)[::2] == ("too hot", 2)
    assert fit(0.19, 0.2, 4.0).short_db == pytest.approx(0.446, abs=1e-3)
    # rounding doesn't make a level hot or small, nor a pad of 6 dB (4 V x 1.99526) one of 7
    assert fit(4.0 * (1 + 1e-12), 0.2, 4.0).verdict == "fits"
    assert fit(0.2 * (1 - 1e-12), 0.2, 4.0).verdict == "fits"
    assert fit(4 * 1.9952623149688797, 0.2, 4.0).pad_db == 6
    assert fit(4 * 1.99526231499, 0.2, 4.0).pad_db == 6
    with pytest.raises(ValueError, match="least to most"):
        fit(1.0, 4.0, 0.2)


def test_rated_values_of_resistors() -> None:
    """IEC 60063: E12 is every second value of E24; both written out here from the standard's table."""
    assert E12 == (1.0, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2)
    assert set(E24) - set(E12) == {1.1, 1.3, 1.6, 2.0, 2.4, 3.0, 3.6, 4.3, 5.1, 6.2, 7.5, 9.1}


@pytest.mark.parametrize("series", [E12, E24], ids=["E12", "E24"])
@pytest.mark.parametrize("load", [math.inf, 10_000.0, 470.0])
def test_a_pad_takes_off_at_least_what_is_asked(load: float, series: tuple[float, ...]) -> None:
    """8.5 V into 4 V: 20 log (8.5/4) = 6.547 dB; what is left by the divider's formula."""
    wanted = decibels(8.5 / 4)
    assert wanted == pytest.approx(6.547, abs=1e-3)
    pad = pad_for(wanted, 1000.0, load, series)
    loaded = pad.across_ohm if math.isinf(load) else 1 / (1 / pad.across_ohm + 1 / load)
    left = 8.5 * loaded / (loaded + pad.in_line_ohm)
    assert 3.5 < left <= 4.0
    for ohm in pad[:2]:
        assert any(math.isclose(ohm / 10**power, each) for each in series for power in range(-1, 5))


def test_no_pad_of_two_resistors_comes_nearer() -> None:
    """Force over all E24 values of 100 to 9100 ohm: none of about the same whole is nearer to 12 dB, not below."""
    pad = pad_for(12.0, 1000.0, 10_000.0)
    values = [each * ten for each in E24 for ten in (100, 1000)]
    losses = [
        20 * math.log10(1 + in_line * (1 / pad.across_ohm + 1 / 10_000)) for in_line in values
    ]  # fmt: skip
    assert pad.loss_db <= min(loss for loss in losses if loss >= 12.0) + 1e-9


def test_two_like_resistors_take_off_half() -> None:
    """20 log 2 = 6.0206 dB: exactly what is asked is allowed."""
    pad = pad_for(20 * math.log10(2), 1000.0)
    assert pad.in_line_ohm == pad.across_ohm
    assert pad.loss_db == pytest.approx(6.0206, abs=1e-4)


E24_WRITTEN = (
    "1.0", "1.1", "1.2", "1.3", "1.5", "1.6", "1.8", "2.0", "2.2", "2.4", "2.7", "3.0",
    "3.3", "3.6", "3.9", "4.3", "4.7", "5.1", "5.6", "6.2", "6.8", "7.5", "8.2", "9.1",
)  # fmt: skip


@pytest.mark.parametrize("number", range(60))
def test_a_pad_against_all_resistors(number: int) -> None:
    """The rule in plain loops, over all of IEC 60063's E24 from 1 milliohm to 9.1 megohm: across stands the value
    below the whole times the share, or one of the next two; in line whatever takes off enough and least.
    """
    draw = random.Random(number)
    loss, whole = draw.choice((0.5, 1.0, 3.0, 6.0, 6.547, 12.0, 20.0)), draw.choice((1000.0, 470.0, 10_000.0, 9.0))
    load = draw.choice((math.inf, 10_000.0, 470.0))
    every = sorted(float(f"{value}e{power}") for value in E24_WRITTEN for power in range(-3, 7))
    share = 10 ** (-loss / 20)
    below = max(value for value in every if value < whole * share * (1 - 1e-9))
    at = every.index(below)
    made = []
    for across in every[at : at + 3]:
        loaded = 1 / (1 / across + 1 / load)
        losses = [(20 * math.log10((in_line + loaded) / loaded), in_line) for in_line in every]
        made.append(min(each for each in losses if each[0] >= loss - 1e-9))
    assert pad_for(loss, whole, load).loss_db == pytest.approx(min(made)[0], abs=1e-9)


def test_heat_in_a_pad() -> None:
    """10 V on 600 and 400 ohm: 10 mA, so 60 mW and 40 mW. With 400 ohm behind: 200 ohm left, 12.5 mA, 2.5 V."""
    pad = pad_for(decibels(10 / 4), 1000.0)._replace(in_line_ohm=600.0, across_ohm=400.0)
    assert pad_heat_w(pad, 10.0) == pytest.approx((0.06, 0.04))
    assert pad_heat_w(pad, 10.0, 400.0) == pytest.approx((0.0125**2 * 600, 2.5**2 / 400))


def test_a_pad_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="takes something off"):
        pad_for(0, 1000)


def test_gain_targets() -> None:
    """75 W at 4 ohm: sqrt(300) = 17.32 V. A tone of -10 dBFS shows 10^(-10/20) = 0.3162 of it, 5.477 V."""
    made = gain_target(75, 4)
    assert made.clip_v == made.read_v == pytest.approx(17.3205, abs=1e-4)
    assert (made.tone_hz, made.tone_dbfs) == (1000.0, 0.0)
    low = gain_target(75, 4, None, 80, tone_dbfs=-10)
    assert low.read_v == pytest.approx(5.4772, abs=1e-4)
    assert low.tone_hz == 50.0
    with pytest.raises(ValueError, match="above full scale"):
        gain_target(75, 4, tone_dbfs=0.5)


@pytest.mark.parametrize(
    ("band", "tone"),
    # 1000 where it is half an octave inside, else the trade's other tones, else the middle: sqrt(30 x 60) = 42
    [
        ((20, 20000), 1000),
        ((100, 3000), 1000),
        ((0, 80), 50),
        ((3000, math.inf), 5000),
        ((80, 800), 500),
        ((30, 60), 42),
        # half an octave is a factor of 1.414: 900 x 1.414 = 1273 is above 1000, 3535 x 1.414 = 4999 below 5000;
        # sqrt(20 x 26) = 22.8 and sqrt(18000 x 20000) = 18974, in two figures: nobody hears more
        ((900, 20000), 5000),
        ((3535, 20000), 5000),
        ((3540, 20000), 8400),
        ((0, 26), 23),
        ((18000, math.inf), 19000),
    ],
)
def test_tones(band: tuple[float, float], tone: float) -> None:
    assert tone_for(band) == tone


def test_names_that_moved_are_still_here() -> None:
    """`overlap` lives in bands, `nulls_hz` in summing; 0.9 ms gives 2778 and 3889 Hz."""
    assert overlap((20, 3000), (2000, 20000)) == (2000, 3000)
    assert nulls_hz(0.9e-3, 2000, 4000) == pytest.approx((2777.78, 3888.89), abs=0.01)
