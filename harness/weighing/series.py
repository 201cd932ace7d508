"""Looms in series: which of them, plugged one into the other, open every circuit that must be opened, and tap the rest.

Each loom in a row passes what it doesn't open. So the circuits to be opened are covered by the looms that have leads
for them at both sides, a weighted set cover; and one more loom may pay for itself where what is tapped is joined better
on a lead of it. Searched exactly, with the whole front.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from math import floor
from typing import NamedTuple

Found = tuple[tuple[int, ...], int, object]  # cost and days, the sets as bits, what was made of them


class Cover(NamedTuple):
    """One set: what it covers as bits, what it costs, each number at least 0, and how long it is waited for."""

    covers: int
    cost: tuple[int, ...]
    days: int = 0


class Tap(NamedTuple):
    """One way of tapping a circuit: what it costs, and the sets, as bits, any of which allows it; none for any row."""

    cost: tuple[int, ...]
    holders: int


class Leaf(NamedTuple):
    """A whole row: what it comes to, days last, and how it is written out; nothing comes of one that may not be."""

    cost: tuple[int, ...]
    make: Callable[[], object]


Leaves = Callable[[tuple[int, ...], tuple[int, ...]], Iterable[Leaf]]


def no_worse(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    """Whether the first two numbers are no higher, and where these are the same the rest isn't."""
    return one[0] <= other[0] and one[1] <= other[1] and one <= other


class Rows:
    """The search. `taps` has for each circuit that is tapped its ways; `leaves` makes whole rows of the sets chosen,
    given their numbers and what they cost without the taps, `start` in it. What takes of the sets `scarce`, as bits,
    beats nothing that doesn't; `known` are costs of what takes none of them. None is made of these.

    Branch and bound: the bit that the fewest sets cover first, then sets that allow a better tap; a part is dropped
    where a row found already is no dearer than it must become. What it must become at the least: each bit still open
    pays its share of the cheapest set that covers it; each tap the best way so far, or a better one and its share.
    """

    def __init__(
        self, sets: list[Cover], whole: int, taps: list[list[Tap]], leaves: Leaves, start: tuple[int, ...],
        scarce: int = 0, known: Iterable[tuple[int, ...]] = (),
    ) -> None:  # fmt: skip
        self.sets, self.leaves, self.scarce = sets, leaves, scarce
        self.found: list[Found] = [(cost, 0, None) for cost in known]
        self.bits = [1 << at for at in range(whole.bit_length()) if whole >> at & 1]
        self.holders = {bit: [at for at, each in enumerate(sets) if each.covers & bit] for bit in self.bits}
        self.taps = [worth(ways) for ways in taps]
        self.allows = [[way.holders for ways in self.taps for way in ways if way.holders >> at & 1]
                       for at in range(len(sets))]  # fmt: skip
        self._walk(whole, start, 0, 0, 0)

    def _beaten(self, cost: tuple[int, ...], chosen: int) -> bool:
        return any(
            each[0] <= cost[0] and each[1] <= cost[1] and each <= cost and not mask & self.scarce & ~chosen
            for each, mask, _ in self.found
        )

    def _least(self, left: int, chosen: int, gone: int) -> tuple[int, int, int] | None:
        """What is still open costs at least this, in the first two numbers; and the bit to open next, which the fewest
        sets cover. None where a bit can't be covered any more.
        """
        shares: list[tuple[float, float] | None] = []
        for at, each in enumerate(self.sets):
            number = 0
            if not gone >> at & 1:
                number = (each.covers & left).bit_count()
                for holders in self.allows[at]:
                    number += not holders & chosen
            shares.append((each.cost[0] / number, each.cost[1] / number) if number else None)
        one = other = 0.0
        next_bit, fewest = 0, len(self.sets) + 1
        for bit in self.bits:
            if not left & bit:
                continue
            here = [share for at in self.holders[bit] if (share := shares[at]) is not None]
            if not here:
                return None
            if len(here) < fewest:
                next_bit, fewest = bit, len(here)
            one += min(here)[0]
            other += min([share[1] for share in here])
        for ways in self.taps:
            best = [_at_best(way, chosen, shares) for way in ways]
            one += min([each[0] for each in best])
            other += min([each[1] for each in best])
        if one == float("inf"):
            return None  # a tap that can't be made any more
        # a little below, for what the halves of a number were rounded to; costs are whole
        return floor(one - abs(one) * 1e-9), floor(other - abs(other) * 1e-9), next_bit

    def _walk(self, left: int, cost: tuple[int, ...], days: int, chosen: int, gone: int) -> None:
        if not left and not self.taps:
            self._whole(cost, days, chosen)
            return
        bound = self._least(left, chosen, gone)
        if bound is None or self._beaten((cost[0] + bound[0], cost[1] + bound[1], *cost[2:], days), chosen):
            return
        if left:
            more = [at for at in self.holders[bound[2]] if not gone >> at & 1]
            more.sort(key=lambda at: self.sets[at].cost[1] / (self.sets[at].covers & left).bit_count())
        else:
            self._whole(cost, days, chosen)
            more = self._better(chosen, gone)
        for at in more:
            each = self.sets[at]
            new = tuple(a + b for a, b in zip(cost, each.cost, strict=True))
            gone |= 1 << at  # below it is chosen; from here on: rows without it
            self._walk(left & ~each.covers, new, max(days, each.days), chosen | 1 << at, gone)

    def _better(self, chosen: int, gone: int) -> list[int]:
        """The sets that allow a tap which none of those chosen allows as well; a row with any other is but dearer."""
        found = 0
        for ways in self.taps:
            now = [way.cost for way in ways if not way.holders or way.holders & chosen]
            for way in ways:
                if way.holders and not way.holders & chosen and not any(no_worse(each, way.cost) for each in now):
                    found |= way.holders
        found &= ~gone
        return [at for at in range(len(self.sets)) if found >> at & 1]

    def _whole(self, cost: tuple[int, ...], days: int, chosen: int) -> None:
        if not all(any(not way.holders or way.holders & chosen for way in ways) for ways in self.taps):
            return
        numbers = tuple(at for at in range(len(self.sets)) if chosen >> at & 1)
        for leaf in self.leaves(numbers, (*cost, days)):
            if self._beaten(leaf.cost, chosen) or (made := leaf.make()) is None:
                continue
            self.found = [
                each for each in self.found
                if not (no_worse(leaf.cost, each[0]) and not chosen & self.scarce & ~each[1])
            ] + [(leaf.cost, chosen, made)]  # fmt: skip


