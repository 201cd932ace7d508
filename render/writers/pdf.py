"""Sheets as one PDF: A4 with margins that also fit Letter, fonts embedded, the same bytes every time."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from io import BytesIO
from typing import Any

from render import style
from render.blocks import (
    Banner,
    Bars,
    Block,
    Caution,
    Column,
    Face,
    FacePair,
    Grid,
    Heading,
    Keep,
    Listing,
    Masthead,
    PageBreak,
    Para,
    Photo,
    Picture,
    Sheet,
    Strong,
)
from render.ends.views import HOLD_WORDS, VIEW_WORDS, both_views, latch_words
from render.measure import font_name, printable, width_pt, wrap
from render.shapes import Drawing
from render.writers.cells import continued_strip, grid_strips
from render.writers.flow import Frame, Strip, tie
from render.writers.furniture import draw_furniture
from render.writers.leaves import leaves
from render.writers.paint import ink_of, paint
from render.writers.photo import Dots, dots_of

_CAUTION = "CAUTION"
_PHOTO_SHARE = 0.36  # of a page's room, that one photo may be high
_MOST_LEADING = 3  # lines between a heading and its table or list


def write_pdf(sheets: Sequence[Sheet], masthead: Masthead) -> bytes:
    """The PDF of these sheets. Raises TypeError for a block that this writer doesn't know."""
    from reportlab.pdfgen.canvas import Canvas

    laid = leaves(sheets, masthead, block_strips)
    out = BytesIO()
    canvas = Canvas(out, pagesize=(style.A4_WIDTH, style.A4_HEIGHT), invariant=1, initialFontName=font_name(False))
    canvas.setTitle(printable(masthead.job))
    canvas.setAuthor("ringout")
    for number, leaf in enumerate(laid, 1):
        page = leaf.page
        canvas.setPageSize((page.width, page.height))
        for sheet in leaf.begins:
            canvas.bookmarkPage(sheet.name)
            canvas.addOutlineEntry(printable(sheet.title), sheet.name)
        top = draw_furniture(canvas, leaf.head, page, number, len(laid), leaf.sheets)
        for strip, down in leaf.placed:
            strip.draw(canvas, page.left, top - down)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def block_strips(blocks: Iterable[Block], frame: Frame, heading: str = "") -> list[Strip]:
    """The strips of some blocks, in order; a table or list that goes over a page says there what it continues.

    That is its caption, or the heading above it; `heading` is what stands above the first block.
    """
    strips: list[Strip] = []
    before: Block | None = None
    for block in blocks:
        known = STRIPS.get(type(block))
        if known is None:
            raise TypeError(f"the PDF writer knows no {type(block).__name__}")
        if isinstance(block, Heading):
            heading = block.text
        if isinstance(block, Grid):
            strips += grid_strips(block, frame, block.caption or heading)
        elif isinstance(block, Listing):
            strips += _listing(block, frame, heading)
        else:
            made = known(block, frame)
            strips += made
            if isinstance(block, Para) and isinstance(before, Heading) and len(made) <= _MOST_LEADING:
                # a few lines that lead in stay with what they lead to
                strips[-1] = strips[-1]._replace(with_next=True)
        before = block
    return strips


# --- text -------------------------------------------------------------------------------------------


def _line(words: str, size: float, bold: bool = False, indent: float = 0.0, mark: str = "") -> Strip:
    """One line of text, with a mark to its left where it is the first of an item."""

    def draw(canvas: Any, x: float, y: float) -> None:
        canvas.setFont(font_name(bold), size)
        if mark:
            canvas.drawString(x + indent - width_pt(mark, size, bold) - 5.0, y + size * 0.27, mark)
        if words:
            canvas.drawString(x + indent, y + size * 0.27, words)

    return Strip(size * style.LEADING, draw)


def _lines(
    words: str, frame: Frame, size: float, bold: bool, before: float, indent: float = 0.0, mark: str = ""
) -> list[Strip]:
    """Wrapped text; neither its first nor its last line stands alone on a page."""
    wrapped = wrap(words, frame.width - indent, size, bold)
    strips = [_line(line, size, bold, indent, mark if index == 0 else "") for index, line in enumerate(wrapped)]
    strips[0] = strips[0]._replace(before=before)
    for index in {0, len(strips) - 2} & set(range(len(strips) - 1)):
        strips[index] = strips[index]._replace(with_next=True)
    return strips


def _heading(heading: Heading, frame: Frame) -> list[Strip]:
    level = min(max(heading.level, 1), 3)
    strips = _lines(heading.text, frame, style.HEADING[level], True, {1: 12.0, 2: 9.0, 3: 7.0}[level])
    return [strip._replace(with_next=True) for strip in strips]


