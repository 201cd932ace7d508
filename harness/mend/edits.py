"""Changes as edits of the file's own lines; everything else in the file stays as it was written."""

from __future__ import annotations

import re

from harness.finding import Edit
from harness.mend.changes import AddJoint, Change, DropRow, Method, Rekey, Retarget, Say, TakeBack, TurnRow, Unplug
from harness.place import Place
from harness.read.lines import split_lines


class CannotEdit(Exception):
    """The file is written in a way that this change can't be put into by lines."""


class Page:
    """The lines of one file, and edits gathered for it."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self.lines = split_lines(text)

    def line(self, place: Place) -> str:
        if place.file != self.file or not 1 <= place.line <= len(self.lines):
            raise CannotEdit(f"{place} is in another file")
        return self.lines[place.line - 1]

    def whole(self, number: int, new: str) -> Edit:
        """A line given way to another, or to nothing."""
        return Edit(Place(self.file, number, 1), self.lines[number - 1], new)

    def put_in(self, number: int, new: str) -> Edit:
        """A line put in before line `number` (one past the end: at the end)."""
        return Edit(Place(self.file, number, 1), "", new)


def edits_for(page: Page, change: Change) -> list[Edit]:
    """The edits of one change. Raises CannotEdit."""
    if isinstance(change, DropRow | Unplug):
        return _drop_row(page, change.place)
    if isinstance(change, TurnRow):
        return [_with_value(page, change.place, _toggled)]
    if isinstance(change, Retarget):
        return [_with_value(page, change.place, lambda _: change.target.text)]
    if isinstance(change, Rekey):
        return [_rekeyed(page, change)]
    if isinstance(change, Method):
        return [_method(page, change)]
    if isinstance(change, Say):
        return [_into_list(page, change.heading, change.group.text)]
    if isinstance(change, TakeBack):
        return _out_of_list(page, change)
    if isinstance(change, AddJoint):
        return [_new_joint(page, change)]
    raise CannotEdit(type(change).__name__)


def apply(lines: list[str], edits: list[Edit]) -> list[str]:
    """The lines after the edits; those further down first, so that numbers hold."""
    made = list(lines)
    for edit in sorted(edits, key=lambda e: (e.place.line, e.old != ""), reverse=True):
        at = edit.place.line - 1
        if edit.old == "":
            made.insert(at, edit.new)
        elif made[at] != edit.old:
            raise CannotEdit(f"line {edit.place.line} changes twice")
        elif edit.new == "":
            del made[at]
        else:
            made[at] = edit.new
    return made


# -- joints -------------------------------------------------------------------------------------------------


def _split_row(line: str, column: int) -> tuple[str, str, str, str]:
    """A row from its key on: what stands before, the key with its colon, the value, what stands after."""
    before, rest = line[: column - 1], line[column - 1 :]
    match = re.match(r"([^:{}\[\],]+:\s+)(\[[^\]]*\]|[^,{}#]*?)(\s*(?:[,}#].*)?)$", rest)
    if not match or not match[2]:
        raise CannotEdit("the row goes over several lines")
    return before, match[1], match[2], match[3]


def _with_value(page: Page, place: Place, new_value) -> Edit:  # type: ignore[no-untyped-def]
    line = page.line(place)
    before, key, value, after = _split_row(line, place.column)
    if value.startswith("["):
        raise CannotEdit("the row joins several")
    return page.whole(place.line, before + key + new_value(value) + after)


def _rekeyed(page: Page, change: Rekey) -> Edit:
    line = page.line(change.place)
    before, key, value, after = _split_row(line, change.place.column)
    owner, dot, rest = key.partition(".")
    if not dot or rest.count(".") > 0:
        raise CannotEdit("the row names a half already")
    return page.whole(change.place.line, f"{before}{owner}.{change.side}.{rest}{value}{after}")


def _toggled(value: str) -> str:
    return value.removesuffix(" reversed") if value.endswith(" reversed") else value + " reversed"


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _drop_row(page: Page, place: Place) -> list[Edit]:
    """The row's line goes; with the last row of a heading, the heading too, as far up as it leaves nothing."""
    line = page.line(place)
    if line[: place.column - 1].strip():
        before, _, _, after = _split_row(line, place.column)
        if not after.startswith(",") and not before.rstrip().endswith(","):
            return _drop_heading(page, place.line, line)
        kept = before + after[1:].lstrip() if after.startswith(",") else before.rstrip()[:-1] + after
        return [page.whole(place.line, kept)]
    edits = [page.whole(place.line, "")]
    depth, number = _indent(line), place.line
    while depth > 0 and not _siblings(page, number, depth):
        above = _heading_above(page, number, depth)
        edits.append(page.whole(above, ""))
        number, depth = above, _indent(page.lines[above - 1])
    return edits


