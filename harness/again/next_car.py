"""The job's text with another car in it, every other line as it was."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from pathlib import PurePath
from typing import NamedTuple

from harness.again.refused import NotChanged
from harness.mend.page import Page, edited, indent
from harness.read.nodes import Node, Rows, Table, Text, read_text
from harness.read.quoting import quoted
from harness.read.troubles import Troubles

_QUOTED = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'")
_HEAD = ("ringout", "title", "revision", "preset")


class _Splice(NamedTuple):
    """In a line of the file, from column to column (from 0, one past), another text."""

    line: int
    start: int
    end: int
    new: str


def with_car(text: str, file: str, new_file: str, fields: Mapping[str, str]) -> str:
    """The text of `file` as that of `new_file`, with these fields of `car:` in place of its own or added.

    The day of the job is the first car's, and left out. Where the new file lies in another folder, the paths under
    `parts:` and `shop:` are written from there. Comments, order and line ends stay. Raises NotChanged where the car is
    written in a way that can't be changed by lines.
    """
    bare = text.removeprefix("\ufeff")
    page = Page(file, bare)
    root = read_text(bare, file, Troubles())
    if not isinstance(root, Table):
        raise NotChanged([f"{file} is no job"])
    wrong: list[str] = []
    splices: list[_Splice] = []
    _change_car(page, root, fields, splices, wrong)
    _without_day(page, root, wrong)
    parts = _moved_paths(root, file, new_file)
    for node, path in parts:
        within = root if node is root.get("shop") else root.get("parts")
        _replace(page, node, _path(path), splices, wrong, flow=_in_brackets(page, within))
    if wrong:
        raise NotChanged(wrong)
    for splice in sorted(splices, reverse=True):  # from the back, so that the columns before hold
        line = page.line(splice.line)
        page.change(splice.line, line[: splice.start] + splice.new + line[splice.end :])
    made = edited(bare, page.edits())
    wanted = _facts(root, fields, {id(n): p for n, p in parts})
    assert isinstance(wanted, dict)
    wanted.pop("date", None)
    if _facts(read_text(made, new_file, Troubles()), {}, {}) != wanted:
        raise NotChanged([f"{file}: the car is written in a way that can't be changed here; copy the file by hand"])
    return text[: len(text) - len(bare)] + made


def _without_day(page: Page, root: Table, wrong: list[str]) -> None:
    key, day = root.key("date"), root.get("date")
    if key is None or day is None:
        return
    if _in_brackets(page, root) or day.line != key.line or not isinstance(day, Text):
        wrong.append(f"{page.file}:{key.line}: take `date:` away by hand, the next car comes on another day")
    else:
        page.drop(key.line)


# -- the car --------------------------------------------------------------------------------------------------


def _change_car(page: Page, root: Table, fields: Mapping[str, str], splices: list[_Splice], wrong: list[str]) -> None:
    car, key = root.get("car"), root.key("car")
    if car is None or key is None:
        heads = [each.line for each, _ in root.items if each.value in _HEAD]
        last = max(heads)
        below = (page.under(last) or [last])[-1] + 1
        page.put_in(below, f"car: {{{', '.join(f'{name}: {value}' for name, value in fields.items())}}}")
        return
    if not isinstance(car, Table) or not len(car):
        wrong.append(f"{page.file}:{key.line}: `car:` is no table")
        return
    flow = _in_brackets(page, car)
    for name, value in fields.items():
        node = car.get(name)
        if node is not None:
            _replace(page, node, value, splices, wrong, flow=flow)
    words = [f"{name}: {value}" for name, value in fields.items() if car.get(name) is None]
    if not words:
        return
    if flow:
        _add_in_flow(page, car, ", ".join(words), splices, wrong)
        return
    first, _ = car.items[0]
    for word in words:
        page.put_in(page.under(key.line)[-1] + 1, " " * indent(page.before[first.line - 1]) + word)


def _in_brackets(page: Page, node: Node | None) -> bool:
    """Whether a table or list is written in brackets."""
    return node is not None and page.before[node.line - 1][node.column - 1 : node.column] in ("{", "[")


def _replace(page: Page, node: Node, value: str, splices: list[_Splice], wrong: list[str], *, flow: bool) -> None:
    line = page.before[node.line - 1]
    end = _end_of_value(line, node.column - 1, flow)
    if end is None or (not isinstance(node, Text) and not _in_brackets(page, node)):
        wrong.append(
            f"{page.file}:{node.line}: this is written over several lines; copy the file and change it by hand\n"
            f"      {line.strip()}"
        )
        return
    splices.append(_Splice(node.line, node.column - 1, end, value))


def _end_of_value(line: str, start: int, flow: bool) -> int | None:
    """Where the value ends that begins at a column of its line (from 0, one past); None where it goes on below."""
    first = line[start : start + 1]
    if first in ("|", ">", ""):
        return None
    if first in "\"'":
        match = _QUOTED.match(line, start)
        return match.end() if match else None
    if first in "{[":
        return next((at + 1 for at, depth in _depths(line, start) if depth == 0), None)
    rest = line[start:]
    stop = re.search(r"\s#|[,\]}]" if flow else r"\s#", rest)
    return start + len((rest[: stop.start()] if stop else rest).rstrip())


def _depths(line: str, start: int) -> Iterator[tuple[int, int]]:
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


def _add_in_flow(page: Page, car: Table, words: str, splices: list[_Splice], wrong: list[str]) -> None:
    """Before the bracket that closes the car's table, on whichever line that stands."""
    depth, number, start = 0, car.line, car.column - 1
    while number <= len(page.before):
        line = page.before[number - 1]
        for at, inside in _depths(line, start):
            if depth + inside == 0:
                before = line[:at].rstrip()
                comma = "" if before.endswith((",", "{")) else ","
                if not before:  # the bracket stands alone: the line above may end in a comma, or in a remark
                    above = page.before[number - 2].split(" #")[0].rstrip()
                    splices.append(_Splice(number, at, at, f"{'' if above.endswith((',', '{')) else ','} {words}"))
                    return
                gap = line[len(before) : at]
                splices.append(_Splice(number, len(before), at, f"{comma} {words}{gap}"))
                return
        depth += _net(line, start)
        number, start = number + 1, 0
    wrong.append(f"{page.file}:{car.line}: the brackets of `car:` can't be told apart")


