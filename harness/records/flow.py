"""One record as one line of text that reads back as the very same text, and where such a line ends."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

Fields = Sequence[tuple[str, str | Sequence[str]]]

_KEY = re.compile("[A-Za-z][A-Za-z0-9_-]*").fullmatch

# What a value must not hold, begin with or end in to be written without quotes. The dashes are those that the job
# reader turns into `-`, which alone begins a list; `?` ends a value for some readers of YAML and not for others.
_DASHES = "\u2010\u2011\u2013\u2212\ufe63\uff0d"
_NEEDS_QUOTES = re.compile(
    rf"""^[&*!|>%@`"'#:{_DASHES}]
    | ^-(?:\ |$) | ^\ | \ $ | \ \ | \ \#
    | :(?:\ |$)
    | [?,\[\]{{}}]
    | [^\S\ ]""",
    re.VERBOSE,
)
# The job reader refuses a word processor's quotes, but for the apostrophe inside a word.
_CURLY = re.compile(r"[“”„‟‘‚‛]|(?<!\w)’|’(?!\w)")

_BEGIN = re.compile(r"\s*-\s+\{")
_DOUBLE = re.compile(r'"(?:[^"\\]|\\.)*"')
_SINGLE = re.compile(r"'(?:[^']|'')*'")
_CLOSES = {"{": "}", "[": "]"}


# What nearly every line is, seen at once: values plain, in lists or between double quotes.
_PLAIN_LINE = re.compile(
    r"""-\ \{(?:[^\[\]{}"'#\r\n]++|\[[^\[\]{}"'#\r\n]*+\]|(?<=[:,]\ )"(?:[^"\\\r\n]|\\.)*+"(?=[,}]))++\}""", re.VERBOSE
).fullmatch  # fmt: skip


def flow_line(fields: Fields) -> str:
    """The record's line without line end: `- {when: 2026-03-02 09:40, by: JM, photo: [a.jpg, b.jpg]}`.

    Values stay text: written plain where YAML reads the very same text back, else between double quotes. Raises
    ValueError, naming the key, for what can't be written so that it is read again: an empty value, a line end or
    another character that can't be seen, a word processor's quote, a key that is no word or comes twice.
    """
    if not fields:
        raise ValueError("a record without fields")
    seen: set[str] = set()
    written: list[str] = []
    for key, value in fields:
        if not _KEY(key):
            raise ValueError(f"{key!r}: a key is a word of letters, digits, - and _ that begins with a letter")
        if key.lower() in seen:
            raise ValueError(f"{key}: comes twice in one record")
        seen.add(key.lower())
        if isinstance(value, str):
            written.append(f"{key}: {_written(key, value)}")
        elif not value:
            raise ValueError(f"{key}: the list is empty")
        else:
            written.append(f"{key}: [{', '.join(_written(key, each) for each in value)}]")
    return "- {" + ", ".join(written) + "}"


def _written(key: str, value: str) -> str:
    if not value.strip():
        raise ValueError(f"{key}: the value is empty")
    for char in value:
        # spaces of other widths aren't "printable" but can be read; the job reader turns them into plain ones
        if not char.isprintable() and unicodedata.category(char) != "Zs":
            raise ValueError(f"{key}: a character that can't be seen (U+{ord(char):04X}) or a line end in the value")
    curly = _CURLY.search(value)
    if curly:
        raise ValueError(f"{key}: {curly[0]} is a word processor's quote; type a straight one")
    if not _NEEDS_QUOTES.search(value):
        return value
    escaped = value.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def record_end(line: str) -> int | None:
    """How many characters of `line` a record `- {…}` takes up; None where none begins or its end isn't there."""
    if _PLAIN_LINE(line):
        return len(line)
    begin = _BEGIN.match(line)
    if begin is None:
        return None
    at = begin.end()
    open_brackets = ["}"]
    fresh = True  # whether a value or key may begin here: only there a quote is a quote
    while at < len(line):
        char = line[at]
        if fresh and char in "\"'":
            quoted = (_DOUBLE if char == '"' else _SINGLE).match(line, at)
            if quoted is None:
                return None
            at = quoted.end()
            if line[at : at + 1] == ":":
                at += 1
            else:
                fresh = False
            continue
        if char in _CLOSES:
            open_brackets.append(_CLOSES[char])
            fresh = True
        elif char in "]}":
            if open_brackets.pop() != char:
                return None
            if not open_brackets:
                return at + 1
            fresh = False
        elif char == "," or (char == ":" and line[at + 1 : at + 2] in ("", " ", "\t")):
            fresh = True
        elif char == "#" and line[at - 1] in " \t":
            return None  # the rest is a remark
        elif not char.isspace():
            fresh = False
        at += 1
    return None


def is_whole(line: str) -> bool:
    """Whether the line is one whole record, behind which at most a remark stands."""
    end = record_end(line)
    if end is None:
        return False
    rest = line[end:]
    return not rest.strip() or (rest[0].isspace() and rest.lstrip().startswith("#"))
