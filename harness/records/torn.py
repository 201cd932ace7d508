"""Lines that a crash left half written: how they are known, passed over and told.

Nothing is ever taken out of the file. A half line is ended with ` #torn` by the next record that is put behind it.
"""

from __future__ import annotations

import re

from harness.records.flow import is_whole

TORN = " #torn"

_LINE = re.compile(r"[^\r\n]+")
_BEGUN = re.compile(r"\s*-\s*(?:\{|$)")


def lines_in(text: str) -> list[str]:
    """Lines as editors count them: ended by LF, CR LF or CR, and by nothing else."""
    return text.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def is_aside(line: str) -> bool:
    """Whether an ended line was set aside: marked as torn, or with NUL bytes where the disk lost a block of it."""
    return line.endswith(TORN) or "\0" in line


def is_half(line: str) -> bool:
    """Whether a last line without line end is the beginning of a record and not the whole.

    Remarks, and records that somebody wrote by hand over several lines, are no half lines: every line of ours
    begins with `- {`.
    """
    return is_aside(line) or (bool(_BEGUN.match(line)) and not is_whole(line))


def without_torn(text: str) -> tuple[str, list[tuple[int, str]]]:
    """The text with every torn line blanked, and the torn ones as (line number from 1, text without the mark).

    Same number of lines, same length, so that every place in the rest stays where it was.
    """
    if TORN not in text and "\0" not in text and (not text or text[-1] in "\r\n"):
        return text, []
    kept: list[str] = []
    torn: list[tuple[int, str]] = []
    done = number = 0
    for found in _LINE.finditer(text):
        line = found[0]
        if not (is_aside(line) or (found.end() == len(text) and is_half(line))):
            continue
        number += len(lines_in(text[done : found.start()])) - 1
        torn.append((number + 1, line.removesuffix(TORN)))
        kept += (text[done : found.start()], " " * len(line))
        done = found.end()
    return "".join((*kept, text[done:])), torn


def rest_of_character(raw: bytes) -> bytes:
    """The bytes that make a character out of the half one at the very end of UTF-8; none where no half one is there.

    A record torn inside a letter would else leave a file that isn't UTF-8 and that no editor opens. Which letter it
    becomes doesn't matter: it stands in a line that is set aside.
    """
    for back in range(1, min(3, len(raw)) + 1):
        byte = raw[-back]
        if byte < 0x80:
            break
        if byte >= 0xC0:
            missing = (2 if byte < 0xE0 else 3 if byte < 0xF0 else 4) - back
            # the byte behind the first one has limits of its own (RFC 3629, section 4)
            first = {0xE0: b"\xa0", 0xF0: b"\x90"}.get(byte, b"\x80") if back == 1 else b"\x80"
            return (first + b"\x80\x80")[:missing] if missing > 0 else b""
    return b""


def whole_characters(raw: bytes) -> bytes:
    """The file's bytes as UTF-8 that can be decoded though its last line was torn inside a letter; same length."""
    if not rest_of_character(raw):
        return raw
    begun = next(back for back in (1, 2, 3) if raw[-back] >= 0xC0)
    return raw[:-begun] + b"?" * begun
