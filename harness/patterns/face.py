"""A plug's face as rows of numbers: how a cavity at a place in it becomes another one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

Moves = dict[str, str]  # a cavity as charted -> where that is; empty: it would lie where no cavity is
_PARTS = re.compile(r"([A-Za-z]*)([0-9]*)(.*)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Face:
    """The rows as drawn, from the top, None for a gap. No rows: nobody wrote how the face looks."""

    rows: tuple[tuple[str | None, ...], ...] = ()

    @property
    def cavities(self) -> tuple[str, ...]:
        """All of them, in the order of their numbers."""
        return in_order(cavity for row in self.rows for cavity in row if cavity is not None)

    @property
    def lines(self) -> tuple[tuple[str, ...], ...]:
        """Each row without its gaps."""
        return tuple(tuple(cavity for cavity in row if cavity is not None) for row in self.rows)

    def spots(self) -> dict[str, tuple[int, int]]:
        """Column and row of each cavity, from 0."""
        return {
            cavity: (column, row)
            for row, line in enumerate(self.rows)
            for column, cavity in enumerate(line)
            if cavity is not None
        }

    def turned(self, row_of: Callable[[int], int], backwards: bool) -> Iterator[Moves]:
        """Each cavity to the one in row `row_of(row)`, from the other end with `backwards`.

        First counted along the row, gaps left out, as a person does who counts; then by where they lie, gaps and all,
        where that is something else.
        """
        lines = self.lines
        counted: Moves = {}
        for row, line in enumerate(lines):
            there = lines[row_of(row)][:: -1 if backwards else 1]
            counted |= {cavity: there[at] if at < len(there) else "" for at, cavity in enumerate(line)}
        yield counted
        placed: Moves = {}
        for cavity, (column, row) in self.spots().items():
            target = self.rows[row_of(row)]
            at = max(len(target), len(self.rows[row])) - 1 - column if backwards else column
            placed[cavity] = (target[at] if at < len(target) else None) or ""
        if placed != counted:
            yield placed

    def behind_gaps(self) -> tuple[str, ...]:
        """The cavities before which a number is left out, or before which a gap lies in their row."""
        spots = self.spots()
        made = []
        for before, after in pairwise(self.cavities):
            (letters, number, _), (same, next_number, _) = number_of(before), number_of(after)
            left_out = letters == same and next_number > number + 1
            (x1, y1), (x2, y2) = spots[before], spots[after]
            step = 1 if x2 > x1 else -1
            between = [self.rows[y1][x] for x in range(x1 + step, x2, step)] if y1 == y2 else ["in another row"]
            keyway = bool(between) and not any(between)
            if left_out or keyway:
                made.append(after)
        return tuple(made)


def in_order(cavities: Iterable[str]) -> tuple[str, ...]:
    """`A2` before `A10`, `9` before `10`."""
    return tuple(sorted(set(cavities), key=number_of))


def number_of(cavity: str) -> tuple[str, int, str]:
    """What a cavity's name sorts by: its letters, its number, the rest."""
    match = _PARTS.fullmatch(cavity)
    assert match is not None, "every text has these three parts"
    return match[1].upper(), int(match[2] or -1), match[3]
