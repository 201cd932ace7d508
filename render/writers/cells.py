"""A grid as strips: widths measured, cells wrapped, one strip a row, the header repeated by the flow.

Plain strings are set straight on the canvas; a paragraph object a cell would be five times slower.
"""

from __future__ import annotations

import hashlib
import math
from collections.abc import Callable
from typing import Any, NamedTuple

from render import shapes, style
from render.blocks import Cell, Grid, Piece, Room, Strong, Swatch, Tick
from render.measure import font_name, longest_word_pt, on_paper, width_pt, wrap
from render.writers.flow import Frame, Strip
from render.writers.paint import ink_of, paint
from render.writers.widths import share_out

_PAD_X, _PAD_Y = 3.5, 1.8
_POINTS_PER_MM = 72.0 / 25.4
_BESIDE_SWATCH = style.SWATCH_WIDTH + 5.0
_BESIDE_TICK = style.TICK_SIDE + 3.5
_BETWEEN_TICKS = 9.0
_SHORT_TABLE = 110.0  # rows of at most this height together are not parted
_BEFORE_THEN = 5.0  # between a main item and what follows it on its line
_WIDEST_WORD_SHARE = 0.34  # of the page, that one word may ask for before it is broken

# Draws at the left and bottom of a space of the given width.
Paint = Callable[[Any, float, float, float], None]


class Bit(NamedTuple):
    """One line of a cell."""

    height: float
    paint: Paint


def _size(grid: Grid) -> float:
    """The size of its plain text."""
    return style.MAIN if grid.big else style.SMALL if grid.fine else style.BODY


def grid_strips(grid: Grid, frame: Frame, title: str = "") -> list[Strip]:
    """Caption, header and rows. Two rows stay with the header, the last two together, a short table as a whole.

    Where it goes over a page, `title` (its caption, or the heading above it) stands there again, "continued".
    """
    widths = column_widths(grid, frame.width)
    strips: list[Strip] = []
    if grid.caption:
        for line in wrap(grid.caption, frame.width, style.BODY, True):
            strips.append(_text_strip(line, style.BODY, True)._replace(with_next=True))
        strips[0] = strips[0]._replace(before=8.0)
    titles = tuple(_text_bits(column.title, widths[i], style.BODY, True, column.align)
                   for i, column in enumerate(grid.columns))  # fmt: skip
    header = _row_strip(titles, widths, True)._replace(with_next=True, before=3.0 if grid.caption else 8.0)
    strips.append(header)
    again = _under(continued_strip(title, frame.width), header) if title else header
    size = _size(grid)
    body: list[Strip] = []
    for row in grid.rows:
        parts = [_cell_parts(cell, widths[i], size, grid.columns[i].align) for i, cell in enumerate(row)]
        cells = _level(parts) if grid.aligned else tuple(tuple(bit for bits in cell for bit in bits) for cell in parts)
        for part in _page_worths(cells, frame.room - again.height - 40.0):
            body.append(_row_strip(part, widths, False)._replace(again=again))
    short = sum(strip.height for strip in body) <= _SHORT_TABLE
    for index in range(len(body) - 1) if short else {0, len(body) - 2} & set(range(len(body) - 1)):
        # rows that fill a page must not drag the header with them
        if body[index].height + body[index + 1].height < frame.room / 3:
            body[index] = body[index]._replace(with_next=True)
    return strips + body


def column_widths(grid: Grid, width: float) -> list[float]:
    """Points for each column: what its longest word needs, the rest of the page by weight.

    A column that has all its cells on single lines leaves what it doesn't need to those that wrap. Where the words
    together need more than the page, all columns give way alike and words are broken.
    """
    size = _size(grid)
    widest = width * _WIDEST_WORD_SHARE
    edges = 2 * _PAD_X + 0.5
    least, most = [], []
    for index, column in enumerate(grid.columns):
        need = longest_word_pt(column.title, style.BODY, True)
        full = width_pt(on_paper(column.title), style.BODY, True)
        for row in grid.rows:
            need = max(need, _cell_need(row[index], size))
            full = max(full, _cell_full(row[index], size))
        least.append(min(need, widest) + edges)
        most.append(full + edges)
    return share_out([column.weight for column in grid.columns], least, width, most)


