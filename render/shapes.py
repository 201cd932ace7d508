"""Small drawings shared by faces, pictures and grids, as plain values; nothing here knows PDF or SVG.

Every function returns shapes in points, y upward. `render.writers.paint` draws them on a PDF's page,
`render.writers.svg` writes them as SVG.
"""

from __future__ import annotations

import math
from typing import Literal, NamedTuple

from render import style
from render.blocks import Swatch
from render.measure import on_paper, width_pt

Anchor = Literal["start", "middle", "end"]


class Text(NamedTuple):
    """One line of text, its baseline's start at `x`, `y`, as wide as it will print."""

    words: str
    x: float
    y: float
    size: float
    bold: bool
    ink: str
    width: float


class Box(NamedTuple):
    """A rectangle by its lower left corner; no ink is None."""

    x: float
    y: float
    width: float
    height: float
    fill: str | None
    stroke: str | None
    line: float
    round_by: float


class Run(NamedTuple):
    """A line or area through points, x and y; `curved`: a start, then three points a Bézier piece."""

    points: tuple[tuple[float, float], ...]
    closed: bool
    curved: bool
    fill: str | None
    stroke: str | None
    line: float


class Disc(NamedTuple):
    """A circle by its middle."""

    x: float
    y: float
    radius: float
    fill: str | None
    stroke: str | None
    line: float


_CASING = 1.3  # of white, between a field and the stripe on it

Shape = Text | Box | Run | Disc
Shapes = list[Shape]


class Drawing(NamedTuple):
    """Shapes and the size of the paper that they need, in whole points."""

    width: int
    height: int
    contents: tuple[Shape, ...]


def drawing(width: float, height: float, shapes: Shapes) -> Drawing:
    """Shapes as one drawing, its size rounded up."""
    return Drawing(math.ceil(width), math.ceil(height), tuple(shapes))


def text(
    words: str, x: float, y: float, size: float, bold: bool = False, anchor: Anchor = "start", ink: str = style.BLACK
) -> Text:
    """One line of text with its baseline at `y`; `anchor` says which part of it `x` is."""
    words = on_paper(words)
    width = width_pt(words, size, bold)
    return Text(words, x - {"start": 0.0, "middle": width / 2, "end": width}[anchor], y, size, bold, ink, width)


def box(
    x: float, y: float, width: float, height: float, fill: str | None = None,
    stroke: str | None = style.BLACK, line: float = style.LINE, round_by: float = 0.0,
) -> Box:  # fmt: skip
    """A rectangle by its lower left corner."""
    return Box(x, y, width, height, fill, stroke, line, round_by)


def line(x1: float, y1: float, x2: float, y2: float, width: float = style.LINE, ink: str = style.BLACK) -> Run:
    """A straight line."""
    return Run(((x1, y1), (x2, y2)), False, False, None, ink, width)


def area(points: list[float], fill: str | None, stroke: str | None = style.BLACK, width: float = style.LINE) -> Run:
    """A closed area through x, y, x, y …"""
    return Run(tuple(zip(points[::2], points[1::2], strict=True)), True, False, fill, stroke, width)


def curve(points: list[tuple[float, float]], width: float = style.LINE, ink: str = style.BLACK) -> Run:
    """A curved line: a start, then two points that pull and an end for each piece."""
    return Run(tuple(points), False, True, None, ink, width)


def disc(x: float, y: float, radius: float, fill: str | None, stroke: str | None = style.BLACK) -> Disc:
    """A circle."""
    return Disc(x, y, radius, fill, stroke, style.LINE)


