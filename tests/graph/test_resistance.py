"""What a meter should read, against sums done by hand: 0.62 to 1.0 times the nominal impedance."""

from __future__ import annotations

import pytest

from harness.graph.resistance import expected_dc, nominal_ohm
from harness.model.function import UNKNOWN
from harness.model.parts import Speaker
from harness.place import Place

HERE = Place("job.yaml", 1, 1)


def speaker(name: str, nominal: float | None = None, **more: object) -> Speaker:
    about: dict[str, object] = {
        "name": name, "place": HERE, "where": "", "function": UNKNOWN, "nominal_ohm": nominal, "coils": 1,
        "coil_ohm": None, "coil_wiring": "", "capacitor": "", "inverted": "", "new": "",
    }  # fmt: skip
    return Speaker(**(about | more))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("branches", "low", "high"),
    [
        ([[4]], 2.48, 4.0),  # 0.62 x 4
        ([[4], [4]], 1.24, 2.0),  # side by side: 2
        ([[8], [8], [4]], 1.24, 2.0),  # 1/8 + 1/8 + 1/4 = 1/2
        ([[4, 8]], 7.44, 12.0),  # in line: 12
        ([[4], [4, 8]], 1.86, 3.0),  # 1/4 + 1/12 = 1/3
        ([[2], [6]], 0.93, 1.5),  # 2 x 6 / 8
    ],
)
def test_band_of_known_speakers(branches: list[list[float]], low: float, high: float) -> None:
    made = expected_dc([[speaker(f"s{k}", ohm) for k, ohm in enumerate(branch)] for branch in branches])

    assert made.low_ohm == pytest.approx(low)
    assert made.high_ohm == pytest.approx(high)
    assert not made.open_to_dc


def test_a_capacitor_takes_its_branch_out() -> None:
    both = expected_dc([[speaker("door", 4)], [speaker("tweeter", 4, capacitor="10 uF")]])
    alone = expected_dc([[speaker("tweeter", 4, capacitor="10 uF")]])

    assert (both.low_ohm, both.high_ohm) == pytest.approx((2.48, 4.0))
    assert both.blocked == ("tweeter",)
    assert not both.open_to_dc
    assert alone.open_to_dc
    assert alone.low_ohm is None


def test_one_unknown_speaker_makes_the_whole_unknown() -> None:
    made = expected_dc([[speaker("door", 4)], [speaker("odd")]])

    assert made.low_ohm is None
    assert made.unknown == ("odd",)
    assert not made.open_to_dc


@pytest.mark.parametrize(("wiring", "ohm"), [("series", 4.0), ("parallel", 1.0), ("separate", 2.0), ("", None)])
def test_two_coils_of_two_ohms(wiring: str, ohm: float | None) -> None:
    assert nominal_ohm(speaker("sub", coils=2, coil_ohm=2.0, coil_wiring=wiring)) == ohm
