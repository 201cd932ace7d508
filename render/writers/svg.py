"""A picture or a face as SVG, from the same drawing that goes into the PDF."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from render import style
from render.blocks import Face, Picture
from render.measure import printable

_AROUND = 6.0  # points of white on each side


def write_svg(drawn: Picture | Face) -> str:
    """The SVG text. A picture that finds no Graphviz gives the list of its connections instead."""
    return _as_svg(DRAWS[type(drawn)](drawn), printable(drawn.title))


def _draw_face(face: Face) -> Any:
    from render.ends.drawing import draw_face, face_width

    return draw_face(face, face_width(face))


def _draw_picture(picture: Picture) -> Any:
    from render.diagrams.route import drawn_alone

    return drawn_alone(picture)


DRAWS: dict[type, Callable[..., Any]] = {Face: _draw_face, Picture: _draw_picture}


def _as_svg(drawing: Any, title: str) -> str:
    from reportlab.graphics import renderSVG

    fonts = {
        style.REGULAR: {"family": style.SVG_FAMILY, "weight": "normal"},
        style.BOLD: {"family": style.SVG_FAMILY, "weight": "bold"},
    }
    width, height = drawing.width + 2 * _AROUND, drawing.height + 2 * _AROUND
    attributes = {
        "width": f"{width:g}",
        "height": f"{height:g}",
        "viewBox": f"{-_AROUND:g} {-_AROUND:g} {width:g} {height:g}",
        "style": "background-color: #ffffff",
    }
    canvas = renderSVG.SVGCanvas((drawing.width, drawing.height), fontHacks=fonts, svgAttrs=attributes)
    renderSVG.draw(drawing, canvas, 0, 0)
    root = canvas.svg
    # the renderer's fixed ids would clash, and clip one another, where two drawings stand on one web page
    for element in root.getElementsByTagName("clipPath") + root.getElementsByTagName("desc"):
        root.removeChild(element)
    for attribute in ("id", "style"):
        canvas.groupTree.removeAttribute(attribute)
    root.getElementsByTagName("title")[0].firstChild.data = title
    return f'<?xml version="1.0" encoding="utf-8"?>\n{root.toprettyxml(indent="")}'
