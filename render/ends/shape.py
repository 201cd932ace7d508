"""How the numbers of a plug stand on its face, from plain values. No drawing here.

A face is always meant as seen in one view. The other view is seen by turning the plug about its vertical
axis, so columns change places left for right, rows stay, a latch at the top stays at the top and a latch
at the left is then at the right. That a mated pair agrees number by number under this mirror is what
shop manuals rest on when they number one half from the wire side and the other from the terminal side.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

View = Literal["wire", "mating"]
Latch = Literal["top", "bottom", "left", "right"]
First = Literal["top left", "top right", "bottom left", "bottom right"]
Count = Literal["across", "down"]

_OTHER_VIEW: dict[View, View] = {"wire": "mating", "mating": "wire"}
_TURNED_LATCH: dict[Latch, Latch] = {"top": "top", "bottom": "bottom", "left": "right", "right": "left"}


@dataclass(frozen=True, slots=True)
class FaceShape:
    """The numbers of a plug as seen in `view`: rows from top to bottom, None for a gap.

    Rows may differ in length when written; they are made equal by gaps at the right. A number may stand
    only once. Raises ValueError for no number at all, a number twice, or an unknown view or latch.
    """

    rows: tuple[tuple[str | None, ...], ...]
    view: View
    latch: Latch

    def __post_init__(self) -> None:
        if self.view not in get_args(View):
            raise ValueError(f"view is {self.view!r}, must be one of {', '.join(get_args(View))}")
        if self.latch not in get_args(Latch):
            raise ValueError(f"latch is {self.latch!r}, must be one of {', '.join(get_args(Latch))}")
        numbers = [number for row in self.rows for number in row if number is not None]
        if not numbers:
            raise ValueError("a face without any cavity cannot be drawn")
        twice = sorted({number for number in numbers if numbers.count(number) > 1})
        if twice:
            raise ValueError(f"cavity {', '.join(twice)} stands more than once on the face")
        width = max(len(row) for row in self.rows)
        even = tuple(row + (None,) * (width - len(row)) for row in self.rows)
        object.__setattr__(self, "rows", even)

    @property
    def columns(self) -> int:
        return len(self.rows[0])

    @property
    def numbers(self) -> tuple[str, ...]:
        """Every cavity number, row by row as drawn."""
        return tuple(number for row in self.rows for number in row if number is not None)


def mirrored(shape: FaceShape) -> FaceShape:
    """The same plug seen from its other side: left for right, latch turned with it."""
    rows = tuple(tuple(reversed(row)) for row in shape.rows)
    return FaceShape(rows, _OTHER_VIEW[shape.view], _TURNED_LATCH[shape.latch])


def seen_from(shape: FaceShape, view: View) -> FaceShape:
    """The shape in the view asked for: itself, or its mirror."""
    return shape if shape.view == view else mirrored(shape)


def grid_shape(
    rows: int, columns: int, view: View, latch: Latch, first: First = "top left", count: Count = "across"
) -> FaceShape:
    """A full face counted from 1: `first` is the corner where 1 stands, as seen in `view`.

    `across` fills the row of the first cavity, then the next row; `down` fills its column, then the next
    column, starting each at the same end. Raises ValueError for a size below 1 or an unknown word.
    """
    if rows < 1 or columns < 1:
        raise ValueError(f"a face has at least one row and one column, not {rows} x {columns}")
    if first not in get_args(First):
        raise ValueError(f"first is {first!r}, must be one of {', '.join(get_args(First))}")
    if count not in get_args(Count):
        raise ValueError(f"count is {count!r}, must be one of {', '.join(get_args(Count))}")
    start, side = first.split()
    drawn = []
    for row in range(rows):
        down = row if start == "top" else rows - 1 - row
        line = []
        for column in range(columns):
            along = column if side == "left" else columns - 1 - column
            number = down * columns + along if count == "across" else along * rows + down
            line.append(str(number + 1))
        drawn.append(tuple(line))
    return FaceShape(tuple(drawn), view, latch)