def _banner(banner: Banner, frame: Frame) -> list[Strip]:
    """White on black where loud; else in a thick frame."""
    size = style.LOUD if banner.loud else style.HEADING[1] + 2.0
    pad = 9.0 if banner.loud else 3.0
    lines = wrap(banner.text, frame.width - 2 * pad, size, True)
    height = len(lines) * size * style.LEADING + 2 * pad

    def draw(canvas: Any, x: float, y: float) -> None:
        canvas.setLineWidth(style.THICK)
        canvas.setFillColor(ink_of(style.BLACK))
        inset = style.THICK / 2
        canvas.rect(
            x + inset, y + inset, frame.width - style.THICK, height - style.THICK, stroke=1, fill=int(banner.loud)
        )
        canvas.setFillColor(ink_of(style.WHITE if banner.loud else style.BLACK))
        canvas.setFont(font_name(True), size)
        up = y + height - pad
        for line in lines:
            up -= size * style.LEADING
            canvas.drawString(x + pad, up + size * 0.27, line)
        canvas.setFillColor(ink_of(style.BLACK))

    return [Strip(height, draw, before=8.0)]


def _para(para: Para, frame: Frame) -> list[Strip]:
    return _lines(para.text, frame, style.BODY, False, 5.0)


def _listing(listing: Listing, frame: Frame, heading: str = "") -> list[Strip]:
    """The items; their heading again, "continued", where they go over a page."""
    marks = [f"{index}." if listing.numbered else "•" for index in range(1, len(listing.items) + 1)]
    indent = max((width_pt(mark, style.BODY) for mark in marks), default=0.0) + 9.0
    strips: list[Strip] = []
    for mark, item in zip(marks, listing.items, strict=True):
        strips += _lines(item, frame, style.BODY, False, 3.0 if strips else 6.0, indent, mark)
    again = continued_strip(heading, frame.width) if heading else None
    return [*strips[:1], *(strip._replace(again=again) for strip in strips[1:])]


