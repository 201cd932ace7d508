"""The best orders of tests, found without the tool: alphabetic trees twice over, and every order for few suspects."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache


def best_in_a_row(odds: Sequence[float], costs: Sequence[float]) -> float:
    """The least cost to find one of several places in a row by tests between neighbours, times the odds.

    The textbook recursion over stretches (Knuth, The Art of Computer Programming 3, 6.2.2), each cut with its cost.
    """
    total = [0.0]
    for each in odds:
        total.append(total[-1] + each)

    @cache
    def least(first: int, last: int) -> float:
        if first == last:
            return 0.0
        return min(
            costs[cut] * (total[last + 1] - total[first]) + least(first, cut) + least(cut + 1, last)
            for cut in range(first, last)
        )

    return least(0, len(odds) - 1)


def hu_tucker(odds: Sequence[float]) -> float:
    """The weighted path length of the best alphabetic tree by Hu and Tucker's own method.

    T. C. Hu and A. C. Tucker, SIAM J. Appl. Math. 21 (1971): the pair of least sum is joined among those with no leaf
    between them; the sum of all joined weights is the cost of the tree.
    """
    row: list[tuple[float, bool]] = [(each, True) for each in odds]  # weight, whether it is a leaf
    cost = 0.0
    while len(row) > 1:
        best: tuple[float, int, int] | None = None
        for left in range(len(row)):
            for right in range(left + 1, len(row)):
                sum_ = row[left][0] + row[right][0]
                if best is None or sum_ < best[0] - 1e-12:
                    best = (sum_, left, right)
                if row[right][1]:
                    break
        assert best is not None
        weight, left, right = best
        cost += weight
        row[left] = (weight, False)
        del row[right]
    return cost


def best_of_all(odds: Sequence[float], rows: Sequence[Sequence[object]], costs: Sequence[float]) -> float:
    """The least cost over every order of tests, times the odds; where tests can't split a set it costs nothing more."""

    @cache
    def least(left: frozenset[int]) -> float:
        if len(left) < 2:
            return 0.0
        whole = sum(odds[at] for at in left)
        found = []
        for row, cost in zip(rows, costs, strict=True):
            parts: dict[object, set[int]] = {}
            for at in left:
                parts.setdefault(row[at], set()).add(at)
            if len(parts) > 1:
                found.append(cost * whole + sum(least(frozenset(part)) for part in parts.values()))
        return min(found, default=0.0)

    return least(frozenset(range(len(odds))))
