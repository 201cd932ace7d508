"""What is said about one wrong word: where it stands, its name, the sentence and what to type."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple


class Said(NamedTuple):
    """`offset` is where in the value the wrong word begins, `name` that word."""

    offset: int
    name: str
    message: str
    do: str


@lru_cache(maxsize=2048)
def nearest(word: str, known: tuple[str, ...]) -> str:
    """The known word most like `word`, or empty."""
    import difflib

    by_lower = {each.lower(): each for each in reversed(known)}
    if word.lower() in by_lower:
        return by_lower[word.lower()]
    close = difflib.get_close_matches(word.lower()[:60], list(by_lower), n=1, cutoff=0.6)
    return by_lower[close[0]] if close else ""


def fits(pattern: str, text: str) -> bool:
    """Whether a pattern of ours fits the whole text."""
    return re.fullmatch(pattern, text, re.ASCII) is not None


def words_of(text: str) -> list[tuple[int, str]]:
    """The words of a text, each with where it begins."""
    return [(match.start(), match[0]) for match in re.finditer(r"\S+", text)]
