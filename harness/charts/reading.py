"""A chart as the facts of a plug: one entry a cavity, and all that is to be said about its rows."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import NamedTuple

from harness.charts.cells import SEPARATORS, SheetRow, rows_of, separator_in
from harness.charts.decoding import NotText, decode
from harness.charts.entries import Entry, entries_of
from harness.charts.headings import Column, by_position, columns_of, field_of, missing_in, read_fields
from harness.charts.numbering import numbering
from harness.charts.told import Refusal, Told

_HEADINGS_WITHIN = 15  # rows in which the headings are looked for: titles may stand above


class Wanted(NamedTuple):
    """What the user said about a chart; empty: find out.

    `columns` are fields by position, for a chart without headings; `headings` the user's own ones in small letters.
    """

    encoding: str = ""
    separator: str = ""
    columns: tuple[str, ...] = ()
    headings: Mapping[str, str] = {}
    legend: Mapping[str, str] = {}
    size_unit: str = ""
    ways: int | None = None


class Chart(NamedTuple):
    """What a chart says. `loose` are texts that belong to no cavity; `unread` codes that want a legend, with rows."""

    entries: tuple[Entry, ...]
    legend: dict[str, str]
    loose: tuple[str, ...]
    told: tuple[Told, ...]
    unread: dict[str, tuple[int, ...]]
    columns: tuple[Column, ...]
    separator: str
    encoding: str


AskColumns = Callable[[SheetRow], str]


def read_chart(raw: bytes, wanted: Wanted, ask: AskColumns | None = None) -> Chart:
    """Reads a chart's bytes. `ask` is called with the first row where no headings are found, and answers as
    `read_fields` takes it, or with an empty text.

    Raises Refusal with every reason why nothing can be made of the file.
    """
    try:
        text, encoding = decode(raw, wanted.encoding)
    except NotText as wrong:
        own = ""
        raise Refusal([Told("refused", wrong.line, wrong.line, wrong.message, wrong.do, own)]) from None
    separator, rows = _parted(text, wanted)
    columns, head, titles = _headings(rows, wanted, ask)
    body = [row for row in rows if row not in titles and row is not head]
    found = entries_of(body, columns, wanted.legend, wanted.size_unit)
    told = [*found.told, *numbering(found.entries, wanted.ways)]
    loose = [*(" ".join(filter(None, row.cells)) for row in titles), *found.loose]
    for column in columns:
        if not column.field and column.heading and found.used_headings.get(column.heading):
            told.append(Told(
                "kept", head.number if head else 0, head.line if head else 0,
                f"The column “{column.heading}” isn't known; its cells are kept as notes.",
                f'If it is one of ours, say so: --heading "{column.heading}=colour".', head.own if head else "",
            ))  # fmt: skip
    for row in titles:
        told.append(Told("kept", row.number, row.line, "A row above the headings is kept as the plug's note.", "",
                         row.own))  # fmt: skip
    if not found.entries and not any(each.kind == "refused" for each in told):
        told.append(Told("refused", 0, 0, "No row has a cavity that can be read.", "Look at which column it is in."))
    refused = [each for each in told if each.kind == "refused"]
    if refused:
        raise Refusal(refused)
    used = {code: wanted.legend[code] for code in sorted(found.used_codes)}
    told.sort(key=lambda each: (each.row, each.line))
    return Chart(
        found.entries, used, tuple(loose), tuple(told), found.unread, tuple(columns), _word(separator), encoding,
    )  # fmt: skip


def _word(separator: str) -> str:
    return next(word for word, sign in SEPARATORS.items() if sign == separator)


def _parted(text: str, wanted: Wanted) -> tuple[str, list[SheetRow]]:
    """The separator, and the rows by it: the one with which most headings are known, else most columns are even."""
    given = SEPARATORS.get(wanted.separator, "") or separator_in(text)
    tried: list[tuple[tuple[int, float, int], str, list[SheetRow], list[Told]]] = []
    for sign in (given,) if given else SEPARATORS.values():
        rows, told = rows_of(text, sign)
        if not rows:
            raise Refusal([Told("refused", 0, 0, "There is nothing in the file.", "Is it the right file?")])
        known = max(_known(row, wanted) for row in rows[:_HEADINGS_WITHIN])
        widths = [len(row.cells) for row in rows]
        common = max(set(widths), key=lambda width: (widths.count(width), width))
        even = widths.count(common) / len(widths) if common > 1 else 0.0
        tried.append(((known if known > 1 else 0, even, common), sign, rows, told))
    _, separator, rows, told = max(tried, key=lambda each: each[0])
    if told:
        raise Refusal(told)
    return separator, rows


def _known(row: SheetRow, wanted: Wanted) -> int:
    return len({column.field for column in columns_of(row.cells, wanted.headings) if column.field})


def _headings(
    rows: list[SheetRow], wanted: Wanted, ask: AskColumns | None
) -> tuple[list[Column], SheetRow | None, list[SheetRow]]:
    """The columns, the row of the headings (None: there is none) and the rows above it.

    Raises Refusal where neither headings nor the user say which column is which.
    """
    if wanted.columns:
        return by_position(wanted.columns), None, []
    best: tuple[int, int] | None = None
    for at, row in enumerate(rows[:_HEADINGS_WITHIN]):
        known = _known(row, wanted)
        if known > 1 and (best is None or known > best[0]) and not _is_data(row):
            best = (known, at)
    if best is not None:
        head = rows[best[1]]
        columns = columns_of(head.cells, wanted.headings)
        missing = missing_in([column.field for column in columns])
        if not missing:
            unseen = sorted(set(wanted.headings) - {" ".join(column.heading.lower().split()) for column in columns})
            if unseen:
                raise Refusal([
                    Told("refused", head.number, head.line, f"No column is headed “{heading}”.",
                         "Write it as it stands in the chart.", head.own) for heading in unseen
                ])  # fmt: skip
            return columns, head, rows[: best[1]]
    else:
        head, missing, columns = rows[0], (), []
    answer = ask(head) if ask else ""
    if answer:
        fields = read_fields(answer)
        if best is None:
            return by_position(fields), None, []
        given = [*fields, *["-"] * len(columns)]
        columns = [column._replace(field="" if field == "-" else field)
                   for column, field in zip(columns, given, strict=False)]  # fmt: skip
        return columns, head, rows[: best[1]]
    if best is None:
        message = "No row has headings that are known."
        do = 'Say what they are, in their order: --columns "cavity function colour size", - for one to keep as a note.'
        raise Refusal([Told("refused", head.number, head.line, message, do, head.own)])
    other = _unknown_heading(head)
    raise Refusal([
        Told("refused", head.number, head.line, f"No column is headed as the {word}.",
             f'Say which it is: --heading "{other}={word}".', head.own) for word in missing
    ])  # fmt: skip


def _is_data(row: SheetRow) -> bool:
    """Whether a row is one of the chart's own: it has a number where headings have none."""
    return any(re.fullmatch(r"[A-Za-z]?[0-9]{1,3}", cell) for cell in row.cells)


def _unknown_heading(head: SheetRow) -> str:
    return next((cell for cell in head.cells if cell and not field_of(cell)), "HEADING")
