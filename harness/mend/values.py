"""Single values in the lines of a job, given way to others: where each ends, in block and in flow style."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from harness.mend.page import Page
from harness.read.nodes import Node, Text

_QUOTED = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'")


class Splice(NamedTuple):
    """In a line of the file, from column to column (from 0, one past), another text."""

    line: int
    start: int
    end: int
    new: str


def in_brackets(page: Page, node: Node | None) -> bool:
    """Whether a table or list is written in brackets."""
    return node is not None and page.before[node.line - 1][node.column - 1 : node.column] in ("{", "[")


def replace(page: Page, node: Node, value: str, splices: list[Splice], wrong: list[str], *, flow: bool) -> None:
    """A value that gives way to another one; into `wrong` where that can't be done in its line."""
    line = page.before[node.line - 1]
    end = end_of_value(line, node.column - 1, flow)
    if end is None or (not isinstance(node, Text) and not in_brackets(page, node)):
        wrong.append(
            f"{page.file}:{node.line}: this is written over several lines; copy the file and change it by hand\n"
            f"      {line.strip()}"
        )
        return
    splices.append(Splice(node.line, node.column - 1, end, value))


def end_of_value(line: str, start: int, flow: bool) -> int | None:
    """Where the value ends that begins at a column of its line (from 0, one past); None where it goes on below."""
    first = line[start : start + 1]
    if first in ("|", ">", ""):
        return None
    if first in "\"'":
        match = _QUOTED.match(line, start)
        return match.end() if match else None
    if first in "{[":
        return next((at + 1 for at, depth in depths(line, start) if depth == 0), None)
    rest = line[start:]
    stop = re.search(r"\s#|[,\]}]" if flow else r"\s#", rest)
    return start + len((rest[: stop.start()] if stop else rest).rstrip())


def depths(line: str, start: int) -> Iterator[tuple[int, int]]:
    """The columns of brackets from one on, each with how many are open behind it. Stops at a comment."""
    depth, at = 0, start
    while at < len(line):
        sign = line[at]
        quote = _QUOTED.match(line, at) if sign in "\"'" and line[at - 1 : at] in " ,[{:" else None
        if quote:
            at = quote.end()
            continue
        if sign == "#" and line[at - 1 : at] in " \t":
            return
        if sign in "{[":
            depth += 1
        elif sign in "]}":
            depth -= 1
            yield at, depth
        at += 1


def net(line: str, start: int) -> int:
    """How many more brackets a line opens than it closes."""
    opened = closed = 0
    at = start
    while at < len(line):
        quote = _QUOTED.match(line, at) if line[at] in "\"'" and line[at - 1 : at] in " ,[{:" else None
        if quote:
            at = quote.end()
            continue
        if line[at] == "#" and line[at - 1 : at] in " \t":
            break
        opened += line[at] in "{["
        closed += line[at] in "]}"
        at += 1
    return opened - closed


def spliced(page: Page, splices: Iterable[Splice]) -> None:
    """All of them put into the page; from the back, so that the columns before hold."""
    for splice in sorted(splices, reverse=True):
        line = page.line(splice.line)
        page.change(splice.line, line[: splice.start] + splice.new + line[splice.end :])
