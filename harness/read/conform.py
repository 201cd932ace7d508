"""Holds the nodes of a file against the spec and tells everything that doesn't fit, in one pass."""

from __future__ import annotations

from collections.abc import Iterable

from harness.finding import Spot
from harness.read.fields import Either, Fields, Listing, Shape, Word
from harness.read.nodes import Broken, Node, Rows, Table, Text
from harness.read.troubles import Troubles


def conform(node: Node, spec: Shape, troubles: Troubles) -> set[int]:
    """Tell all errors of shape, keys and values under `node`; the `id()` of every node that is no good.

    A table whose own keys are wrong or missing is in the set; one with a bad value only is not, its value
    is. Words understood besides (`connectors`, `head unit`) are replaced in the nodes by the ones meant.
    """
    run = _Run(troubles)
    run.look(node, spec, None)
    return run.bad


_NONE: frozenset[str] = frozenset()


class _Run:
    def __init__(self, troubles: Troubles) -> None:
        self.troubles = troubles
        self.bad: set[int] = set()

    def look(self, node: Node, spec: Shape, key: Text | None) -> None:
        """`key` is what the node stands behind, None at the top and in lists without one."""
        if type(spec) is Either:
            chosen: Shape | None = (
                spec.text if isinstance(node, Text) else spec.table if isinstance(node, Table) else spec.listing
            )
            if chosen is None:
                self._shape(node, spec, key)
                return
            spec = chosen
        if type(node) is Broken:
            self.bad.add(id(node))
        elif type(spec) is Word:
            if isinstance(node, Text):
                self._text(node, spec, key)
            else:
                self._shape(node, spec, key)
        elif type(spec) is Fields:
            if isinstance(node, Table):
                self._table(node, spec, key)
            else:
                self._shape(node, spec, key)
        elif type(spec) is Listing:
            if isinstance(node, Rows):
                for item in node.items:
                    self.look(item, spec.item, key)
                self._count(node, len(node.items), spec.least, spec, key)
            else:
                self._shape(node, spec, key)

    # -- text ----------------------------------------------------------------------------------------------

    def _text(self, node: Text, word: Word, key: Text | None) -> None:
        value = node.value
        if word.fits(value):
            return
        meant = word.other.get(value)
        if meant:
            self.troubles.once(
                "R16",
                value,
                node.place,
                value,
                f"“{value}” is read as {meant}.",
                f"Nothing; the job file's own word is {meant}.",
            )
            node.value = meant
            return
        self.bad.add(id(node))
        if len(value) > word.most:
            self.troubles.add(
                "R12",
                node.place,
                value[:40] + "…",
                f"This value has {len(value)} characters; {word.what} has at most {word.most}.",
                "Look for a quote or bracket that is never closed, or shorten it.",
            )
            return
        from harness.read.saying import wrong_text

        said = wrong_text(word, value, key.value if key else "")
        self.troubles.add("R09", node.place_of(said.offset), said.name, said.message, said.do)

    # -- tables --------------------------------------------------------------------------------------------

    def _table(self, node: Table, spec: Fields, key: Text | None) -> None:
        keys = spec.keys
        met, of_rows = (spec.rows[0][0].good, spec.rows[0][1]) if spec.rows else (_NONE, None)
        for row_key, value in node.items:
            shape = keys.get(row_key.value)
            if shape is None:
                # most keys of a big job have been met before
                shape = of_rows if row_key.value in met else self._row(node, row_key, value, spec)
                if shape is None:
                    continue
            # taken straight to what it is: a step over `look` for every value of a big job is dear
            if type(value) is Text:
                if type(shape) is Either and shape.text is not None:
                    shape = shape.text
                if type(shape) is Word:
                    if value.value not in shape.good:
                        self._text(value, shape, row_key)
                    continue
            elif type(value) is Table:
                if type(shape) is Either and shape.table is not None:
                    shape = shape.table
                if type(shape) is Fields:
                    self._table(value, shape, row_key)
                    continue
            self.look(value, shape, row_key)
        for row_key, value in node.doubled:  # refused already; what stands behind is still looked at
            doubled = keys.get(row_key.value) or next((s for w, s in spec.rows if w.fits(row_key.value)), None)
            if doubled is not None:
                self.look(value, doubled, row_key)
        if spec.required or spec.one_of:
            self._needed(node, spec, key)
        if spec.least or spec.most:
            self._count(node, len(node.items) + len(node.doubled), spec.least, spec, key)
            if spec.most and len(node.items) > spec.most:
                self.bad.add(id(node))
                second = node.items[spec.most][0]
                self.troubles.add(
                    "R08",
                    second.place,
                    second.value,
                    f"Here stands a second key; {spec.what} has one.",
                    f"Begin it with a dash of its own: {spec.example}",
                )

    def _row(self, table: Table, key: Text, value: Node, spec: Fields) -> Shape | None:
        """The shape of what stands behind a chosen key; None (and told) where the key is no good."""
        text = key.value
        for word, shape in spec.rows:
            if word.fits(text):
                return shape
        meant = spec.other.get(text)
        if meant:
            self.troubles.once(
                "R16",
                text,
                key.place,
                text,
                f"“{text}” is read as {meant}.",
                f"Nothing; the job file's own word is {meant}.",
            )
            both = table.key(meant)
            if both is not None:
                self.bad.update((id(key), id(value)))
                self.troubles.add(
                    "R02",
                    key.place,
                    text,
                    f"“{text}” means {meant}, which stands on line {both.line} already.",
                    "Bring both under one of the two.",
                    (Spot(both.place, both.value),),
                )
                return None
            key.value = meant
            return spec.keys[meant]
        self.bad.update((id(key), id(value)))
        from harness.read.saying import wrong_key

        code, said = wrong_key(spec, text)
        self.troubles.add(code, key.place_of(said.offset), said.name, said.message, said.do)
        return None

    def _needed(self, node: Table, spec: Fields, key: Text | None) -> None:
        there = {each.value for each, _ in node.items}
        missing: Iterable[str] = [name for name in spec.required if name not in there]
        place, name = (key.place, key.value) if key else (node.place, spec.what)
        for each in missing:
            self.bad.add(id(node))
            shape = spec.keys.get(each)
            example = shape.example if isinstance(shape, Word) and shape.example else "…"
            self.troubles.add(
                "R09",
                place,
                name,
                f"“{each}” is missing: {spec.what} must have it.",
                f"Write a line `{each}: {example}`.",
            )
        if spec.one_of and not there.intersection(spec.one_of):
            self.bad.add(id(node))
            both = " or ".join(f"“{each}”" for each in spec.one_of)
            self.troubles.add("R09", place, name, f"Neither is there: {both}.", f"Write one of them: {spec.example}")

    def _count(self, node: Node, count: int, least: int, spec: Fields | Listing, key: Text | None) -> None:
        if count < least:
            self.bad.add(id(node))
            name = key.value if key else spec.what
            self.troubles.add(
                "R06",
                node.place,
                name,
                f"There is nothing in it; {spec.what} has at least one entry.",
                f"Write it, for instance {spec.example}, or take “{name}” away.",
            )

    def _shape(self, node: Node, spec: Shape, key: Text | None) -> None:
        """Another shape than the one that belongs here."""
        self.bad.add(id(node))
        wanted = [each for each in ([spec.text, spec.table, spec.listing] if type(spec) is Either else [spec]) if each]
        found = "text" if isinstance(node, Text) else "a table" if isinstance(node, Table) else "a list"
        name = key.value if key else found
        what = " or ".join(each.what for each in wanted)  # type: ignore[union-attr]
        example = wanted[0].example  # type: ignore[union-attr]
        where = f"Behind “{key.value}”" if key else "Here"
        do = f"Write {key.value}: {example}" if key else f"Write {example}"
        self.troubles.add("R08", node.place, name, f"{where} belongs {what}, and there is {found}.", do)
