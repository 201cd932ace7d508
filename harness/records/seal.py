"""The digest that each line carries: it holds the line and, through the one before, every sealed line above.

It shows a line that was changed, taken out or moved by mistake. It is no signature: whoever rewrites the file from
there to its end can seal it again, and who takes away the last lines leaves no trace.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from types import MappingProxyType

from harness.records.flow import is_whole, record_end
from harness.records.torn import is_aside

DIGITS = 16

_SEAL = re.compile(r", seal: ([^\s,\[\]{}\"']+)\}$")


def seal_of(before: str, line: str) -> str:
    """The first 16 hex digits of SHA-256 (FIPS 180-4) over the seal before, a line feed, and the line, in UTF-8.

    `before` is the seal of the record sealed last before this one, empty for the first; `line` is the record as
    `flow_line` makes it, without its own seal.
    """
    import hashlib

    return hashlib.sha256(f"{before}\n{line}".encode()).hexdigest()[:DIGITS]


def sealed(line: str, seal: str) -> str:
    """The line with its seal as the last field."""
    return f"{line[:-1]}, seal: {seal}}}"


def unsealed(text: str) -> tuple[str, str]:
    """A written line as (line without seal, seal or ""), without line end and without a remark behind the record."""
    line = text.rstrip("\r\n")
    if not is_whole(line):
        return line, ""
    record = line[: record_end(line)]
    found = _SEAL.search(record)
    if found is None:
        return line, ""
    return record[: found.start()] + "}", found[1]


def broken(lines: Iterable[str], seen: Mapping[int, str] = MappingProxyType({})) -> list[int]:
    """The numbers (from 1) of the lines whose seal isn't right.

    Such a line was changed, or one sealed before it was taken out, put in or moved. Lines without seal, remarks,
    blank lines and torn lines are passed over. `seen` are seals by the line where their record begins, as a reader of
    YAML finds them: one that doesn't stand as it was put in, last, plain and on the record's own line, isn't right.
    """
    before = [""]  # the seal before; two where one was moved, as a record may have been sealed before that or after
    wrong = []
    for number, text in enumerate(lines, 1):
        line, seal = _seal_in(text)
        if not seal:
            if number in seen:
                wrong.append(number)
                before.append(seen[number])
            continue
        if all(seal != seal_of(each, line) for each in before):
            wrong.append(number)
        before = [seal]
    return wrong


def last_seal(lines: list[str]) -> str:
    """The seal of the record sealed last in these lines, or ""."""
    return next((seal for text in reversed(lines) if (seal := _seal_in(text)[1])), "")


def _seal_in(text: str) -> tuple[str, str]:
    line = text.rstrip("\r\n")
    return (line, "") if is_aside(line) else unsealed(line)
