"""Places in a row with a test between each two: what it costs to find one, by the best order of tests."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple


class Cut(NamedTuple):
    """A test between two neighbours of a row: what it costs, and its number."""

    cost: float
    test: int


def chain_cost(weights: Sequence[float], costs: Sequence[float]) -> list[list[float]]:
    """Cost by first and last place, times the odds of the stretch: the least over all orders of tests.

    `costs` are those of the cuts, one fewer than places. An interval programme: each stretch is first cut somewhere,
    and each half is then a stretch of its own. The number of steps grows with the third power of the places.
    """
    count = len(weights)
    total = [0.0]
    for weight in weights:
        total.append(total[-1] + weight)
    best = [[0.0] * count for _ in range(count)]
    # by columns as well, so that the two halves of a stretch are read as two slices
    by_end = [[0.0] * count for _ in range(count)]
    for length in range(2, count + 1):
        for first in range(count - length + 1):
            last = first + length - 1
            whole = total[last + 1] - total[first]
            left, right = best[first][first:last], by_end[last][first + 1 : last + 1]
            cheapest = min(cost * whole + a + b for cost, a, b in zip(costs[first:last], left, right, strict=True))
            best[first][last] = by_end[last][first] = cheapest
    return best
