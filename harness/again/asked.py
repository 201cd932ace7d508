"""What is asked of the next car: its name, or fields of `car:` as the job file writes them."""

from __future__ import annotations

import re

from harness.again.refused import NotChanged
from harness.read.conform import conform
from harness.read.folding import fold_text, fold_value
from harness.read.nodes import Node, Rows, Table, Text, read_text
from harness.read.quoting import quoted
from harness.read.spec import JOB
from harness.read.troubles import Troubles

_KEYS = tuple(JOB.keys["car"].keys)  # type: ignore[union-attr]
_WORDS = ("note", "name", "audio")  # fields that take any text


def asked_fields(text: str) -> dict[str, str]:
    """`Larch estate, ticket 12` as the name; `name: Larch estate, year: 2023, lacks: [C, SUB]` as fields.

    Gives each field with its value as it is to be written. Raises NotChanged with all that is wrong, in the sentences
    of the job file's own reader.
    """
    text = " ".join(text.split())
    if not text:
        raise NotChanged(["--car is empty; give the car's name, or fields such as name: Larch estate, year: 2023"])
    keys = "|".join(map(re.escape, _KEYS))
    if not re.match(rf"(?:{keys})\s*:", text):
        if key := re.match(r"\w+(?= ?:(?: |$))", text):
            quotable = "" if '"' in text else f'; if it is the car\'s name: name: "{text}"'
            raise NotChanged([f"--car: “{key[0]}” is no field of car; there are {', '.join(_KEYS)}{quotable}"])
        plain = fold_value(fold_text(text))
        text = f"name: {quoted(plain)}"
    troubles = Troubles()
    root = read_text(f"ringout: 1\ntitle: t\ncar: {{{text}}}\n", "--car", troubles)
    car = root.get("car") if isinstance(root, Table) else None
    if root is not None:
        conform(root, JOB, troubles)
    if troubles.findings:
        raise NotChanged([f"--car: {found.message} {found.do}" for found in troubles.findings])
    if not isinstance(car, Table) or not isinstance(root, Table) or len(root) != 3 or not len(car):
        raise NotChanged(["--car holds something that can't stand in `car: {…}`"])
    return {key.value: _written(key.value, value) for key, value in car.items}


def _written(key: str, value: Node) -> str:
    if isinstance(value, Rows):
        return f"[{', '.join(_text(key, each) for each in value.items if isinstance(each, Text))}]"
    assert isinstance(value, Text)
    return _text(key, value)


def _text(key: str, value: Text) -> str:
    # what the spec has a pattern for needs no quotes; a name does where it could be taken for something else
    return quoted(value.value) if value.quoted or key in _WORDS or key == "orange" else value.value
