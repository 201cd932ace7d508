"""The spec of job, part, shop and scope files as JSON Schema (draft 2020-12): an editor checks while one types."""

from __future__ import annotations

import re
from typing import Any

from harness.read.fields import Either, Fields, Listing, Shape, Word
from harness.read.spec import JOB, PART_FILE
from harness.read.spec_scope import SCOPE
from harness.read.spec_shop import SHOP

_COMMENT = (
    "The reader keeps every value as text; a pattern here is meant for that text. Where an editor makes a "
    "number or truth value of it (1, 2022, true), the types number and boolean are allowed beside string; "
    "for counts their bounds are given. Not to be seen by a schema, and told by the reader alone: what is no "
    "YAML, keys written twice, anchors and tags, tabs, a second document, missing and circling part files, "
    "size and depth, characters of word processors (no-break space, long dash, Ω are folded; curly quotes "
    "refused), text over several lines, and names that refer to nothing."
)
_LITERALS = {"number": ("1", "12", "0.5", "2022"), "boolean": ("true",)}


_FILES = {"job": JOB, "part": PART_FILE, "shop": SHOP, "scope": SCOPE}


def schema(file: str = "job") -> dict[str, Any]:
    """The schema of a `job`, `part`, `shop` or `scope` file, as plain JSON values; the same on every call."""
    return _Writer(_FILES[file]).whole("ringout scope" if file == "scope" else f"ringout {file} file")


def either_case(pattern: str) -> str:
    """A pattern of ours in the dialect of JSON Schema: `(?i:…)` and plain spaces written out."""
    out: list[str] = []
    groups: list[bool] = []  # of every open bracket: whether letters inside it are of either case
    in_class = False
    at = 0
    while at < len(pattern):
        char = pattern[at]
        either = bool(groups and groups[-1])
        if char == "\\":
            out.append(pattern[at : at + 2])
            at += 2
            continue
        if in_class:
            in_class = char != "]"
            span = pattern[at : at + 3]
            if either and re.fullmatch("[A-Za-z]-[A-Za-z]", span):
                out.append(f"{span.upper()}{span.lower()}")
                at += 3
                continue
            out.append(char.upper() + char.lower() if either and char.isalpha() else char)
        elif pattern.startswith("(?i:", at):
            groups.append(True)
            out.append("(?:")
            at += 4
            continue
        elif char == "(":
            groups.append(either)
            out.append(char)
        elif char == ")":
            groups.pop()
            out.append(char)
        elif char == "[":
            in_class = True
            out.append(char)
        elif char == " ":
            out.append(r"[ \t]+")
        elif either and char.isalpha():
            out.append(f"[{char.upper()}{char.lower()}]")
        else:
            out.append(char)
        at += 1
    return "".join(out)


class _Writer:
    """Shapes that are used more than once are written once, under `$defs`."""

    def __init__(self, top: Fields) -> None:
        self.top = top
        self.uses: dict[int, int] = {}
        self._count(top)
        self.defs: dict[str, Any] = {}
        self.names: dict[int, str] = {}

    def _count(self, shape: Shape) -> None:
        self.uses[id(shape)] = self.uses.get(id(shape), 0) + 1
        if self.uses[id(shape)] > 1:
            return
        if isinstance(shape, Fields):
            for each in (*shape.keys.values(), *(value for _, value in shape.rows)):
                self._count(each)
        elif isinstance(shape, Listing):
            self._count(shape.item)
        elif isinstance(shape, Either):
            for one in (shape.text, shape.table, shape.listing):
                if one is not None:
                    self._count(one)

    def whole(self, title: str) -> dict[str, Any]:
        body = self._body(self.top)
        return {
            "$schema": "https://json-schema.org/draft/2020-12/schema",
            "title": title,
            "$comment": _COMMENT,
            **body,
            "$defs": dict(sorted(self.defs.items())),
        }

    def _write(self, shape: Shape) -> dict[str, Any]:
        if self.uses[id(shape)] < 2:
            return self._body(shape)
        name = self.names.get(id(shape))
        if name is None:
            what = shape.what if not isinstance(shape, Either) else "either"
            name = re.sub("[^a-z]+", "-", what.lower()).strip("-")
            stem, number = name, 1
            while name in self.defs:
                number += 1
                name = f"{stem}-{number}"
            self.names[id(shape)] = name
            self.defs[name] = {}
            self.defs[name] = self._body(shape)
        return {"$ref": f"#/$defs/{name}"}

    def _body(self, shape: Shape) -> dict[str, Any]:
        if isinstance(shape, Word):
            return _word(shape)
        if isinstance(shape, Listing):
            listing: dict[str, Any] = {
                "description": shape.what,
                "type": "array",
                "items": self._write(shape.item),
            }
            if shape.least:
                listing["minItems"] = shape.least
            return listing
        if isinstance(shape, Either):
            choices = [each for each in (shape.text, shape.table, shape.listing) if each is not None]
            return {"anyOf": [self._write(each) for each in choices]}
        return self._table(shape)

    def _table(self, shape: Fields) -> dict[str, Any]:
        table: dict[str, Any] = {"description": shape.what, "type": "object", "additionalProperties": False}
        if shape.keys:
            table["properties"] = {name: self._write(value) for name, value in shape.keys.items()}
            for other, meant in shape.other.items():
                table["properties"][other] = {**self._write(shape.keys[meant]), "deprecated": True}
        if shape.rows:
            table["patternProperties"] = {_anchored(word): self._write(value) for word, value in shape.rows}
        if shape.required:
            table["required"] = list(shape.required)
        if shape.one_of:
            table["anyOf"] = [{"required": [name]} for name in shape.one_of]
        if shape.least:
            table["minProperties"] = shape.least
        if shape.most:
            table["maxProperties"] = shape.most
        return table


def _anchored(word: Word) -> str:
    if not word.pattern:
        return r"\S"
    tail = r"\s*" if word.lines else ""
    return f"^(?:{either_case(word.pattern)}){tail}$"


def _word(word: Word) -> dict[str, Any]:
    said: dict[str, Any] = {"description": word.what}
    kinds = ["string"]
    for kind, literals in _LITERALS.items():
        fits = not word.pattern or any(re.fullmatch(word.pattern, each, re.ASCII) for each in literals)
        if fits or (kind == "number" and word.number):
            kinds.append(kind)
    said["type"] = kinds if len(kinds) > 1 else "string"
    if word.number:
        said["minimum"], said["maximum"] = word.number
    if word.words:  # the pattern too: words that are parted by more than one space are read as well
        said["anyOf"] = [{"enum": [*word.words, *word.other]}, {"pattern": _anchored(word)}]
    else:
        said["pattern"] = _anchored(word)
    said["examples"] = [word.example]
    return said
