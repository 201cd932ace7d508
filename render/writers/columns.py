"""Grids and faces as lines of characters for the text writer."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence

from render.blocks import Cell, Grid, Piece, Room, Strong, Swatch, Tick
from render.ends.shape import FaceShape
from render.measure import printable
from render.writers.widths import share_out

WIDTH = 100
_GAP = "  "
_ROOM = 12
_WIDEST_WORD = 36  # what one word may ask of a column before it is broken
_BREAK_AFTER = re.compile(r"(?<=[-/,.:→])(?=\S)")


def wrap_text(text: str, width: int) -> list[str]:
    """Lines of at most `width` characters; newlines kept, words too long for a line broken.

    >>> wrap_text("one two three", 7)
    ['one two', 'three']
    >>> wrap_text("WH/BK-abcdefghij", 6)
    ['WH/BK-', 'abcdef', 'ghij']
    """
    lines: list[str] = []
    for paragraph in printable(text).replace("\t", " ").split("\n"):
        line = ""
        for word, glued in _words(paragraph, width):
            joined = line + word if glued or not line else f"{line} {word}"
            if line and len(joined) > width:
                lines.append(line)
                line = word
            else:
                line = joined
        lines.append(line)
    return lines


def _breakable(text: str) -> list[str]:
    """What `wrap_text` may break between: a no-break space holds."""
    return [word for word in re.split("[ \t\n]", text) if word] or [""]


def _words(paragraph: str, width: int) -> list[tuple[str, bool]]:
    words = []
    for whole in filter(None, paragraph.split(" ")):
        if len(whole) <= width:
            words.append((whole, False))
            continue
        pieces = [
            part[start : start + width] for part in _BREAK_AFTER.split(whole) for start in range(0, len(part), width)
        ]
        words += [(piece, index > 0) for index, piece in enumerate(pieces)]
    return words


# --- grids ------------------------------------------------------------------------------------------

SAYS: dict[type, Callable[..., str]] = {
    str: lambda text: text,
    Strong: lambda strong: f"{strong.text} {strong.then}".rstrip(),
    Swatch: lambda swatch: swatch.words,
    Room: lambda room: f"{room.words} {'_' * _ROOM}".lstrip().replace(" ", "\N{NO-BREAK SPACE}"),
    # no-break spaces keep a box and its word on one line until the cell is wrapped
    Tick: lambda tick: " ".join(f"[\N{NO-BREAK SPACE}]\N{NO-BREAK SPACE}{word}" for word in tick.words),
}


def grid_rows(grid: Grid) -> tuple[list[str], str, list[list[str]]]:
    """Header lines, the rule below them, and the lines of each row, all within WIDTH."""
    cells = [[_said(cell) for cell in row] for row in grid.rows]
    widths = _widths(grid, cells)
    aligns = [column.align for column in grid.columns]
    header = _row([column.title for column in grid.columns], widths, aligns)
    rule = _GAP.join("-" * width for width in widths)
    if not grid.aligned:
        return header, rule, [_row(row, widths, aligns) for row in cells]
    level = [_level(row, widths) for row in grid.rows]
    return header, rule, [_row(row, widths, aligns) for row in level]


def _level(row: tuple[Cell, ...], widths: Sequence[int]) -> list[str]:
    """The cells of a row with each piece as many lines long as the longest of its number."""
    wrapped = [
        [wrap_text(SAYS[type(piece)](piece), width) for piece in (cell if isinstance(cell, tuple) else (cell,))]
        for cell, width in zip(row, widths, strict=True)
    ]
    high = [0] * max(len(pieces) for pieces in wrapped)
    for pieces in wrapped:
        for index, lines in enumerate(pieces[:-1] if len(pieces) < len(high) else pieces):
            high[index] = max(high[index], len(lines))
    return [
        "\n".join(
            line
            for index, lines in enumerate(pieces)
            for line in (lines + [""] * (high[index] - len(lines)) if index < len(pieces) - 1 else lines)
        )
        for pieces in wrapped
    ]


def _said(cell: Cell) -> str:
    pieces: tuple[Piece, ...] = cell if isinstance(cell, tuple) else (cell,)
    return "\n".join(SAYS[type(piece)](piece) for piece in pieces)


def _widths(grid: Grid, cells: list[list[str]]) -> list[int]:
    """Whole characters for each column: as much as its longest line where all fit, else by weight."""
    natural, least = [], []
    for index, column in enumerate(grid.columns):
        texts = [column.title, *(row[index] for row in cells)]
        natural.append(max(1, *(len(line) for text in texts for line in text.split("\n"))))
        least.append(max(1, *(min(len(word), _WIDEST_WORD) for text in texts for word in _breakable(text))))
    room = WIDTH - len(_GAP) * (len(grid.columns) - 1)
    if sum(natural) <= room:
        return natural
    shares = share_out([column.weight for column in grid.columns], [float(need) for need in least], float(room))
    return [max(1, min(math.floor(share), most)) for share, most in zip(shares, natural, strict=True)]


def _row(texts: list[str], widths: list[int], aligns: Sequence[str]) -> list[str]:
    wrapped = [wrap_text(text, width) for text, width in zip(texts, widths, strict=True)]
    lines = []
    for index in range(max(len(column) for column in wrapped)):
        parts = []
        for column, width, align in zip(wrapped, widths, aligns, strict=True):
            part = column[index] if index < len(column) else ""
            placed = {"left": part.ljust, "right": part.rjust, "centre": part.center}[align](width)
            parts.append(placed)
        lines.append(_GAP.join(parts).replace("\N{NO-BREAK SPACE}", " ").rstrip())
    return lines


# --- faces ------------------------------------------------------------------------------------------


def face_rows(shape: FaceShape) -> list[list[str]]:
    """The numbers where they stand, walls and latch drawn in characters.

    One list of lines, or several for a face too wide for a line: its columns from left to right.
    """
    longest = max(len(number) for number in shape.numbers)
    side = len("LATCH ") if shape.latch in ("left", "right") else 0
    room = WIDTH - 1 - side
    # closer together rather than cut in two
    cell = next((longest + pad for pad in (2, 1, 0) if shape.columns * (longest + pad + 1) <= room), longest)
    at_once = max(1, room // (cell + 1))
    starts = range(0, shape.columns, at_once)
    return [_part(shape, start, min(start + at_once, shape.columns), cell) for start in starts]


def _part(shape: FaceShape, start: int, end: int, cell: int) -> list[str]:
    rows = [row[start:end] for row in shape.rows]
    lines = [_wall(None, rows[0], cell)]
    for index, row in enumerate(rows):
        below = rows[index + 1] if index + 1 < len(rows) else None
        walls = [""]
        for column in range(len(row) + 1):
            left = row[column - 1] if column else None
            right = row[column] if column < len(row) else None
            walls.append("|" if left is not None or right is not None else " ")
            walls.append((right or "").center(cell) if column < len(row) else "")
        lines += ["".join(walls), _wall(row, below, cell)]
    return _with_latch(lines, shape.latch, start == 0, end == shape.columns)


def _wall(above: tuple[str | None, ...] | None, below: tuple[str | None, ...] | None, cell: int) -> str:
    """The line between two rows, drawn only where a cavity touches it."""
    count = len(above or below or ())
    touched = [
        (above is not None and above[column] is not None) or (below is not None and below[column] is not None)
        for column in range(count)
    ]
    line = ""
    for column in range(count + 1):
        corner = (column > 0 and touched[column - 1]) or (column < count and touched[column])
        line += "+" if corner else " "
        if column < count:
            line += ("-" if touched[column] else " ") * cell
    return line


def _with_latch(lines: list[str], latch: str, first: bool, last: bool) -> list[str]:
    width = max(len(line) for line in lines)
    if latch == "top":
        return ["[LATCH]".center(width), *lines]
    if latch == "bottom":
        return [*lines, "[LATCH]".center(width)]
    word = "LATCH "
    at = len(lines) // 2
    if latch == "left":
        return [(word if first and index == at else " " * len(word)) + line for index, line in enumerate(lines)]
    return [line.ljust(width) + (" LATCH" if last and index == at else "") for index, line in enumerate(lines)]
