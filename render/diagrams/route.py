"""Pictures of routes: boxes measured in our own font, placed by Graphviz, drawn as plain shapes.

A connection is one line in one ink. Its words, the swatches of its wires and the sign of a twisted pair
stand in a small box of their own on the line, which Graphviz places like any other box, so that words
never lie on lines.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import NamedTuple

from render import shapes, style
from render.blocks import Edge, Node, Picture, Swatch
from render.diagrams.dot import CLOSE_GAPS, WIDE_GAPS, Box, dot_text, expected_size
from render.diagrams.run import MOST_LINES, Layout, Wanted, lay_out, lay_out_ahead
from render.measure import width_pt, wrap

# What may be made of a picture that is too large: scaled until its text is as small as text may be.
SMALLEST_SCALE = style.SMALLEST / style.PICTURE_TEXT

# Widest box before its lines wrap, the first that gives a picture small enough for its page.
BOX_WIDTHS = (190.0, 130.0, 95.0, 78.0)
# How far a foreseen size may be off before a layout is not worth trying.
_GUESS = 0.85
_PAD = 5.0
_SYMBOL = 18.0
_TITLE_GAP = 8.0
_ARROW = 6.0
NO_LAYOUT = "Not drawn: Graphviz was not found, or there are too many connections for one picture."
TOO_LARGE = "Not drawn: too large for one page with text that can be read."


class _Drawn(NamedTuple):
    """A box ready to place: its lines of text, which of them are bold, and its size in points.

    `swatches` stand before the lines with these numbers.
    """

    lines: tuple[tuple[str, float, bool], ...]
    width: float
    height: float
    left: float  # where its text starts, from the box's left
    swatches: tuple[tuple[int, Swatch], ...] = ()


def draw_picture(picture: Picture, widest: float = BOX_WIDTHS[0]) -> shapes.Drawing | None:
    """The picture as a drawing at full size, or None where it can't be laid out.

    Lines of text wrap in boxes of at most `widest` points.
    """
    drawing = _drawn(picture, widest)
    return None if isinstance(drawing, str) else drawing


def fitted(picture: Picture, width: float, height: float) -> tuple[shapes.Drawing, float] | str:
    """The drawing and the scale at which it fits, the widest boxes that do; or why there is none, in words.

    The scale is 1 at most, and never one that makes text smaller than text may be.
    """
    for widest in candidates(picture, width, height):
        drawing = _drawn(picture, widest)
        if isinstance(drawing, str):
            return drawing
        scale = min(1.0, width / drawing.width, height / drawing.height)
        if scale >= SMALLEST_SCALE:
            return drawing, scale
    return TOO_LARGE


def drawn_alone(picture: Picture) -> shapes.Drawing:
    """The picture for a file of its own, of any size; the list of its connections where it can't be laid out."""
    page = style.LANDSCAPE
    likely = candidates(picture, page.usable, page.top - page.bottom)
    drawing = _drawn(picture, likely[0] if likely else BOX_WIDTHS[0])
    return draw_list(picture, style.PORTRAIT.usable, drawing) if isinstance(drawing, str) else drawing


def ahead(pictures: Iterable[tuple[Picture, float, float]]) -> None:
    """Have all pictures of a packet laid out in one run of Graphviz: each with the page's width and height."""
    lay_out_ahead(each for picture, width, height in pictures for each in _likely(picture, width, height))


def _likely(picture: Picture, width: float, height: float) -> Iterator[Wanted]:
    """The layouts that `fitted` and the writers will ask for, as far as that can be foreseen."""
    likely = candidates(picture, width, height)
    if likely:
        yield _plan(picture, likely[0]).wanted
        return
    parts = smaller(picture)
    for part in parts if len(parts) > 1 else ():
        yield from _likely(part, width, height)


class _Plan(NamedTuple):
    """A picture measured: its boxes and labels, what to ask of Graphviz, and the size to expect."""

    nodes: tuple[_Drawn, ...]
    labels: tuple[_Drawn | None, ...]
    wanted: Wanted
    width: float
    height: float


