"""300 random small cases, 120 with runs and 150 with cavities tied together, by every choice of methods: the front is
that of trying every mix.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from harness.graph.wiring import Wiring
from harness.model.job import Job
from harness.model.shop import Shop
from harness.read.job import read_job_text
from harness.read.shop import read_shop_text
from harness.read.troubles import Troubles
from harness.weighing import layers
from harness.weighing.needs import site
from harness.weighing.offers import front_of
from harness.weighing.rates import HOUR_MS
from tests.weighing.brute import Car, Mix
from tests.weighing.cases import case

CASES, WITH_RUNS = 300, 120
# So many of them again where the quicker method is the dearer one.
BY_METHOD, RUNS_BY_METHOD = 90, 60
# Halves of two cavities or three as one net, and so many of them with runs and dear quick methods.
TIED, TIED_BY_METHOD = 150, 60
BATCH = 30
_CLASSIC = ("by hand", "loom", "one end")


def _costs(mixes: tuple[Mix, ...]) -> tuple[Fraction, Fraction, int]:
    return (
        sum((m.minutes for m in mixes), Fraction(0)),
        sum((m.money for m in mixes), Fraction(0)),
        sum(m.cuts for m in mixes),
    )


@cache
def _read(seed: int, *, runs: bool = False, methods: bool = False, tied: bool = False) -> tuple[Job, Shop]:
    job_text, shop_text = case(seed, runs=runs, methods=methods, tied=tied)
    troubles = Troubles()
    job = read_job_text(job_text, "job.yaml", troubles)
    shop = read_shop_text(shop_text, "shop.yaml", troubles)
    assert not troubles.refused, (seed, [each.message for each in troubles.findings], job_text, shop_text)
    assert job is not None
    assert shop is not None
    return job, shop


def _both(
    seed: int, *, runs: bool = False, methods: bool = False, tied: bool = False
) -> tuple[set[tuple[Fraction, Fraction, int]], set[tuple[Fraction, Fraction, int]]]:
    job, shop = _read(seed, runs=runs, methods=methods, tied=tied)
    mine = {
        (Fraction(point.cost.time_ms, 60_000), Fraction(point.cost.money, HOUR_MS), point.cost.cuts)
        for point in front_of(Wiring(job), shop)
    }
    return mine, Car(job, shop).costs()


@pytest.mark.parametrize("first", range(0, CASES, BATCH))
def test_the_front_is_that_of_trying_everything(first: int) -> None:
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed)
        assert mine == theirs, seed


@pytest.mark.parametrize("first", range(CASES, CASES + 60, BATCH))
def test_so_it_is_where_the_searches_are_bounded_by_prices(first: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Which only searches are that grow long: of these small ones none would be."""
    monkeypatch.setattr(layers, "FEW_NODES", -1)
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed)
        assert mine == theirs, seed


@pytest.mark.parametrize("first", range(0, WITH_RUNS, BATCH))
def test_so_it_is_where_runs_begin_and_end_at_cavities_and_leads(first: int) -> None:
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed, runs=True)
        assert mine == theirs, seed


@pytest.mark.parametrize("first", range(0, BY_METHOD, BATCH))
def test_so_it_is_where_the_quicker_method_is_the_dearer_one(first: int) -> None:
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed, methods=True)
        assert mine == theirs, seed


@pytest.mark.parametrize("first", range(0, RUNS_BY_METHOD, BATCH))
def test_so_it_is_with_runs_where_the_quicker_method_is_the_dearer_one(first: int) -> None:
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed, runs=True, methods=True)
        assert mine == theirs, seed


@pytest.mark.parametrize("first", range(0, TIED, BATCH))
def test_so_it_is_where_cavities_are_tied_together(first: int) -> None:
    wide = 0
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed, tied=True)
        assert mine == theirs, seed
        place = site(Wiring(_read(seed, tied=True)[0]))
        assert not place.alone, seed
        wide += any(not need.straight for plug in place.plugs for need in plug.needs)
    assert wide > BATCH // 2


@pytest.mark.parametrize("first", range(0, TIED_BY_METHOD, BATCH))
def test_so_it_is_of_these_with_runs_where_the_quicker_method_is_the_dearer_one(first: int) -> None:
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed, runs=True, methods=True, tied=True)
        assert mine == theirs, seed


@pytest.mark.parametrize("first", range(TIED, TIED + 60, BATCH))
def test_so_it_is_of_these_where_the_searches_are_bounded_by_prices(
    first: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(layers, "FEW_NODES", -1)
    for seed in range(first, first + BATCH):
        mine, theirs = _both(seed, tied=True)
        assert mine == theirs, seed


def test_in_a_third_of_them_the_best_is_none_of_the_classic_mixes() -> None:
    """By money: neither all by hand nor a loom as it comes nor one with an end cut off, but re-pinned or in a row."""
    odd = 0
    for seed in range(CASES):
        best = min(Car(*_read(seed)).front(), key=_costs_by_money)
        odd += any(mix.kind not in _CLASSIC for mix in best)
    assert odd >= CASES // 3


def _costs_by_money(mixes: tuple[Mix, ...]) -> tuple[Fraction, Fraction, int]:
    minutes, money, cuts = _costs(mixes)
    return money, minutes, cuts
