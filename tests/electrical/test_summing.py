"""Sums against hand sums, and against two sines added sample by sample."""

from __future__ import annotations

import math
import random

import pytest

from harness.electrical.bands import band
from harness.electrical.summing import depth_db, holes, in_step_v, nulls_hz, rise_db, sum_at_v, unrelated_v


def test_two_alike() -> None:
    """20 log 2 = 6.0206 dB in step, 10 log 2 = 3.0103 dB unrelated; the mono sum of left and right takes 3 dB off."""
    assert in_step_v([2.0, 2.0]) == pytest.approx(4.0)
    assert unrelated_v([3.0, 4.0]) == pytest.approx(5.0)
    assert rise_db(2, in_step=True) == pytest.approx(6.0206, abs=1e-4)
    assert rise_db(2, in_step=False) == pytest.approx(3.0103, abs=1e-4)
    assert rise_db(1, in_step=True) == 0
    with pytest.raises(ValueError, match="needs a signal"):
        rise_db(0, in_step=True)


def test_holes_of_a_late_tweeter() -> None:
    """0.9 ms: (2k + 1)/(1.8 ms) = 556, 1667, 2778, 3889, 5000 Hz; within 2 to 4 kHz only 2.78 and 3.89 kHz."""
    made = holes(0.9e-3, band(None, 4000), band(2000, None))
    assert [round(hole.hz / 1000, 2) for hole in made] == [2.78, 3.89]
    assert all(math.isinf(hole.depth_db) for hole in made)


def test_depth_by_hand() -> None:
    """1 V and 0.5 V: 0.5 V left of 1.5 V, 20 log 3 = 9.542 dB, and a tenth of each the same. Alike: all of it. One
    silent: nothing falls.
    """
    assert depth_db(1.0, 0.5) == pytest.approx(9.5424, abs=1e-4)
    assert depth_db(0.1, 0.05) == pytest.approx(9.5424, abs=1e-4)
    assert math.isinf(depth_db(0.7, 0.7))
    assert depth_db(1.0, 0.0) == 0
    assert depth_db(0.0, 0.0) == 0
    assert holes(0.9e-3, (2000, 3000), (20, 20000), 1.0, 0.5)[0].depth_db == pytest.approx(9.5424, abs=1e-4)


def test_no_holes_without_delay_or_overlap() -> None:
    assert nulls_hz(0, 20, 20000) == ()
    assert nulls_hz(0.9e-3, 4000, 2000) == ()
    assert nulls_hz(1e-6, 20, 20000) == (), "the first one lies at 500 kHz"
    assert holes(0.9e-3, (20, 500), (600, 20000)) == ()
    assert holes(0.1, (1, 10), (1, 15)) == (), "nobody hears those"
    with pytest.raises(ValueError, match="without end"):
        nulls_hz(0.9e-3, 20, math.inf)


def test_the_ends_count() -> None:
    """1 ms: nulls at 500, 1500, 2500 Hz; reversed at 1000, 2000, 3000 Hz."""
    assert nulls_hz(1e-3, 500, 2500) == pytest.approx((500, 1500, 2500))
    assert nulls_hz(1e-3, 501, 2499) == pytest.approx((1500,))
    assert nulls_hz(1e-3, 0, 3000, turned=True) == pytest.approx((1000, 2000, 3000))


@pytest.mark.parametrize("number", range(20))
def test_against_sines_added_sample_by_sample(number: int) -> None:
    """RMS over whole cycles of two sines, 1000 samples; at a null it is the difference of both."""
    draw = random.Random(number)
    one, other, delay_s, hz = draw.uniform(0, 5), draw.uniform(0, 5), draw.uniform(1e-5, 5e-3), draw.uniform(20, 20000)
    turned = draw.random() < 0.5
    total = 0.0
    for at in range(1000):
        turn = 2 * math.pi * at / 1000
        late = other * math.sin(turn - 2 * math.pi * hz * delay_s)
        total += 2 * (one * math.sin(turn) + (-late if turned else late)) ** 2
    expected = math.sqrt(total / 1000)
    assert sum_at_v(one, other, delay_s, hz, turned=turned) == pytest.approx(expected, abs=1e-9)
    for null in nulls_hz(delay_s, 20, 2000, turned=turned):
        assert sum_at_v(one, other, delay_s, null, turned=turned) == pytest.approx(abs(one - other), abs=1e-6)
