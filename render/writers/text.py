"""Sheets as plain text, 100 columns at most, through the templates in templates/text/.

Python measures and wraps; a template a block arranges. Templates are fixed files and data is never
compiled as one, so braces in a job's text stay braces.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any

from render.blocks import (
    Banner,
    Bars,
    Block,
    Caution,
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
)
from render.ends.views import HOLD_WORDS, VIEW_WORDS, both_views, cavities_by_number, latch_words
from render.measure import printable
from render.writers.columns import WIDTH, face_rows, grid_rows, wrap_text
from render.writers.furniture import FOOTER, basis_words, job_words, rests_words
from render.writers.photo import dots_of

if TYPE_CHECKING:
    from jinja2 import Environment

Context = dict[str, Any]


def write_text(sheets: Sequence[Sheet], masthead: Masthead) -> str:
    """The sheets one after another. Raises TypeError for a block that this writer doesn't know."""
    pages = [
        {
            "title": printable(sheet.title),
            "number": number,
            "body": _body(sheet.blocks),
            "rests": rests_words([sheet]),
        }
        for number, sheet in enumerate(sheets, 1)
    ]
    head = {
        "job": wrap_text(job_words(masthead), WIDTH),
        "state": wrap_text(masthead.state, WIDTH - 4),
        "walls": "##" if masthead.loud else "[]",
        "basis": wrap_text(basis_words(masthead), WIDTH),
    }
    text = _render("packet", {"pages": pages, "total": len(pages), "head": head, "footer": FOOTER})
    return "\n".join(line.rstrip() for line in text.splitlines()) + "\n"


def _body(blocks: Iterable[Block]) -> str:
    parts = []
    for block in blocks:
        known = CONTEXTS.get(type(block))
        if known is None:
            raise TypeError(f"the text writer knows no {type(block).__name__}")
        parts.append(_render(type(block).__name__.lower(), known(block)))
    return "\n".join(parts)


def _render(name: str, context: Context) -> str:
    return str(_environment().get_template(f"{name}.txt.j2").render(context))


@cache
def _environment() -> Environment:
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    from harness.assets import folder

    made = Environment(
        loader=FileSystemLoader(folder("templates") / "text"),
        undefined=StrictUndefined,
        autoescape=False,  # plain text has nothing to escape; `<` and `&` must print as they are
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.filters["wrapped"] = wrap_text
    made.globals["WIDTH"] = WIDTH
    return made


# --- what each block gives to its template ----------------------------------------------------------


def _heading(heading: Heading) -> Context:
    lines = wrap_text(heading.text, WIDTH)
    rule = {1: "=", 2: "-"}.get(heading.level, "")
    return {"lines": lines, "rule": rule * max(len(line) for line in lines)}


def _banner(banner: Banner) -> Context:
    lines = wrap_text(banner.text, WIDTH - 8)
    return {"lines": lines, "sign": "#" if banner.loud else "-", "width": max(len(line) for line in lines)}


def _para(para: Para) -> Context:
    return {"lines": wrap_text(para.text, WIDTH)}


def _caution(caution: Caution) -> Context:
    lines = wrap_text(f"CAUTION: {caution.text}", WIDTH - 4)
    return {"lines": lines, "width": max(len(line) for line in lines)}


def _listing(listing: Listing) -> Context:
    marks = [f"{index}." if listing.numbered else "-" for index in range(1, len(listing.items) + 1)]
    indent = max((len(mark) for mark in marks), default=0) + 1
    items = [
        {"mark": mark.ljust(indent), "lines": wrap_text(item, WIDTH - indent), "hang": " " * indent}
        for mark, item in zip(marks, listing.items, strict=True)
    ]
    return {"items": items}


def _grid(grid: Grid) -> Context:
    header, rule, rows = grid_rows(grid)
    return {
        "caption": wrap_text(grid.caption, WIDTH) if grid.caption else [],
        "header": header,
        "rule": rule,
        "rows": rows,
        "spaced": any(len(row) > 1 for row in rows),
    }


def _face(face: Face) -> Context:
    shown = cavities_by_number(face)
    side = max(len(number) for number in shown)
    cavities = []
    for number, cavity in shown.items():
        words = [line for line in cavity.lines if line]
        words += [cavity.mark] if cavity.mark else []
        words += [cavity.swatch.words] if cavity.swatch else []
        words += {"highlighted": ["work on this one"], "crossed": ["no wire"], "plain": []}[cavity.state]
        lines = wrap_text("; ".join(words).replace("\n", " "), WIDTH - side - 4)
        cavities.append({"number": number.rjust(side), "lines": lines, "hang": " " * (side + 4)})
    return {
        "title": wrap_text(face.title, WIDTH),
        "view": VIEW_WORDS[face.shape.view],
        "hold": wrap_text(HOLD_WORDS[face.shape.view], WIDTH),
        "latch": latch_words(face),
        "parts": face_rows(face.shape),
        "keying": wrap_text(f"Keying: {face.keying}", WIDTH) if face.keying else [],
        "cavities": cavities,
    }


def _face_pair(pair: FacePair) -> Context:
    held, mirror = both_views(pair)
    # what the cavities hold is the same from both sides, so it is listed once
    shown = _face(held)
    return {
        "held": _render("face", shown | {"cavities": [], "keying": []}),
        "mirror": _render("face", _face(mirror) | {"cavities": shown["cavities"]}),
    }


def _picture(picture: Picture) -> Context:
    from render.diagrams.route import connections

    boxes = []
    for node in picture.nodes:
        said = f"{node.title}: {'; '.join(node.lines)}" if node.lines else node.title
        boxes.append(wrap_text(said, WIDTH - 4))
    return {
        "title": wrap_text(picture.title, WIDTH),
        "boxes": boxes,
        "connections": [wrap_text(line, WIDTH - 4) for line in connections(picture)],
    }


def _bars(bars: Bars) -> Context:
    from render.diagrams.bars import MARKS, typed

    label = max((len(bar.label) for bar in bars.bars), default=0)
    rows = [[bar.label.ljust(label), line, bar.words] for bar, line in zip(bars.bars, typed(bars), strict=True)]
    kinds = ", ".join(f"{mark} {kind}" for mark, kind in zip(MARKS, bars.kinds, strict=False))
    return {"title": wrap_text(bars.title, WIDTH), "rows": rows, "kinds": kinds}


def _photo(photo: Photo) -> Context:
    dots = photo.why or dots_of(photo.path)
    said = f"not shown: {dots}" if isinstance(dots, str) else f"{dots.of[0]} by {dots.of[1]} dots; see the PDF"
    return {
        "title": wrap_text(photo.title, WIDTH),
        "lines": [line for each in photo.lines for line in wrap_text(each, WIDTH - 2)],
        "picture": wrap_text(f"[photo {photo.name}: {said}]", WIDTH - 2),
    }


def _keep(keep: Keep) -> Context:
    return {"body": _body(keep.blocks)}


def _page_break(_: PageBreak) -> Context:
    return {}


CONTEXTS: dict[type, Callable[..., Context]] = {
    Heading: _heading, Banner: _banner, Para: _para, Caution: _caution, Listing: _listing, Grid: _grid, Face: _face,
    FacePair: _face_pair, Picture: _picture, Photo: _photo, Bars: _bars, Keep: _keep, PageBreak: _page_break,
}  # fmt: skip