def _pieces(cell: Cell) -> tuple[Piece, ...]:
    return cell if isinstance(cell, tuple) else (cell,)


def _cell_need(cell: Cell, size: float) -> float:
    return max((NEEDS[type(piece)](piece, size) for piece in _pieces(cell)), default=0.0)


def _cell_full(cell: Cell, size: float) -> float:
    """The width at which no piece of a cell wraps; a place to write in takes all that it can get."""
    return max((FULL[type(piece)](piece, size) for piece in _pieces(cell)), default=0.0)


def _lines_pt(text: str, size: float, bold: bool = False) -> float:
    return max(width_pt(line, size, bold) for line in on_paper(text).split("\n"))


def _cell_parts(cell: Cell, width: float, size: float, align: str) -> list[tuple[Bit, ...]]:
    """The lines of each piece of a cell."""
    return [PAINTS[type(piece)](piece, width, size, align) for piece in _pieces(cell)]


def _level(cells: list[list[tuple[Bit, ...]]]) -> tuple[tuple[Bit, ...], ...]:
    """Pieces of the same number made equally high in every cell that has one more below it."""
    high = [0.0] * max(len(parts) for parts in cells)
    for parts in cells:
        # a cell with one piece beside rows of several (the joint's name) needs no level of its own
        for index, bits in enumerate(parts[:-1] if len(parts) < len(high) else parts):
            high[index] = max(high[index], _bits_height(bits))
    made = []
    for parts in cells:
        lines: list[Bit] = []
        for index, piece in enumerate(parts):
            lines += piece
            spare = high[index] - _bits_height(piece)
            if index < len(parts) - 1 and spare > 0:
                lines.append(Bit(spare, lambda canvas, x, y, width: None))
        made.append(tuple(lines))
    return tuple(made)


# --- pieces -----------------------------------------------------------------------------------------


def _line_bit(words: str, size: float, bold: bool, align: str, indent: float = 0.0) -> Bit:
    wide = width_pt(words, size, bold)

    def paint(canvas: Any, x: float, y: float, width: float) -> None:
        if not words:
            return
        spare = width - indent - wide
        shift = {"left": 0.0, "centre": spare / 2, "right": spare}[align]
        canvas.setFont(font_name(bold), size)
        canvas.drawString(x + indent + max(shift, 0.0), y + size * 0.27, words)

    return Bit(size * style.LEADING, paint)


def _text_bits(words: str, width: float, size: float, bold: bool, align: str) -> tuple[Bit, ...]:
    return tuple(_line_bit(line, size, bold, align) for line in wrap(words, width - 2 * _PAD_X, size, bold))


def _paint_plain(text: str, width: float, size: float, align: str) -> tuple[Bit, ...]:
    return _text_bits(text, width, size, False, align)


def _paint_strong(strong: Strong, width: float, size: float, align: str) -> tuple[Bit, ...]:
    bits = _text_bits(strong.text, width, style.MAIN, True, align)
    if not strong.then:
        return bits
    room = width - 2 * _PAD_X
    beside = width_pt(on_paper(strong.text), style.MAIN, True) + _BEFORE_THEN
    then = wrap(strong.then, room, style.BODY)
    if len(bits) > 1 or len(then) > 1 or align != "left" or beside + width_pt(then[0], style.BODY) > room:
        return (*bits, *(_line_bit(line, style.BODY, False, align) for line in then))
    main, rest = bits[0], _line_bit(then[0], style.BODY, False, "left", beside)

    def paint(canvas: Any, x: float, y: float, wide: float) -> None:
        main.paint(canvas, x, y, wide)
        # on the same base line
        rest.paint(canvas, x, y + (style.MAIN - style.BODY) * 0.27, wide)

    return (Bit(main.height, paint),)


