"""Text of a job file to nodes that know their places. Every value stays text; nothing is guessed.

Built from the parser's events, not from its own nodes: a few times faster, and a fifth of the memory.
"""

from __future__ import annotations

import gc
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from harness.finding import Spot
from harness.place import Place
from harness.read.files import load, plain_text
from harness.read.folding import fold_text, fold_value, refused
from harness.read.lines import split_lines
from harness.read.troubles import Troubles

if TYPE_CHECKING:
    import yaml

DEEPEST = 12  # levels of tables and lists in each other

# text that may go over several lines: notes, and the chains of these lists
_PROSE = frozenset(("note", "found", "runs"))
_INDENT_TAB = re.compile(r"^ *\t[ \t]*(?=[^\s#])", re.MULTILINE)
_GLUED = re.compile(r"[ \t]#[^\s#!]")
_GLUED_AFTER = re.compile(r"[ \t]+#[^\s#!]")
_ZEROS = re.compile(r"(?:(?<=[./ ])|^)0+(?=[0-9]+(?:[./ ]|$))")
_RUNS = re.compile("[ \t]{2,}")


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
        return Place(self.file, self.line, self.column)

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

    __slots__ = ("column", "doubled", "file", "items", "line")

    def __init__(self, file: str, line: int, column: int) -> None:
        self.items: list[tuple[Text, Node]] = []
        self.doubled: tuple[tuple[Text, Node], ...] = ()
        self.file = file
        self.line = line
        self.column = column

    @property
    def place(self) -> Place:
        return Place(self.file, self.line, self.column)

    def get(self, name: str) -> Node | None:
        """The value behind exactly this key, or None."""
        for key, value in self.items:
            if key.value == name:
                return value
        return None

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
    running = gc.isenabled()
    gc.disable()  # nothing here makes circles, and looking for them would take half the time
    try:
        return _Builder(text, file).build(troubles)
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
                    "R04", Place(file, number, line.index("\t") + 1), "tab",
                    "This line begins with a tab, and how far in that is nobody can say.",
                    "Put spaces in its place, as many as the lines beside it have.",
                )  # fmt: skip
    return found


def _canonical(key: str) -> str:
    """What two keys must not share: case and leading zeros of a number don't make them different."""
    low = key.lower()
    return _ZEROS.sub("", low) if "0" in low else low


