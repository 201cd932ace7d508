"""Rows of a chart changed in their lines: another key, other functions, one row made two, a row taken out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from harness.mend.flow import Row as Line
from harness.mend.flow import drop_row, row_in, take_out
from harness.mend.page import CannotEdit, Page, indent
from harness.model.function import EMPTY, UNKNOWN
from harness.model.parts import Plug, Row
from harness.place import Place
from harness.units import SIZE_PATTERN

_KEY = re.compile(r"""("[^"]*"|'[^']*'|[^:{}\[\],#"']+?)(?=\s*:(\s|$))""")
_SIZE = re.compile(rf"(?:^| )({SIZE_PATTERN})(?= |$)")
_NOTHING = (EMPTY.name, UNKNOWN.name)


class Written(NamedTuple):
    """A row as written: its place and the one or two cavities of its key, + first."""

    place: Place
    rows: tuple[Row, ...]

    @property
    def cavities(self) -> tuple[str, ...]:
        return tuple(row.cavity for row in self.rows)


def written_rows(plug: Plug) -> list[Written]:
    """The rows of a plug as they stand in its file, in its order."""
    by_place: dict[Place, list[Row]] = {}
    for row in plug.rows:
        by_place.setdefault(row.place, []).append(row)
    return [Written(place, tuple(rows)) for place, rows in by_place.items()]


def rekeyed(page: Page, row: Written, cavities: Sequence[str]) -> None:
    """The row put at other cavities, colours and all; at none: it goes. Raises CannotEdit."""
    line, start = page.at(row.place), row.place.column - 1
    match = _KEY.match(line, start)
    if match is None:
        raise CannotEdit("no key stands there")
    if cavities:
        page.change(row.place.line, line[:start] + "/".join(cavities) + line[match.end() :])
    elif not line[:start].strip():
        drop_row(page, row.place.line)
    else:
        take_out(page, row.place, len(line) - len(row_in(line, row.place.column).after))


def renamed(page: Page, row: Written, functions: Sequence[str], more: Sequence[tuple[str, str]] = ()) -> None:
    """The row's cavities with other functions, each with its colour; a pair that is none any more makes two rows.

    `more` are rows that come behind it: cavity and function. Raises CannotEdit.
    """
    old = row_in(page.at(row.place), row.place.column)
    made = [*_anew(row, old, [_unknown(each) for each in functions]), *(f"{a}: {_unknown(b)}" for a, b in more)]
    if old.before.strip() or old.after.lstrip()[:1] in (",", "}"):  # rows in braces
        page.change(row.place.line, f"{old.before}{', '.join(made)}{old.after}")
        return
    page.change(row.place.line, old.before + made[0] + old.after)
    for each in made[1:]:
        page.put_in(row.place.line + 1, " " * indent(page.at(row.place)) + each)


def _unknown(function: str) -> str:
    """A cavity with a wire in it isn't empty, whatever was charted where it was thought to be."""
    return UNKNOWN.name if function in _NOTHING else function


def _anew(row: Written, old: Line, functions: list[str]) -> list[str]:
    if len(functions) == 1:
        return [f"{old.key}{old.colon}{_with_function(old.value, functions[0])}"]
    base = _pair(functions)
    if base:
        return [f"{old.key}{old.colon}{_with_function(old.value, base)}"]
    turned = _pair(functions[::-1])
    colours, rest = _taken_apart(old.value)
    if turned:
        value = " ".join([turned, *colours[::-1], *rest])
        return [f"{'/'.join(row.cavities[::-1])}{old.colon}{value}"]
    colours = colours or ["", ""]
    return [
        f"{cavity}: {' '.join(filter(None, [function, colour, *rest]))}"
        for cavity, function, colour in zip(row.cavities, functions, colours, strict=True)
    ]


def _pair(functions: Sequence[str]) -> str:
    """`FL` of FL+ and FL−, in this order; `unknown` of two unknowns; empty where they are no pair."""
    one, two = functions
    if one == two and one in _NOTHING:
        return one
    for first, second in (("+", "-"), ("-H", "-L")):
        if one.endswith(first) and two == one.removesuffix(first) + second:
            return one.removesuffix(first)
    return ""


def _with_function(value: str, function: str) -> str:
    """A row's value with another function: its first word, or what stands behind `function` in the long form."""
    if not value.startswith("{"):
        word = value.split()[0]
        if word[0] in "\"'[":
            raise CannotEdit("the row is written in another way")
        return function + value[len(word) :]
    key = re.search(r"[{,]\s*(function)\s*:", value)
    if not key:
        raise CannotEdit("the long form without `function`")
    return row_in(value, key.start(1) + 1).line(value=function)


def _taken_apart(value: str) -> tuple[list[str], list[str]]:
    """The two colours of a short row (or none), and what else stands behind its function."""
    if value[:1] in "{[\"'":
        raise CannotEdit("the row is written in another way")
    _, _, tail = value.partition(" ")
    size = _SIZE.search(tail)
    rest = [size[1]] if size else []
    if size:
        tail = tail[: size.start()] + " " + tail[size.end() :]
    words = tail.split()
    if "twisted" in words:
        words.remove("twisted")
        rest.append("twisted")
    if len(words) not in (0, 2):
        raise CannotEdit("the colours can't be told apart")
    return words, rest
