"""A plug of many ways and looms to re-pin, against scipy's `milp` (HiGHS) of the same, modelled without the program."""

from __future__ import annotations

import random
import re
from fractions import Fraction

import pytest

from harness.graph.wiring import Wiring
from harness.presets import preset
from harness.read.job import read_job_text
from harness.read.shop import read_shop_text
from harness.read.troubles import Troubles
from harness.weighing import layers
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


def unlabelled(seed: int, texts: tuple[str, str], share: float) -> tuple[str, str]:
    """The same drawer, but nobody wrote what so many of its leads are for: such a lead fits every cavity."""
    draw = random.Random(seed)
    job, shop = texts

    def lead(written: re.Match[str]) -> str:
        return f"{written[1]}: unknown BU" if draw.random() < share else written[0]

    return job, re.sub(r"((?:unit|car)\.\d+): \S+ BU", lead, shop)


@pytest.mark.parametrize("seed", range(11))
def test_looms_with_a_few_things_wrong(seed: int) -> None:
    _same_front(large(seed, 8 + seed, 5, 3 + seed % 4))


@pytest.mark.parametrize("share", [0.3, 0.7, 1.0])
@pytest.mark.parametrize("seed", range(20, 28))
def test_looms_of_which_nobody_wrote_what_the_leads_are_for(seed: int, share: float) -> None:
    _same_front(unlabelled(seed, large(seed, seed - 12, 4, 3 + seed % 5), share))


@pytest.mark.parametrize(
    "rates",
    [  # a terminal is pulled in no time; the move costs most; a joint on the bench costs most
        {"pull: 1.5 min": "pull: 10 s"}, {"move: 2 min": "move: 9 min", "pull: 1.5 min": "pull: 10 s"},
        {"crimp at bench: 1 min": "crimp at bench: 12 min"}, {"cap: 30 s": "cap: 4 min"},
    ],
    ids=["pull", "move", "joint", "cap"],
)  # fmt: skip
@pytest.mark.parametrize("seed", range(30, 34))
def test_whatever_a_move_a_pull_a_joint_and_a_cap_cost(seed: int, rates: dict[str, str]) -> None:
    job, shop = unlabelled(seed, large(seed, 10, 4, 4), 0.8)
    for said, now in rates.items():
        assert said in shop
        shop = shop.replace(said, now)
    _same_front((job, shop))


def test_sixty_ways_of_leads_that_fit_everywhere_are_searched_to_the_end() -> None:
    """Each of sixty leads in any of sixty cavities, and wires that cross: tried one by one that has no end."""
    points, told, car = weighed(*unlabelled(25, large(25, 60, 3, 30), 1.0))
    assert not told
    assert min(point.cost.money for point in points) / HOUR_MS == pytest.approx(Programme(car).solve(True), abs=1e-3)


@pytest.mark.parametrize("share", [0.3, 0.7, 1.0])
@pytest.mark.parametrize("seed", range(40, 46))
def test_with_prices_from_the_first_step_it_is_the_same(
    seed: int, share: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Only searches that grow long are bounded by prices; here all of them are."""
    monkeypatch.setattr(layers, "FEW_NODES", -1)
    _same_front(unlabelled(seed, large(seed, seed - 32, 4, 3 + seed % 5), share))


def _same_front(texts: tuple[str, str]) -> None:
    points, told, car = weighed(*texts)
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
