"""Seals: a digest at the end of each line that the tool writes, over the line and the seal before it.

A line that was changed later, and one that was taken out from between, no longer fit.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable

from harness.records.torn import TORN

_SEAL = re.compile(r"^(.*), seal: ([0-9a-f]{16})\}\s*$")


def seal_of(before: str, line: str) -> str:
    """Sixteen hex digits of SHA-256 over the seal before (empty for the first), a line feed, and the line."""
    return hashlib.sha256(f"{before}\n{line}".encode()).hexdigest()[:16]


def sealed(line: str, seal: str) -> str:
    """The line with its seal as the last thing in the braces."""
    return f"{line[:-1]}, seal: {seal}}}"


def unsealed(text: str) -> tuple[str, str]:
    """A line as it was before it was sealed, and its seal; empty where it has none."""
    found = _SEAL.match(text)
    return (f"{found[1]}}}", found[2]) if found else (text.rstrip(), "")


def broken(lines: Iterable[str]) -> list[int]:
    """The numbers, from 1, of lines whose seal isn't right. Lines without one are passed over."""
    before = ""
    made = []
    for number, text in enumerate(lines, 1):
        line, seal = unsealed(text)
        if not seal or text.rstrip().endswith(TORN):
            continue
        if seal_of(before, line) != seal:
            made.append(number)
        before = seal
    return made
