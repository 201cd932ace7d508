"""Which test to make next: the best decision tree over maps. Pure numbers; it knows nothing of plugs.

A set of maps is a whole number, one bit a map. A test is a cost and, for each answer, the maps that could give it; a
map that doesn't say what the answer would be stands behind several answers. A test counts for a set only where every
answer strikes at least one map of it, so that no tree asks in vain.

The cost of a set is that of the best tree: the cost of its first test and, answer by answer, the cost of what is left
times the odds of that answer. At each step every map still there is as likely as the others, and one that could give
several answers is shared equally among the different sets that these leave. Where every map says everything, that is
the expected cost of a decision tree (Hyafil and Rivest 1976 showed that finding the best one is NP-complete).
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log2
from typing import NamedTuple

EXACT = 12  # maps that differ, up to which the best tree is found; beyond it is a good one, with a bound
_FOLLOWED = 4  # beyond: of the tests that tell most for their cost, how many are followed to the end

MOST_FOLLOWED = 40  # maps that differ, above which no tree is worked out: the test that tells most for its cost is next

_SLACK = 1e-9


class Probe(NamedTuple):
    """One test: what it costs, and for each answer the maps that could give it."""

    cost: int
    answers: tuple[int, ...]


class Plan(NamedTuple):
    """The next test of a tree (None: nothing tells the maps apart), what the tree costs, and what none costs less than.

    `exact`: no tree is cheaper on average. `mean` and `worst` are the tree's cost on average and at most, `least` a
    bound under the mean of every tree. Mean and worst are None where no tree was worked out.
    """

    test: int | None
    mean: float | None
    worst: float | None
    least: float
    exact: bool


class Trees:
    """The trees over one set of tests; what was worked out once is kept."""

    def __init__(self, probes: Sequence[Probe]) -> None:
        self.probes = tuple(probes)
        self._splits: dict[int, list[tuple[int, tuple[int, ...]]]] = {}
        self._best: dict[int, tuple[float, int | None]] = {}
        self._greedy: dict[int, tuple[float, int | None]] = {}
        self._kinds: dict[int, int] = {}

    def plan(self, maps: int) -> Plan:
        """The tree for a set of maps: the best one for up to `EXACT` that differ."""
        if self.kinds(maps) > MOST_FOLLOWED:
            ranked = self._ranked(maps)
            return Plan(ranked[0][0] if ranked else None, None, None, self.bound(maps), False)
        exact = self.kinds(maps) <= EXACT
        mean, test = self._exactly(maps) if exact else self._followed(maps)
        return Plan(test, mean, self._worst(maps, exact), mean if exact else self.bound(maps), exact)

    def splits(self, maps: int) -> list[tuple[int, tuple[int, ...]]]:
        """The tests that count for a set, with the different sets that their answers leave; alike ones only once."""
        known = self._splits.get(maps)
        if known is not None:
            return known
        found: dict[frozenset[int], int] = {}
        for number, probe in enumerate(self.probes):
            left = frozenset(piece for answer in probe.answers if (piece := answer & maps))
            if maps in left or len(left) < 2:
                continue
            other = found.get(left)
            if other is None or probe.cost < self.probes[other].cost:
                found[left] = number
        made = [(number, tuple(sorted(left))) for left, number in found.items()]
        made.sort(key=lambda each: (self.probes[each[0]].cost, each[0]))
        self._splits[maps] = made
        return made

    def may_split(self, maps: int) -> int | None:
        """The test that strikes most for its cost where none tells for certain: some answer of it strikes a map."""
        best, test = 0.0, None
        for number, probe in enumerate(self.probes):
            left = {piece for answer in probe.answers if (piece := answer & maps)}
            if len(left) < 2 and maps in left:
                continue
            whole = maps.bit_count()
            kept = sum(share * piece.bit_count() for piece, share in self.shares(maps, tuple(sorted(left))))
            rate = (whole - kept) / probe.cost
            if rate > best + _SLACK:
                best, test = rate, number
        return test

    def shares(self, maps: int, left: tuple[int, ...]) -> list[tuple[int, float]]:
        """Each set that an answer leaves, and the odds of that answer."""
        if sum(piece.bit_count() for piece in left) == maps.bit_count():  # every map gives one answer
            whole = maps.bit_count()
            return [(piece, piece.bit_count() / whole) for piece in left]
        odds = dict.fromkeys(left, 0.0)
        rest = maps
        while rest:
            one = rest & -rest
            rest ^= one
            mine = [piece for piece in left if piece & one]
            for piece in mine:
                odds[piece] += 1 / len(mine) / maps.bit_count()
        return list(odds.items())

    def kinds(self, maps: int) -> int:
        """How many maps of a set differ in some answer."""
        known = self._kinds.get(maps)
        if known is None:
            marks = set()
            rest = maps
            while rest:
                one = rest & -rest
                rest ^= one
                marks.add(tuple(bool(answer & one) for probe in self.probes for answer in probe.answers))
            known = self._kinds[maps] = len(marks)
        return known

    def bound(self, maps: int) -> float:
        """What every tree costs at least on average: by what bits a test can give, and by two steps ahead."""
        splits = self.splits(maps)
        if not splits:
            return 0.0
        least = min(
            self.probes[number].cost + sum(share * self._cheapest(piece) for piece, share in self.shares(maps, left))
            for number, left in splits
        )
        sure = all(sum(piece.bit_count() for piece in left) == maps.bit_count() for _, left in splits)
        if not sure or any(each.cost <= 0 for each in self.probes):
            return least
        # Shannon: what is left unknown at the end is the alike; no test gives more bits than its answers allow
        most = max(log2(len(left)) / self.probes[number].cost for number, left in splits)
        return max(least, self._bits(maps, splits) / most)

    def _bits(self, maps: int, splits: list[tuple[int, tuple[int, ...]]]) -> float:
        pieces = [maps]
        for _, left in splits:
            pieces = [piece for each in pieces for part in left if (piece := each & part)]
        whole = maps.bit_count()
        return sum(piece.bit_count() / whole * log2(whole / piece.bit_count()) for piece in pieces)

    def _cheapest(self, maps: int) -> float:
        splits = self.splits(maps)
        return self.probes[splits[0][0]].cost if splits else 0.0

    def _exactly(self, maps: int) -> tuple[float, int | None]:
        known = self._best.get(maps)
        if known is not None:
            return known
        best, chosen = 0.0, None
        for number, left in self.splits(maps):  # cheapest first
            cost = float(self.probes[number].cost)
            if chosen is not None and cost >= best - _SLACK:
                break
            shares = self.shares(maps, left)
            floor = [share * self._cheapest(piece) for piece, share in shares]
            cost += sum(floor)
            for (piece, share), under in zip(shares, floor, strict=True):
                if chosen is not None and cost >= best - _SLACK:
                    break
                cost += share * self._exactly(piece)[0] - under
            else:
                if chosen is None or cost < best - _SLACK:
                    best, chosen = cost, number
        self._best[maps] = best, chosen
        return best, chosen

    def _ranked(self, maps: int) -> list[tuple[int, tuple[int, ...]]]:
        """The tests that count, by bits for their cost."""
        whole = maps.bit_count()

        def rate(each: tuple[int, tuple[int, ...]]) -> tuple[float, int]:
            number, left = each
            bits = sum(share * log2(whole / piece.bit_count()) for piece, share in self.shares(maps, left))
            return (-bits / max(self.probes[number].cost, _SLACK), number)

        return sorted(self.splits(maps), key=rate)

    def _greedily(self, maps: int) -> tuple[float, int | None]:
        """The tree by bits for cost, down to where the best one can be found."""
        if self.kinds(maps) <= EXACT:
            return self._exactly(maps)
        known = self._greedy.get(maps)
        if known is None:
            ranked = self._ranked(maps)
            known = self._through(maps, *ranked[0]) if ranked else (0.0, None)
            self._greedy[maps] = known
        return known

    def _followed(self, maps: int) -> tuple[float, int | None]:
        """The best first test among a few, each followed to the end."""
        tried = [self._through(maps, *each) for each in self._ranked(maps)[:_FOLLOWED]]
        if tried:
            self._greedy[maps] = min(tried, key=lambda each: each[0])
        return self._greedy.get(maps, (0.0, None))

    def _through(self, maps: int, number: int, left: tuple[int, ...]) -> tuple[float, int]:
        cost = float(self.probes[number].cost)
        cost += sum(share * self._greedily(piece)[0] for piece, share in self.shares(maps, left))
        return cost, number

    def _worst(self, maps: int, exact: bool) -> float:
        test = (self._exactly(maps) if exact else self._greedily(maps))[1]
        if test is None:
            return 0.0
        left = {piece for answer in self.probes[test].answers if (piece := answer & maps)}
        return self.probes[test].cost + max(
            self._worst(piece, exact or self.kinds(piece) <= EXACT) for piece in sorted(left)
        )
