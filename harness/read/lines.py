"""The user's own line, to be shown under a finding."""

from __future__ import annotations

import os
from functools import lru_cache

from harness.place import Place

WIDTH = 100  # characters of a line that are shown


def split_lines(text: str) -> list[str]:
    """Lines as editors count them: ended by LF, CR LF or CR, and by nothing else."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


@lru_cache(maxsize=32)
def _lines(file: str) -> tuple[str, ...]:
    try:
        if not os.path.isfile(file):
            return ()  # a device or a pipe would never end
        with open(file, "rb") as stream:
            raw = stream.read()
    except (OSError, ValueError):
        return ()
    return tuple(split_lines(raw.decode("utf-8", "replace").removeprefix("\ufeff")))


def shown_line(place: Place) -> tuple[str, int] | None:
    """The line of `place` as its owner wrote it, and how many characters stand before the caret.

    A very long line is cut round the column, with `…` where it goes on; tabs and characters that can't be
    shown become one space each, so that the caret stands where it should. None where the file can't be read
    or has no such line.
    """
    lines = _lines(place.file)
    if not 1 <= place.line <= len(lines):
        return None
    line = lines[place.line - 1].rstrip()
    at = min(max(place.column - 1, 0), len(line))
    start = 0
    if len(line) > WIDTH:
        start = min(max(at - WIDTH // 2, 0), len(line) - WIDTH)
        end = start + WIDTH
        cut = line[start:end]
        if start > 0:
            cut = "…" + cut[1:]
        if end < len(line):
            cut = cut[:-1] + "…"
        line = cut
    line = "".join(char if char.isprintable() else " " for char in line)
    return line, at - start


def forget() -> None:
    """Drop the lines kept from earlier, for a process that reads files again after they changed."""
    _lines.cache_clear()