def swatch(
    given: Swatch, x: float, y: float, width: float = style.SWATCH_WIDTH, height: float = style.SWATCH_HEIGHT
) -> Shapes:
    """The field of a colour by its lower left corner: black outline, stripe as a diagonal band.

    Rings are upright bars, dots are dots. Each of these lies on white and has a black edge, so that it is seen
    in black and white too, where a red and a green are the same grey. A colour without an ink (an unread code)
    is an empty field with a thin cross, so that no one takes it for white.
    """
    ground = style.INKS.get(given.base)
    over = style.INKS.get(given.stripe, style.PALE) if given.stripe else None
    shapes: Shapes = [box(x, y, width, height, ground or style.WHITE, None)]
    if ground is None:
        shapes += [
            line(x, y, x + width, y + height, style.HAIR),
            line(x, y + height, x + width, y, style.HAIR),
        ]
    elif over and given.mark == "ring":
        for start in (0.22, 0.58):
            shapes.append(box(x + width * start - _CASING, y, width * 0.2 + 2 * _CASING, height, style.WHITE, None))
            shapes.append(box(x + width * start, y, width * 0.2, height, over, style.BLACK, style.EDGE))
    elif over and given.mark == "dots":
        for middle in (0.2, 0.5, 0.8):
            shapes.append(disc(x + width * middle, y + height / 2, height * 0.24 + _CASING, style.WHITE, None))
            shapes.append(disc(x + width * middle, y + height / 2, height * 0.24, over))
    elif over:
        shapes.append(area(_band(x, y, width, height, _CASING), style.WHITE, None))
        shapes.append(area(_band(x, y, width, height), over, style.BLACK, style.EDGE))
    shapes.append(box(x, y, width, height, None))
    return shapes


def _band(x: float, y: float, width: float, height: float, more: float = 0.0) -> list[float]:
    """The corners of a stripe across a field, `more` points wider at both its sides."""
    corners = ((0.24, 0.0, -more), (0.54, 0.0, more), (0.76, 1.0, more), (0.46, 1.0, -more))
    return [value for across, up, out in corners for value in (x + width * across + out, y + height * up)]


def twisted_pair(x: float, y: float, width: float, height: float) -> Shapes:
    """Two conductors that cross: three lens shapes between the lower left corner and the upper right."""
    step = width / 3
    shapes: Shapes = []
    for start in (0.0, height):
        low, high = y + start, y + height - start
        points = [(x, low)]
        for lens in range(3):
            left = x + lens * step
            points += [(left + step / 2, low), (left + step / 2, high), (left + step, high)]
            low, high = high, low
        shapes.append(curve(points))
    return shapes


def loudspeaker(x: float, y: float, height: float) -> Shapes:
    """A box with a horn that opens to the right; width is 0.8 of the height."""
    side = height * 0.35
    return [
        box(x, y + height * 0.275, side, height * 0.45),
        area(
            [
                x + side, y + height * 0.275, x + height * 0.8, y, x + height * 0.8, y + height,
                x + side, y + height * 0.725,
            ],
            None,
        ),
    ]  # fmt: skip


def splice(x: float, y: float, height: float) -> Shapes:
    """A dot where conductors are joined."""
    middle = y + height / 2
    return [
        line(x, middle, x + height * 0.8, middle),
        disc(x + height * 0.4, middle, height * 0.2, style.BLACK),
    ]


def fuse(x: float, y: float, height: float) -> Shapes:
    """A rectangle with the conductor running through it."""
    middle = y + height / 2
    return [
        box(x + height * 0.1, middle - height * 0.2, height * 0.7, height * 0.4),
        line(x - height * 0.05, middle, x + height * 0.95, middle),
    ]


def ground(x: float, y: float, height: float) -> Shapes:
    """A conductor down to a bar with three slanting strokes: the car's body."""
    width, bar = height * 0.8, y + height * 0.4
    shapes: Shapes = [line(x + width / 2, y + height, x + width / 2, bar), line(x, bar, x + width, bar)]
    for along in (0.0, 0.5, 1.0):
        shapes.append(line(x + width * along, bar, x + width * along - height * 0.15, y))
    return shapes


def battery(x: float, y: float, height: float) -> Shapes:
    """Two cells: long thin plates and short thick ones between two ends of wire."""
    middle = y + height / 2
    shapes: Shapes = []
    for along, half, width in ((0.2, 0.42, style.LINE), (0.38, 0.2, 2.0), (0.56, 0.42, style.LINE), (0.74, 0.2, 2.0)):
        at = x + height * along
        shapes.append(line(at, middle - height * half, at, middle + height * half, width))
    ends: Shapes = [
        line(x, middle, x + height * 0.2, middle),
        line(x + height * 0.74, middle, x + height * 0.94, middle),
    ]
    return [*ends, *shapes]


SYMBOLS = {"loudspeaker": loudspeaker, "splice": splice, "fuse": fuse, "ground": ground, "battery": battery}
