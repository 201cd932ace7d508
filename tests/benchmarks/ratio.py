"""A subject measured against a floor. Only the ratio counts: the machine is whatever it is."""

from __future__ import annotations

import gc
import statistics
from collections.abc import Callable, Sequence
from time import perf_counter
from typing import NamedTuple


class Result(NamedTuple):
    """One line of the table. `target` None: told for information."""

    what: str
    floor: float
    subject: float
    unit: str
    target: float | None
    goal: float | None = None

    @property
    def ratio(self) -> float:
        return self.subject / self.floor if self.floor else float("inf")

    @property
    def verdict(self) -> str:
        if self.target is None:
            return "-"
        if self.ratio > self.target:
            return "TOO MUCH"
        return "goal met" if self.goal is not None and self.ratio <= self.goal else "within"


def alternate(floor: Callable[[], object], subject: Callable[[], object], rounds: int) -> tuple[float, float]:
    """Median seconds of each, run by turns in one loop, so that a drift of the machine meets both alike.

    One run of each before, to fill the caches, isn't counted. Rubbish is collected before a run and never in it,
    as `ringout` itself does.
    """
    took: tuple[list[float], list[float]] = ([], [])
    was_on = gc.isenabled()
    try:
        for number in range(rounds + 1):
            for times, run in zip(took, (floor, subject), strict=True):
                gc.collect()
                gc.disable()
                start = perf_counter()
                run()
                seconds = perf_counter() - start
                gc.enable()
                if number:
                    times.append(seconds)
    finally:
        gc.enable() if was_on else gc.disable()
    return statistics.median(took[0]), statistics.median(took[1])


def table(results: Sequence[Result]) -> str:
    """The results as lines of text."""
    head = ("what", "floor", "subject", "ratio", "target", "verdict")
    rows = [head]
    for each in results:
        target = "-" if each.target is None else f"{each.target:g}"
        if each.goal is not None:
            target += f" (goal {each.goal:g})"
        amounts = [f"{amount:.1f} {each.unit}" for amount in (each.floor, each.subject)]
        rows.append((each.what, *amounts, f"{each.ratio:.2f}", target, each.verdict))
    widths = [max(len(row[at]) for row in rows) for at in range(len(head))]
    lines = ("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in rows)
    return "\n".join(line.rstrip() for line in lines)