def _paint_swatch(swatch: Swatch, width: float, size: float, align: str) -> tuple[Bit, ...]:
    lines = wrap(swatch.words, width - 2 * _PAD_X - _BESIDE_SWATCH, size)
    first = _line_bit(lines[0], size, False, "left", _BESIDE_SWATCH)
    height = max(first.height, style.SWATCH_HEIGHT + 2.0)

    def paint(canvas: Any, x: float, y: float, room: float) -> None:
        canvas.saveState()
        canvas.translate(x, y + (height - style.SWATCH_HEIGHT) / 2)
        canvas.doForm(_swatch_form(canvas, swatch))
        canvas.restoreState()
        first.paint(canvas, x, y + (height - first.height) / 2, room)

    rest = (_line_bit(line, size, False, "left", _BESIDE_SWATCH) for line in lines[1:])
    return (Bit(height, paint), *rest)


def _swatch_form(canvas: Any, swatch: Swatch) -> str:
    """The name of a colour's drawing, drawn once a document and used by name wherever it occurs."""
    look = "\n".join((swatch.base, swatch.stripe, swatch.mark))
    # a digest, since an unread code may hold signs that a PDF name may not
    name = f"swatch{hashlib.sha256(look.encode('utf-8', 'replace')).hexdigest()[:16]}"
    if not canvas.hasForm(name):
        edge = style.LINE
        canvas.beginForm(name, -edge, -edge, style.SWATCH_WIDTH + edge, style.SWATCH_HEIGHT + edge)
        made = shapes.drawing(style.SWATCH_WIDTH, style.SWATCH_HEIGHT, shapes.swatch(swatch, 0, 0))
        paint(canvas, made, 0, 0)
        canvas.endForm()
    return name


def _paint_room(room: Room, width: float, size: float, align: str) -> tuple[Bit, ...]:
    words = on_paper(room.words)
    start = width_pt(words, style.BODY) + 3.0 if words else 0.0

    def paint(canvas: Any, x: float, y: float, wide: float) -> None:
        if words:
            canvas.setFont(font_name(False), style.BODY)
            canvas.drawString(x, y + style.BODY * 0.27, words)
        canvas.setLineWidth(style.HAIR)
        canvas.line(x + start, y + 2.0, x + wide, y + 2.0)

    return (Bit(style.ROOM_HEIGHT, paint),)


def _paint_tick(tick: Tick, width: float, size: float, align: str) -> tuple[Bit, ...]:
    """Boxes flow like words; a word too long for its line goes on under itself."""
    room = width - 2 * _PAD_X
    lines: list[list[tuple[float, str, bool]]] = [[]]
    across = 0.0
    for word in tick.words:
        parts = wrap(word, room - _BESIDE_TICK, size)
        wide = _BESIDE_TICK + width_pt(parts[0], size)
        if lines[-1] and across + wide > room:
            lines.append([])
            across = 0.0
        lines[-1].append((across, parts[0], True))
        across += wide + _BETWEEN_TICKS
        for part in parts[1:]:
            lines.append([(0.0, part, False)])
            across = room
    return tuple(_tick_bit(line, size) for line in lines)


def _tick_bit(boxes: list[tuple[float, str, bool]], size: float) -> Bit:
    height = max(size * style.LEADING, style.TICK_SIDE + 4.0)

    def paint(canvas: Any, x: float, y: float, width: float) -> None:
        canvas.setLineWidth(style.LINE)
        canvas.setFont(font_name(False), size)
        for across, word, boxed in boxes:
            if boxed:
                side = style.TICK_SIDE
                canvas.rect(x + across, y + (height - side) / 2, side, side, stroke=1, fill=0)
            if word:
                base = y + height / 2 - style.CAP_HEIGHT * size / 2
                canvas.drawString(x + across + _BESIDE_TICK, base, word)

    return Bit(height, paint)


def _need_swatch(swatch: Swatch, size: float) -> float:
    return _BESIDE_SWATCH + longest_word_pt(swatch.words, size)


def _need_tick(tick: Tick, size: float) -> float:
    return _BESIDE_TICK + max(longest_word_pt(word, size) for word in tick.words)


