"""The lines of the job file while changes are put into them, and what became of them as edits."""

from __future__ import annotations

import re
from collections.abc import Iterable

from harness.finding import Edit
from harness.place import Place
from harness.read.lines import split_lines


class CannotEdit(Exception):
    """The file is written in a way that this change can't be put into by lines."""


class Page:
    """One file's lines. Line numbers are always those of the file as it was."""

    def __init__(self, file: str, text: str) -> None:
        self.file = file
        self.before = split_lines(text)
        self.now: list[str | None] = list(self.before)  # None: the line goes
        self._put_in: dict[int, list[str]] = {}

    @property
    def numbers(self) -> range:
        return range(1, len(self.before) + 1)

    def line(self, number: int) -> str:
        """The line as it stands now. Raises CannotEdit where it is gone or in another file."""
        held = self.now[number - 1] if 1 <= number <= len(self.now) else None
        if held is None:
            raise CannotEdit(f"line {number} is gone")
        return held

    def at(self, place: Place) -> str:
        """The line of a place. Raises CannotEdit."""
        if place.file != self.file:
            raise CannotEdit(f"{place.file} is another file")
        return self.line(place.line)

    def change(self, number: int, new: str) -> None:
        """The line gives way to another."""
        self.line(number)
        if not new.strip():
            raise CannotEdit("the line would be empty")
        self.now[number - 1] = new

    def drop(self, number: int) -> None:
        """The line goes."""
        self.line(number)
        self.now[number - 1] = None

    def put_in(self, number: int, new: str) -> None:
        """A line put in before line `number`; one past the last puts it at the end."""
        self._put_in.setdefault(number, []).append(new)

    # -- looking round ---------------------------------------------------------------------------------

    def top(self, key: str) -> int | None:
        """The number of the line with a key of the outermost level."""
        found = (n for n in self.numbers if re.match(rf"{re.escape(key)}\s*:", self.now[n - 1] or ""))
        return next(found, None)

    def heading(self, number: int) -> int | None:
        """The line of the heading under which a line stands: the nearest above that is indented less."""
        depth = indent(self.before[number - 1])
        item = _is_item(self.before[number - 1])
        for n in range(number - 1, 0, -1):
            line = self.before[n - 1]
            if not line.strip() or line.lstrip().startswith("#"):
                continue
            # a list may stand as far left as its heading
            if indent(line) < depth or (item and indent(line) == depth and not _is_item(line)):
                return n
        return None

    def under(self, number: int) -> list[int]:
        """The lines that belong to a heading or row: all that follow and are indented more."""
        line = self.before[number - 1]
        depth = indent(line)
        made = []
        for n in range(number + 1, len(self.before) + 1):
            held = self.before[n - 1]
            if held.strip() and not held.lstrip().startswith("#"):
                item = _is_item(held) and not _is_item(line)
                if indent(held) < depth or (indent(held) == depth and not item):
                    break
                made.append(n)
        return made

    # -- what became of it -----------------------------------------------------------------------------

    def edits(self) -> tuple[Edit, ...]:
        """Every change of a line, in the order of the lines; at one line, what is put in before it comes first."""
        made: list[Edit] = []
        for number in range(1, len(self.before) + 2):
            made += [Edit(Place(self.file, number, 1), "", new) for new in self._put_in.get(number, ())]
            if number <= len(self.before):
                old, new = self.before[number - 1], self.now[number - 1]
                if new != old:
                    made.append(Edit(Place(self.file, number, 1), old, new or ""))
        return tuple(made)


def _is_item(line: str) -> bool:
    return line.lstrip().startswith("- ")


def indent(line: str) -> int:
    """Spaces before the first character."""
    return len(line) - len(line.lstrip(" "))


def edited(text: str, edits: Iterable[Edit]) -> str:
    """A text after its edits, with the line ends that it had.

    Raises CannotEdit where a line is not the one that an edit speaks of.
    """
    ends = re.findall(r"\r\n|\r|\n", text)
    lines = split_lines(text)
    end = ends[0] if ends else "\n"
    held = [line + (ends[k] if k < len(ends) else "") for k, line in enumerate(lines)]
    before: dict[int, list[str]] = {}
    for edit in edits:
        at = edit.place.line - 1
        if not edit.old:
            before.setdefault(at, []).append(edit.new + end)
        elif at >= len(lines) or lines[at] != edit.old:
            raise CannotEdit(f"line {edit.place.line} is another one")
        else:
            held[at] = edit.new + held[at][len(lines[at]) :] if edit.new else ""
    if len(lines) in before and held and held[-1] and not held[-1].endswith(("\n", "\r")):
        held[-1] += end
    made: list[str] = []
    for at, line in enumerate([*held, ""]):
        made += before.get(at, ())
        made.append(line)
    return "".join(made)
