"""Responses in thirds of an octave: flatness and corners by hand. A corner lies on a line over log f, 3 dB down."""

from __future__ import annotations

import pytest

from harness.electrical.response import CENTRES_HZ, shape


def test_the_centres_are_those_of_the_series() -> None:
    """IEC 61260-1: the exact mid-band frequencies are 1000 x 10^(n/10); nominal ones are those rounded."""
    assert len(CENTRES_HZ) == 31
    for n, nominal in zip(range(-17, 14), CENTRES_HZ, strict=True):
        assert nominal == pytest.approx(1000 * 10 ** (n / 10), rel=0.016)


@pytest.mark.parametrize(
    ("levels", "first", "within", "low", "high"),
    [
        ([0.0] * 31, 20.0, 0.0, None, None),
        # 20 x (25/20)^0.7 and 50 x (40/50)^0.7: from -10 to 0 dB the -3 dB lie at seven tenths
        ([-10, 0, 0, 0, -10], 20.0, 0.0, 23.381, 42.769),
        ([-10, 0, 0, 0], 20.0, 0.0, 23.381, None),
        ([0, 0, 0, -10], 25.0, 0.0, None, 42.769),
        # half of what lies between highest and lowest
        ([0, 2, 0], 1000.0, 1.0, None, None),
        # of an even number the middle of the two: 0.5, the edge at -2.5 dB; 2500 x (2000/2500)^(4.5/8)
        ([0, 1, 0, 1, -7], 1000.0, 0.5, None, 2205.1),
        # 3 dB down is held
        ([-3, 0, 0, 0], 1000.0, 1.5, None, None),
        # what lies more than 6 dB below the highest says nothing of the level that passes: edge at -3 dB,
        # 25 x (20/25)^(3.1/6.1); at 6 dB it does: edge at -9 dB
        ([0, -6.1, -6.1, -6.1], 20.0, 0.0, None, 22.320),
        ([0, -6.0, -6.0, -6.0], 20.0, 3.0, None, None),
    ],
)
def test_the_shape_of_a_response(
    levels: list[float], first: float, within: float, low: float | None, high: float | None
) -> None:
    made = shape(levels, first)
    assert made.within_db == pytest.approx(within)
    assert made.low_hz == (None if low is None else pytest.approx(low, rel=1e-4))
    assert made.high_hz == (None if high is None else pytest.approx(high, rel=1e-4))


@pytest.mark.parametrize(
    ("count", "first"),
    [(3, 30.0), (2, 1000.0), (3, 16000.0), (32, 20.0)],
)
def test_what_is_no_response(count: int, first: float) -> None:
    with pytest.raises(ValueError, match=r"centre|levels"):
        shape([0.0] * count, first)


def test_the_last_three_bands_are_enough() -> None:
    assert shape([0.0] * 3, 12500.0).within_db == 0.0
