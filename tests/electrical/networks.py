"""Random DC networks, written without the solver: feeds and returns as trees, one in three meshed."""

from __future__ import annotations

import random
from typing import NamedTuple


class Net(NamedTuple):
    """`wires` are (a, b, ohm), `sources` (plus, minus, volts, ohm), `loads` (a, b, amperes)."""

    wires: list[tuple[str, str, float]]
    sources: list[tuple[str, str, float, float]]
    loads: list[tuple[str, str, float]]


def network(number: int) -> Net:
    """A feed tree from the battery, a return tree to its minus, loads between them. Every third is meshed: with a
    second battery that feeds the far end, or with returns that are shared and tied.
    """
    draw = random.Random(number)
    count = draw.randint(3, 25)
    ohm = lambda: draw.choice((1e-6, 10 ** draw.uniform(-4, -1)))  # noqa: E731
    wires: list[tuple[str, str, float]] = []
    feeds, returns = ["plus"], ["minus"]
    for at in range(count):
        wires.append((draw.choice(feeds), f"f{at}", ohm()))
        feeds.append(f"f{at}")
        wires.append((draw.choice(returns), f"r{at}", ohm()))
        returns.append(f"r{at}")
    loads = [(draw.choice(feeds[1:]), draw.choice(returns[1:]), round(draw.uniform(0.05, 40), 3)) for _ in range(count)]
    sources = [("plus", "minus", 13.8, draw.choice((0.0, 0.005)))]
    if number % 3 == 0:
        for _ in range(draw.randint(1, count)):
            side = draw.choice((feeds, returns))
            a, b = draw.sample(side, 2)
            wires.append((a, b, 10 ** draw.uniform(-4, -1)))
        if draw.random() < 0.5:
            wires.append((feeds[-1], "second", 10 ** draw.uniform(-3, -2)))
            sources.append(("second", "minus", 12.6, 0.01))
    return Net(wires, sources, loads)
