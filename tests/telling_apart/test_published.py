"""Trees and sets of tests whose best is known from books and papers, and larger sets against scipy's `milp`."""

from __future__ import annotations

import math
import random
from itertools import combinations

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from harness.telling_apart.cover import Cover, least_cover, told_apart
from harness.telling_apart.trees import EXACT, Plan, Probe, Trees


def probe(rows: list[object], cost: int = 1) -> Probe:
    """A test from what it answers for each map."""
    masks: dict[object, int] = {}
    for at, answer in enumerate(rows):
        masks[answer] = masks.get(answer, 0) | 1 << at
    return Probe(cost, tuple(masks.values()))


def cover_of(probes: list[Probe], count: int) -> Cover:
    everything = (1 << count) - 1
    return least_cover([each.cost for each in probes], [told_apart(each.answers, everything) for each in probes])


def plan_of(probes: list[Probe], count: int) -> Plan:
    return Trees(probes).plan((1 << count) - 1)


def ones(count: int) -> list[Probe]:
    return [probe([at == one for at in range(count)]) for one in range(count)]


@pytest.mark.parametrize("count", range(2, EXACT + 1))
def test_one_by_one(count: int) -> None:
    """Only "is it this one?": n - 1 tests in any order, and one after the other (n + 2)(n - 1) / 2n on average, as in a
    search from the front that needs no last comparison (Knuth, The Art of Computer Programming 3, 6.1; from memory).
    """
    plan = plan_of(ones(count), count)

    assert cover_of(ones(count), count).cost == count - 1
    assert plan.mean == pytest.approx((count + 2) * (count - 1) / (2 * count))
    assert plan.worst == count - 1


