"""Faces, charts and faults of charts by this folder's own hand: nothing here comes from `harness`.

A chart is a table channel -> (cavity of +, cavity of −). A fault of it is where each channel really is.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations, pairwise, permutations

Places = dict[str, tuple[str, str]]
Grid = list[list[str | None]]
CHANNELS = ("FL", "FR", "RL", "RR", "C", "SUB", "FL-TW", "FR-TW", "RL-TW", "RR-TW")


@dataclass(frozen=True)
class Plug:
    """A face as it is looked at, its chart as written, and what else the chart has: cavity -> function."""

    grid: Grid
    chart: Places
    held: dict[str, str]

    @property
    def cavities(self) -> list[str]:
        return sorted((each for row in self.grid for each in row if each), key=int)


def numbered(rows: int, columns: int, gaps: set[tuple[int, int]], corner: str, down: bool, skip: set[int]) -> Grid:
    """Numbers from 1 at a corner, along the rows or down the columns; `skip` are numbers that no cavity has."""
    ys = range(rows) if "top" in corner else range(rows - 1, -1, -1)
    xs = range(columns) if "left" in corner else range(columns - 1, -1, -1)
    way = [(x, y) for x in xs for y in ys] if down else [(x, y) for y in ys for x in xs]
    grid: Grid = [[None] * columns for _ in range(rows)]
    number = 0
    for x, y in way:
        if (x, y) in gaps:
            continue
        number += 1
        while number in skip:
            number += 1
        grid[y][x] = str(number)
    return grid


def random_grid(dice: random.Random) -> Grid:
    """8 to 40 ways in one to three rows, at times with gaps and numbers left out."""
    while True:
        rows = dice.randint(1, 3)
        columns = dice.randint(max(2, -(-8 // rows)), 40 // rows)
        gaps = {(dice.randrange(columns), dice.randrange(rows)) for _ in range(dice.choice((0, 0, 1, 2)))}
        skip = {dice.randint(2, rows * columns - 1)} if dice.random() < 0.2 else set()
        corner = f"{dice.choice(('top', 'bottom'))} {dice.choice(('left', 'right'))}"
        if 8 <= rows * columns - len(gaps) <= 40:
            return numbered(rows, columns, gaps, corner, dice.random() < 0.5, skip)


# -- where each cavity as charted really is ------------------------------------------------------------------


def mirrored(grid: Grid) -> dict[str, str]:
    """In a row of n, cavity k is n + 1 − k."""
    made = {}
    for row in grid:
        there = [each for each in row if each]
        made |= {there[k - 1]: there[len(there) - k] for k in range(1, len(there) + 1)}
    return made


def rows_exchanged(grid: Grid, one: int, two: int) -> dict[str, str]:
    """The k-th cavity of a row is the k-th of the other; of what the other hasn't, nothing is said."""
    a, b = ([each for each in grid[at] if each] for at in (one, two))
    made = {each: each for row in grid for each in row if each and each not in a + b}
    for k in range(min(len(a), len(b))):
        made[a[k]], made[b[k]] = b[k], a[k]
    return made


def half_turn(grid: Grid) -> dict[str, str]:
    """Upside down and left for right."""
    made = {}
    for at, row in enumerate(grid):
        here = [each for each in row if each]
        there = [each for each in grid[len(grid) - 1 - at] if each][::-1]
        made |= dict(zip(here, there, strict=False))
    return made


def shifted(grid: Grid, by: int, start: int = 1) -> dict[str, str]:
    """From a number on, each cavity is the next one, or the one before."""
    order = sorted((each for row in grid for each in row if each), key=int)
    moving = [each for each in order if int(each) >= start]
    made = {each: each for each in order if int(each) < start}
    for k, each in enumerate(moving):
        if 0 <= k + by < len(moving):
            made[each] = moving[k + by]
    return made


OTHER_SIDE = {"FL": "FR", "FR": "FL", "RL": "RR", "RR": "RL"}
OTHER_END = {"FL": "RL", "RL": "FL", "FR": "RR", "RR": "FR"}


def renamed(chart: Places, table: dict[str, str]) -> Places:
    made = {}
    for name, places in chart.items():
        channel, dash, driver = name.partition("-")
        made[table.get(channel, channel) + dash + driver] = places
    return made