def _caution(caution: Caution, frame: Frame) -> list[Strip]:
    """A thick box; more than a page of it becomes several boxes."""
    pad, beside = 4.0, width_pt(_CAUTION, style.MAIN, True) + 12.0
    lines = wrap(caution.text, frame.width - beside - 2 * pad, style.MAIN, True)
    step = style.MAIN * style.LEADING
    most = max(int((frame.room - 2 * pad) // step), 1)
    return [_caution_box(lines[start : start + most], frame.width, pad, beside) for start in range(0, len(lines), most)]


def _caution_box(lines: tuple[str, ...], width: float, pad: float, beside: float) -> Strip:
    step = style.MAIN * style.LEADING
    height = len(lines) * step + 2 * pad

    def draw(canvas: Any, x: float, y: float) -> None:
        canvas.setLineWidth(style.THICK)
        inset = style.THICK / 2
        canvas.rect(x + inset, y + inset, width - style.THICK, height - style.THICK, stroke=1, fill=0)
        canvas.setFillColor(ink_of(style.BLACK))
        canvas.rect(x, y, beside - 4.0 + pad / 2, height, stroke=0, fill=1)
        canvas.setFillColor(ink_of(style.WHITE))
        canvas.setFont(font_name(True), style.MAIN)
        canvas.drawString(x + pad, y + height - pad - step + style.MAIN * 0.27, _CAUTION)
        canvas.setFillColor(ink_of(style.BLACK))
        up = y + height - pad
        for line in lines:
            up -= step
            canvas.drawString(x + beside + pad, up + style.MAIN * 0.27, line)

    return Strip(height, draw, before=8.0)


# --- drawings ---------------------------------------------------------------------------------------


def _drawing_strip(drawing: Drawing, frame: Frame, scale: float = 1.0) -> Strip:
    """A drawing in the middle of the page's width."""

    def draw(canvas: Any, x: float, y: float) -> None:
        paint(canvas, drawing, x + (frame.width - drawing.width * scale) / 2, y, scale)

    return Strip(drawing.height * scale, draw, before=10.0)


def _face(face: Face, frame: Frame) -> list[Strip]:
    from render.ends.drawing import draw_face

    drawing = draw_face(face, frame.width)
    if drawing.height <= frame.room:
        return [_drawing_strip(drawing, frame)]
    # too many rows for one page: the numbers where they stand, as a table that can go over pages
    columns = tuple(Column(str(index + 1), 1.0, "centre") for index in range(face.shape.columns))
    rows = tuple(tuple(Strong(number or "") for number in row) for row in face.shape.rows)
    said = f"{VIEW_WORDS[face.shape.view]}. {HOLD_WORDS[face.shape.view]} {latch_words(face).capitalize()}."
    return block_strips((Heading(face.title, 2), Para(said), Grid(columns, rows, "Numbers as seen, by column")), frame)


def _face_pair(pair: FacePair, frame: Frame) -> list[Strip]:
    """Both views on one page, the title once: side by side where the plug is small, else one below the other.

    Where two don't fit, the mirror gives up all but numbers and functions.
    """
    from render.ends.drawing import pair_width

    held, mirror = both_views(pair)
    wide = pair_width(held, frame.width)
    if wide < frame.width:
        return [_side_by_side(held, mirror, wide, frame)]
    first = _face(replace(held, title=""), frame) if pair.brief else _face(held, frame)
    untitled = replace(mirror, title="")
    for second in (*(() if pair.brief else (untitled,)), _numbers_only(untitled)):
        both = [*first, *_face(second, frame)]
        if sum(strip.before + strip.height for strip in both) <= frame.room:
            return tie(both, frame.room)
    return first + _face(mirror, frame)


def _side_by_side(left: Face, right: Face, wide: float, frame: Frame) -> Strip:
    """Two views with their rows level, whatever words stand above them."""
    from render.ends.drawing import above_first_row, draw_face

    drawings = [draw_face(face, wide) for face in (left, right)]
    above = [above_first_row(face, wide) for face in (left, right)]
    below = max(drawing.height - over for drawing, over in zip(drawings, above, strict=True))
    height = max(above) + below

    def draw(canvas: Any, x: float, y: float) -> None:
        for drawing, over, across in zip(drawings, above, (0.0, frame.width - wide), strict=True):
            paint(canvas, drawing, x + across, y + height - max(above) + over - drawing.height)

    return Strip(height, draw, before=8.0)


def _numbers_only(face: Face) -> Face:
    bare = tuple(replace(cavity, lines=cavity.lines[:1], swatch=None, mark="") for cavity in face.cavities)
    return replace(face, cavities=bare)


def _picture(picture: Picture, frame: Frame) -> list[Strip]:
    """At full size, with narrower boxes, scaled as far as text allows, a picture a group, or in words."""
    from render.diagrams.route import TOO_LARGE, connections, fitted, smaller

    found = fitted(picture, frame.width, frame.room)
    if not isinstance(found, str):
        return [_drawing_strip(found[0], frame, found[1])]
    # a program that is missing or fails would fail for the parts as well
    parts = smaller(picture) if found == TOO_LARGE else ()
    if len(parts) > 1:
        return [strip for part in parts for strip in _picture(part, frame)]
    return block_strips((Heading(picture.title, 2), Para(found), Listing(connections(picture))), frame)


def _bars(bars: Bars, frame: Frame) -> list[Strip]:
    from render.diagrams.bars import draw_bars

    return [_drawing_strip(draw_bars(bars, frame.width), frame)]


def _photo(photo: Photo, frame: Frame) -> list[Strip]:
    """Words and picture stay together; the picture is at most so high that two fit on a page."""
    strips = _lines(photo.title, frame, style.MAIN, True, 10.0)
    for line in photo.lines:
        strips += _lines(line, frame, style.BODY, False, 1.0)
    dots = photo.why or dots_of(photo.path)
    if isinstance(dots, str):
        strips += _banner(Banner(f"Not shown: {dots}."), frame)
    else:
        strips.append(_dots_strip(dots, frame))
    strips += _lines(photo.name, frame, style.SMALL, False, 2.0)
    return tie(strips, frame.room)


def _dots_strip(dots: Dots, frame: Frame) -> Strip:
    scale = min(frame.width / dots.width, frame.room * _PHOTO_SHARE / dots.height)
    width, height = dots.width * scale, dots.height * scale

    def draw(canvas: Any, x: float, y: float) -> None:
        from PIL import Image
        from reportlab.lib.utils import ImageReader

        picture = ImageReader(Image.frombytes("RGB", (dots.width, dots.height), dots.rgb))
        canvas.drawImage(picture, x, y, width, height)
        canvas.setLineWidth(style.LINE)
        canvas.rect(x, y, width, height, stroke=1, fill=0)

    return Strip(height, draw, before=4.0)


# --- the rest ---------------------------------------------------------------------------------------


def _keep(keep: Keep, frame: Frame) -> list[Strip]:
    return tie(block_strips(keep.blocks, frame), frame.room)


def _page_break(_: PageBreak, frame: Frame) -> list[Strip]:
    return [Strip(0.0, lambda canvas, x, y: None, new_page=True)]


STRIPS: dict[type, Callable[..., list[Strip]]] = {
    Heading: _heading, Banner: _banner, Para: _para, Caution: _caution, Listing: _listing, Grid: grid_strips,
    Face: _face, FacePair: _face_pair, Picture: _picture, Photo: _photo, Bars: _bars, Keep: _keep,
    PageBreak: _page_break,
}  # fmt: skip
