"""What the reader refuses while it builds nodes, each with its sentence."""

from __future__ import annotations

import re
from typing import Any

from harness.finding import Spot
from harness.place import Place
from harness.read.folding import refused
from harness.read.lines import split_lines
from harness.read.nodes import DEEPEST, Broken, Node, Table, Text
from harness.read.troubles import Troubles

_GLUED_AFTER = re.compile(r"[ \t]+#[^\s#!]")


class Refusing:
    """The text being read, its file, and what was told about it so far."""

    def __init__(self, text: str, file: str) -> None:
        self.text = text
        self.file = file
        self.troubles = Troubles()
        self._split: list[str] | None = None

    @property
    def lines(self) -> list[str]:
        if self._split is None:
            self._split = split_lines(self.text)
        return self._split

    def line(self, number: int) -> str:
        """A line by the parser's number; empty behind the last one, where the parser may stand at the end."""
        return self.lines[number] if number < len(self.lines) else ""

    def _place(self, mark: Any) -> Place:
        if mark.line >= len(self.lines):
            return Place(self.file, len(self.lines), len(self.lines[-1]) + 1)
        return Place(self.file, mark.line + 1, mark.column + 1)

    def no_anchor(self, event: Any) -> bool:
        line = self.line(event.start_mark.line)
        word = line[event.start_mark.column :].split(" ", 1)[0].rstrip(",]}") or "!"
        what = "an anchor" if event.anchor is not None else "a tag"
        self.troubles.add(
            "R03",
            self._place(event.start_mark),
            word,
            f"“{word}” is {what}, and a job file has none.",
            f"If {word[:1]} belongs to the text, put the whole value in quotes; else take it away.",
        )
        return True

    def alias(self, event: Any) -> Broken:
        place = self._place(event.start_mark)
        self.troubles.add(
            "R03",
            place,
            f"*{event.anchor}",
            f"“*{event.anchor}” would stand for something elsewhere in the file.",
            "Write the value out; if * belongs to the text, put the whole value in quotes.",
        )
        return Broken("", False, False, *place)

    def merge(self, node: Text) -> Broken:
        self.troubles.add(
            "R03",
            node.place,
            "<<",
            "“<<” would copy another table into this one.",
            "Write its rows out.",
        )
        return Broken(node.value, False, True, *node.place)

    def no_text_key(self, node: Node) -> Broken:
        shape = "table in { }" if isinstance(node, Table) else "list in [ ]"
        self.troubles.add(
            "R08",
            node.place,
            "key",
            f"A {shape} stands where a name belongs, in front of a colon.",
            "Write one name or number in front of the colon; if brackets belong to a text, put it in quotes.",
        )
        return Broken("", False, False, *node.place)

    def empty(self, event: Any, key: Text | None, is_key: bool, flow: bool) -> bool:
        place = self._place(event.start_mark)
        if is_key:
            self.troubles.add(
                "R06",
                place,
                ":",
                "There is nothing in front of the colon.",
                "Write the key, or take the colon away.",
            )
            return True
        if key is None:
            self.troubles.add("R06", place, "-", "There is nothing in this entry.", "Write it, or take it away.")
            return True
        if type(key) is Broken:
            return True
        name = key.value
        rest = self.line(event.start_mark.line)[event.start_mark.column :].lstrip()
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

    def no_key(self, key: Text) -> bool:
        """Whether a comma made this key out of a piece of text: no colon follows it."""
        rest = self.line(key.line - 1)[key.column - 1 + len(key.value) :]
        return key.exact and not rest.lstrip().startswith(":")

    def several_lines(self, event: Any) -> bool:
        start, end = event.start_mark, event.end_mark
        number = start.line + 1
        while number < end.line and not self.line(number).strip():
            number += 1
        line = self.line(number)
        column = len(line) - len(line.lstrip(" "))
        words = line.strip()
        glued = re.match(r"([^\s:{}\[\],]+):(?=\S)", words)
        if event.style:
            message = "This line still belongs to the text in quotes that began above."
            do = "Close the quotes on the line where they begin."
        elif glued:
            message = f"“{words}” is joined to the text above, because no space follows its colon."
            do = f"Put a space behind the colon: {glued[1]}: {words[glued.end() :]}."
        else:
            message = f"“{words}” has no colon, so it is joined to the text above."
            do = "Put the colon behind its key, or bring the text onto one line."
        above = Spot(self._place(start), "the text above")
        self.troubles.add("R14", Place(self.file, number + 1, column + 1), words[:60], message, do, (above,))
        return True

    def cut_off(self, event: Any) -> None:
        end = event.end_mark
        line = self.line(end.line)
        match = _GLUED_AFTER.match(line, end.column)
        if match:
            at = match.end() - 2
            whole = f"{event.value} {line[at:].rstrip()}"
            self.troubles.add(
                "R15",
                Place(self.file, end.line + 1, at + 1),
                line[at:].rstrip(),
                f"From # on the line is a remark, so only “{event.value}” is read.",
                (f'If it belongs to the value, put quotes round all of it: "{whole}"; else put a space behind the #.'),
            )

    def unfoldable(self, value: str, event: Any, exact: bool) -> bool:
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

    def escaped(self, event: Any) -> bool:
        """A sign that `\\` made between double quotes and that no line of text can hold."""
        bad = next((char for char in event.value if not char.isprintable()), "")
        if bad in ("\n", "\u200b", "\xad") and event.start_mark.line != event.end_mark.line:
            return False
        self.troubles.add(
            "R13",
            self._place(event.start_mark),
            event.value.encode("unicode_escape").decode()[:60],
            f"These quotes hold a character that can't be seen (U+{ord(bad):04X}).",
            "Between double quotes \\ begins a sign of its own; use single quotes, or take it away.",
        )
        return True

    def too_deep(self, event: Any) -> None:
        self.troubles.add(
            "R12",
            self._place(event.start_mark),
            "depth",
            f"Tables and lists stand in each other more than {DEEPEST} deep here; a job needs six.",
            "Look for brackets or indents too many.",
        )

    def second_document(self, event: Any) -> None:
        self.troubles.add(
            "R05",
            self._place(event.start_mark),
            "---",
            "Here a second document begins; one file is one job.",
            "Take the line away, or move what follows into a file of its own.",
        )

    def twice(self, first: Text, second: Text) -> None:
        if first.value == second.value:
            message = f"“{second.value}” stands in this table already, on line {first.line}."
        else:
            message = f"“{second.value}” is the same as “{first.value}” on line {first.line}."
        self.troubles.add(
            "R02",
            second.place,
            second.value,
            message,
            "Take one of the two away, or correct its key.",
            (Spot(first.place, first.value),),
        )
