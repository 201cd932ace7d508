"""Strips of a sheet, one under another, cut into pages. Knows nothing of what is drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

# Draws on a canvas with the strip's lower left corner at x, y.
Draw = Callable[[Any, float, float], None]


class Frame(NamedTuple):
    """Where strips go: width, and the height of a page that is still empty, in points."""

    width: float
    room: float


class Strip(NamedTuple):
    """Something as wide as the page and `height` high, never cut.

    `before` is space above it, except at the top of a page; `with_next` keeps it on the page of the
    strip after it; `again` is drawn above it wherever it begins a page (a grid's header); `new_page`
    is a mark without content: what follows begins a page.
    """

    height: float
    draw: Draw
    before: float = 0.0
    with_next: bool = False
    again: Strip | None = None
    new_page: bool = False


class Placed(NamedTuple):
    """A strip and how far its lower edge lies under the top of the page's room."""

    strip: Strip
    down: float


def strips_height(strips: Sequence[Strip]) -> float:
    """Height of the strips at the top of an empty page."""
    if not strips:
        return 0.0
    first = strips[0]
    again = first.again.height if first.again else 0.0
    return again + first.height + sum(strip.before + strip.height for strip in strips[1:])


def pages(strips: Sequence[Strip], room: float, used: float = 0.0) -> list[list[Placed]]:
    """The strips page by page; a sheet without any gives one empty page.

    Strips tied by `with_next` go to a fresh page together if this one can't hold them; more than a page
    of them is cut between strips. Linear in the number of strips. `used` is what stands on the first page
    already; it stays without strips where the first of them don't fit below.
    """
    made: list[list[Placed]] = [[]]
    down = used
    asked = False
    for run in _runs(strips):
        if run[0].new_page:
            asked = True
            continue
        if asked and down > 0:
            made.append([])
            down = 0.0
        asked = False
        # what is drawn again at the top of a page is not drawn here
        needed = sum(strip.before + strip.height for strip in run)
        if down > 0 and down + needed > room and strips_height(run) <= room:
            made.append([])
            down = 0.0
        for strip in run:
            if down > 0 and down + strip.before + strip.height > room:
                made.append([])
                down = 0.0
            if down > 0:
                down += strip.before
            elif strip.again:
                down += strip.again.height
                made[-1].append(Placed(strip.again, down))
            down += strip.height
            made[-1].append(Placed(strip, down))
    return made


def _runs(strips: Sequence[Strip]) -> list[list[Strip]]:
    runs: list[list[Strip]] = []
    tied = False
    for strip in strips:
        if tied and not strip.new_page:
            runs[-1].append(strip)
        else:
            runs.append([strip])
        tied = strip.with_next and not strip.new_page
    return runs


def tie(strips: Sequence[Strip], room: float) -> list[Strip]:
    """The strips as one piece, if a page can hold them; else as they were."""
    if strips_height(strips) > room:
        return list(strips)
    return [strip._replace(with_next=True) for strip in strips[:-1]] + list(strips[-1:])
