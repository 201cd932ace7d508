"""The shapes that the job file is described with: text, table, list, and a choice between them.

They hold data only. `conform` holds nodes against them, `schema` prints them as JSON Schema. Patterns are
written so that both understand them: a plain space stands for any run of spaces (nodes have one each), and
`(?i:…)` for letters of either case.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from harness.read.quick import QUICK

_KEPT = 20_000  # texts remembered as good, each


class Word:
    """A text. With `words` one of those; with `pattern` what matches it whole; with neither, anything.

    `what` and `example` go into messages. `kind` picks the sentence that says what is wrong (`saying`).
    `other` maps words understood besides to the ones meant. `number` are the bounds that hold where an
    editor reads the text as a number. `lines`: may be written as a text block.
    """

    __slots__ = (
        "_match",
        "_quick",
        "example",
        "good",
        "kind",
        "lines",
        "most",
        "number",
        "other",
        "pattern",
        "what",
        "words",
    )

    def __init__(
        self, what: str, pattern: str = "", example: str = "", *, words: tuple[str, ...] = (), kind: str = "",
        most: int = 400, lines: bool = False, other: dict[str, str] | None = None,
        number: tuple[int, int] | None = None, unknown: bool = False,
    ) -> None:  # fmt: skip
        if unknown and words:
            words = (*words, "unknown")
        elif unknown:
            pattern = f"{pattern}|unknown"
        self.what = what
        self.words = words
        self.pattern = pattern or "|".join(re.escape(word).replace(r"\ ", " ").replace(r"\-", "-") for word in words)
        self.example = example or (words[0] if words else "")
        self.kind = kind
        self.most = most
        self.lines = lines
        self.other = other or {}
        self.number = number
        self.good: set[str] = set()
        self._quick = QUICK.get(kind)
        self._match: Callable[[str], object] | None = None

    def fits(self, text: str) -> bool:
        """Whether the text is what is asked for; remembered, since most texts of a big job repeat."""
        if text in self.good:
            return True
        if len(text) > self.most:
            return False
        if text in self.words or (self._quick is not None and self._quick(text)):
            pass
        elif self.pattern:
            if self._match is None:
                self._match = re.compile(self.pattern, re.ASCII).fullmatch
            if not self._match(text):
                return False
        if len(self.good) < _KEPT:
            self.good.add(text)
        return True


class Fields:
    """A table. `keys` are its own words; `rows` are for keys that people choose: key and value shape.

    `required` keys must all be there, of `one_of` at least one. `other` maps keys understood besides to the
    ones meant. `least` and `most` bound the number of keys.
    """

    __slots__ = ("example", "keys", "least", "most", "one_of", "other", "required", "rows", "what")

    def __init__(
        self, what: str, keys: dict[str, Shape] | None = None, *, rows: tuple[tuple[Word, Shape], ...] = (),
        required: tuple[str, ...] = (), one_of: tuple[str, ...] = (), other: dict[str, str] | None = None,
        least: int = 0, most: int = 0, example: str = "",
    ) -> None:  # fmt: skip
        self.what = what
        self.keys = keys or {}
        self.rows = rows
        self.required = required
        self.one_of = one_of
        self.other = other or {}
        self.least = least
        self.most = most
        self.example = example


class Listing:
    """A list of things of one shape."""

    __slots__ = ("example", "item", "least", "what")

    def __init__(self, what: str, item: Shape, *, least: int = 0, example: str = "") -> None:
        self.what = what
        self.item = item
        self.least = least
        self.example = example


class Either:
    """One of several shapes, told apart by being text, table or list."""

    __slots__ = ("listing", "table", "text")

    def __init__(self, text: Word | None = None, table: Fields | None = None, listing: Listing | None = None) -> None:
        self.text = text
        self.table = table
        self.listing = listing


Shape = Word | Fields | Listing | Either