PAINTS: dict[type, Callable[..., tuple[Bit, ...]]] = {
    str: _paint_plain, Strong: _paint_strong, Swatch: _paint_swatch, Room: _paint_room, Tick: _paint_tick,
}  # fmt: skip
NEEDS: dict[type, Callable[..., float]] = {
    str: lambda text, size: longest_word_pt(text, size),
    Strong: lambda strong, size: max(
        longest_word_pt(strong.text, style.MAIN, True), longest_word_pt(strong.then, style.BODY)
    ),
    Swatch: _need_swatch,
    Room: lambda room, size: room.width_hint * _POINTS_PER_MM + width_pt(on_paper(room.words), style.BODY),
    Tick: _need_tick,
}

FULL: dict[type, Callable[..., float]] = {
    str: _lines_pt,
    Strong: lambda strong, size: (
        _lines_pt(strong.text, style.MAIN, True)
        + (_BEFORE_THEN + _lines_pt(strong.then, style.BODY) if strong.then else 0.0)
    ),
    Swatch: lambda swatch, size: _BESIDE_SWATCH + _lines_pt(swatch.words, size),
    Room: lambda room, size: math.inf,
    Tick: lambda tick, size: (
        sum(_BESIDE_TICK + _lines_pt(word, size) + _BETWEEN_TICKS for word in tick.words) - _BETWEEN_TICKS
    ),
}  # fmt: skip


# --- rows -------------------------------------------------------------------------------------------


def _bits_height(bits: tuple[Bit, ...]) -> float:
    return sum(bit.height for bit in bits)


def _page_worths(cells: tuple[tuple[Bit, ...], ...], room: float) -> list[tuple[tuple[Bit, ...], ...]]:
    """A row as it is, or cut into pieces that a page can hold."""
    parts = []
    while max(_bits_height(bits) for bits in cells) + 2 * _PAD_Y > room:
        heads, rests = [], []
        for bits in cells:
            height, count = 2 * _PAD_Y, 0
            while count < len(bits) and height + bits[count].height <= room:
                height += bits[count].height
                count += 1
            heads.append(bits[:count])
            rests.append(bits[count:])
        parts.append(tuple(heads))
        cells = tuple(rests)
    return [*parts, cells]


def _row_strip(cells: tuple[tuple[Bit, ...], ...], widths: list[float], header: bool) -> Strip:
    height = max(max(_bits_height(bits) for bits in cells), style.BODY * style.LEADING) + 2 * _PAD_Y

    def draw(canvas: Any, x: float, y: float) -> None:
        canvas.setLineWidth(style.LINE if header else style.HAIR)
        if header:
            canvas.setFillColor(ink_of(style.PALE))
            canvas.rect(x, y, sum(widths), height, stroke=1, fill=1)
            canvas.setFillColor(ink_of(style.BLACK))
        else:
            canvas.rect(x, y, sum(widths), height, stroke=1, fill=0)
        left = x
        for bits, width in zip(cells, widths, strict=True):
            if left > x:
                canvas.setLineWidth(style.HAIR)
                canvas.line(left, y, left, y + height)
            up = y + height - _PAD_Y
            for bit in bits:
                up -= bit.height
                bit.paint(canvas, left + _PAD_X, up, width - 2 * _PAD_X)
            left += width

    return Strip(height, draw)


def _text_strip(words: str, size: float, bold: bool) -> Strip:
    bit = _line_bit(words, size, bold, "left")
    return Strip(bit.height, lambda canvas, x, y: bit.paint(canvas, x, y, 0.0))


def continued_strip(title: str, width: float) -> Strip:
    """What stands above the rest of a table or list on a further page: its heading and the word for it."""
    lines = [_text_strip(line, style.BODY, True) for line in wrap(f"{title} (continued)", width, style.BODY, True)]
    made = lines[0]
    for line in lines[1:]:
        made = _under(made, line)
    return made._replace(height=made.height + 3.0, draw=lambda canvas, x, y: made.draw(canvas, x, y + 3.0))


def _under(above: Strip, below: Strip) -> Strip:
    """Two strips as one."""

    def draw(canvas: Any, x: float, y: float) -> None:
        above.draw(canvas, x, y + below.height)
        below.draw(canvas, x, y)

    return Strip(above.height + below.height, draw)