@lru_cache(maxsize=256)
def _plan(picture: Picture, widest: float) -> _Plan:
    nodes = tuple(_measure_node(node, widest) for node in picture.nodes)
    labels = tuple(_measure_label(edge, widest) for edge in picture.edges)
    place = {node.name: index for index, node in enumerate(picture.nodes)}
    boxes = [Box(drawn.width, drawn.height, node.stage) for node, drawn in zip(picture.nodes, nodes, strict=True)]
    lines: list[tuple[int, int]] = []
    for edge, label in zip(picture.edges, labels, strict=True):
        tail, head = place[edge.tail], place[edge.head]
        if label is None:
            lines.append((tail, head))
        else:
            boxes.append(Box(label.width, label.height))
            lines += [(tail, len(boxes) - 1), (len(boxes) - 1, head)]
    gaps = CLOSE_GAPS if picture.close else WIDE_GAPS
    width, height = expected_size(boxes, lines, gaps)
    return _Plan(nodes, labels, Wanted(dot_text(boxes, lines, gaps), len(boxes), len(lines)), width, height)


def candidates(picture: Picture, width: float, height: float) -> list[float]:
    """The widths of boxes worth trying, the likeliest first; none where the picture is far too large for the page."""
    sure, perhaps = [], []
    for widest in BOX_WIDTHS:
        plan = _plan(picture, widest)
        if plan.wanted.lines > MOST_LINES:
            continue
        scale = min(width / max(plan.width, 1.0), height / max(plan.height, 1.0))
        if scale >= SMALLEST_SCALE:
            sure.append(widest)
        elif scale >= SMALLEST_SCALE * _GUESS:
            perhaps.append(widest)
    return sure + perhaps


def _drawn(picture: Picture, widest: float) -> shapes.Drawing | str:
    plan = _plan(picture, widest)
    try:
        layout = lay_out(*plan.wanted)
    except RuntimeError as error:
        # a broken layout program costs the picture, never the packet: the connections print in words
        return f"Not drawn: {error}."
    if layout is None:
        return NO_LAYOUT
    return _draw(picture, plan.nodes, plan.labels, layout)


def by_group(picture: Picture) -> tuple[Picture, ...]:
    """One picture a group of its edges, in the order they first stand; the nodes that each one touches.

    A picture with fewer than two groups is given back as it is.
    """
    groups = list(dict.fromkeys(edge.group for edge in picture.edges))
    if len(groups) < 2:
        return (picture,)
    split = []
    for group in groups:
        edges = tuple(edge for edge in picture.edges if edge.group == group)
        touched = {name for edge in edges for name in (edge.tail, edge.head)}
        nodes = tuple(node for node in picture.nodes if node.name in touched)
        title = f"{picture.title}: {group}" if group else picture.title
        split.append(replace(picture, title=title, nodes=nodes, edges=edges))
    return tuple(split)


def smaller(picture: Picture) -> tuple[Picture, ...]:
    """The parts of a picture too large for its page: by its groups, else one half of the way after the other.

    Just the picture where there is nothing to part.
    """
    parts = by_group(picture)
    return parts if len(parts) > 1 else by_length(picture)


def by_length(picture: Picture) -> tuple[Picture, ...]:
    """The first half of every way and the rest, each edge once; the boxes where they were parted stand in both."""
    depth = dict.fromkeys((node.name for node in picture.nodes), 0)
    for _ in picture.nodes:
        deeper = {edge.head: depth[edge.tail] + 1 for edge in picture.edges if depth[edge.head] <= depth[edge.tail]}
        if not deeper:
            break
        depth |= deeper
    else:
        return (picture,)  # a ring has no halves
    deepest = max(depth.values(), default=0)
    if deepest < 2:
        return (picture,)
    made = []
    for words, late in (("first half", False), ("second half", True)):
        edges = tuple(edge for edge in picture.edges if (2 * depth[edge.tail] >= deepest) == late)
        touched = {name for edge in edges for name in (edge.tail, edge.head)}
        nodes = tuple(node for node in picture.nodes if node.name in touched)
        made.append(replace(picture, title=f"{picture.title}, {words} of the way", nodes=nodes, edges=edges))
    return tuple(made)


