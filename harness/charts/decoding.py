"""From a chart's bytes to its text: the encodings in which spreadsheets and editors save."""

from __future__ import annotations

import re
from typing import NamedTuple

from harness.read.folding import CONTROL

MOST_BYTES = 4_000_000
ENCODINGS = {"utf-8": "UTF-8", "utf-16": "UTF-16", "cp1252": "Windows (cp1252)"}
_END = re.compile(r"\r\n|\r|\n")


class Decoded(NamedTuple):
    """The text, and how it was saved, in words."""

    text: str
    encoding: str


class NotText(Exception):
    """The bytes are no text that a chart can have; `line` from 1, 0 where it is the whole file."""

    def __init__(self, message: str, do: str, line: int = 0) -> None:
        super().__init__(message)
        self.message, self.do, self.line = message, do, line


def decode(raw: bytes, encoding: str = "") -> Decoded:
    """The text of a chart. `encoding` is a key of `ENCODINGS`, or empty: found by mark, by shape, else by trying.

    Raises NotText for bytes that aren't text, and for what was asked for and isn't so.
    """
    if len(raw) > MOST_BYTES:
        raise NotText(f"The file has {len(raw) / 1e6:.0f} MB; a chart has at most 4.", "Is it the right file?")
    if raw.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise NotText(
            "This is a spreadsheet's own file (.xlsx, .ods, .xls), which can’t be read yet.",
            "Save the sheet as CSV, and give that file.",
        )
    text, found = _as_text(raw, encoding)
    bad = CONTROL.search(text)
    if bad:
        line = len(_END.findall(text[: bad.start()])) + 1
        raise NotText(
            f"A character that no text has (number {ord(bad[0])}) stands here.", "Is it the right file, a CSV?", line
        )
    return Decoded(text, found)


def _as_text(raw: bytes, encoding: str) -> tuple[str, str]:
    if raw.startswith((b"\xff\xfe\x00\x00", b"\x00\x00\xfe\xff")):
        raise NotText("The file is saved as UTF-32.", "Save it as UTF-8.")
    if encoding == "utf-16" or (not encoding and raw.startswith((b"\xff\xfe", b"\xfe\xff"))):
        return _wide(raw, ""), ENCODINGS["utf-16"]
    if not encoding and (order := _without_mark(raw)):
        return _wide(raw, order), f"{ENCODINGS['utf-16']} without a mark"
    if encoding in ("", "utf-8"):
        marked = raw.startswith(b"\xef\xbb\xbf")
        try:  # the mark is decoded like any other sign, so that the places of errors hold
            return raw.decode("utf-8").removeprefix("\ufeff"), "UTF-8 with a mark" if marked else ENCODINGS["utf-8"]
        except UnicodeDecodeError as wrong:
            if encoding or marked:
                raise NotText(
                    f"The byte {raw[wrong.start]:02X} here is no UTF-8.",
                    "Save the file as UTF-8, or give --encoding.",
                    _line_of(raw, wrong.start),
                ) from None
    try:
        return raw.decode("cp1252"), ENCODINGS["cp1252"]
    except UnicodeDecodeError as wrong:
        raise NotText(
            f"The byte {raw[wrong.start]:02X} here is neither UTF-8 nor of a Windows code page.",
            "Save the file as UTF-8.",
            _line_of(raw, wrong.start),
        ) from None


def _wide(raw: bytes, order: str) -> str:
    try:
        if order or raw.startswith((b"\xff\xfe", b"\xfe\xff")):
            return raw.decode(order or "utf-16").removeprefix("\ufeff")
        return raw.decode(_without_mark(raw) or "utf-16-le")
    except UnicodeDecodeError:
        raise NotText("The file begins as UTF-16 and goes on as something else.", "Save it as UTF-8.") from None


def _without_mark(raw: bytes) -> str:
    """The byte order of UTF-16 text without its mark, seen by the zero bytes of plain letters; empty where it isn't."""
    start = raw[:400]
    if len(start) < 4 or len(raw) % 2:
        return ""
    half = len(start) // 2
    odd, even = start[1::2].count(0), start[0::2].count(0)
    if odd > half * 0.6 and not even:
        return "utf-16-le"
    return "utf-16-be" if even > half * 0.6 and not odd else ""


def _line_of(raw: bytes, at: int) -> int:
    before = raw[:at].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    return before.count(b"\n") + 1