def moved(chart: Places, table: dict[str, str]) -> Places | None:
    """None where a place is nowhere."""
    if not all(each in table for places in chart.values() for each in places):
        return None
    return {name: (table[plus], table[minus]) for name, (plus, minus) in chart.items()}


# -- faults ----------------------------------------------------------------------------------------------------


def behind_keyways(grid: Grid) -> list[int]:
    """The numbers that follow a gap in their row, or a number that is left out."""
    at = {int(each): (x, y) for y, row in enumerate(grid) for x, each in enumerate(row) if each}
    numbers = sorted(at)
    made = []
    for before, after in pairwise(numbers):
        (x1, y1), (x2, y2) = at[before], at[after]
        between = grid[y1][min(x1, x2) + 1 : max(x1, x2)]
        if after > before + 1 or (y1 == y2 and between and not any(between)):
            made.append(after)
    return made


def whole_faults(plug: Plug) -> Iterator[tuple[str, Places]]:
    """Every fault of the whole chart that is possible with this chart: (name, where each channel really is)."""
    grid, rows = plug.grid, len(plug.grid)
    tables = [("mirrored", mirrored(grid)), ("half turn", half_turn(grid))]
    tables += [("rows exchanged", rows_exchanged(grid, a, b)) for a, b in combinations(range(rows), 2)]
    starts = [1, *behind_keyways(grid)]
    tables += [("shifted", shifted(grid, by, start)) for by in (1, -1) for start in starts]
    for name, table in tables:
        real = moved(plug.chart, table)
        held = [table.get(cavity) for cavity, what in plug.held.items() if what not in ("empty", "unknown")]
        if real is not None and real != plug.chart and all(held):
            yield name, real
    for name, names in (("left for right", OTHER_SIDE), ("front for rear", OTHER_END)):
        real = renamed(plug.chart, names)
        if real != plug.chart:
            yield name, real


def pair_faults(plug: Plug) -> Iterator[tuple[str, Places]]:
    """Every fault of single pairs: one turned, two exchanged, one at two free cavities, one wire at another cavity."""
    chart = plug.chart
    void = [each for each in plug.cavities if plug.held.get(each, "empty") == "empty"]
    free = [each for each in void if not any(each in places for places in chart.values())]
    holder = {cavity: (name, k) for name, places in chart.items() for k, cavity in enumerate(places)}
    for name, (plus, minus) in chart.items():
        yield "+ and − exchanged", chart | {name: (minus, plus)}
    for a, b in combinations(chart, 2):
        yield "pairs exchanged", chart | {a: chart[b], b: chart[a]}
    for name in chart:
        for two_free in permutations(free, 2):
            yield "pairs exchanged", chart | {name: two_free}
    for name, places in chart.items():
        for wire in (0, 1):
            for cavity in plug.cavities:
                if cavity in places:
                    continue
                real: Places = dict(chart)
                real[name] = (cavity, places[1]) if wire == 0 else (places[0], cavity)
                if cavity in holder:
                    other, k = holder[cavity]
                    two = list(real[other])
                    two[k] = places[wire]
                    real[other] = (two[0], two[1])
                yield "wrong partner", real


FAULTS: tuple[Callable[[Plug], Iterator[tuple[str, Places]]], ...] = (whole_faults, pair_faults)


# -- what is heard ---------------------------------------------------------------------------------------------


def heard_at(real: Places, a: str, b: str) -> tuple[str, str]:
    """The channel that answers two cavities and its +; empty: silence."""
    return next(((name, places[0]) for name, places in real.items() if set(places) == {a, b}), ("", ""))


def random_plug(dice: random.Random, others: bool) -> Plug:
    """A face with a chart of three to ten pairs, and at times with feeds at other cavities."""
    grid = random_grid(dice)
    cavities = [each for row in grid for each in row if each]
    dice.shuffle(cavities)
    most = min(len(CHANNELS), (len(cavities) - 1) // 2)
    names = CHANNELS[: dice.randint(3, most)]
    chart = {name: (cavities.pop(), cavities.pop()) for name in names}
    held = {}
    if others:
        for what in ("B+", "GND", "ACC", "empty", "empty")[: len(cavities) // 2]:
            held[cavities.pop()] = what
    return Plug(grid, chart, held)
