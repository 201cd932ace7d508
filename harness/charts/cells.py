"""A chart's text as rows of cells that know their place (RFC 4180, with comma, semicolon or tab)."""

from __future__ import annotations

import re
from typing import NamedTuple

from harness.charts.told import Told
from harness.read.folding import fold_text, fold_value
from harness.read.lines import split_lines

SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t"}
MOST_ROWS, MOST_COLUMNS, MOST_IN_CELL = 2000, 200, 1000
_FIRST_LINE = re.compile(r"sep=([,;\t])(\r\n|\r|\n|$)", re.IGNORECASE)
_CURLY = str.maketrans(dict.fromkeys("“”„‟", '"') | dict.fromkeys("‘’‚‛", "'"))
_UNSEEN = re.compile("[\u00ad\u061c\u200b-\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff]")


class SheetRow(NamedTuple):
    """One row: its number as a spreadsheet counts (from 1, blank ones too), its first line, its cells, its own text."""

    number: int
    line: int
    cells: tuple[str, ...]
    own: str


def tidy(text: str) -> str:
    """A cell's text in one line: odd blanks, dashes and curly quotes made plain, what can't be seen taken out."""
    folded = fold_value(fold_text(_UNSEEN.sub("", text).translate(_CURLY)))
    return " ".join(folded.split())


def rows_of(text: str, separator: str) -> tuple[list[SheetRow], list[Told]]:
    """Every row that has something in it, and all that is wrong with the sheet as such."""
    start = _FIRST_LINE.match(text)
    skipped = start.end() if start else 0
    lines = split_lines(text)
    told: list[Told] = []
    made: list[SheetRow] = []
    for number, line, cells, open_line in _records(text, skipped, 2 if start else 1, separator):
        own = lines[line - 1]
        if open_line:
            told.append(Told(
                "refused", number, open_line, "A quote is opened here and never closed.",
                'Close it with ", or take it away; a quote inside a cell is written twice.', lines[open_line - 1],
            ))  # fmt: skip
        tidied = tuple(tidy(cell) for cell in cells)
        if len(tidied) > MOST_COLUMNS:
            told.append(Told(
                "refused", number, line, f"The row has {len(tidied)} columns; a chart has at most {MOST_COLUMNS}.",
                "Is it the right file?", own,
            ))  # fmt: skip
        if any(len(cell) > MOST_IN_CELL for cell in tidied):
            told.append(Told(
                "refused", number, line, f"A cell has more than {MOST_IN_CELL} characters.",
                "Look for a quote that is closed too late, or make it shorter.", own,
            ))  # fmt: skip
        if any(tidied):
            made.append(SheetRow(number, line, tidied, own))
        if number > MOST_ROWS:
            told.append(Told(
                "refused", number, line, f"There are more than {MOST_ROWS} rows; a plug has none so many.",
                "Is it the right file?", own,
            ))  # fmt: skip
            break
    return made, told


def separator_in(text: str) -> str:
    """What a first line `sep=;` says, or empty."""
    start = _FIRST_LINE.match(text)
    return start[1] if start else ""


def _records(text: str, at: int, line: int, separator: str) -> list[tuple[int, int, list[str], int]]:
    """Number, first line, cells and the line of a quote left open (0: none) of every record, blank ones too."""
    made = []
    number = 0
    end = len(text)
    while at < end:
        number += 1
        first, cells, open_line = line, [], 0
        while True:
            cell: list[str] = []
            if at < end and text[at] == '"':
                opened, at = line, at + 1
                while True:
                    close = text.find('"', at)
                    piece = text[at:] if close < 0 else text[at:close]
                    line += len(re.findall(r"\r\n|\r|\n", piece))
                    cell.append(piece)
                    if close < 0:
                        open_line, at = opened, end
                        break
                    at = close + 1
                    if text[at : at + 1] != '"':
                        break
                    cell.append('"')
                    at += 1
            stop = at
            while stop < end and text[stop] != separator and text[stop] not in "\r\n":
                stop += 1
            cell.append(text[at:stop])
            cells.append("".join(cell))
            at = stop
            if at < end and text[at] == separator:
                at += 1
                continue
            break
        made.append((number, first, cells, open_line))
        if at < end:
            at += 2 if text.startswith("\r\n", at) else 1
            line += 1
    return made