def _drop_heading(page: Page, number: int, line: str) -> list[Edit]:
    edits = [page.whole(number, "")]
    depth = _indent(line)
    while depth > 0 and not _siblings(page, number, depth):
        number = _heading_above(page, number, depth)
        edits.append(page.whole(number, ""))
        depth = _indent(page.lines[number - 1])
    return edits


def _is_content(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _siblings(page: Page, number: int, depth: int) -> bool:
    """Whether another row stands beside the one on line `number` under the same heading."""
    for step in (-1, 1):
        at = number + step
        while 1 <= at <= len(page.lines):
            line = page.lines[at - 1]
            if _is_content(line):
                indent = _indent(line)
                if indent < depth:
                    break
                if indent == depth:
                    return True
            at += step
    return False


def _heading_above(page: Page, number: int, depth: int) -> int:
    at = number - 1
    while at >= 1:
        if _is_content(page.lines[at - 1]) and _indent(page.lines[at - 1]) < depth:
            return at
        at -= 1
    raise CannotEdit("no heading stands above the row")


def _method(page: Page, change: Method) -> Edit:
    depth = _indent(page.line(change.places[0]))
    if page.line(change.places[0])[: change.places[0].column - 1].strip():
        number = change.places[0].line
    else:
        number = _heading_above(page, change.places[0].line, depth)
    line = page.lines[number - 1]
    changed = re.sub(rf"^(\s*){re.escape(change.old)}\b", rf"\g<1>{change.new}", line, count=1)
    if changed == line:
        raise CannotEdit("the heading is written in one line with others")
    return page.whole(number, changed)


def _new_joint(page: Page, change: AddJoint) -> Edit:
    top = _top(page, "joints")
    row = f"{change.left.text}: {change.right.text}"
    if top is None:
        raise CannotEdit("the job has no joints yet")
    for number in range(top + 1, len(page.lines) + 1):
        line = page.lines[number - 1]
        if _is_content(line) and _indent(line) == 0:
            break
        if re.match(rf"\s+{re.escape(change.method)}\b[^{{]*:\s*(#.*)?$", line):
            return page.put_in(number + 1, " " * (_indent(line) + 2) + row)
        match = re.match(rf"(\s+{re.escape(change.method)}\b[^{{]*:\s*\{{)(.*)(\}}.*)$", line)
        if match:
            return page.whole(number, f"{match[1]}{match[2].rstrip()}, {row}{match[3]}")
    raise CannotEdit("no heading of that method")


# -- lists --------------------------------------------------------------------------------------------------


def _top(page: Page, key: str) -> int | None:
    """The line number of a top-level key."""
    for number, line in enumerate(page.lines, 1):
        if line.startswith(f"{key}:"):
            return number
    return None


def _into_list(page: Page, heading: str, text: str) -> Edit:
    number = _top(page, heading)
    if number is None:
        end = len(page.lines)
        while end > 0 and not page.lines[end - 1].strip():
            end -= 1
        return page.put_in(end + 1, f"{heading}: [{text}]")
    line = page.lines[number - 1]
    match = re.match(r"([^\[#]*\[)([^\]]*)(\].*)$", line)
    if match:
        held = match[2].strip()
        return page.whole(number, f"{match[1]}{held}, {text}{match[3]}" if held else f"{match[1]}{text}{match[3]}")
    plain = re.match(rf"({heading}:\s+)([^#]*?)(\s*(?:#.*)?)$", line)
    if plain and plain[2]:
        return page.whole(number, f"{plain[1]}{plain[2]} {text}{plain[3]}")
    item = page.lines[number] if number < len(page.lines) else ""
    lead = re.match(r"\s*- ", item)
    if not lead:
        raise CannotEdit("the list is written in a way that takes no line")
    return page.put_in(number + 1, f"{lead[0]}{text}")


def _out_of_list(page: Page, change: TakeBack) -> list[Edit]:
    place = change.place
    line = page.line(place)
    before, rest = line[: place.column - 1], line[place.column - 1 :]
    if re.fullmatch(r"\s*- ", before) or not before.strip():
        edits = [page.whole(place.line, "")]
        depth = _indent(line)
        if not _siblings(page, place.line, depth):
            edits.append(page.whole(_heading_above(page, place.line, depth or 1), ""))
        return edits
    word = re.match(r"[^,\]\s}]+(:\s+[^,\]\s}]+)?", rest)
    if not word:
        raise CannotEdit("the entry can't be told apart")
    after = rest[word.end() :]
    if after.lstrip().startswith(","):
        kept = before + after.lstrip()[1:].lstrip()
    elif before.rstrip().endswith(","):
        kept = before.rstrip()[:-1] + after
    elif re.search(r"[\[{]\s*$", before):
        return [page.whole(place.line, "")]  # it was the only one
    else:
        kept = before.rstrip() + after if after.strip() else before.rstrip()
        if kept.rstrip().endswith(":"):
            return [page.whole(place.line, "")]
    return [page.whole(place.line, kept)]
