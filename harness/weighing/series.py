"""Looms in series: which of them, plugged one into the other, open every circuit that must be opened.

Each loom in a row passes what it doesn't open. So the circuits to be opened are covered by the looms that have leads
for them at both sides: a weighted set cover, searched exactly with its whole front.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple


class Cover(NamedTuple):
    """One set: what it covers as bits, and what it costs, each number at least 0."""

    covers: int
    cost: tuple[int, ...]


def covers(
    sets: list[Cover], whole: int, allowed: Callable[[tuple[int, ...]], bool] | None = None
) -> list[tuple[tuple[int, ...], tuple[int, ...]]]:
    """The front of all covers of `whole`: (cost, numbers of the sets), none of which another one beats.

    A cover beats another when its first two numbers are no higher and the rest decides where these are the same.
    `allowed` may turn a cover down. Branch and bound: the bit that the fewest sets cover first; a partial cover is
    dropped where one found already is no dearer than it must become. What it must become at the least: each bit still
    open pays its share of the cheapest set that covers it.
    """
    zero = tuple(0 for _ in sets[0].cost) if sets else (0,)
    found: list[tuple[tuple[int, ...], tuple[int, ...]]] = []
    bits = [1 << at for at in range(whole.bit_length()) if whole >> at & 1]
    holders = {bit: [at for at, each in enumerate(sets) if each.covers & bit] for bit in bits}

    def beaten(cost: tuple[int, ...]) -> bool:
        return any(each[0] <= cost[0] and each[1] <= cost[1] and each <= cost for each, _ in found)

    def least(left: int, banned: int) -> tuple[int, int] | None:
        """A bound for what is still open, in units of 1/720720 of nothing: whole numbers, rounded down."""
        one = other = 0.0
        for bit in bits:
            if not left & bit:
                continue
            shares = [
                (
                    sets[at].cost[0] / (sets[at].covers & left).bit_count(),
                    sets[at].cost[1] / (sets[at].covers & left).bit_count(),
                )
                for at in holders[bit]
                if not banned >> at & 1
            ]
            if not shares:
                return None
            one += min(share[0] for share in shares)
            other += min(share[1] for share in shares)
        return int(one - 1e-6 * max(1.0, one)), int(other - 1e-6 * max(1.0, other))

    def walk(left: int, cost: tuple[int, ...], chosen: tuple[int, ...], banned: int) -> None:
        if not left:
            if not beaten(cost) and (allowed is None or allowed(tuple(sorted(chosen)))):
                found[:] = [
                    each for each in found if not (cost[0] <= each[0][0] and cost[1] <= each[0][1] and cost <= each[0])
                ]
                found.append((cost, tuple(sorted(chosen))))
            return
        bound = least(left, banned)
        if bound is None or beaten((cost[0] + max(0, bound[0]), cost[1] + max(0, bound[1]), *cost[2:])):
            return
        open_bits = [bit for bit in bits if left & bit]
        bit = min(open_bits, key=lambda each: sum(not banned >> at & 1 for at in holders[each]))
        for at in sorted(holders[bit], key=lambda at: sets[at].cost[1] / (sets[at].covers & left).bit_count()):
            if banned >> at & 1:
                continue
            new = tuple(a + b for a, b in zip(cost, sets[at].cost, strict=True))
            walk(left & ~sets[at].covers, new, (*chosen, at), banned | 1 << at)
            banned |= 1 << at  # from here on: covers without it

    walk(whole, zero, (), 0)
    return sorted(found)
