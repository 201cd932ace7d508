"""Shapes drawn on a PDF's page, straight on the canvas."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any

from render.measure import font_name
from render.shapes import Box, Disc, Drawing, Run, Text


@lru_cache(maxsize=64)
def ink_of(ink: str) -> Any:
    """A colour of `render.style` as reportlab wants it."""
    from reportlab.lib.colors import HexColor

    return HexColor(ink)


def paint(canvas: Any, drawing: Drawing, x: float, y: float, scale: float = 1.0) -> None:
    """A drawing with its lower left corner at `x`, `y`; the canvas is left as it was."""
    canvas.saveState()
    canvas.translate(x, y)
    if scale != 1.0:
        canvas.scale(scale, scale)
    for shape in drawing.contents:
        PAINTS[type(shape)](canvas, shape)
    canvas.restoreState()


def _inks(canvas: Any, fill: str | None, stroke: str | None, line: float) -> None:
    if fill:
        canvas.setFillColor(ink_of(fill))
    if stroke:
        canvas.setStrokeColor(ink_of(stroke))
        canvas.setLineWidth(line)


def _text(canvas: Any, text: Text) -> None:
    if text.words:
        canvas.setFillColor(ink_of(text.ink))
        canvas.setFont(font_name(text.bold), text.size)
        canvas.drawString(text.x, text.y, text.words)


def _box(canvas: Any, box: Box) -> None:
    _inks(canvas, box.fill, box.stroke, box.line)
    how = {"stroke": int(bool(box.stroke)), "fill": int(bool(box.fill))}
    if box.round_by:
        canvas.roundRect(box.x, box.y, box.width, box.height, box.round_by, **how)
    else:
        canvas.rect(box.x, box.y, box.width, box.height, **how)


def _run(canvas: Any, run: Run) -> None:
    _inks(canvas, run.fill, run.stroke, run.line)
    path = canvas.beginPath()
    path.moveTo(*run.points[0])
    rest = run.points[1:]
    if run.curved:
        for first, second, end in zip(rest[::3], rest[1::3], rest[2::3], strict=True):
            path.curveTo(*first, *second, *end)
    else:
        for point in rest:
            path.lineTo(*point)
    if run.closed:
        path.close()
    canvas.drawPath(path, stroke=int(bool(run.stroke)), fill=int(bool(run.fill)))


def _disc(canvas: Any, disc: Disc) -> None:
    _inks(canvas, disc.fill, disc.stroke, disc.line)
    canvas.circle(disc.x, disc.y, disc.radius, stroke=int(bool(disc.stroke)), fill=int(bool(disc.fill)))


PAINTS: dict[type, Callable[[Any, Any], None]] = {Text: _text, Box: _box, Run: _run, Disc: _disc}
