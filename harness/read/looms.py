"""Looms of the job file: ends, wires through, flying leads, what the maker's list says."""

from __future__ import annotations

import re
from dataclasses import replace

from harness.model.function import UNKNOWN
from harness.model.money import read_money
from harness.model.parts import HALVES, NOWHERE, Lead, Loom, LoomEnd, Row, Store, Through
from harness.read.days import day_of
from harness.read.names import spread
from harness.read.nodes import Table, Text
from harness.read.pieces import piece
from harness.read.plugs import known, legend_of, text_of, texts_of
from harness.read.rows import Legend, Words, cavities_of, rows_of, words_of
from harness.read.troubles import Troubles

# A named tuple made from a tuple: a third of the time, and there is one for every contact and line of a big job.
_new = tuple.__new__
# 7, A5 or 7b is a cavity; anything longer is a name of the lead's own
_CAVITIES = re.compile(r"[A-Za-z]?[0-9]+[A-Za-z]?(/[A-Za-z]?[0-9]+[A-Za-z]?)?")


def read_loom(name: str, key: Text, table: Table, troubles: Troubles, bad: set[int]) -> Loom:
    """One loom; what isn't understood is told and left out."""
    legend = legend_of(table)
    ends = _ends(table, bad)
    leads: list[Lead] = []
    node = table.get("leads")
    if isinstance(node, Table):
        for row_key, value in node.items:
            leads += _leads(name, row_key, value, ends, legend, troubles, bad)
    pins: list[Row] = []
    node = table.get("pins")
    if isinstance(node, Table):
        for row_key, value in node.items:
            words = words_of(value, legend, troubles, bad)
            if words is not None:
                pins += rows_of(row_key, cavities_of(row_key.value), words, troubles)
    throughs = tuple(_throughs(table, troubles, bad))
    loom = Loom(name, key.place, ends, tuple(leads), throughs, tuple(pins), read_store(table, troubles, bad))
    gone = text_of(table, "cut off", bad).lower()
    if not gone:
        return loom
    if gone not in ends or len(ends) < 2:
        _no_such_end(key, name, gone, ends, troubles)
        return loom
    return without_end(loom, gone)


def without_end(loom: Loom, end: str) -> Loom:
    """A loom with one of its two ends cut off.

    What went through ends loose, as a lead of the end that is left; what hung at the end that is gone went with it.
    """
    left = next(each for each in loom.ends if each != end)
    listed = {row.cavity.lower(): row for row in loom.pins}
    leads = [lead for lead in loom.leads if lead.end != end]
    there = {lead.cavity.lower() for lead in leads if not lead.own}
    for through in loom.throughs:
        cavity = through.unit_cavity if left == "unit" else through.car_cavity
        if cavity.lower() in there:
            continue  # it has a lead of its own at this pin, and the wire is the same
        there.add(cavity.lower())
        row = listed.get(cavity.lower())
        function, colour, size = (row.function, row.colour, row.size) if row else (UNKNOWN, None, None)
        leads.append(Lead(f"{loom.name}.{left}.{cavity}", left, cavity, function, colour, size, through.place))
    return replace(loom, ends={left: loom.ends[left]}, leads=tuple(leads), throughs=(), cut_off=end)


def read_store(table: Table, troubles: Troubles, bad: set[int]) -> Store:
    """Price, stock and day of arrival of a part; what isn't written, or is unknown, is left open."""
    price, stock = known(text_of(table, "price", bad)), known(text_of(table, "stock", bad))
    arrives = day_of(table, "arrives", troubles, bad)
    if not price and not stock and not arrives:
        return NOWHERE
    return Store(read_money(price) if price else None, int(stock) if stock else None, arrives)


def _ends(table: Table, bad: set[int]) -> dict[str, LoomEnd]:
    ends: dict[str, LoomEnd] = {}
    node = table.get("ends")
    if isinstance(node, Table):
        for end, value in node.items:
            if isinstance(value, Table):
                housing, contacts = text_of(value, "housing"), known(text_of(value, "contacts").lower())
            else:
                housing, contacts = (value.value if isinstance(value, Text) else ""), ""
            ends[end.value.lower()] = LoomEnd(end.value.lower(), housing, contacts, end.place)
    return ends


