"""The parser's events to nodes. A few times faster than its own nodes, and a fifth of the memory."""

from __future__ import annotations

import re
from typing import Any

from harness.place import Place
from harness.read.folding import fold_value
from harness.read.nodes import DEEPEST, Broken, Node, Rows, Table, Text
from harness.read.refusing import Refusing
from harness.read.troubles import Troubles

# text that may go over several lines: notes, and the chains of these lists
_PROSE = frozenset(("note", "found", "runs"))
_GLUED = re.compile(r"[ \t]#[^\s#!]")
_ZEROS = re.compile(r"(?:(?<=[./ ])|^)0+(?=[0-9]+(?:[./ ]|$))")
_RUNS = re.compile("[ \t]{2,}")


class Builder(Refusing):
    """One pass over the parser's events. The stack is our own, so depth costs no recursion."""

    def __init__(self, text: str, file: str) -> None:
        super().__init__(text, file)
        self.odd = not text.isascii()
        self.glued = "#" in text and bool(_GLUED.search(text))

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

            # what was told before may come of the same slip (a bracket never closed): the error alone counts
            tell(wrong, last[0], self.lines, self.file, tell_all)
            return None
        finally:
            if parser is not None:
                parser.dispose()
        if root is None and not self.troubles.refused:
            self.troubles.add(
                "R06",
                Place(self.file, 1, 1),
                self.file,
                "There is nothing in the file.",
                "Is it the right file? A job, a part file and a shop file begin with `ringout: 1`.",
            )
        tell_all.extend(self.troubles)
        return root

    def _events(self, parser: Any, last: list[Any], events: Any) -> Node | None:
        scalar, table_start, rows_start = (
            events.ScalarEvent,
            events.MappingStartEvent,
            events.SequenceStartEvent,
        )
        table_end, rows_end, alias = events.MappingEndEvent, events.SequenceEndEvent, events.AliasEvent
        document_start, stream_end = events.DocumentStartEvent, events.StreamEndEvent
        file, odd, glued = self.file, self.odd, self.glued
        same: dict[str, str] = {}
        # what two keys must not share: case and leading zeros of a number don't make them different
        canonicals: dict[str, str] = {}
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
                start, value, style = event.start_mark, event.value, event.style
                line = start.line
                if (
                    value
                    and not style
                    and not glued
                    and event.anchor is None
                    and event.tag is None
                    and "  " not in value
                    and (not odd or value.isascii())
                    and line == event.end_mark.line
                ):  # nearly every value: nothing below would say anything about it
                    quoted = False
                    value = same.setdefault(value, value)
                    node = Text(value, False, True, file, line + 1, start.column + 1)
                else:
                    quoted = bool(style)
                    exact = not quoted
                    broken = False
                    if event.anchor is not None or event.tag is not None:
                        broken = self.no_anchor(event)
                    elif not value or value.isspace():
                        in_table = type(here) is Table
                        broken = self.empty(event, key if in_table else None, in_table and key is None, flow)
                        if flow and in_table and key is not None and self.no_key(key):
                            key = Broken(key.value, key.quoted, key.exact, file, key.line, key.column)
                    elif style != "|" and style != ">":
                        if start.line != event.end_mark.line:
                            exact = False
                            within = key.value if key is not None else name
                            if within not in _PROSE:
                                broken = self.several_lines(event)
                        if "  " in value:
                            value = _RUNS.sub(" ", value)
                            exact = False
                        if glued and not quoted:
                            self.cut_off(event)
                    else:
                        value = value.rstrip("\n")
                    if style == '"' and not value.isprintable():
                        broken = self.escaped(event) or broken
                    if odd and not value.isascii():
                        folded = fold_value(value)
                        exact = exact and len(folded) == len(value)
                        broken = self.unfoldable(folded, event, exact) or broken
                        value = folded
                    value = same.setdefault(value, value)
                    node = (Broken if broken else Text)(value, quoted, exact, file, start.line + 1, start.column + 1)
                last[0] = event
                if type(here) is Table and key is None:
                    if value == "<<" and not quoted:
                        node = self.merge(node)
                    key = node
                    continue
            elif kind is table_start or kind is rows_start:
                if event.anchor is not None or event.tag is not None:
                    self.no_anchor(event)
                if len(stack) >= DEEPEST:
                    self.too_deep(event)
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
                    key = self.no_text_key(node)
                    continue
            elif kind is alias:
                node = self.alias(event)
                if type(here) is Table and key is None:
                    key = node
                    continue
            elif kind is document_start:
                documents += 1
                if documents > 1:
                    self.second_document(event)
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
                    canonical = canonicals.get(key.value)
                    if canonical is None:
                        canonical = key.value.lower()
                        if "0" in canonical:
                            canonical = _ZEROS.sub("", canonical)
                        canonicals[key.value] = canonical
                    first = seen.setdefault(canonical, key)
                    if first is key:
                        here.items.append((key, node))
                    else:
                        self.twice(first, key)
                        here.doubled = (*here.doubled, (key, node))
                key = None
            else:
                here.items.append(node)  # type: ignore[arg-type]
