"""Widths of a grid's columns, in whatever unit the writer counts."""

from __future__ import annotations

from collections.abc import Sequence


def share_out(weights: Sequence[float], least: Sequence[float], width: float) -> list[float]:
    """The width shared by weight, but no column below its least.

    Columns that would be are set to their least and the others share what is left. Where the leasts
    together need more than there is, all give way alike.

    >>> share_out([1, 1, 2], [10, 50, 10], 100)
    [16.666666666666668, 50, 33.333333333333336]
    >>> share_out([1, 1], [80, 120], 100)
    [40.0, 60.0]
    """
    if sum(least) >= width:
        return [need * width / sum(least) for need in least]
    fixed: set[int] = set()
    while True:
        free = [index for index in range(len(weights)) if index not in fixed]
        left = width - sum(least[index] for index in fixed)
        weight = sum(max(weights[index], 0.01) for index in free)
        shares = {index: left * max(weights[index], 0.01) / weight for index in free}
        tight = {index for index in free if shares[index] < least[index]}
        if not tight:
            return [shares.get(index, least[index]) for index in range(len(weights))]
        fixed |= tight
