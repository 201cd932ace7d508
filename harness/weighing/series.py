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

    def least(left: int, banned: int) -> tuple[int, int, int] | None:
        """What is still open costs at least this, in the first two numbers; and the bit to open next, which the fewest
        sets cover. None where a bit can't be covered any more.
        """
        shares: list[tuple[float, float] | None] = []
        for at, each in enumerate(sets):
            number = 0 if banned >> at & 1 else (each.covers & left).bit_count()
            shares.append((each.cost[0] / number, each.cost[1] / number) if number else None)
        one = other = 0.0
        next_bit, fewest = 0, len(sets) + 1
        for bit in bits:
            if not left & bit:
                continue
            here = [share for at in holders[bit] if (share := shares[at]) is not None]
            if not here:
                return None
            if len(here) < fewest:
                next_bit, fewest = bit, len(here)
            one += min(here)[0]
            other += min([share[1] for share in here])
        # a little below, for what the halves of a number were rounded to; costs are whole
        return int(one * (1 - 1e-9)), int(other * (1 - 1e-9)), next_bit

    def walk(left: int, cost: tuple[int, ...], chosen: tuple[int, ...], banned: int) -> None:
        if not left:
            if not beaten(cost) and (allowed is None or allowed(tuple(sorted(chosen)))):
                found[:] = [
                    each for each in found if not (cost[0] <= each[0][0] and cost[1] <= each[0][1] and cost <= each[0])
                ]
                found.append((cost, tuple(sorted(chosen))))
            return
        bound = least(left, banned)
        if bound is None or beaten((cost[0] + bound[0], cost[1] + bound[1], *cost[2:])):
            return
        for at in sorted(holders[bound[2]], key=lambda at: sets[at].cost[1] / (sets[at].covers & left).bit_count()):
            if banned >> at & 1:
                continue
            new = tuple(a + b for a, b in zip(cost, sets[at].cost, strict=True))
            walk(left & ~sets[at].covers, new, (*chosen, at), banned | 1 << at)
            banned |= 1 << at  # from here on: covers without it

    walk(whole, zero, (), 0)
    return sorted(found)


def cheapest(sets: list[Cover], whole: int) -> tuple[tuple[int, ...], tuple[int, ...]] | None:
    """One cover of the least second number (money), and its sets; None where there is none."""
    found = covers([Cover(each.covers, (each.cost[1], each.cost[1])) for each in sets], whole)
    if not found:
        return None
    chosen = found[0][1]
    return tuple(sum(sets[at].cost[k] for at in chosen) for k in range(len(sets[0].cost))), chosen
