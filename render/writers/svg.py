"""A picture or a face as SVG, from the same drawing that goes into the PDF."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from render import style
from render.blocks import Bars, Face, Picture
from render.measure import on_paper
from render.shapes import Box, Disc, Drawing, Run, Text

_AROUND = 6.0  # points of white on each side


def write_svg(drawn: Picture | Face | Bars) -> str:
    """The SVG text. A picture that finds no Graphviz gives the list of its connections instead."""
    return _as_svg(DRAWS[type(drawn)](drawn), on_paper(drawn.title))


def _draw_face(face: Face) -> Drawing:
    from render.ends.drawing import draw_face, face_width

    return draw_face(face, face_width(face))


def _draw_picture(picture: Picture) -> Drawing:
    from render.diagrams.route import drawn_alone

    return drawn_alone(picture)


def _draw_bars(bars: Bars) -> Drawing:
    from render.diagrams.bars import draw_bars

    return draw_bars(bars, style.PORTRAIT.usable)


DRAWS: dict[type, Callable[..., Drawing]] = {Face: _draw_face, Picture: _draw_picture, Bars: _draw_bars}


def _as_svg(drawing: Drawing, title: str) -> str:
    """One element a shape, y turned round; no ids, so that two drawings can stand on one web page."""
    width, height = drawing.width + 2 * _AROUND, drawing.height + 2 * _AROUND
    size = f'width="{width:g}" height="{height:g}" viewBox="{-_AROUND:g} {-_AROUND:g} {width:g} {height:g}"'
    lines = [
        '<?xml version="1.0" encoding="utf-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} style="background-color: {style.WHITE}">',
        f"<title>{escape(title)}</title>",
        f'<g font-family="{style.SVG_FAMILY}">',
        *(ELEMENTS[type(shape)](shape, drawing.height) for shape in drawing.contents),
        "</g>",
        "</svg>",
    ]
    return "\n".join(line for line in lines if line) + "\n"


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def _inks(fill: str | None, stroke: str | None, line: float) -> str:
    said = f'fill="{fill or "none"}"'
    return f'{said} stroke="{stroke}" stroke-width="{_number(line)}"' if stroke else said


def _text(text: Text, height: float) -> str:
    if not text.words:
        return ""
    weight = ' font-weight="bold"' if text.bold else ""
    # its own length, so that a viewer with another font still keeps it inside its box
    return (
        f'<text x="{_number(text.x)}" y="{_number(height - text.y)}" font-size="{_number(text.size)}"{weight} '
        f'fill="{text.ink}" textLength="{text.width:.2f}" lengthAdjust="spacingAndGlyphs">{escape(text.words)}</text>'
    )


def _box(box: Box, height: float) -> str:
    corner = f' rx="{_number(box.round_by)}"' if box.round_by else ""
    return (
        f'<rect x="{_number(box.x)}" y="{_number(height - box.y - box.height)}" width="{_number(box.width)}" '
        f'height="{_number(box.height)}"{corner} {_inks(box.fill, box.stroke, box.line)}/>'
    )


def _run(run: Run, height: float) -> str:
    points = [f"{_number(x)} {_number(height - y)}" for x, y in run.points]
    way = f"M {points[0]} {'C' if run.curved else 'L'} {' '.join(points[1:])}{' Z' if run.closed else ''}"
    return f'<path d="{way}" {_inks(run.fill, run.stroke, run.line)}/>'


def _disc(disc: Disc, height: float) -> str:
    return (
        f'<circle cx="{_number(disc.x)}" cy="{_number(height - disc.y)}" r="{_number(disc.radius)}" '
        f"{_inks(disc.fill, disc.stroke, disc.line)}/>"
    )


ELEMENTS: dict[type, Callable[..., str]] = {Text: _text, Box: _box, Run: _run, Disc: _disc}