def connections(picture: Picture) -> tuple[str, ...]:
    """The picture in words, a line a connection: `radio → dsp in1: FL, white with black stripe`."""
    titles = {node.name: node.title for node in picture.nodes}
    said = []
    for edge in picture.edges:
        words = [edge.words] if edge.words else []
        words += [swatch.words for swatch in edge.swatches]
        words += ["twisted"] if edge.twisted else []
        tail = f": {', '.join(words)}" if words else ""
        said.append(f"{titles[edge.tail]} → {titles[edge.head]}{tail}")
    touched = {name for edge in picture.edges for name in (edge.tail, edge.head)}
    said += [f"{node.title}: no connection" for node in picture.nodes if node.name not in touched]
    return tuple(said)


def draw_list(picture: Picture, width: float, why: str = NO_LAYOUT) -> shapes.Drawing:
    """The connections as lines of text, where no picture can be drawn."""
    said: list[tuple[str, float, bool]] = [(picture.title, style.MAIN, True)]
    said += [(text, style.BODY, False) for text in wrap(why, width, style.BODY)]
    for line in connections(picture):
        said += [(text, style.BODY, False) for text in wrap(line, width, style.BODY)]
    height = sum(size * style.LEADING for _, size, _ in said) + 2
    y = float(math.ceil(height))
    drawn: shapes.Shapes = []
    for text, size, bold in said:
        y -= size * style.LEADING
        drawn.append(shapes.text(text, 0, y + size * 0.25, size, bold))
    return shapes.drawing(width, height, drawn)


def _measure_node(node: Node, widest: float) -> _Drawn:
    symbol = _SYMBOL + 4.0 if node.symbol != "box" else 0.0
    room = widest - 2 * _PAD - symbol
    if symbol:  # a sign takes room from words that would have stood whole without it
        words = [word for said in node.lines for word in said.split()]
        longest = max((width_pt(word, style.PICTURE_TEXT) for word in words), default=0.0)
        room = min(max(room, longest + 0.5), widest - 2 * _PAD)
    lines = [(text, style.PICTURE_TITLE, True) for text in wrap(node.title, room, style.PICTURE_TITLE, True)]
    for said in node.lines:
        lines += [(text, style.PICTURE_TEXT, False) for text in wrap(said, room, style.PICTURE_TEXT)]
    width = max(width_pt(*line) for line in lines) + 2 * _PAD + symbol
    height = max(sum(size * style.LEADING for _, size, _ in lines), _SYMBOL if symbol else 0.0) + 2 * _PAD
    return _Drawn(tuple(lines), width, height, _PAD + symbol)


def _measure_label(edge: Edge, widest: float) -> _Drawn | None:
    """The box on a line: sign, words, then each wire's swatch with its own; None for a bare line."""
    said: list[tuple[str, Swatch | None]] = [(edge.words, None)] if edge.words else []
    said += [(swatch.words, swatch) for swatch in edge.swatches]
    if not said and not edge.twisted:
        return None
    marks = (style.SWATCH_WIDTH + 4.0 if edge.swatches else 0.0) + (_SYMBOL + 4.0 if edge.twisted else 0.0)
    lines: list[tuple[str, float, bool]] = []
    swatches = []
    for words, swatch in said or [("", None)]:
        swatches += [(len(lines), swatch)] if swatch is not None else []
        lines += [(text, style.PICTURE_TEXT, False) for text in wrap(words, widest - marks, style.PICTURE_TEXT)]
    width = max(width_pt(*line) for line in lines) + marks + 6.0
    height = max(len(lines) * style.PICTURE_TEXT * style.LEADING, style.SWATCH_HEIGHT) + 3.0
    return _Drawn(tuple(lines), width, height, 3.0 + marks, tuple(swatches))


