"""A face as shapes: housing, square cavities where they are, latch, words. One drawing for PDF and SVG.

Each cavity number is a text of its own, centred on the point that `cavity_centres` gives, so that the
paper can be measured against the plug.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from render import shapes, style
from render.blocks import Cavity, Face
from render.ends.views import HOLD_WORDS, VIEW_WORDS, cavities_by_number, latch_words, legend
from render.measure import longest_word_pt, width_pt, wrap

_NUMBER_LINE, _NUMBER_MIDDLE = 18.0, 10.5  # from the top of a cavity to below its number, and to its middle
_INSET, _NARROW_INSET = 4.0, 2.4  # between a cavity's wall and its text; a thick frame lies within it
_CROSS = 7.0  # the sign of an empty cavity, where there is room for it
_FRAME = 1.9  # a highlighted cavity's second frame
_WALL = 5.0  # between the housing's outline and the outer cavities
_LATCH_DEEP, _LATCH_LONG = 13.0, 64.0
_LATCH_WORD_ROOM = 40.0
# Columns from where, and width below which, a latch at the side has its word in the tab, letter under letter.
_STACKED_ABOVE, _STACKED_BELOW = 12, 320.0
_BESIDE_ENOUGH, _BETWEEN_VIEWS = 46.0, 14.0  # pitch at which both views stand side by side, and their distance
_WIDEST, _WIDE_ENOUGH, _LOWEST = 118.0, 56.0, 30.0


class _Line(NamedTuple):
    words: str
    size: float
    bold: bool


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where everything of a face goes, in points from the lower left corner of the drawing."""

    width: float
    height: float
    pitch: float
    cell_height: float
    left: float  # of the first column
    top: float  # of the first row
    above: tuple[_Line, ...]
    below: tuple[_Line, ...]
    number_size: float
    all_lines: bool
    stacked: bool


def face_width(face: Face) -> float:
    """The width a face is drawn at when nothing else decides: that of the page it belongs on."""
    return style.LANDSCAPE.usable if face.shape.columns > 12 else style.PORTRAIT.usable


def shows_all_lines(face: Face, width: float) -> bool:
    """Whether cavities are wide enough for all their lines, not only for the function."""
    return _plan(face, width).all_lines


def cavity_centres(face: Face, width: float) -> dict[str, tuple[float, float]]:
    """The middle of each cavity's number in points from the lower left corner of the drawing."""
    plan = _plan(face, width)
    centres = {}
    for row, numbers in enumerate(face.shape.rows):
        for column, number in enumerate(numbers):
            if number is not None:
                across = plan.left + (column + 0.5) * plan.pitch
                centres[number] = (across, plan.top - row * plan.cell_height - _NUMBER_MIDDLE)
    return centres


def pair_width(face: Face, width: float) -> float:
    """The width for each view of a pair on a page: half of it where the cavities stay large enough, else all."""
    half = (width - _BETWEEN_VIEWS) / 2
    return half if _plan(face, half).pitch >= _BESIDE_ENOUGH else width


def above_first_row(face: Face, width: float) -> float:
    """From the top of the drawing to the top of its first row, so that two views can stand level."""
    plan = _plan(face, width)
    return plan.height - plan.top


@lru_cache(maxsize=64)
def draw_face(face: Face, width: float) -> shapes.Drawing:
    """The face as a drawing of this width; its height follows."""
    plan = _plan(face, width)
    return shapes.drawing(plan.width, plan.height, _draw(face, plan))


@lru_cache(maxsize=256)
def _plan(face: Face, width: float) -> _Plan:
    width = math.floor(width)
    columns, rows = face.shape.columns, len(face.shape.rows)
    at_side = face.shape.latch in ("left", "right")
    # the same room at both sides, so that the two views of a plug stand exactly under one another
    stacked = columns > _STACKED_ABOVE or width < _STACKED_BELOW
    word = 1.0 if stacked else _LATCH_WORD_ROOM
    beside = _WALL + (_LATCH_DEEP + word if at_side else 1.0)
    pitch = min((width - 2 * beside) / columns, _WIDEST)
    cavities = cavities_by_number(face)
    all_lines = pitch >= _WIDE_ENOUGH
    cell_height = max(_cell_height(cavity, pitch, all_lines) for cavity in cavities.values())
    cell_height = max(cell_height, _LOWEST)
    widest = max(width_pt(number, style.MAIN, True) for number in cavities)
    number_size = max(style.SMALLEST, min(style.MAIN, style.MAIN * (pitch - 1.0) / widest))
    above = _lines(face.title, width, style.MAIN, True) if face.title else ()
    above += _lines(VIEW_WORDS[face.shape.view], width, style.MAIN, True)
    above += _lines(HOLD_WORDS[face.shape.view], width, style.SMALL, False)
    notes = [latch_words(face).capitalize() + "."]
    if face.keying:
        notes.append(f"Keying: {face.keying}.")
    if legend(face):
        notes.append(legend(face))
    below = _lines(" ".join(notes), width, style.SMALL, False)
    latch = 0.0 if at_side else _LATCH_DEEP
    body = rows * cell_height + 2 * _WALL
    # whole points, as the width: the drawing's size must be the plan's, or centres would be off
    height = math.ceil(_height(above) + 4.0 + latch + body + 5.0 + _height(below) + 2.0)
    top = height - _height(above) - 4.0 - (latch if face.shape.latch == "top" else 0.0) - _WALL
    return _Plan(
        width,
        height,
        pitch,
        cell_height,
        (width - columns * pitch) / 2,
        top,
        above,
        below,
        number_size,
        all_lines,
        stacked,
    )


