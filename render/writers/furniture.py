"""What stands on every page: the masthead above, one line below. Measured first, drawn last."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from render import style
from render.blocks import Masthead, Sheet
from render.measure import font_name, on_paper, width_pt, wrap
from render.writers.paint import ink_of

FOOTER = "Local codes and licensed practice come before anything on this sheet."
_FOOTER_ROOM = 18.0
_UNDER = 6.0
_BOX_PAD = 3.0


class Head(NamedTuple):
    """The wrapped masthead of a sheet and the height it takes, in points."""

    title: tuple[str, ...]
    job: tuple[str, ...]
    state: tuple[str, ...]
    basis: tuple[str, ...]
    beside: bool  # whether the basis stands beside the state or below it
    height: float
    loud: bool


def page_words(number: int, total: int) -> str:
    """`page 2 of 9`."""
    return f"page {number} of {total}"


def rests_words(sheets: Iterable[Sheet]) -> str:
    """`Numbers rest on Basis 1, 2, 9 to 12`: the entries of all sheets of a page; empty where none computes."""
    numbers = sorted({number for sheet in sheets for number in sheet.rests_on})
    spans: list[list[int]] = []
    for number in numbers:
        if spans and spans[-1][-1] == number - 1:
            spans[-1].append(number)
        else:
            spans.append([number])
    said = [", ".join(map(str, span)) if len(span) < 3 else f"{span[0]} to {span[-1]}" for span in spans]
    return f"Numbers rest on Basis {', '.join(said)}" if said else ""


def job_words(head: Masthead) -> str:
    """The line that says which job this is."""
    revision = f"revision {head.revision}" if head.revision else "no revision"
    return " · ".join(words for words in (head.job, head.car, revision) if words)


def basis_words(head: Masthead) -> str:
    """The line that says what the state rests on."""
    preset = f"preset {head.preset}" if head.preset else ""
    digest = f"digest {head.digest}" if head.digest else ""
    return " · ".join(words for words in (head.counts, preset, digest) if words)


def measure_head(head: Masthead, sheet: Sheet, width: float) -> Head:
    """Wrap the masthead for a page of this width."""
    page = width_pt(page_words(888, 888), style.BODY, True)
    title = wrap(sheet.title, width - page - 14.0, style.SHEET_TITLE, True)
    job = wrap(job_words(head), width, style.BODY)
    state = wrap(head.state, width - 2 * _BOX_PAD, style.BODY, True) if head.state else ()
    boxed = width_pt(state[0], style.BODY, True) + 2 * _BOX_PAD if state else 0.0
    basis_text = basis_words(head)
    beside = len(state) < 2 and boxed + 8.0 + width_pt(on_paper(basis_text), style.SMALL) <= width
    basis = (on_paper(basis_text),) if beside else wrap(basis_text, width, style.SMALL)
    state_height = len(state) * style.BODY * style.LEADING + (2 * _BOX_PAD - 2 if state else 0.0)
    basis_height = len(basis) * style.SMALL * style.LEADING
    height = len(title) * style.SHEET_TITLE * style.LEADING + len(job) * style.BODY * style.LEADING + 3.0
    height += max(state_height, basis_height) if beside else state_height + basis_height + 3.0
    return Head(title, job, state, basis, beside, height + 4.0, head.loud)


def room_for(head: Head, page: style.Page) -> float:
    """Height left for a sheet's strips."""
    return page.top - page.bottom - head.height - _UNDER - _FOOTER_ROOM


def draw_furniture(
    canvas: Any, head: Head, page: style.Page, number: int, total: int, sheets: Iterable[Sheet] = ()
) -> float:
    """Masthead and footer of one page; gives back where the strips begin, from the bottom of the paper."""
    y = page.top
    canvas.setFillColor(ink_of(style.BLACK))
    canvas.setStrokeColor(ink_of(style.BLACK))
    for index, line in enumerate(head.title):
        y -= style.SHEET_TITLE * style.LEADING
        _say(canvas, line, page.left, y + style.SHEET_TITLE * 0.25, style.SHEET_TITLE, True)
        if index == 0:
            words = page_words(number, total)
            across = page.right - width_pt(words, style.BODY, True)
            _say(canvas, words, across, y + style.SHEET_TITLE * 0.25, style.BODY, True)
    for line in head.job:
        y -= style.BODY * style.LEADING
        _say(canvas, line, page.left, y + style.BODY * 0.25, style.BODY)
    y -= 3.0
    across = page.left
    if head.state:
        wide = max(width_pt(line, style.BODY, True) for line in head.state) + 2 * _BOX_PAD
        high = len(head.state) * style.BODY * style.LEADING + 2 * _BOX_PAD - 2
        canvas.setLineWidth(1.2)
        canvas.rect(page.left, y - high, wide, high, stroke=1, fill=int(head.loud))
        canvas.setFillColor(ink_of(style.WHITE if head.loud else style.BLACK))
        down = y - _BOX_PAD + 1
        for line in head.state:
            down -= style.BODY * style.LEADING
            _say(canvas, line, page.left + _BOX_PAD, down + style.BODY * 0.27, style.BODY, True)
        canvas.setFillColor(ink_of(style.BLACK))
        if head.beside:
            across, y = page.left + wide + 8.0, y - high / 2 + style.SMALL * style.LEADING / 2
        else:
            y -= high + 3.0
    for line in head.basis:
        y -= style.SMALL * style.LEADING
        _say(canvas, line, across, y + style.SMALL * 0.25, style.SMALL)
    rule = page.top - head.height
    canvas.setLineWidth(style.LINE * 2)
    canvas.line(page.left, rule, page.right, rule)
    canvas.setLineWidth(style.HAIR)
    canvas.line(page.left, page.bottom + 14, page.right, page.bottom + 14)
    _say(canvas, FOOTER, page.left, page.bottom + 2.5, style.SMALL)
    rests = rests_words(sheets)
    _say(canvas, rests, page.right - width_pt(rests, style.SMALL), page.bottom + 2.5, style.SMALL)
    return rule - _UNDER


def _say(canvas: Any, words: str, x: float, y: float, size: float, bold: bool = False) -> None:
    if words:
        canvas.setFont(font_name(bold), size)
        canvas.drawString(x, y, words)
