"""Text of a job file to nodes that know their places. Every value stays text; nothing is guessed.

Built from the parser's events, not from its own nodes: a few times faster, and a fifth of the memory.
"""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator

from harness.finding import Spot
from harness.place import Place
from harness.read.files import load, plain_text
from harness.read.folding import fold_text
from harness.read.lines import split_lines
from harness.read.troubles import Troubles

# A named tuple made from a tuple: a third of the time, and there is one for every contact and line of a big job.
_new = tuple.__new__
DEEPEST = 12  # levels of tables and lists in each other

_INDENT_TAB = re.compile(r"^ *\t[ \t]*(?=[^\s#])", re.MULTILINE)


class Text:
    """A value or a key, always text. `exact`: the file holds these very characters from the place on."""

    __slots__ = ("column", "exact", "file", "line", "quoted", "value")

    def __init__(self, value: str, quoted: bool, exact: bool, file: str, line: int, column: int) -> None:
        self.value = value
        self.quoted = quoted
        self.exact = exact
        self.file = file
        self.line = line
        self.column = column

    @property
    def place(self) -> Place:
        return _new(Place, (self.file, self.line, self.column))

    def place_of(self, offset: int) -> Place:
        """The place of a character of the value, or the value's own where the two can't be matched."""
        return Place(self.file, self.line, self.column + (offset if self.exact else 0))

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self.value!r}, {self.line}, {self.column})"


class Broken(Text):
    """A value or key that was refused already; nothing more is said about it."""

    __slots__ = ()


class Table:
    """Keys and values in the order written. `doubled` holds what was refused as written twice."""

    __slots__ = ("_by_name", "column", "doubled", "file", "items", "line")

    def __init__(self, file: str, line: int, column: int) -> None:
        self.items: list[tuple[Text, Node]] = []
        self._by_name: dict[str, Node] = {}
        self.doubled: tuple[tuple[Text, Node], ...] = ()
        self.file = file
        self.line = line
        self.column = column

    @property
    def place(self) -> Place:
        return Place(self.file, self.line, self.column)

    def get(self, name: str) -> Node | None:
        """The value behind exactly this key, or None; of several the first."""
        known = self._by_name
        if len(known) != len(self.items):  # first asked, or more keys since; keys that are alike were refused
            known = self._by_name = {key.value: value for key, value in reversed(self.items)}
        return known.get(name)

    def key(self, name: str) -> Text | None:
        """The key's own node, for its place."""
        for key, _ in self.items:
            if key.value == name:
                return key
        return None

    def __iter__(self) -> Iterator[tuple[Text, Node]]:
        return iter(self.items)

    def __len__(self) -> int:
        return len(self.items)


class Rows:
    """A list."""

    __slots__ = ("column", "file", "items", "line")

    def __init__(self, file: str, line: int, column: int) -> None:
        self.items: list[Node] = []
        self.file = file
        self.line = line
        self.column = column

    @property
    def place(self) -> Place:
        return Place(self.file, self.line, self.column)

    def __iter__(self) -> Iterator[Node]:
        return iter(self.items)

    def __len__(self) -> int:
        return len(self.items)


Node = Text | Table | Rows


def read_file(path: str, troubles: Troubles, named: Spot | None = None) -> Node | None:
    """The nodes of a file, or None (and told) where it can't be read at all.

    `named` is where another file names this one.
    """
    text = load(path, troubles, named)
    return None if text is None else read_text(text, path, troubles)


def read_text(text: str, file: str, troubles: Troubles) -> Node | None:
    """The nodes of a text, or None (and told) where nothing can be made of it.

    A text that isn't YAML gives its first error only; else everything wrong is told and the rest is kept.
    """
    text = text.removeprefix("\ufeff")
    if not plain_text(text, file, troubles):
        return None
    if "\t" in text:
        if _tabs(text, file, troubles):
            return None
        text = text.replace("\t", " ")
    text = fold_text(text)
    from harness.read.building import Builder

    running = gc.isenabled()
    gc.disable()  # nothing here makes circles, and looking for them would take half the time
    try:
        return Builder(text, file).build(troubles)
    finally:
        if running:
            gc.enable()


def _tabs(text: str, file: str, troubles: Troubles) -> bool:
    found = False
    if _INDENT_TAB.search(text.replace("\r", "\n")):
        for number, line in enumerate(split_lines(text), 1):
            if _INDENT_TAB.match(line):
                found = True
                troubles.add(
                    "R04",
                    Place(file, number, line.index("\t") + 1),
                    "tab",
                    "This line begins with a tab, and how far in that is nobody can say.",
                    "Put spaces in its place, as many as the lines beside it have.",
                )
    return found
