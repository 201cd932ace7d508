"""The order of pairs that moves the two probes least over a plug's face."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

Spot = tuple[float, float]
Held = tuple[Spot, Spot]  # where the + and the − probe stand, in columns and rows

_MOST_EXACT = 10


def least_moves(pairs: Sequence[Held]) -> list[int]:
    """Indexes of `pairs` in an order whose probe moves add up to the least; ties go to the order given.

    Up to ten pairs every order is weighed (dynamic programming over sets); more are taken by the nearest
    next one from each start, the best of these kept.
    """
    count = len(pairs)
    if count < 3:
        return list(range(count))
    far = [[_move(a, b) for b in pairs] for a in pairs]
    if count <= _MOST_EXACT:
        return _exact(far)
    ways = [_nearest(far, start) for start in range(count)]
    return min(ways, key=lambda way: (_length(far, way), way))


def moves(pairs: Sequence[Held], order: Sequence[int]) -> float:
    """How far both probes travel, in cavities, when the pairs are taken in this order."""
    return sum(_move(pairs[a], pairs[b]) for a, b in pairwise(order))


def _move(a: Held, b: Held) -> float:
    return sum(abs(a[k][0] - b[k][0]) + abs(a[k][1] - b[k][1]) for k in (0, 1))


def _length(far: list[list[float]], way: list[int]) -> float:
    return sum(far[a][b] for a, b in pairwise(way))


def _exact(far: list[list[float]]) -> list[int]:
    count = len(far)
    best: dict[tuple[int, int], tuple[float, list[int]]] = {(1 << k, k): (0.0, [k]) for k in range(count)}
    for _ in range(count - 1):
        grown: dict[tuple[int, int], tuple[float, list[int]]] = {}
        for (done, last), (length, way) in best.items():
            for k in range(count):
                if done >> k & 1:
                    continue
                made = (length + far[last][k], [*way, k])
                key = (done | 1 << k, k)
                if key not in grown or made < grown[key]:
                    grown[key] = made
        best = grown
    return min(best.values())[1]


def _nearest(far: list[list[float]], start: int) -> list[int]:
    way, left = [start], [k for k in range(len(far)) if k != start]
    while left:
        last = way[-1]
        k = min(left, key=lambda other: (far[last][other], other))
        left.remove(k)
        way.append(k)
    return way