def _lines(words: str, width: float, size: float, bold: bool) -> tuple[_Line, ...]:
    return tuple(_Line(line, size, bold) for line in wrap(words, width, size, bold))


def _height(lines: tuple[_Line, ...]) -> float:
    return sum(line.size * style.LEADING for line in lines)


def _room(pitch: float) -> float:
    """The width for text in a cavity."""
    return pitch - 2 * (_INSET if pitch >= _WIDE_ENOUGH else _NARROW_INSET)


def _cell_lines(cavity: Cavity, pitch: float, all_lines: bool) -> list[_Line]:
    """The text under a cavity's number: function, fate, then what else fits."""
    lines: list[_Line] = []
    said = [words for words in cavity.lines if words]
    for index, words in enumerate(said if all_lines else said[:1]):
        size, bold = _function_size(words, pitch) if index == 0 else (style.SMALLEST, False)
        lines += _lines(words, _room(pitch), size, bold)
    return lines


def _function_size(words: str, pitch: float) -> tuple[float, bool]:
    """The strongest setting in which no word has to be broken; the lightest if none."""
    for size, bold in ((style.BODY, True), (style.SMALLEST, True)):
        if longest_word_pt(words, size, bold) <= _room(pitch):
            return size, bold
    return style.SMALLEST, False


def _colour_words(cavity: Cavity, pitch: float, all_lines: bool) -> list[_Line]:
    if cavity.swatch is None:
        return []
    words = cavity.swatch.words if all_lines else cavity.swatch.code
    return list(_lines(words, _room(pitch), style.SMALLEST, False))


def _cell_height(cavity: Cavity, pitch: float, all_lines: bool) -> float:
    height = _NUMBER_LINE + _height(tuple(_cell_lines(cavity, pitch, all_lines)))
    if cavity.mark:
        height += _height(_lines(cavity.mark, _room(pitch), style.SMALLEST, True)) + 3.0
    if cavity.swatch:
        height += style.SWATCH_HEIGHT + 3.0 + _height(tuple(_colour_words(cavity, pitch, all_lines)))
    return height + 4.0


def _draw(face: Face, plan: _Plan) -> shapes.Shapes:
    drawn: shapes.Shapes = []
    y = plan.height
    for line in plan.above:
        y -= line.size * style.LEADING
        drawn.append(shapes.text(line.words, 0, y + line.size * 0.25, line.size, line.bold))
    columns, rows = face.shape.columns, len(face.shape.rows)
    left, right = plan.left - _WALL, plan.left + columns * plan.pitch + _WALL
    top, bottom = plan.top + _WALL, plan.top - rows * plan.cell_height - _WALL
    drawn += _latch(face.shape.latch, left, right, bottom, top, plan.stacked)
    drawn.append(shapes.box(left, bottom, right - left, top - bottom, style.WHITE, line=1.6, round_by=6.0))
    cavities = cavities_by_number(face)
    for number, (across, up) in cavity_centres(face, plan.width).items():
        drawn += _cavity(cavities[number], across, up, plan)
    y = bottom - 5.0 - (_LATCH_DEEP if face.shape.latch == "bottom" else 0.0)
    for line in plan.below:
        y -= line.size * style.LEADING
        drawn.append(shapes.text(line.words, 0, y + line.size * 0.25, line.size, line.bold))
    return drawn


