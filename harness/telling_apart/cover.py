"""The cheapest set of tests that tells every pair of maps apart: the minimum test set (Garey and Johnson 1979, SP6).

Exactly, by branch and bound on pairs: what a pair must pay at least, pair after pair, bounds what is left. Pure
numbers; pairs and tests are whole numbers, one bit a pair.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from typing import NamedTuple

MOST_STEPS = 200_000  # of the search; beyond, the best set found is told with what no set costs less than


class Cover(NamedTuple):
    """Tests by number, what they cost together, and what no such set costs less than; the same where it is proved."""

    tests: tuple[int, ...]
    cost: int
    least: int

    @property
    def proved(self) -> bool:
        return self.cost == self.least


def told_apart(answers: Sequence[int], maps: int) -> int:
    """The pairs of maps that a test tells apart for certain: that share no answer. One bit a pair, by `pairs_of`."""
    made = 0
    for at, (one, two) in enumerate(pairs_of(maps)):
        if not any(answer & one and answer & two for answer in answers):
            made |= 1 << at
    return made


def pairs_of(maps: int) -> list[tuple[int, int]]:
    """Each two maps of a set, as one bit each."""
    ones = [1 << at for at in range(maps.bit_length()) if maps >> at & 1]
    return list(combinations(ones, 2))


def least_cover(costs: Sequence[int], covers: Sequence[int], most_steps: int = MOST_STEPS) -> Cover:
    """The cheapest tests that cover every pair that any test covers. `covers` by test; of equal ones the first."""
    everything = 0
    for cover in covers:
        everything |= cover
    tests = _worth(costs, covers)
    return _Search(costs, covers, tests, _hardest(everything, tests, covers), most_steps).run()


def _worth(costs: Sequence[int], covers: Sequence[int]) -> list[int]:
    """The tests that no other one replaces: one that covers as much for no more."""
    kept: list[int] = []
    for test in sorted(range(len(covers)), key=lambda each: (costs[each], -covers[each].bit_count(), each)):
        if covers[test] and not any(covers[test] & ~covers[other] == 0 for other in kept):
            kept.append(test)
    return sorted(kept)


def _hardest(everything: int, tests: list[int], covers: Sequence[int]) -> list[tuple[int, ...]]:
    """Pairs as the tests that cover them, without those that are covered whenever another one is; fewest first."""
    found = set()
    for at in range(everything.bit_length()):
        if everything >> at & 1:
            found.add(tuple(test for test in tests if covers[test] >> at & 1))
    made: list[tuple[int, ...]] = []
    for each in sorted(found, key=lambda row: (len(row), row)):
        mine = set(each)
        if not any(mine.issuperset(other) for other in made):
            made.append(each)
    return made


class _Search:
    """Branch and bound: the pair with the fewest tests left is covered by each of them in turn."""

    def __init__(
        self, costs: Sequence[int], covers: Sequence[int], tests: list[int], pairs: list[tuple[int, ...]], steps: int
    ) -> None:
        self.costs, self.pairs, self.steps = costs, pairs, steps
        self.by_test = {test: sum(1 << at for at, row in enumerate(pairs) if test in row) for test in tests}
        self.best: tuple[int, ...] = ()
        self.best_cost = 0
        self.cut_short = False

    def run(self) -> Cover:
        whole = (1 << len(self.pairs)) - 1
        if not whole:
            return Cover((), 0, 0)
        self._greedy(whole)
        least = self._bound(whole, frozenset())
        self._branch(whole, (), 0, frozenset())
        return Cover(tuple(sorted(self.best)), self.best_cost, least if self.cut_short else self.best_cost)

    def _greedy(self, left: int) -> None:
        chosen: list[int] = []
        while left:
            test = max(
                sorted(self.by_test),
                key=lambda each: (self.by_test[each] & left).bit_count() / max(self.costs[each], 1e-9),
            )
            chosen.append(test)
            left &= ~self.by_test[test]
        self.best, self.best_cost = tuple(chosen), sum(self.costs[test] for test in chosen)

    def _bound(self, left: int, out: frozenset[int]) -> int:
        """What the pairs left cost at least: each pays what its cheapest test has still to ask (dual ascent)."""
        rest = dict.fromkeys(self.by_test, 0)
        total = 0
        for at, row in enumerate(self.pairs):
            if left >> at & 1:
                allowed = [test for test in row if test not in out]
                if not allowed:
                    return self.best_cost  # can't be covered any more
                paid = min(self.costs[test] - rest[test] for test in allowed)
                total += paid
                for test in allowed:
                    rest[test] += paid
        return total

    def _branch(self, left: int, chosen: tuple[int, ...], cost: int, out: frozenset[int]) -> None:
        if not left:
            if cost < self.best_cost:
                self.best, self.best_cost = chosen, cost
            return
        if self.steps <= 0:
            self.cut_short = True
            return
        self.steps -= 1
        if cost + self._bound(left, out) >= self.best_cost:
            return
        row = min(
            ([test for test in row if test not in out] for at, row in enumerate(self.pairs) if left >> at & 1),
            key=lambda tests: (len(tests), tests),
        )
        tried = out
        for test in sorted(row, key=lambda each: (self.costs[each] / (self.by_test[each] & left).bit_count(), each)):
            self._branch(left & ~self.by_test[test], (*chosen, test), cost + self.costs[test], tried)
            tried = tried | {test}
