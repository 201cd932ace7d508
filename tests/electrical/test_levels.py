"""Levels against published values and hand sums."""

from __future__ import annotations

import math

import pytest

from harness.electrical.levels import decibels, gain, nulls_hz, overlap, pad_for, volts_of


# V = sqrt(P R), examples of an audio calculator's page, seen 2026: 18 W in 4 ohm 8.5 V, 25 W in 2 ohm 7.1 V, 50 W in
# 4 ohm 14.1 V, 100 W in 4 ohm 20 V.
@pytest.mark.parametrize(("watts", "ohm", "volts"), [(18, 4, 8.5), (25, 2, 7.1), (50, 4, 14.1), (100, 4, 20.0)])
def test_volts_for_a_power(watts: float, ohm: float, volts: float) -> None:
    assert round(volts_of(watts, ohm), 1) == volts


def test_a_crest_of_10_decibels_is_a_tenth_of_the_power() -> None:
    """A page prints 10 W for 1000 W at 10 dB: a power ratio of 10 leaves 100 W."""
    watts = 1000 * gain(-10) ** 2
    assert watts == pytest.approx(100, rel=1e-12)


def test_decibels_there_and_back() -> None:
    """Twice the volts are 6.0206 dB (20 log 2)."""
    assert decibels(2) == pytest.approx(6.0206, abs=1e-4)
    assert gain(decibels(0.37)) == pytest.approx(0.37)
    assert decibels(0) == -math.inf


def test_a_pad_takes_off_at_least_what_is_asked() -> None:
    """8.5 V into 4 V: 20 log (8.5/4) = 6.547 dB."""
    wanted = decibels(8.5 / 4)
    assert wanted == pytest.approx(6.547, abs=1e-3)
    for load in (math.inf, 10_000.0, 470.0):
        pad = pad_for(wanted, 1000.0, load)
        loaded = pad.across_ohm if math.isinf(load) else 1 / (1 / pad.across_ohm + 1 / load)
        left = 8.5 * loaded / (loaded + pad.in_line_ohm)
        assert 3.5 < left <= 4.0


def test_a_pad_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="takes something off"):
        pad_for(0, 1000)


def test_holes_of_a_late_tweeter() -> None:
    """0.9 ms: (2k + 1)/(1.8 ms) = 556, 1667, 2778, 3889, 5000 Hz; within 2 to 4 kHz only 2778 and 3889."""
    assert nulls_hz(0.9e-3, 2000, 4000) == pytest.approx((2777.78, 3888.89), abs=0.01)


def test_no_holes_without_delay_or_overlap() -> None:
    assert nulls_hz(0, 20, 20000) == ()
    assert nulls_hz(0.9e-3, 4000, 2000) == ()
    assert nulls_hz(1e-6, 20, 20000) == (), "the first one lies at 500 kHz"


def test_overlap() -> None:
    assert overlap((20, 3000), (2000, 20000)) == (2000, 3000)
    assert overlap((20, 80), (100, 20000)) is None