@lru_cache(maxsize=64)
def _draw(
    picture: Picture, nodes: tuple[_Drawn, ...], labels: tuple[_Drawn | None, ...], layout: Layout
) -> shapes.Drawing:
    title = wrap(picture.title, max(layout.width, 200.0), style.MAIN, True)
    above = len(title) * style.MAIN * style.LEADING + _TITLE_GAP
    width = max(layout.width, max(width_pt(line, style.MAIN, True) for line in title)) + 4.0
    height = math.ceil(layout.height + above + 4.0)
    drawn: shapes.Shapes = []
    for index, line in enumerate(title):
        drawn.append(shapes.text(line, 0, height - (index + 1) * style.MAIN * style.LEADING + 3, style.MAIN, True))
    # lines first, so that boxes lie over their ends
    start = 0
    for label in labels:
        pieces = 1 if label is None else 2
        for piece in range(pieces):
            drawn += _draw_line(layout.curves[start + piece], piece == pieces - 1)
        start += pieces
    for node, box, centre in zip(picture.nodes, nodes, layout.centres, strict=False):
        drawn += _draw_node(node, box, centre)
    rest = iter(layout.centres[len(nodes) :])
    for edge, label in zip(picture.edges, labels, strict=True):
        if label is not None:
            drawn += _draw_label(edge, label, next(rest))
    return shapes.drawing(width, height, drawn)


def _draw_line(points: tuple[tuple[float, float], ...], arrow: bool) -> shapes.Shapes:
    shifted = [(x + 2, y + 2) for x, y in points]
    drawn: shapes.Shapes = [shapes.curve(shifted, 1.0)]
    if arrow:
        (x0, y0), (x, y) = shifted[-2], shifted[-1]
        angle = math.atan2(y - y0, x - x0)
        corners = [x, y]
        for side in (2.7, -2.7):
            corners += [x + _ARROW * math.cos(angle + side), y + _ARROW * math.sin(angle + side)]
        drawn.append(shapes.area(corners, style.BLACK, width=style.HAIR))
    return drawn


def _draw_node(node: Node, box: _Drawn, centre: tuple[float, float]) -> shapes.Shapes:
    left, middle = centre[0] + 2 - box.width / 2, centre[1] + 2
    drawn: shapes.Shapes = [shapes.box(left, middle - box.height / 2, box.width, box.height, style.WHITE, line=1.0)]
    if node.symbol != "box":
        drawn += shapes.SYMBOLS[node.symbol](left + _PAD, middle - _SYMBOL / 2, _SYMBOL)
    return drawn + _draw_lines(box, left, middle)


def _draw_label(edge: Edge, box: _Drawn, centre: tuple[float, float]) -> shapes.Shapes:
    left, middle = centre[0] + 2 - box.width / 2, centre[1] + 2
    bottom = middle - box.height / 2
    drawn: shapes.Shapes = [shapes.box(left, bottom, box.width, box.height, style.WHITE, style.MID, style.HAIR)]
    across = left + 3.0
    if edge.twisted:
        drawn += shapes.twisted_pair(across, middle - 4, _SYMBOL, 8)
        across += _SYMBOL + 4.0
    step = style.PICTURE_TEXT * style.LEADING
    first = middle + len(box.lines) * step / 2
    for number, swatch in box.swatches:
        drawn += shapes.swatch(swatch, across, first - (number + 0.5) * step - style.SWATCH_HEIGHT / 2)
    return drawn + _draw_lines(box, left, middle)


def _draw_lines(box: _Drawn, left: float, middle: float) -> shapes.Shapes:
    y = middle + sum(size * style.LEADING for _, size, _ in box.lines) / 2
    drawn: shapes.Shapes = []
    for words, size, bold in box.lines:
        y -= size * style.LEADING
        if words:
            drawn.append(shapes.text(words, left + box.left, y + size * 0.27, size, bold))
    return drawn
