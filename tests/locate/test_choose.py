"""The choice of tests against the best there is: alphabetic trees, a programme over stretches, every order for few."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence

import pytest

from harness.locate.choose import Chooser, most_tests
from tests.locate.trees import best_in_a_row, best_of_all, hu_tucker


def spent(odds: Sequence[float], rows: Sequence[Sequence[object]], costs: Sequence[float]) -> float:
    """What finding costs on the whole by the tool's choices, times the odds."""
    chooser = Chooser(odds, rows)

    def cost(left: int) -> float:
        test = chooser.next(left, costs)
        if test is None:
            return 0.0
        whole = sum(each for at, each in enumerate(odds) if left >> at & 1)
        parts: dict[object, int] = {}
        for at in range(len(odds)):
            if left >> at & 1:
                parts[rows[test][at]] = parts.get(rows[test][at], 0) | 1 << at
        assert len(parts) > 1, "a test that tells nothing"
        return costs[test] * whole + sum(cost(part) for part in parts.values())

    return cost(chooser.everything)


def cuts(places: int) -> list[list[bool]]:
    """A test between each two neighbours of a row: is it before, or behind?"""
    return [[at <= cut for at in range(places)] for cut in range(places - 1)]


def shuffled(dice: random.Random, odds: list[float]) -> tuple[list[float], list[list[bool]]]:
    """The same row with its places numbered anyhow: nothing may hang on their order."""
    order = list(range(len(odds)))
    dice.shuffle(order)
    return [odds[at] for at in order], [[row[at] for at in order] for row in cuts(len(odds))]


def test_the_two_ways_to_the_best_tree_agree() -> None:
    """The recursion and Hu and Tucker's method were written apart."""
    dice = random.Random(7)
    for _ in range(60):
        odds = [dice.choice([1, 2, 3, 5, 8, 13, 40]) * 1.0 for _ in range(dice.randint(2, 20))]
        assert hu_tucker(odds) == pytest.approx(best_in_a_row(odds, [1.0] * (len(odds) - 1)))


@pytest.mark.parametrize("places", range(2, 65))
def test_equal_odds_take_as_many_tests_as_bits(places: int) -> None:
    """log2 n is the least that any yes-or-no tests can do (Shannon); 5.5 % above is what n = 3 needs: 5/3 of 1.585."""
    mean = spent([1.0] * places, cuts(places), [1.0] * (places - 1)) / places

    assert math.log2(places) <= mean + 1e-9
    assert mean <= 1.055 * math.log2(places)


@pytest.mark.parametrize("seed", range(60))
def test_unequal_odds_are_within_the_best_tree(seed: int) -> None:
    dice = random.Random(seed)
    places = dice.randint(2, 64)
    plain = [dice.choice([0.2, 0.5, 1, 1, 2, 5, 8, 30]) * dice.random() + 1e-3 for _ in range(places)]
    odds, rows = shuffled(dice, plain)

    assert spent(odds, rows, [1.0] * (places - 1)) <= 1.02 * hu_tucker(plain)


@pytest.mark.parametrize("seed", range(60))
def test_unequal_costs_are_within_the_best_programme(seed: int) -> None:
    dice = random.Random(seed)
    places = dice.randint(2, 16)
    plain = [dice.choice([0.2, 1, 1, 2, 8]) * dice.random() + 1e-3 for _ in range(places)]
    costs = [dice.choice([1.0, 2.0, 3.0, 8.0, 16.0, 20.0]) for _ in range(places - 1)]
    odds, rows = shuffled(dice, plain)

    assert spent(odds, rows, costs) <= 1.02 * best_in_a_row(plain, costs)


@pytest.mark.parametrize("kind", ["row with single looks", "anything"])
def test_other_tables_are_near_the_best_of_all_orders(kind: str) -> None:
    """Not a row: looks at single places beside the cuts, or answers of any kind. Near, and on the mean very near."""
    ratios = []
    for seed in range(60):
        dice = random.Random(f"{kind} {seed}")
        places = dice.randint(3, 10)
        odds = [dice.choice([0.2, 1, 1, 2, 8]) * dice.random() + 1e-3 for _ in range(places)]
        if kind == "anything":
            rows: list[list[object]] = [
                [dice.randrange(dice.choice([2, 2, 3])) for _ in range(places)] for _ in range(12)
            ]
        else:
            rows = [*cuts(places), *([at == one for at in range(places)] for one in range(places))]  # type: ignore[list-item]
        costs = [dice.choice([1.0, 2.0, 3.0, 8.0, 16.0]) for _ in rows]
        best = best_of_all(tuple(odds), rows, costs)
        if best:
            ratios.append(spent(odds, rows, costs) / best)

    assert len(ratios) > 50
    assert all(ratio >= 1 - 1e-9 for ratio in ratios)
    assert sum(ratios) / len(ratios) <= 1.02, sorted(ratios)[-5:]
    assert max(ratios) <= 1.15, sorted(ratios)[-5:]


@pytest.mark.parametrize("places", range(2, 13))
def test_a_limit_on_the_number_of_tests_is_kept(places: int) -> None:
    """With costs that tempt to peel one place after the other: 4 tests for 12 places, by halving (2^4 >= 12)."""
    costs = [1.0 + 40.0 * at for at in range(places - 1)]
    chooser = Chooser([100.0 / 4**at for at in range(places)], cuts(places))
    most = most_tests(places)
    assert most <= 4

    def deepest(left: int, done: int) -> int:
        test = chooser.next(left, costs, most - done)
        if test is None:
            return done
        return max(deepest(mask & left, done + 1) for mask in chooser.answers(test).values() if mask & left)

    assert deepest(chooser.everything, 0) <= max(most, math.ceil(math.log2(places)))


def test_nothing_left_to_tell() -> None:
    assert Chooser([1.0, 1.0], [["a", "a"]]).next(0b11, [1.0]) is None
    assert Chooser([1.0], [["a"]]).next(0b1, [1.0]) is None
    assert Chooser([1.0, 2.0, 4.0], [["a", "a", "b"]]).classes(0b111) == [0b011, 0b100]


def test_of_tests_that_split_alike_the_cheapest_is_made() -> None:
    rows = [["x", "y"], ["y", "x"], ["x", "y"]]

    assert Chooser([1.0, 1.0], rows).next(0b11, [3.0, 2.0, 2.0]) == 1
