"""A plug of many ways and looms to re-pin, against scipy's `milp` (HiGHS) of the same, modelled without the program."""

from __future__ import annotations

from fractions import Fraction

import pytest

from harness.graph.wiring import Wiring
from harness.presets import preset
from harness.read.job import read_job_text
from harness.read.shop import read_shop_text
from harness.read.troubles import Troubles
from harness.weighing.choices import NotUsed, items_of, mixes_at
from harness.weighing.combine import Point, front
from harness.weighing.hand import Hand
from harness.weighing.mixes import SERIES
from harness.weighing.needs import site
from harness.weighing.rates import HOUR_MS, Rates
from tests.weighing.brute import Car
from tests.weighing.large import large
from tests.weighing.repin_milp import Programme


def weighed(text: str, shop_text: str) -> tuple[list[Point], list[NotUsed], Car]:
    """The front of all mixes but rows of looms, what was given up, and the job for the oracle."""
    troubles = Troubles()
    job, shop = read_job_text(text, "job.yaml", troubles), read_shop_text(shop_text, "shop.yaml", troubles)
    assert job is not None
    assert not troubles.refused
    (plug,) = site(Wiring(job)).plugs
    told: list[NotUsed] = []
    mixes = mixes_at(plug, Hand(Rates(shop), preset(job.preset)), items_of(job, shop, []), lonely=True, told=told)
    return front([[mix for mix in mixes if SERIES not in mix.kinds]]), told, Car(job, shop)


@pytest.mark.parametrize("seed", range(11))
def test_looms_with_a_few_things_wrong(seed: int) -> None:
    points, told, car = weighed(*large(seed, 8 + seed, 5, 3 + seed % 4))
    assert not told
    programme = Programme(car)
    minutes = [Fraction(point.cost.time_ms, 60_000) for point in points]
    money = [Fraction(point.cost.money, HOUR_MS) for point in points]
    assert float(min(money)) == pytest.approx(programme.solve(True), abs=1e-3)
    assert float(min(minutes)) == pytest.approx(programme.solve(False), abs=1e-3)
    for most in minutes:  # for these minutes nothing costs less, and a little quicker nothing for as much
        least = min(m for m, t in zip(money, minutes, strict=True) if t <= most)
        assert float(least) == pytest.approx(programme.solve(True, float(most)), abs=1e-3)


@pytest.mark.parametrize(("seed", "ways", "opened"), [(11, 19, 5), (3, 30, 10)])
def test_looms_with_too_few_wires_for_the_unit_are_known_at_once(seed: int, ways: int, opened: int) -> None:
    """Two wires that go through are missing and the leads are all taken: tried wire by wire that has no end."""
    points, told, car = weighed(*large(seed, ways, 5, opened))
    assert not told
    least = Programme(car).solve(True)
    assert min(point.cost.money for point in points) / HOUR_MS == pytest.approx(least, abs=1e-3)
