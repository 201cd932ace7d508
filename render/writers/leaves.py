"""Sheets on pages of paper: where each begins, which share a page, and the title that stands above."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any, NamedTuple

from render import style
from render.blocks import Block, Keep, Masthead, Picture, Sheet
from render.measure import font_name, wrap
from render.writers.flow import Frame, Placed, Strip, pages
from render.writers.furniture import Head, measure_head, room_for

# The strips of some blocks in a frame, below a title: what the PDF writer makes of them.
Strips = Callable[[Iterable[Block], Frame, str], list[Strip]]


class Leaf(NamedTuple):
    """One page of paper: its masthead, what stands on it, the sheets on it, and those that begin on it."""

    head: Head
    page: style.Page
    placed: list[Placed]
    sheets: tuple[Sheet, ...]
    begins: tuple[Sheet, ...]


def leaves(sheets: Sequence[Sheet], masthead: Masthead, strips_of: Strips) -> list[Leaf]:
    """The sheets on their pages; one that `shares` stands below the sheet before where all of it fits.

    The masthead names every sheet that stands on its page.
    """
    made: list[Leaf] = []
    framed: list[tuple[Sheet, Head, style.Page, Frame]] = []
    for sheet in sheets:
        page = style.LANDSCAPE if sheet.landscape else style.PORTRAIT
        head = measure_head(masthead, sheet, page.usable)
        framed.append((sheet, head, page, Frame(page.usable, room_for(head, page))))
    _pictures_ahead((sheet, frame) for sheet, _, _, frame in framed)
    for sheet, head, page, frame in framed:
        strips = strips_of(sheet.blocks, frame, sheet.title)
        cut = pages(strips, frame.room)
        if sheet.shares and made and made[-1].page is page:
            below = _below(made[-1], masthead, sheet, strips, frame)
            if below and len(below[1]) <= len(cut):
                shared, rest = below[0], below[1][1:]
                made[-1] = shared._replace(placed=[*shared.placed, *below[1][0]])
                made += [Leaf(head, page, placed, (sheet,), ()) for placed in rest]
                continue
        made += [Leaf(head, page, placed, (sheet,), () if index else (sheet,)) for index, placed in enumerate(cut)]
    return made


def _below(
    leaf: Leaf, masthead: Masthead, sheet: Sheet, strips: list[Strip], frame: Frame
) -> tuple[Leaf, list[list[Placed]]] | None:
    """The page with both titles above it, and the sheet's pages where it begins there; None where it should not.

    It should with all of it, or with the start of a sheet longer than a page where half of this page is free.
    """
    used = leaf.placed[-1].down if leaf.placed else 0.0
    if not used or not strips:
        return None
    titles = " + ".join(each.title for each in (*leaf.sheets, sheet))
    head = measure_head(masthead, replace(sheet, title=titles), leaf.page.usable)
    room = room_for(head, leaf.page)
    if used > room:
        return None  # a title of both takes more lines than are left
    shift = frame.room - room  # the two mastheads may differ in height
    cut = pages([*_sheet_title(sheet.title, frame.width), *strips], frame.room, used + shift)
    if not cut[0] or (len(cut) > 1 and used > room / 2):
        return None
    cut[0] = [placed._replace(down=placed.down - shift) for placed in cut[0]]
    return leaf._replace(head=head, sheets=(*leaf.sheets, sheet), begins=(*leaf.begins, sheet)), cut


def _sheet_title(title: str, width: float) -> list[Strip]:
    """A sheet's own title inside a page, below a rule as thick as the masthead's."""

    def line(words: str) -> Strip:
        def draw(canvas: Any, x: float, y: float) -> None:
            canvas.setFont(font_name(True), style.SHEET_TITLE)
            canvas.drawString(x, y + style.SHEET_TITLE * 0.27, words)

        return Strip(style.SHEET_TITLE * style.LEADING, draw)

    def rule(canvas: Any, x: float, y: float) -> None:
        canvas.setLineWidth(style.LINE * 2)
        canvas.line(x, y, x + width, y)

    lines = [line(words) for words in wrap(title, width, style.SHEET_TITLE, True)]
    return [strip._replace(with_next=True) for strip in (Strip(2.0, rule, before=14.0), *lines)]


def _pictures_ahead(framed: Iterable[tuple[Sheet, Frame]]) -> None:
    wanted = [(each, frame.width, frame.room) for sheet, frame in framed for each in pictures_in(sheet.blocks)]
    if wanted:
        from render.diagrams.route import ahead

        ahead(wanted)


def pictures_in(blocks: Iterable[Block]) -> Iterator[Picture]:
    """Every picture, also those that are kept with something."""
    for block in blocks:
        if isinstance(block, Keep):
            yield from pictures_in(block.blocks)
        elif isinstance(block, Picture):
            yield block
