"""Texts as values of the job file, so that they are read as what they are."""

from __future__ import annotations

import re

# a text that nobody, no editor either, takes for anything but a text
_PLAIN = re.compile(r"(?=.*[A-Za-z])[A-Za-z0-9](?:[A-Za-z0-9 ._()/+-]*[A-Za-z0-9._()/+-])?")
_NUMBER = re.compile(r"[0-9.+-]+(?:e[0-9+-]+)?", re.IGNORECASE)
_WORDS = frozenset(("on", "off", "yes", "no", "true", "false", "null", "y", "n", "unknown", "empty"))


def quoted(text: str) -> str:
    """The text as a value: plain where that is safe in a table of one line too, else in single quotes."""
    text = " ".join(text.split())
    if _PLAIN.fullmatch(text) and text.lower() not in _WORDS and not _NUMBER.fullmatch(text):
        return text
    return "'" + text.replace("'", "''") + "'"
