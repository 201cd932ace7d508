"""Small drawings shared by faces, pictures and grids, as reportlab.graphics shapes.

Every function returns a list of shapes in points, y upward. Text goes through `text()`, so that a viewer
of the SVG with another font still keeps it inside its box.
"""

from __future__ import annotations

import math
from typing import Any

from render import style
from render.blocks import Swatch
from render.measure import font_name, on_paper, width_pt

Shapes = list[Any]


def ink_of(ink: str) -> Any:
    """A colour of `render.style` as reportlab wants it."""
    from reportlab.lib.colors import HexColor

    return HexColor(ink)


def drawing(width: float, height: float, shapes: Shapes) -> Any:
    """Shapes as one reportlab Drawing; its size is rounded up, since the SVG renderer cuts fractions off."""
    from reportlab.graphics.shapes import Drawing

    # without a font of ours the renderer would name one that is not embedded
    made = Drawing(math.ceil(width), math.ceil(height), initialFontName=font_name(False))
    for shape in shapes:
        made.add(shape)
    return made


def text(
    words: str,
    x: float,
    y: float,
    size: float,
    bold: bool = False,
    anchor: str = "start",
    ink: str = style.BLACK,
) -> Any:
    """One line of text with its baseline at `y`; `anchor` start, middle or end says what `x` is."""
    from reportlab.graphics.shapes import String

    words = on_paper(words)
    # the SVG renderer drops the fraction of 2*y, which would shift a line by up to a point
    drawn = String(x, round(y * 2) / 2, words, fontName=font_name(bold), fontSize=size, textAnchor=anchor)
    drawn.fillColor = ink_of(ink)
    if words:
        drawn._svgAttrs = {
            "textLength": f"{width_pt(words, size, bold):.2f}",
            "lengthAdjust": "spacingAndGlyphs",
        }
    return drawn


def box(
    x: float, y: float, width: float, height: float, fill: str | None = None,
    stroke: str | None = style.BLACK, line: float = style.LINE, round_by: float = 0.0,
) -> Any:  # fmt: skip
    """A rectangle by its lower left corner."""
    from reportlab.graphics.shapes import Rect

    return Rect(
        x, y, width, height, rx=round_by, ry=round_by, strokeWidth=line,
        fillColor=ink_of(fill) if fill else None, strokeColor=ink_of(stroke) if stroke else None,
    )  # fmt: skip


def line(x1: float, y1: float, x2: float, y2: float, width: float = style.LINE, ink: str = style.BLACK) -> Any:
    """A straight line."""
    from reportlab.graphics.shapes import Line

    return Line(x1, y1, x2, y2, strokeWidth=width, strokeColor=ink_of(ink))


def area(points: list[float], fill: str | None, stroke: str | None = style.BLACK, width: float = style.LINE) -> Any:
    """A closed area through x, y, x, y …"""
    from reportlab.graphics.shapes import Polygon

    return Polygon(
        points, strokeWidth=width, fillColor=ink_of(fill) if fill else None,
        strokeColor=ink_of(stroke) if stroke else None,
    )  # fmt: skip


def disc(x: float, y: float, radius: float, fill: str | None, stroke: str | None = style.BLACK) -> Any:
    """A circle."""
    from reportlab.graphics.shapes import Circle

    return Circle(
        x, y, radius, strokeWidth=style.LINE, fillColor=ink_of(fill) if fill else None,
        strokeColor=ink_of(stroke) if stroke else None,
    )  # fmt: skip


def swatch(
    given: Swatch, x: float, y: float, width: float = style.SWATCH_WIDTH, height: float = style.SWATCH_HEIGHT
) -> Shapes:
    """The field of a colour by its lower left corner: black outline, stripe as a diagonal band.

    Rings are upright bars, dots are dots. A colour without an ink (an unread code) is an empty field with
    a thin cross, so that no one takes it for white.
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
            shapes.append(box(x + width * start, y, width * 0.2, height, over, style.BLACK, style.HAIR))
    elif over and given.mark == "dots":
        for middle in (0.2, 0.5, 0.8):
            shapes.append(disc(x + width * middle, y + height / 2, height * 0.24, over))
    elif over:
        band = [(0.24, 0.0), (0.54, 0.0), (0.76, 1.0), (0.46, 1.0)]
        points = [value for across, up in band for value in (x + width * across, y + height * up)]
        shapes.append(area(points, over, style.BLACK, style.HAIR))
    shapes.append(box(x, y, width, height, None))
    return shapes


def twisted_pair(x: float, y: float, width: float, height: float) -> Shapes:
    """Two conductors that cross: three lens shapes between the lower left corner and the upper right."""
    from reportlab.graphics.shapes import Path

    step = width / 3
    shapes: Shapes = []
    for start in (0.0, height):
        path = Path(strokeWidth=style.LINE, strokeColor=ink_of(style.BLACK), fillColor=None)
        low, high = y + start, y + height - start
        path.moveTo(x, low)
        for lens in range(3):
            left = x + lens * step
            path.curveTo(left + step / 2, low, left + step / 2, high, left + step, high)
            low, high = high, low
        shapes.append(path)
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
    shapes = [line(x + width / 2, y + height, x + width / 2, bar), line(x, bar, x + width, bar)]
    for along in (0.0, 0.5, 1.0):
        shapes.append(line(x + width * along, bar, x + width * along - height * 0.15, y))
    return shapes


SYMBOLS = {"loudspeaker": loudspeaker, "splice": splice, "fuse": fuse, "ground": ground}