@pytest.mark.parametrize("count", range(2, 9))
def test_every_question_allowed(count: int) -> None:
    """All subsets may be asked for: ceil(lg n) tests, and the least external path length of a binary tree of n leaves,
    n (ceil(lg n) + 1) - 2^ceil(lg n) (Knuth, The Art of Computer Programming 3, 5.3.1; from memory).
    """
    probes = [
        probe([at in chosen for at in range(count)])
        for size in range(1, count // 2 + 1)
        for chosen in combinations(range(count), size)
    ]
    deep = math.ceil(math.log2(count))

    assert cover_of(probes, count).cost == deep
    assert plan_of(probes, count).mean == pytest.approx((count * (deep + 1) - 2**deep) / count)


def test_exact_cover_by_triples() -> None:
    """The reduction of Hyafil and Rivest (Information Processing Letters 5, 1976; from memory): triples over six things
    and three more, and each thing by itself. With an exact cover, asking for its triples first and then within them is
    best. By hand: 2 + 3 + 3, then 3 + 4 + 4, then 3 + 4 + 4 for the three outside: 30 for nine things.
    """
    triples = [(0, 1, 2), (3, 4, 5), (1, 2, 3), (0, 4, 5)]
    probes = [probe([at in triple for at in range(9)]) for triple in triples] + ones(9)

    assert plan_of(probes, 9).mean == pytest.approx(30 / 9)


def test_minimum_test_collection() -> None:
    """Garey and Johnson, Computers and Intractability, SP6 (minimum test collection): the tests asked for are a subset
    that tells every two apart. By hand: of four maps the tests ab|cd and ac|bd suffice; each alone leaves pairs.
    """
    probes = [probe([0, 0, 1, 1]), probe([0, 1, 1, 1]), probe([1, 1, 1, 0]), probe([0, 1, 0, 1])]

    assert cover_of(probes, 4) == Cover((0, 3), 2, 2)


# A known set of three weighings for twelve coins of which one is heavy or light (F. J. Dyson, The Problem of the
# Pennies, Mathematical Gazette 30, 1946; this set from memory, and tried below): left pan, right pan.
PENNIES = (({1, 4, 6, 10}, {5, 7, 9, 12}), ({2, 5, 4, 11}, {6, 8, 7, 10}), ({3, 6, 5, 12}, {4, 9, 8, 11}))


def weighing(left: set[int], right: set[int]) -> list[object]:
    """How the balance stands for each of 24 cases: coin 1 heavy, coin 1 light, coin 2 heavy …"""
    return [sign if coin in left else -sign if coin in right else 0 for coin in range(1, 13) for sign in (1, -1)]


def test_twelve_pennies() -> None:
    """24 cases: two weighings have nine outcomes, so three is the least; Dyson's three do it."""
    dice = random.Random(12)
    rows = [weighing(left, right) for left, right in PENNIES]
    assert len(set(zip(*rows, strict=True))) == 24
    for _ in range(25):
        drawn = dice.sample(range(1, 13), 8)
        rows.insert(dice.randrange(len(rows) + 1), weighing(set(drawn[:4]), set(drawn[4:])))

    cover = cover_of([probe(row) for row in rows], 24)
    assert (cover.cost, cover.proved) == (3, True)
    plan = plan_of([probe(row) for row in rows], 24)
    assert not plan.exact
    assert plan.mean is not None
    assert plan.worst is not None
    # Shannon: log 24 / log 3 = 2.893 weighings at least on average
    assert plan.least >= 2.89
    assert plan.least <= plan.mean <= plan.worst


@pytest.mark.parametrize("seed", range(25))
def test_larger_sets_against_milp(seed: int) -> None:
    """Ten to thirty maps, some silent on some tests, costs of looks, ohms and tones."""
    dice = random.Random(seed)
    count, tests = dice.randint(10, 30), dice.randint(15, 60)
    probes = []
    for _ in range(tests):
        answers = dice.randint(2, 4)
        silent = dice.choice((0.0, 0.1, 0.4))
        masks = [0] * answers
        for at in range(count):
            mine = range(answers) if dice.random() < silent else [dice.randrange(answers)]
            for answer in mine:
                masks[answer] |= 1 << at
        probes.append(Probe(dice.choice((20, 20, 60, 180)), tuple(masks)))
    rows = [
        [not any(mask >> a & 1 and mask >> b & 1 for mask in each.answers) for each in probes]
        for a, b in combinations(range(count), 2)
    ]
    matrix = np.array([row for row in rows if any(row)], dtype=float)
    best = milp(
        np.array([each.cost for each in probes]), constraints=LinearConstraint(matrix, lb=1),
        integrality=np.ones(tests), bounds=Bounds(0, 1),
    )  # fmt: skip
    cover = cover_of(probes, count)

    assert cover.proved
    assert cover.cost == round(best.fun)
    chosen = np.array([at in cover.tests for at in range(tests)])
    assert (matrix @ chosen >= 1).all()


@pytest.mark.parametrize("seed", range(20))
def test_beyond_the_exact_the_bound_holds(seed: int) -> None:
    """More maps than are tried exactly: never under its own bound, nor under the entropy of the maps (Shannon 1948)."""
    dice = random.Random(seed)
    count = dice.randint(EXACT + 1, 40)
    probes = [probe([dice.randrange(3) for _ in range(count)], dice.choice((20, 60))) for _ in range(30)]
    plan = plan_of(probes, count)

    assert not plan.exact
    assert plan.mean is not None
    assert plan.worst is not None
    assert plan.least <= plan.mean <= plan.worst
    assert plan.mean >= 20 * math.log(count) / math.log(3) - 1e-6
    assert plan.mean <= 3 * plan.least


def test_so_many_that_no_tree_is_worked_out() -> None:
    """Ninety maps, the test of ten even answers against those of two: log 10 > log 2 bits for the same cost."""
    probes = [
        probe([at % 2 for at in range(90)]),
        probe([at % 10 for at in range(90)]),
        probe([at // 45 for at in range(90)]),
    ]
    plan = plan_of([*probes, *ones(90)], 90)

    assert (plan.test, plan.mean, plan.worst, plan.exact) == (1, None, None, False)
    assert plan.least >= math.log2(90) / math.log2(10)


def test_cut_short_says_what_none_is_under() -> None:
    """Where the search is stopped, the set is whole, and is told as not proved."""
    dice = random.Random(3)
    costs = [dice.randint(20, 40) for _ in range(40)]
    covers = [dice.getrandbits(200) & dice.getrandbits(200) for _ in range(40)]
    cover = least_cover(costs, covers, most_steps=3)
    whole = 0
    for each in covers:
        whole |= each
    for test in cover.tests:
        whole &= ~covers[test]

    assert whole == 0
    assert cover.least < cover.cost == sum(costs[test] for test in cover.tests)
    assert not cover.proved