def worth(ways: list[Tap]) -> list[Tap]:
    """The ways of one tap but those that another one beats wherever they can be had."""
    return [
        way for at, way in enumerate(ways)
        if not any(
            no_worse(other.cost, way.cost) and (other.cost != way.cost or number < at)
            and (not other.holders or (way.holders and not way.holders & ~other.holders))
            for number, other in enumerate(ways) if number != at
        )
    ]  # fmt: skip


def _at_best(way: Tap, chosen: int, shares: list[tuple[float, float] | None]) -> tuple[float, float]:
    """What a way of tapping costs at the least, with its share of a set that allows it where none is chosen yet."""
    if not way.holders or way.holders & chosen:
        return way.cost[0], way.cost[1]
    there = [share for at, share in enumerate(shares) if share is not None and way.holders >> at & 1]
    if not there:
        return float("inf"), float("inf")
    return way.cost[0] + min(there)[0], way.cost[1] + min([share[1] for share in there])


def covers(
    sets: list[Cover], whole: int, allowed: Callable[[tuple[int, ...]], bool] | None = None
) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """The front of all covers of `whole`: (cost, numbers of the sets), none of which another one beats.

    A cover beats another when its first two numbers are no higher and the rest decides where these are the same.
    `allowed` may turn a cover down.
    """

    def leaves(chosen: tuple[int, ...], cost: tuple[int, ...]) -> list[Leaf]:
        return [Leaf(cost, lambda: chosen if allowed is None or allowed(chosen) else None)]

    start = tuple(0 for _ in sets[0].cost) if sets else (0, 0)
    found = Rows(sets, whole, [], leaves, start).found
    return sorted((cost[:-1], numbers) for cost, _, numbers in found if isinstance(numbers, tuple))


def cheapest(sets: list[Cover], whole: int) -> tuple[tuple[int, ...], tuple[int, ...]] | None:
    """One cover of the least second number (money), and its sets; None where there is none."""
    found = covers([Cover(each.covers, (each.cost[1], each.cost[1])) for each in sets], whole)
    if not found:
        return None
    chosen = found[0][1]
    return tuple(sum(sets[at].cost[k] for at in chosen) for k in range(len(sets[0].cost))), chosen