def _leads(
    name: str, key: Text, value: object, ends: dict[str, LoomEnd], legend: Legend, troubles: Troubles, bad: set[int]
) -> list[Lead]:
    """The leads of one row: at every end, at one end, or by a name of its own."""
    end, _, rest = key.value.partition(".")
    if rest and end.lower() in HALVES:
        return _at(name, key, rest, [end.lower()], value, ends, legend, troubles, bad)
    if _CAVITIES.fullmatch(key.value):
        return _at(name, key, key.value, list(ends), value, ends, legend, troubles, bad)
    return _named(name, key, value, ends, legend, troubles, bad)


def _at(
    name: str, key: Text, cavities: str, at_ends: list[str], value: object, ends: dict[str, LoomEnd],
    legend: Legend, troubles: Troubles, bad: set[int],
) -> list[Lead]:  # fmt: skip
    words = words_of(value, legend, troubles, bad)  # type: ignore[arg-type]
    if words is None:
        return []
    made = []
    for end in at_ends:
        if end not in ends:
            _no_such_end(key, name, end, ends, troubles)
            continue
        for row in rows_of(key, cavities_of(cavities), words, troubles):
            cavity, function, colour, size, place, _, _, _ = row
            made.append(_new(Lead, (f"{name}.{end}.{cavity}", end, cavity, function, colour, size, place, "")))
    return made


def _named(
    name: str, key: Text, value: object, ends: dict[str, LoomEnd], legend: Legend, troubles: Troubles, bad: set[int]
) -> list[Lead]:
    end = cavity = ""
    if isinstance(value, Text):
        head, _, rest = value.value.partition(" ")
        half, dot, number = head.partition(".")
        if dot and half.lower() in HALVES:
            end, cavity = half.lower(), number
            value = _rest(value, rest)
    words: Words | None = words_of(value, legend, troubles, bad)  # type: ignore[arg-type]
    if words is None:
        return []
    if end and end not in ends:
        _no_such_end(key, name, end, ends, troubles)
        return []
    colour = words.colours[0] if words.colours else None
    contact = f"{name}.{key.value}"
    return [Lead(contact, end, cavity, words.function, colour, words.size, key.place, own=key.value)]


def _rest(node: Text, rest: str) -> Text:
    return piece(node, rest or "unknown", len(node.value) - len(rest))


def _no_such_end(key: Text, name: str, end: str, ends: dict[str, LoomEnd], troubles: Troubles) -> None:
    troubles.add(
        "R20", key.place, key.value, f"{name} has no {end} end; it has {' and '.join(ends) or 'none'}.",
        f"Write the end under `ends:` of {name}, or correct the row.",
    )  # fmt: skip


def _each_to_each(key: Text, value: Text, troubles: Troubles) -> list[Through]:
    """`4: 7`, or `1..4: 5..8`, one behind the other."""
    try:
        units, cars = spread(key.value), spread(value.value)
    except ValueError as wrong:
        troubles.add("R23", key.place, key.value, f"{wrong}.", "Write first..last to first..last: `9..12: 9..12`.")
        return []
    if len(units) != len(cars):
        counts = f"{key.value} are {len(units)} cavities, and {value.value} are {len(cars)}"
        troubles.add("R23", value.place, value.value, f"{counts}.", "Write as many on both sides, or each by itself.")
        return []
    return [Through(unit, car, key.place) for unit, car in zip(units, cars, strict=True)]


def _throughs(table: Table, troubles: Troubles, bad: set[int]) -> list[Through]:
    node = table.get("through")
    made = []
    if isinstance(node, Table):
        for key, value in node.items:
            if isinstance(value, Text) and id(value) not in bad:
                made += _each_to_each(key, value, troubles)
        return made
    for text in texts_of(node, split=True) if isinstance(node, Text) else texts_of(node):
        for word in text.value.split():
            if id(node) in bad or id(text) in bad:
                continue
            try:
                place = text.place
                made += [_new(Through, (number, number, place)) for number in spread(word)]
            except ValueError as wrong:
                troubles.add("R23", text.place, word, f"{wrong}.", "Write first..last, for instance 9..10.")
    return made
