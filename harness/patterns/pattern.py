"""What a pattern is: a name, and the readings of a chart that it stands for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from harness.patterns.chart import Chart, Reading, Tone

Ways = Callable[[Chart, Sequence[Tone]], Iterable[Reading]]


class Pattern(NamedTuple):
    """One way of being wrong. `ways` gives its readings of a chart; those of one pair only need a tone that asks.

    `rank` orders patterns that put everything at the same cavities: the lower, the sooner a person thinks of it.
    `words` say how the chart is wrong (“it has left for right”), `look` says what to look at.
    """

    name: str
    rank: int
    ways: Ways
    words: str
    look: str


def examples(swaps: Iterable[tuple[str, str]], most: int = 4) -> str:
    """`1 and 8, 2 and 7, 3 and 6 …`: cavities that change places, each told once."""
    told: list[str] = []
    seen: set[str] = set()
    for a, b in swaps:
        if a != b and b and a not in seen and b not in seen:
            told.append(f"{a} and {b}")
            seen |= {a, b}
    return ", ".join(told[:most]) + (" …" if len(told) > most else "")
