"""Plugs of the job file: face, source, rows."""

from __future__ import annotations

from functools import lru_cache

from harness.model.parts import Face, Plug, Row, Source
from harness.read.nodes import Node, Rows, Table, Text
from harness.read.pieces import words_in
from harness.read.rows import Legend, cavities_of, rows_of, words_of
from harness.read.troubles import Troubles


def text_of(table: Table, key: str, bad: set[int] | None = None) -> str:
    """The text behind a key, or empty where there is none or it is no text."""
    node = table.get(key)
    return node.value if isinstance(node, Text) and not (bad and id(node) in bad) else ""


def known(text: str) -> str:
    """A value that may be written as `unknown`: then nothing is known of it, as if it weren't there."""
    return "" if text == "unknown" else text


def texts_of(node: Node | None, split: bool = False) -> list[Text]:
    """A list of texts, or one text as a list; with `split`, a text of several words as several."""
    if isinstance(node, Rows):
        return [item for item in node.items if isinstance(item, Text)]
    if not isinstance(node, Text):
        return []
    return words_in(node) if split else [node]


def legend_of(table: Table) -> Legend:
    """The page's own colour codes: upper-case code and the word it stands for."""
    node = table.get("legend")
    if not isinstance(node, Table):
        return ()
    return tuple((key.value.upper(), value.value) for key, value in node.items if isinstance(value, Text))


def read_plug(name: str, key: Text, table: Table, troubles: Troubles, bad: set[int]) -> Plug:
    """One plug; rows that aren't understood are told and left out."""
    rows: list[Row] = []
    legend = legend_of(table)
    cavities = table.get("cavities")
    if isinstance(cavities, Table):
        for cavity, node in cavities.items:
            words = words_of(node, legend, troubles, bad)
            if words is not None:
                rows += rows_of(cavity, cavities_of(cavity.value), words, troubles)
    genders = table.get("contacts")
    ways = text_of(table, "ways", bad)
    return Plug(
        name=name,
        place=key.place,
        where=text_of(table, "place"),
        housing=text_of(table, "housing"),
        unit=text_of(table, "unit"),
        car=text_of(table, "car"),
        face=_face(table, bad),
        ways=int(ways) if ways.isdigit() else None,
        source=_source(table),
        carries=tuple(each.value.lower() for each in texts_of(table.get("carries"))),
        genders={
            half.value.lower(): known(value.value.lower())
            for half, value in (genders.items if isinstance(genders, Table) else ())
            if isinstance(value, Text)
        },
        rows=_spelt_once(rows),
    )


def _spelt_once(rows: list[Row]) -> tuple[Row, ...]:
    """`a5` beside `A5` is the same cavity: its first spelling stands."""
    first: dict[str, str] = {}
    for row in rows:
        first.setdefault(row.cavity.lower(), row.cavity)
    if len(first) == len(rows):
        return tuple(rows)
    return tuple(
        row if row.cavity == first[row.cavity.lower()] else row._replace(cavity=first[row.cavity.lower()])
        for row in rows
    )


def _source(table: Table) -> Source | None:
    node = table.get("source")
    if isinstance(node, Text):
        return Source(node.value, "", "", text_of(table, "covers"), node.place)
    years = table.get("covers")
    if node is None and isinstance(years, Text):  # the years alone, without a chart's name
        return Source("", "", "", years.value, years.place)
    if not isinstance(node, Table):
        return None
    covers = text_of(node, "covers") or text_of(table, "covers")
    page = text_of(node, "page")
    page = f"page {page}" if page[:1].isdigit() else page  # `31 4` would be read as the name of another sheet
    chart = ", ".join(filter(None, (text_of(node, "chart"), page)))
    wheel = node.get("steering")
    return Source(
        chart, text_of(node, "date"), text_of(node, "by"), covers, node.place, text_of(node, "steering").lower(),
        wheel.place if wheel is not None else None,
    )  # fmt: skip


def _face(table: Table, bad: set[int]) -> Face | None:
    node = table.get("face")
    if not isinstance(node, Table) or any(id(value) in bad for _, value in node.items):
        return None
    rows = text_of(node, "rows")
    columns = text_of(node, "columns")
    drawn: tuple[tuple[str | None, ...], ...] = ()
    if "\n" in rows or not rows.strip().isdigit():
        drawn = tuple(
            tuple(None if word == "." else word for word in line.split()) for line in rows.splitlines() if line.split()
        )
    elif columns.isdigit():
        drawn = _counted(int(rows), int(columns), text_of(node, "first") or "top left", text_of(node, "count"))
    widest = max((len(line) for line in drawn), default=0)
    drawn = tuple(line + (None,) * (widest - len(line)) for line in drawn)
    return Face(
        drawn=drawn,
        view=known(text_of(node, "view").lower()),
        latch=known(text_of(node, "latch").lower()),
        keying=text_of(node, "keying"),
        place=next(key.place for key, value in table.items if value is node),
    )


@lru_cache(maxsize=256)  # plug after plug has the same face
def _counted(rows: int, columns: int, first: str, count: str) -> tuple[tuple[str | None, ...], ...]:
    """Numbers from 1, from the corner named, across each row or down each column."""
    first = first.lower()
    grid: list[list[str | None]] = [[None] * columns for _ in range(rows)]
    down = count.lower() == "down"
    for number in range(rows * columns):
        row, column = (number % rows, number // rows) if down else (number // columns, number % columns)
        if "bottom" in first:
            row = rows - 1 - row
        if "right" in first:
            column = columns - 1 - column
        grid[row][column] = str(number + 1)
    return tuple(tuple(line) for line in grid)
