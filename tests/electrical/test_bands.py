"""Bands against hand sums on the number line."""

from __future__ import annotations

import math
import random

import pytest

from harness.electrical.bands import (
    FULL_RANGE,
    band,
    common,
    is_full_range,
    missing,
    missing_of_channels,
    octaves,
    overlap,
    union,
)


def test_none_is_an_open_end() -> None:
    assert band(None, 80) == (0.0, 80)
    assert band(80, None) == (80, math.inf)
    assert overlap(band(None, None), band(80, 3000)) == (80, 3000)


@pytest.mark.parametrize(("low", "high"), [(80, 80), (3000, 80), (-1, 80), (None, 0)])
def test_upside_down_is_refused(low: float | None, high: float) -> None:
    with pytest.raises(ValueError, match="from low to high"):
        band(low, high)


def test_what_is_shared() -> None:
    assert overlap((20, 3000), (2000, 20000)) == (2000, 3000)
    assert overlap((20, 80), (80, 20000)) is None, "a point is no band"
    assert common([band(80, None), band(None, 5000), (100, 20000)]) == (100, 5000)
    assert common([(20, 80), (100, 200), (20, 20000)]) is None
    assert common([]) == (0.0, math.inf)


def test_what_they_make_together() -> None:
    assert union([(2000, 20000), (20, 100), (100, 2500)]) == ((20, 20000),)
    assert union([(500, 600), (20, 80), (30, 40)]) == ((20, 80), (500, 600))
    assert union([]) == ()


def test_octaves() -> None:
    """Each octave doubles: 20 to 20480 Hz are ten."""
    assert octaves((20, 20480)) == pytest.approx(10)
    assert octaves((0.5, 2)) == pytest.approx(2)
    assert math.isinf(octaves(band(None, 80)))
    assert math.isinf(octaves(band(80, None)))


def test_what_is_missing() -> None:
    assert missing(FULL_RANGE, [(100, 3000)]) == ((20, 100), (3000, 20000))
    assert missing(band(None, None), [(100, 3000)]) == ((20, 100), (3000, 20000)), "nobody hears more"
    assert missing((80, 5000), [(20, 100), (200, 20000)]) == ((100, 200),)
    assert missing((80, 5000), [(20, 100), (200, 20000)], slack_octaves=1.0) == (), "an octave, and no more than that"
    assert missing((80, 5000), [(20, 100), (201, 20000)], slack_octaves=1.0) == ((100, 201),)
    assert missing((80, 5000), [(20, 1000), (1003, 20000)]) == ((1000, 1003),), "without slack any gap counts"
    assert missing((80, 5000), [(80, 1000), (1000, 5000)]) == ()
    assert missing((80, 5000), [(20, 70), (80, 1000), (6000, 7000)]) == ((1000, 5000),)
    assert missing((80, 5000), []) == ((80, 5000),)
    assert missing((1, 10), []) == ()


def test_full_range() -> None:
    """A midrange output of 100 Hz to 3 kHz is not; with the woofer and the tweeter of the same amplifier it is."""
    mid, woofer, tweeter = (100.0, 3000.0), band(None, 100), band(3000, None)
    assert not is_full_range([mid])
    assert not is_full_range([mid, woofer])
    assert is_full_range([mid, woofer, tweeter])
    assert is_full_range([(39.0, 11_000.0)]), "less than an octave at each end"
    assert not is_full_range([(41.0, 20_000.0)])


def test_which_channel_lacks_what() -> None:
    wanted = {"FL": FULL_RANGE, "FR": FULL_RANGE, "SUB": (20.0, 80.0)}
    got = {"FL": [(100.0, 3000.0)], "FR": [(20.0, 3000.0), (3000.0, 20000.0)]}
    assert missing_of_channels(wanted, got) == {"FL": ((20, 100), (3000, 20000)), "SUB": ((20, 80),)}


@pytest.mark.parametrize("number", range(50))
def test_against_counting_every_hertz(number: int) -> None:
    """Whole hertz, one by one, are the referee of union and missing."""
    draw = random.Random(number)
    got = [tuple(sorted(draw.sample(range(20, 200), 2))) for _ in range(draw.randint(0, 5))]
    low, high = sorted(draw.sample(range(20, 200), 2))
    covered = {hz for one, other in got for hz in range(one, other)}
    gaps = {hz for one, other in missing((low, high), got) for hz in range(int(one), int(other))}
    assert gaps == set(range(low, high)) - covered
    assert {hz for one, other in union(got) for hz in range(int(one), int(other))} == covered