def _net(line: str, start: int) -> int:
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


# -- other files ------------------------------------------------------------------------------------------------


def _moved_paths(root: Table, file: str, new_file: str) -> list[tuple[Text, str]]:
    """The entries of `parts:`, and `shop:`, that lead elsewhere from the new folder, with what they are there."""
    old, new = (os.path.dirname(os.path.abspath(path)) for path in (file, new_file))
    if old == new:
        return []
    entries, shop = root.get("parts"), root.get("shop")
    made = []
    for entry in (*(entries.items if isinstance(entries, Rows) else ()), shop):
        if isinstance(entry, Text) and not os.path.isabs(entry.value):
            try:
                path = os.path.relpath(os.path.join(old, entry.value), new)
            except ValueError:  # on another drive
                path = os.path.join(old, entry.value)
            made.append((entry, PurePath(path).as_posix()))
    return made


def _path(path: str) -> str:
    """A path as a value: `../` before it asks for no quotes."""
    below = re.sub(r"^(?:\.\./)+", "", path)
    return path if quoted(below) == below else quoted(path)


# -- what it says ---------------------------------------------------------------------------------------------


def _facts(node: Node | None, car: Mapping[str, str], moved: Mapping[int, str], within: str = "") -> object:
    """All that a file says, without places; with `car` for its fields and `moved` for paths."""
    if isinstance(node, Text):
        return moved.get(id(node), node.value)
    if isinstance(node, Rows):
        return [_facts(each, {}, moved) for each in node.items]
    if not isinstance(node, Table):
        return None
    made = {key.value: _facts(value, car if key.value == "car" else {}, moved, key.value) for key, value in node.items}
    if within == "" and car and "car" not in made:
        made["car"] = _asked(car)
    if within == "car" and car:
        made |= _asked(car)
    return made


def _asked(fields: Mapping[str, str]) -> dict[str, object]:
    written = f"{{{', '.join(f'{name}: {value}' for name, value in fields.items())}}}"
    read = _facts(read_text(f"car: {written}\n", "--car", Troubles()), {}, {})
    assert isinstance(read, dict)
    return read["car"]  # type: ignore[no-any-return]
