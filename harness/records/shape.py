"""Whether one more record can stand behind what is in an evidence file, by the shape of its lines alone.

A record that is put behind others begins with `- {` at the line's beginning. It is read only where all that stands
before it is a list of the same kind, closed. What was written by hand may be a list in brackets, a list set in, or a
document that was ended: such a file can be read as it is, and couldn't any more with a line behind it.
"""

from __future__ import annotations

from harness.records.flow import is_whole
from harness.records.torn import is_aside


def odd_line(lines: list[str]) -> int | None:
    """The number (from 1) of the first line behind which no record can be put; None where one can.

    `lines` are those of the file as it is, the last one ended. Linear: most lines are seen by one expression.
    """
    begun = False  # a record, or the mark of a document
    at = 0
    while at < len(lines):
        line = lines[at]
        at += 1
        if _says_nothing(line) or (line.startswith("- {") and is_whole(line)):
            begun = begun or line.startswith("- {")
            continue
        if line.rstrip() == "---" and not begun:
            begun = True
            continue
        if line[:2] not in ("- ", "-"):
            return at
        begun, first = True, at
        while at < len(lines) and (lines[at][:1] in (" ", "") or _says_nothing(lines[at])):
            at += 1
        held = [each for each in (line, *lines[first:at]) if not _says_nothing(each)]
        if not _is_closed(held):
            return first
    return None


def _says_nothing(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#") or is_aside(line)


def _is_closed(record: list[str]) -> bool:
    """Whether a record over several lines, set in, ends with them."""
    first = record[0][1:].lstrip()
    if first.startswith("{"):
        return is_whole(" ".join(record))
    return bool(first or record[1:]) and not first.startswith(("[", '"', "'", "-"))
