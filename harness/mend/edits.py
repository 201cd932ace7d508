"""Changes as edits of the file's own lines; everything else in the file stays as it was written."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from harness.finding import Edit
from harness.mend.changes import (
    AddJoint,
    Change,
    DropRow,
    DropTarget,
    Method,
    Move,
    Say,
    SwapRows,
    TakeBack,
    ToHalf,
    TurnRow,
    Unplug,
)
from harness.mend.flow import drop_row, row_in, take_out, word_at
from harness.mend.page import CannotEdit, Page, indent
from harness.place import Place


def edits_for(file: str, text: str, changes: Iterable[Change]) -> tuple[Edit, ...]:
    """The edits of one file that make the changes. Raises CannotEdit."""
    page = Page(file, text)
    said: dict[str, list[str]] = {}
    parts = [part for each in changes for part in ((each.one, each.two) if isinstance(each, SwapRows) else (each,))]
    for change in sorted(parts, key=_order):
        if isinstance(change, Say):
            said.setdefault(change.heading, []).append(change.group.text)
        else:
            _put(page, change)
    for heading, words in said.items():
        _into_list(page, heading, words)
    return page.edits()


def _order(change: Change) -> tuple[int, int, int]:
    """What stands further back in a line comes first, so that columns hold; what is new comes last."""
    place = change.at
    return (0, -place.line, -place.column) if place else (1, 0, 0)


def _put(page: Page, change: Change) -> None:
    match change:
        case DropRow() | Unplug():
            _drop(page, change.place)
        case DropTarget():
            _with_target(page, change.place, lambda value: _without(value, change.target))
        case TurnRow():
            _with_target(page, change.place, _toggled)
        case Move() | ToHalf():
            _moved(page, change)
        case Method():
            _method(page, change)
        case TakeBack():
            _out_of_list(page, change)
        case AddJoint():
            _new_joint(page, change)
        case _:
            raise CannotEdit(type(change).__name__)


# -- joints -------------------------------------------------------------------------------------------------


def _drop(page: Page, place: Place) -> None:
    line = page.at(place)
    if not line[: place.column - 1].strip():
        drop_row(page, place.line)
        return
    row = row_in(line, place.column)
    take_out(page, place, len(line) - len(row.after))


def _with_target(page: Page, place: Place, new: Callable[[str], str]) -> None:
    """The contact behind the colon changed; in the long form, that is what stands behind `to`."""
    line = page.at(place)
    row = row_in(line, place.column)
    if not row.value.startswith("{"):
        page.change(place.line, row.line(value=new(row.value)))
        return
    to = re.search(r"[{,]\s*(to)\s*:", row.value)
    if not to:
        raise CannotEdit("the long form without `to`")
    inner = row_in(row.value, to.start(1) + 1)
    page.change(place.line, row.line(value=inner.line(value=new(inner.value))))


def _moved(page: Page, change: Move | ToHalf) -> None:
    if change.second:
        _with_target(page, change.place, lambda value: _plain(value) and change.target.text)
        return
    row = row_in(page.at(change.place), change.place.column)
    page.change(change.place.line, row.line(key=change.target.text))


def _plain(value: str) -> str:
    if value.startswith("["):
        raise CannotEdit("the row joins several")
    return value


def _toggled(value: str) -> str:
    if value[:1] in "[\"'":
        raise CannotEdit("the row joins several, or stands in quotes")
    return value.removesuffix(" reversed") if value.endswith(" reversed") else value + " reversed"


def _without(value: str, target: int) -> str:
    """A list in brackets without one of its entries; without brackets where one is left."""
    if not value.startswith("["):
        raise CannotEdit("the row is written in another way")
    entries = [each.strip() for each in value[1:-1].split(",") if each.strip()]
    if not 0 <= target < len(entries) or len(entries) < 2:
        raise CannotEdit("the row has no such entry")
    del entries[target]
    return entries[0] if len(entries) == 1 else f"[{', '.join(entries)}]"


def _method(page: Page, change: Method) -> None:
    number = heading_of(page, change.places[0])
    if number is None or any(heading_of(page, place) != number for place in change.places):
        raise CannotEdit("the rows stand under several headings")
    line = page.line(number)
    new = re.sub(rf"^(\s*){re.escape(change.old)}\b", rf"\g<1>{change.new}", line, count=1, flags=re.IGNORECASE)
    if new == line:
        raise CannotEdit("the heading is written in one line with others")
    if change.cover:
        new = re.sub(r"^([^:]*):", rf"\g<1> with {change.cover}:", new, count=1)
    page.change(number, new)


def heading_of(page: Page, place: Place) -> int | None:
    """The line of the heading that says how a row's joint is made."""
    if page.before[place.line - 1][: place.column - 1].strip():
        return place.line
    return page.heading(place.line)


