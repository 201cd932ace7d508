"""A part used by a job: the part's table with the job's own rows over it."""

from __future__ import annotations

from collections.abc import Mapping

from harness.read.nodes import Table, Text
from harness.read.parts import SECTIONS, PartShelf, read_parts
from harness.read.troubles import Troubles

# Tables inside a plug, loom or unit that are put together row by row; anything else is taken whole.
_ROW_TABLES = frozenset(
    ("cavities", "leads", "pins", "ends", "inputs", "outputs", "routes", "gives", "contacts", "legend")
)
_BY_CAVITY = frozenset(("cavities", "pins"))


def take_parts(
    root: Table, troubles: Troubles, bad: set[int], others: Mapping[str, str]
) -> tuple[Table, list[str], PartShelf]:
    """The job's table with every `part:` put in place, the part files read, and the shelf that keeps their nodes.

    `bad` gains what was refused in the part files; `others` are texts that would stand in them, by path.
    """
    shelf = read_parts(root, troubles, bad, others)
    bad |= shelf.bad
    if not shelf.files and not any(isinstance(root.get(section), Table) for section in SECTIONS):
        return root, [], shelf
    made = Table(root.file, root.line, root.column)
    for key, node in root.items:
        if key.value in SECTIONS and isinstance(node, Table):
            made.items.append((key, merged_section(key.value, node, shelf, troubles, bad)))
        else:
            made.items.append((key, node))
    return made, shelf.files, shelf


def merged_section(section: str, node: Table, shelf: PartShelf, troubles: Troubles, bad: set[int]) -> Table:
    """The table of a section (`looms`) with every `part:` put in place."""
    made = Table(node.file, node.line, node.column)
    made.doubled = node.doubled
    for key, value in node.items:
        named = value.get("part") if isinstance(value, Table) else None
        if isinstance(named, Text) and isinstance(value, Table) and id(named) not in bad and id(value) not in bad:
            part = shelf.find(section, named)
            if part is not None:
                value = _merged(part.table, value, troubles)
            else:
                bad.add(id(key))
        made.items.append((key, value))
    return made


def _merged(part: Table, own: Table, troubles: Troubles) -> Table:
    made = Table(own.file, own.line, own.column)
    said = {key.value: (key, value) for key, value in own.items}
    for key, value in part.items:
        if key.value not in said:
            made.items.append((key, value))
            continue
        own_key, own_value = said.pop(key.value)
        if key.value in _ROW_TABLES and isinstance(value, Table) and isinstance(own_value, Table):
            own_value = _rows(key.value, value, own_value, troubles)
        made.items.append((own_key, own_value))
    made.items += said.values()
    return made


def _rows(heading: str, part: Table, own: Table, troubles: Troubles) -> Table:
    made = Table(own.file, own.line, own.column)
    taken: dict[str, Text] = {}
    for key, _ in own.items:
        for word in _names(heading, key.value):
            taken[word] = key
    for key, value in part.items:
        over = next((taken[word] for word in _names(heading, key.value) if word in taken), None)
        if over is None:
            made.items.append((key, value))
            continue
        troubles.add(
            "R17", over.place, over.value,
            f"The row “{over.value}” here stands for the part's own row ({key.file}:{key.line}).",
            "Nothing, if that is meant; else take the row out of the job.",
        )  # fmt: skip
    made.items += own.items
    return made


def _names(heading: str, key: str) -> list[str]:
    return key.lower().split("/") if heading in _BY_CAVITY else [key.lower()]
