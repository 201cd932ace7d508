"""Rows of a plug's chart against each other and against its housing."""

from __future__ import annotations

from typing import NamedTuple

from harness.model.contact import printed
from harness.model.parts import HALVES, Face, Plug, Row


def row_words(plug: Plug, row: Row) -> str:
    """`dash cavity 5 (white, FL +)`."""
    return f"{plug.name} cavity {row.cavity} ({row_about(row)})"


def row_about(row: Row) -> str:
    """`white, FL +`."""
    colour = [row.colour.words] if row.colour is not None else []
    return ", ".join([*colour, printed(row.function.name)])


def row_contacts(plug: Plug, *rows: Row) -> tuple[str, ...]:
    """Both halves' contacts of some rows of a plug; its reading has seen to it that a cavity has one spelling."""
    return tuple(f"{plug.name}.{half}.{row.cavity}" for row in rows for half in HALVES)


class Clash(NamedTuple):
    """Two places of a chart that can't both be right, cavity by cavity: (earlier row, later row)."""

    pairs: tuple[tuple[Row, Row], ...]

    @property
    def rows(self) -> tuple[Row, ...]:
        return tuple(row for pair in self.pairs for row in pair)


def one_cavity_twice(plug: Plug) -> list[Clash]:
    """Cavities with two functions. Two written rows that clash in both their cavities are one clash.

    `unknown` claims nothing, so it clashes with nothing; `empty` does.
    """
    first: dict[str, Row] = {}
    pairs: list[tuple[Row, Row]] = []
    for row in plug.rows:
        if row.function.kind == "unknown":
            continue
        before = first.setdefault(row.cavity, row)
        if before.function != row.function:
            pairs.append((before, row))
    return _clashes(pairs)


# Rightly found at several cavities, or one word for wires that differ (common practice, no source).
REPEATED = frozenset(
    ("ground", "battery", "shield", "empty", "unknown", "control", "light", "restraint", "high voltage", "other")
)


def one_function_twice(plug: Plug) -> list[Clash]:
    """Functions at two cavities that have room for one."""
    first: dict[str, Row] = {}
    pairs: list[tuple[Row, Row]] = []
    for row in plug.rows:
        if row.function.kind in REPEATED:
            continue
        before = first.setdefault(row.function.name.lower(), row)
        if before.cavity != row.cavity:
            pairs.append((before, row))
    return _clashes(pairs)


def _clashes(pairs: list[tuple[Row, Row]]) -> list[Clash]:
    together: dict[object, list[tuple[Row, Row]]] = {}
    for before, after in pairs:
        together.setdefault((before.place, after.place), []).append((before, after))
    return [Clash(tuple(each)) for each in together.values()]


def cavities_missing(plug: Plug) -> tuple[str, list[Row]]:
    """What the housing has, in words (empty where nothing is missing or known), and the rows whose cavity it hasn't."""
    face = plug.face
    if face is not None and face.drawn:
        drawn = {cavity for line in face.drawn for cavity in line if cavity is not None}
        odd = [row for row in plug.rows if row.cavity not in drawn]
        if not odd:
            return "", []
        numbers = set(map(plain_cavity, drawn))
        counted = _is_counted(face)
        has = f"{len(numbers)} cavities" + (f", 1 to {len(numbers)}" if counted else " as drawn")
        return has, [
            row for row in odd if plain_cavity(row.cavity) not in numbers and (not counted or row.cavity.isdigit())
        ]
    if plug.ways is None:
        return "", []
    # a chart that counts from 0 has its last cavity one lower
    low = 0 if [row for row in plug.rows if not row.cavity.strip("0")] else 1
    high = plug.ways - 1 + low
    rows = [row for row in plug.rows if row.cavity.isdigit() and not low <= int(row.cavity) <= high]
    return f"{plug.ways} cavities", rows


def _is_counted(face: Face) -> bool:
    """Whether a face's numbers are 1, 2, 3 … without gap, as rows x columns give them."""
    numbers = [cavity or "" for line in face.drawn for cavity in line]
    return sorted(numbers) == sorted(str(number + 1) for number in range(len(numbers)))


def plain_cavity(cavity: str) -> str:
    """`012` and `12` are one place in a housing, whatever the chart writes."""
    return (cavity.lstrip("0") or "0") if cavity.isdigit() else cavity.lower()