def _latch(side: str, left: float, right: float, bottom: float, top: float, stacked: bool) -> shapes.Shapes:
    """A tab that grows out of the housing, with the word on it or beside it."""
    middle, centre = (left + right) / 2, (bottom + top) / 2
    half = min(_LATCH_LONG, (right - left) * 0.8) / 2
    if side in ("top", "bottom"):
        edge, out = (top, _LATCH_DEEP) if side == "top" else (bottom, -_LATCH_DEEP)
        half = max(half, width_pt("LATCH", style.SMALLEST, True) / 2 + 7)
        points = [
            middle - half,
            edge,
            middle - half + 5,
            edge + out,
            middle + half - 5,
            edge + out,
            middle + half,
            edge,
        ]
        word = shapes.text("LATCH", middle, edge + out / 2 - 3.3, style.SMALLEST, True, "middle")
        return [shapes.area(points, style.PALE, width=1.2), word]
    step = style.SMALLEST * 1.05
    half = min(half, (top - bottom) * 0.35)
    if stacked:
        half = max(half, 5 * step / 2 + 5)
    edge, out = (left, -_LATCH_DEEP) if side == "left" else (right, _LATCH_DEEP)
    points = [
        edge,
        centre - half,
        edge + out,
        centre - half + 5,
        edge + out,
        centre + half - 5,
        edge,
        centre + half,
    ]
    tab = shapes.area(points, style.PALE, width=1.2)
    if stacked:
        across, high = edge + out / 2, centre + 5 * step / 2
        letters = [
            shapes.text(letter, across, high - (index + 0.85) * step, style.SMALLEST, True, "middle")
            for index, letter in enumerate("LATCH")
        ]
        return [tab, *letters]
    anchor: shapes.Anchor = "end" if side == "left" else "start"
    gap = -3.0 if side == "left" else 3.0
    word = shapes.text("LATCH", edge + out + gap, centre - 3.3, style.SMALLEST, True, anchor)
    return [tab, word]


def _cavity(cavity: Cavity, across: float, up: float, plan: _Plan) -> shapes.Shapes:
    """One cavity: frame, number centred on (across, up), and what is known below it."""
    left, top = across - plan.pitch / 2, up + _NUMBER_MIDDLE
    bottom = top - plan.cell_height
    ground = style.PALE if cavity.state == "crossed" else style.WHITE
    drawn: shapes.Shapes = [shapes.box(left, bottom, plan.pitch, plan.cell_height, ground, line=style.LINE)]
    if cavity.state == "highlighted":
        inset = _FRAME / 2 + 0.4
        drawn.append(
            shapes.box(
                left + inset, bottom + inset, plan.pitch - 2 * inset, plan.cell_height - 2 * inset, None,
                line=_FRAME,
            )
        )  # fmt: skip
    below = top - _NUMBER_LINE
    base = up - style.CAP_HEIGHT * plan.number_size / 2
    drawn.append(shapes.text(cavity.number, across, base, plan.number_size, True, "middle"))
    y = below
    for line in _cell_lines(cavity, plan.pitch, plan.all_lines):
        y = _centred(drawn, line, across, y)
    if cavity.state == "crossed" and y - bottom > 2 * _CROSS:
        # below the words, never through or close to them
        middle = (y + bottom) / 2
        for slope in (1.0, -1.0):
            ends = (across - _CROSS / 2, middle - slope * _CROSS / 2, across + _CROSS / 2, middle + slope * _CROSS / 2)
            drawn.append(shapes.line(*ends, style.LINE))
    if cavity.mark:
        y = _fate(drawn, cavity.mark, across, y, plan)
    if cavity.swatch:
        wide = min(style.SWATCH_WIDTH, plan.pitch - 6)
        y -= style.SWATCH_HEIGHT + 2.0
        drawn += shapes.swatch(cavity.swatch, across - wide / 2, y, wide)
        y -= 1.0
        for line in _colour_words(cavity, plan.pitch, plan.all_lines):
            y = _centred(drawn, line, across, y)
    return drawn


def _centred(drawn: shapes.Shapes, line: _Line, across: float, y: float) -> float:
    """Add a line of text below `y`."""
    y -= line.size * style.LEADING
    drawn.append(shapes.text(line.words, across, y + line.size * 0.25, line.size, line.bold, "middle"))
    return y


def _fate(drawn: shapes.Shapes, mark: str, across: float, y: float, plan: _Plan) -> float:
    """The fate's word, white on black."""
    lines = _lines(mark, _room(plan.pitch), style.SMALLEST, True)
    wide = max(width_pt(line.words, line.size, True) for line in lines) + 4
    y -= 1.0
    high = _height(lines) + 1.0
    drawn.append(shapes.box(across - wide / 2, y - high, wide, high, style.BLACK, None))
    for line in lines:
        y -= line.size * style.LEADING
        drawn.append(shapes.text(line.words, across, y + line.size * 0.2, line.size, True, "middle", style.WHITE))
    return y - 2.0
