"""Rows and list entries inside a line: found, changed and taken out, in block and in flow style."""

from __future__ import annotations

import re
from typing import NamedTuple

from harness.mend.page import CannotEdit, Page
from harness.place import Place

_KEY = r"""(?:"[^"]*"|'[^']*'|[^:{}\[\],#"']+?)"""
_ROW = re.compile(rf"({_KEY})(\s*:\s+)(.*)$", re.DOTALL)
_TEXT = re.compile(r"""(?:[^,{}\[\]#"']|(?<=\S)#)+""")


class Row(NamedTuple):
    """A row `key: value` inside a line: what stands before and after, the key, the colon, the value."""

    before: str
    key: str
    colon: str
    value: str
    after: str

    def line(self, key: str | None = None, value: str | None = None) -> str:
        """The line with another key or value."""
        return (
            self.before
            + (self.key if key is None else key)
            + self.colon
            + (self.value if value is None else value)
            + self.after
        )


def row_in(line: str, column: int) -> Row:
    """The row whose key stands at a column (from 1). Raises CannotEdit where it goes on in other lines."""
    before, rest = line[: column - 1], line[column - 1 :]
    match = _ROW.match(rest)
    if not match:
        raise CannotEdit("no row stands there, or its value is in other lines")
    end = _end_of_value(match[3])
    value = match[3][:end]
    bare = value.rstrip()
    if not bare or bare[0] in "|>&*!":
        raise CannotEdit("the value is in other lines")
    return Row(before, match[1], match[2], bare, value[len(bare) :] + match[3][end:])


def _end_of_value(text: str) -> int:
    """Where a value ends that begins the text: a bracketed one at its bracket, a plain one at a comma or comment."""
    if text[:1] in "{[":
        depth = 0
        for at, char in enumerate(text):
            depth += (char in "{[") - (char in "}]")
            if depth == 0:
                return at + 1
        raise CannotEdit("the value goes on in other lines")
    if text[:1] in "\"'":
        close = text.find(text[0], 1)
        if close < 0:
            raise CannotEdit("the value goes on in other lines")
        return close + 1
    match = _TEXT.match(text)
    end = match.end() if match else 0
    comment = re.search(r"\s#", text[:end])
    return comment.start() if comment else end


def take_out(page: Page, place: Place, end: int) -> None:
    """Take what stands from a place to column `end` (from 0, one past) out of its line, with the comma that parts it.

    The only entry of brackets takes its key with it; what then leaves a heading empty takes the heading too.
    """
    line = page.at(place)
    start = place.column - 1
    while True:
        before, after = line[:start].rstrip(), line[end:].lstrip()
        if after.startswith(","):
            rest = line[end:].lstrip()[1:].lstrip()
            new = line[:start] + rest
            break
        if before.endswith(","):
            gap = line[end : len(line) - len(after)] if after[:1] == "}" else ""
            new = before[:-1] + gap + after
            break
        if not before and after[:1] in ("}", "]"):
            new = line[:start] + after  # the comma in the line above may stay
            break
        if before[-1:] in ("{", "[") and after[:1] in ("}", "]"):
            start, end = _key_before(before[:-1]), len(line) - len(after) + 1
            continue
        new = ""
        break
    rest = new.strip()
    if rest and not rest.startswith("#") and rest != "-":
        page.change(place.line, new.rstrip() if not line[end:].strip() else new)
        return
    if not line[:start].strip() and line[end:].strip() == ",":
        page.drop(place.line)  # a list in brackets over several lines
        return
    if line[:start].strip() not in ("", "-") or (line[end:].strip() and not line[end:].lstrip().startswith("#")):
        raise CannotEdit("more stands in the line than can be told apart")
    drop_row(page, place.line)


def _key_before(text: str) -> int:
    """Where the key begins whose bracket opens at the end of the text."""
    match = re.search(rf"{_KEY}\s*:\s*$", text)
    if not match:
        raise CannotEdit("a bracket without a key")
    return match.start() + len(match[0]) - len(match[0].lstrip())


def drop_row(page: Page, number: int) -> None:
    """A row's lines go; with the last row of a heading, the heading too, as far up as it leaves nothing."""
    inside = [n for n in page.under(number) if page.now[n - 1] is not None]
    heading = page.heading(number)
    for n in (number, *inside):
        page.drop(n)
    while heading is not None and not any(page.now[n - 1] is not None for n in page.under(heading)):
        if not re.search(r":\s*(#.*)?$", page.line(heading)):
            return  # it holds something in its own line
        page.drop(heading)
        heading = page.heading(heading)


def word_at(line: str, column: int) -> int:
    """Where the word ends (from 0, one past) that begins at a column (from 1), with the value of a key."""
    rest = line[column - 1 :]
    match = re.match(rf"{_KEY}\s*:\s+[^,\]}}\s]+", rest) or re.match(r"[^,\]\s}]+", rest)
    if not match:
        raise CannotEdit("the entry can't be told apart")
    return column - 1 + match.end()