def _new_joint(page: Page, change: AddJoint) -> None:
    top = page.top("joints")
    heading = re.compile(rf"(\s+{re.escape(change.method)}\b[^{{:]*:\s*)(\{{)?(.*?)(\}}?\s*(?:#.*)?)$", re.IGNORECASE)
    for number in page.under(top) if top else ():
        line = page.now[number - 1]
        match = heading.match(line or "")
        if line is None or not match:
            continue
        row = _row_for(change, [line, *(page.now[n - 1] or "" for n in page.under(number))])
        if match[2]:
            held = match[3].rstrip()
            page.change(number, f"{match[1]}{{{held}, {row}{match[4]}" if held else f"{match[1]}{{{row}{match[4]}")
            return
        if match[3]:
            continue
        rows = page.under(number)
        depth = indent(page.before[rows[0] - 1]) if rows else indent(line) + 2
        page.put_in((rows[-1] if rows else number) + 1, " " * depth + row)
        return
    raise CannotEdit("no heading of that method stands in a line of its own")


def _row_for(change: AddJoint, lines: list[str]) -> str:
    """The row of a new joint; the other way round where its first side is the key of a row there already."""
    left, right = change.left.text, change.right.text
    if any(re.search(rf"(?:^\s*|[{{,]\s*){re.escape(left)}\s*:\s", line) for line in lines):
        return f"{right}: {left}"
    return f"{left}: {right}"


# -- lists --------------------------------------------------------------------------------------------------


def _into_list(page: Page, heading: str, words: list[str]) -> None:
    """New entries behind those that a list has; a list that isn't there is made."""
    number = page.top(heading)
    text = ", ".join(words)
    if number is None:  # behind the last line that says something
        last = max((n for n in page.numbers if page.before[n - 1].strip()), default=0)
        page.put_in(last + 1, f"{heading}: [{text}]")
        return
    line = page.line(number)
    value = line[line.index(":") + 1 :].lstrip()
    if not value or value.startswith("#"):
        items = [n for n in page.under(number) if page.before[n - 1].lstrip().startswith("- ")]
        if not items:
            raise CannotEdit("the list is written in a way that takes no line")
        lead = re.match(r"\s*-\s+", page.before[items[-1] - 1])
        for word in words:
            page.put_in(items[-1] + 1, f"{lead[0] if lead else '- '}{word}")
        return
    row = row_in(line, 1)
    if row.value.startswith("["):
        held = row.value[1:-1].strip().rstrip(",").rstrip()
        page.change(number, row.line(value=f"[{held}, {text}]" if held else f"[{text}]"))
    elif row.value[0] in "\"'":
        raise CannotEdit("the list stands in quotes")
    else:
        page.change(number, row.line(value=f"{row.value} {' '.join(words)}"))


def _out_of_list(page: Page, change: TakeBack) -> None:
    place = change.place
    line = page.at(place)
    end = word_at(line, place.column)
    before, after = line[: place.column - 1], line[end:]
    alone = not after.strip() or after.lstrip().startswith("#")
    opened, closed = before.rstrip()[-1:] in ("", ",", "[", "{"), after.lstrip()[:1] in ("", ",", "]", "}")
    if alone and re.fullmatch(r"\s*(-\s+)?", before):
        drop_row(page, place.line)
    elif alone and re.fullmatch(r"\w+\s*:\s+", before):
        page.drop(place.line)
    elif opened and (closed or alone):
        take_out(page, place, end)
    elif re.match(r"\s+[^\s#,\]}]", after):  # words with spaces between them
        page.change(place.line, before + after.lstrip())
    else:
        page.change(place.line, before.rstrip() + after)
