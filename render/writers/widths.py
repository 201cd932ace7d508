"""Widths of a grid's columns, in whatever unit the writer counts."""

from __future__ import annotations

import math
from collections.abc import Sequence


def share_out(
    weights: Sequence[float], least: Sequence[float], width: float, most: Sequence[float] | None = None
) -> list[float]:
    """The width shared by weight, but no column below its least, nor above its most while another needs the room.

    Columns that would be are set to their least and the others share what is left. Where the leasts
    together need more than there is, all give way alike; where the mosts need less, the rest goes by weight.

    >>> share_out([1, 1, 2], [10, 50, 10], 100)
    [16.666666666666668, 50, 33.333333333333336]
    >>> share_out([1, 1], [80, 120], 100)
    [40.0, 60.0]
    >>> share_out([1, 1, 1], [10, 10, 10], 90, [20, 50, 20])
    [20, 50, 20]
    >>> share_out([1, 1, 2], [10, 10, 10], 80, [20, 30, 10])
    [25.0, 35.0, 20.0]
    """
    if sum(least) >= width:
        return [need * width / sum(least) for need in least]
    shares = [max(weight, 0.01) for weight in weights]
    upper = [math.inf] * len(least) if most is None else [max(pair) for pair in zip(least, most, strict=True)]
    if sum(upper) <= width:
        spare = (width - sum(upper)) / sum(shares)
        return [each + spare * share if spare else each for each, share in zip(upper, shares, strict=True)]
    # as by one level of water: each column has its share of the level, held between its least and its most
    begins = [bound / share for bound, share in zip(least, shares, strict=True)]
    ends = [bound / share for bound, share in zip(upper, shares, strict=True)]
    low = 0.0
    for level in sorted({*begins, *ends}):
        free = [k for k in range(len(shares)) if begins[k] <= low < ends[k]]
        made = [least[k] if begins[k] > low else upper[k] for k in range(len(shares))]
        left = width - sum(made[k] for k in range(len(shares)) if k not in free)
        wanted = left / sum(shares[k] for k in free) if free else math.inf
        if wanted <= level:
            for k in free:
                made[k] = wanted * shares[k]
            return made
        low = level
    return upper  # as wide as the page to within a rounding