class _Builder:
    """One pass over the parser's events. The stack is our own, so depth costs no recursion."""

    def __init__(self, text: str, file: str) -> None:
        self.text = text
        self.file = file
        self.troubles = Troubles()
        self.odd = not text.isascii()
        self.glued = bool(_GLUED.search(text))
        self._split: list[str] | None = None

    @property
    def lines(self) -> list[str]:
        if self._split is None:
            self._split = split_lines(self.text)
        return self._split

    def build(self, tell_all: Troubles) -> Node | None:
        import yaml

        loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
        parser = None
        last: list[Any] = [None]
        try:
            parser = loader(self.text)
            root = self._events(parser, last, yaml)
        except yaml.YAMLError as wrong:
            from harness.read.syntax import tell

            # what was told before it may come of the same slip (a bracket never closed): the error alone counts
            tell(wrong, last[0], self.lines, self.file, tell_all)
            return None
        finally:
            if parser is not None:
                parser.dispose()
        if root is None and not self.troubles.refused:
            self.troubles.add(
                "R06", Place(self.file, 1, 1), self.file, "There is nothing in the file.",
                "Write the job, beginning with `ringout: 1`.",
            )  # fmt: skip
        tell_all.extend(self.troubles)
        return root

    def _events(self, parser: Any, last: list[Any], events: Any) -> Node | None:
        scalar, table_start, rows_start = events.ScalarEvent, events.MappingStartEvent, events.SequenceStartEvent
        table_end, rows_end, alias = events.MappingEndEvent, events.SequenceEndEvent, events.AliasEvent
        document_start, stream_end = events.DocumentStartEvent, events.StreamEndEvent
        file, odd, glued = self.file, self.odd, self.glued
        same: dict[str, str] = {}
        # the container being filled, its key waiting for a value, the keys seen, the key it stands behind
        here: Table | Rows | None = None
        key: Text | None = None
        seen: dict[str, Text] = {}
        name = ""
        flow = False
        stack: list[tuple[Table | Rows | None, Text | None, dict[str, Text], str, bool]] = []
        root: Node | None = None
        documents = 0
        next_event = parser.get_event
        while True:
            event = next_event()
            kind = type(event)
            node: Node
            if kind is scalar:
                start, end = event.start_mark, event.end_mark
                value = event.value
                style = event.style
                quoted = bool(style)
                exact = not quoted
                broken = False
                if event.anchor is not None or event.tag is not None:
                    broken = self._no_anchor(event)
                elif not value or value.isspace():
                    in_table = type(here) is Table
                    broken = self._empty(event, key if in_table else None, in_table and key is None, flow)
                elif style != "|" and style != ">":
                    if start.line != end.line:
                        exact = False
                        within = key.value if key is not None else name
                        if within not in _PROSE:
                            broken = self._several_lines(event)
                    if "  " in value:
                        value = _RUNS.sub(" ", value)
                        exact = False
                    if glued and not quoted:
                        self._cut_off(event)
                else:
                    value = value.rstrip("\n")
                if style == '"' and not value.isprintable():
                    broken = self._escaped(event) or broken
                if odd and not value.isascii():
                    folded = fold_value(value)
                    exact = exact and len(folded) == len(value)
                    broken = self._unfoldable(folded, event, exact) or broken
                    value = folded
                value = same.setdefault(value, value)
                node = (Broken if broken else Text)(value, quoted, exact, file, start.line + 1, start.column + 1)
                last[0] = event
                if type(here) is Table and key is None:
                    if value == "<<" and not quoted:
                        node = self._merge(node)
                    key = node
                    continue
            elif kind is table_start or kind is rows_start:
                if event.anchor is not None or event.tag is not None:
                    self._no_anchor(event)
                if len(stack) >= DEEPEST:
                    self._too_deep(event)
                    return None
                start = event.start_mark
                made = (Table if kind is table_start else Rows)(file, start.line + 1, start.column + 1)
                stack.append((here, key, seen, name, flow))
                name = key.value if key is not None else name
                here, key, seen, flow = made, None, {}, bool(event.flow_style)
                last[0] = event
                continue
            elif kind is table_end or kind is rows_end:
                assert here is not None
                node = here
                here, key, seen, name, flow = stack.pop()
                last[0] = event
                if type(here) is Table and key is None:
                    key = self._no_text_key(node)
                    continue
            elif kind is alias:
                node = self._alias(event)
                if type(here) is Table and key is None:
                    key = node
                    continue
            elif kind is document_start:
                documents += 1
                if documents > 1:
                    self._second_document(event)
                    return root
                continue
            elif kind is stream_end:
                return root
            else:
                continue
            # `node` is whole: hand it to what it stands in
            if here is None:
                root = node
            elif type(here) is Table:
                assert key is not None
                if type(key) is Text:
                    canonical = _canonical(key.value)
                    first = seen.setdefault(canonical, key)
                    if first is key:
                        here.items.append((key, node))
                    else:
                        self._twice(first, key)
                        here.doubled = (*here.doubled, (key, node))
                key = None
            else:
                here.items.append(node)  # type: ignore[arg-type]

    # -- what is refused, each with its sentence ---------------------------------------------------------

    def _place(self, mark: Any) -> Place:
        return Place(self.file, mark.line + 1, mark.column + 1)

    def _no_anchor(self, event: Any) -> bool:
        line = self.lines[event.start_mark.line]
        word = line[event.start_mark.column :].split(" ", 1)[0].rstrip(",]}") or "!"
        what = "an anchor" if event.anchor is not None else "a tag"
        self.troubles.add(
            "R03", self._place(event.start_mark), word, f"“{word}” is {what}, and a job file has none.",
            f"If {word[:1]} belongs to the text, put the whole value in quotes; else take it away.",
        )  # fmt: skip
        return True

    def _alias(self, event: Any) -> Broken:
        place = self._place(event.start_mark)
        self.troubles.add(
            "R03", place, f"*{event.anchor}", f"“*{event.anchor}” would stand for something elsewhere in the file.",
            "Write the value out; if * belongs to the text, put the whole value in quotes.",
        )  # fmt: skip
        return Broken("", False, False, *place)

    def _merge(self, node: Text) -> Broken:
        self.troubles.add(
            "R03", node.place, "<<", "“<<” would copy another table into this one.", "Write its rows out.",
        )  # fmt: skip
        return Broken(node.value, False, True, *node.place)

    def _no_text_key(self, node: Node) -> Broken:
        shape = "table in { }" if isinstance(node, Table) else "list in [ ]"
        self.troubles.add(
            "R08", node.place, "key", f"A {shape} stands where a name belongs, in front of a colon.",
            "Write one name or number in front of the colon; if brackets belong to a text, put it in quotes.",
        )  # fmt: skip
        return Broken("", False, False, *node.place)

    def _empty(self, event: Any, key: Text | None, is_key: bool, flow: bool) -> bool:
        place = self._place(event.start_mark)
        if is_key:
            self.troubles.add(
                "R06", place, ":", "There is nothing in front of the colon.", "Write the key, or take the colon away."
            )
            return True
        if key is None:
            self.troubles.add("R06", place, "-", "There is nothing in this entry.", "Write it, or take it away.")
            return True
        if type(key) is Broken:
            return True
        name = key.value
        rest = self.lines[event.start_mark.line][event.start_mark.column :].lstrip()
        do = "Write the value, or `unknown` where it was looked for, or take the key away."
        if flow and ":" in name.strip(":"):
            before, _, after = name.partition(":")
            do = f"Put a space behind the colon: {before}: {after}."
        elif flow:
            do = f"A comma ends a value inside {{ }}: write a decimal with a point, or quotes round the value; {do}"
            do = do.replace("; Write", "; else write")
        elif rest.startswith("#") and not rest.startswith("# "):
            do = f'What follows # is a remark; if it belongs to the value, put it in quotes: "{rest.strip()}".'
        elif rest[:1] in (">", "|"):
            do = f'A value that begins with {rest[0]} needs quotes: "{rest.split(" #")[0].strip()}".'
        self.troubles.add("R06", key.place, name, f"There is nothing behind “{name}”.", do)
        return True

    def _several_lines(self, event: Any) -> bool:
        start, end = event.start_mark, event.end_mark
        number = start.line + 1
        while number < end.line and not self.lines[number].strip():
            number += 1
        line = self.lines[number]
        column = len(line) - len(line.lstrip(" "))
        words = line.strip()
        glued = re.match(r"([^\s:{}\[\],]+):(?=\S)", words)
        if event.style:
            message = "This line still belongs to the text in quotes that began above."
            do = "Close the quotes on the line where they begin."
        elif glued:
            message = f"“{words}” is joined to the text above, because no space follows its colon."
            do = f"Put a space behind the colon: {glued[1]}: {words[glued.end():]}."
        else:
            message = f"“{words}” has no colon, so it is joined to the text above."
            do = "Put the colon behind its key, or bring the text onto one line."
        above = Spot(self._place(start), "the text above")
        self.troubles.add("R14", Place(self.file, number + 1, column + 1), words[:60], message, do, (above,))
        return True

    def _cut_off(self, event: Any) -> None:
        end = event.end_mark
        line = self.lines[end.line]
        match = _GLUED_AFTER.match(line, end.column)
        if match:
            at = match.end() - 2
            whole = f"{event.value} {line[at:].rstrip()}"
            self.troubles.add(
                "R15", Place(self.file, end.line + 1, at + 1), line[at:].rstrip(),
                f"From # on the line is a remark, so only “{event.value}” is read.",
                f'If it belongs to the value, put quotes round all of it: "{whole}"; else put a space behind the #.',
            )  # fmt: skip

    def _unfoldable(self, value: str, event: Any, exact: bool) -> bool:
        bad = False
        for offset, curly in refused(value):
            place = self._place(event.start_mark)
            if exact:
                place = place._replace(column=place.column + offset)
            if curly:
                message = f"{value[offset]} is a word processor's quote and no quote here."
                do = "Type a straight quote in its place, or none; most values need no quotes."
            else:
                message = f"A character that can't be seen (U+{ord(value[offset]):04X}) stands here."
                do = "Delete the word and type it again."
            self.troubles.add("R13", place, value[:60], message, do)
            bad = True
            if not exact:
                break  # one place for all of them
        return bad

    def _escaped(self, event: Any) -> bool:
        """A sign that `\\` made between double quotes and that no line of text can hold."""
        bad = next((char for char in event.value if not char.isprintable()), "")
        if bad in ("\n", "\u200b", "\xad") and event.start_mark.line != event.end_mark.line:
            return False
        self.troubles.add(
            "R13", self._place(event.start_mark), event.value.encode("unicode_escape").decode()[:60],
            f"These quotes hold a character that can't be seen (U+{ord(bad):04X}).",
            "Between double quotes \\ begins a sign of its own; use single quotes, or take it away.",
        )  # fmt: skip
        return True

    def _too_deep(self, event: Any) -> None:
        self.troubles.add(
            "R12", self._place(event.start_mark), "depth",
            f"Tables and lists stand in each other more than {DEEPEST} deep here; a job needs six.",
            "Look for brackets or indents too many.",
        )  # fmt: skip

    def _second_document(self, event: Any) -> None:
        self.troubles.add(
            "R05", self._place(event.start_mark), "---", "Here a second document begins; one file is one job.",
            "Take the line away, or move what follows into a file of its own.",
        )  # fmt: skip

    def _twice(self, first: Text, second: Text) -> None:
        if first.value == second.value:
            message = f"“{second.value}” stands in this table already, on line {first.line}."
        else:
            message = f"“{second.value}” is the same as “{first.value}” on line {first.line}."
        self.troubles.add(
            "R02", second.place, second.value, message, "Take one of the two away, or correct its key.",
            (Spot(first.place, first.value),),
        )  # fmt: skip
