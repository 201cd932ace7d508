"""What the numbers of a chart tell: gaps, numbers that the housing hasn't, functions and signs that don't add up."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from harness.charts.entries import Entry, same_cavity
from harness.charts.told import Told
from harness.model.function import comes_in_pairs, pair_of

_PARTS = re.compile(r"([a-z]*)([0-9]*)")
_MOST_GAPS = 999


def natural(cavity: str) -> tuple[str, int, str]:
    """The order in which people count: 2 before 10, A2 before A10."""
    match = _PARTS.match(cavity.lower())
    letters, digits = (match[1], match[2]) if match else ("", "")
    return (letters, int(digits) if digits else -1, cavity)


def numbering(entries: Sequence[Entry], ways: int | None) -> Iterator[Told]:
    """Numbers outside 1 to `ways`, gaps up to it (without it: to the highest), channels that stand twice or by half."""
    yield from _outside(entries, ways)
    yield from _gaps(entries, ways)
    yield from _functions(entries)
    yield from _halves(entries)


def _outside(entries: Sequence[Entry], ways: int | None) -> Iterator[Told]:
    for entry in entries:
        letters, number, _ = natural(same_cavity(entry.cavity))
        if letters or number < 0:
            continue
        if number == 0 or (ways is not None and number > ways):
            row = entry.row
            has = f"the plug has 1 to {ways}" if ways is not None else "plugs count from 1"
            do = "Is it another plug's chart, or does it count otherwise? Look before you go by any row."
            yield Told("outside", row.number, row.line, f"Cavity {entry.cavity}: {has}.", do, row.own)


def _gaps(entries: Sequence[Entry], ways: int | None) -> Iterator[Told]:
    by_letters: dict[str, dict[int, Entry]] = {}
    for entry in entries:
        letters, number, _ = natural(same_cavity(entry.cavity))
        if number > 0:
            by_letters.setdefault(letters, {})[number] = entry
    for letters, held in by_letters.items():
        highest = max(held)
        top = ways if ways is not None and not letters else highest
        if max(top, highest) > _MOST_GAPS:
            continue  # numbers such as 12007 aren't counted through
        spans: list[tuple[int, int]] = []
        for number in range(1, top + 1):
            if number in held:
                continue
            if spans and spans[-1][1] == number - 1:
                spans[-1] = (spans[-1][0], number)
            else:
                spans.append((number, number))
        for first, last in spans:
            before = held.get(first - 1)
            row = before.row if before else held[min(held)].row
            which = f"{letters.upper()}{first}" + (f" to {letters.upper()}{last}" if last > first else "")
            place = f"after cavity {before.cavity}" if before else "before the first"
            named = f"Cavities {which} have" if last > first else f"Cavity {which} has"
            message = f"{named} no row ({place}); not written, so not known."
            do = "Look at the plug: an empty cavity is written as empty."
            yield Told("gap", row.number, row.line, message, do, row.own)


def _functions(entries: Sequence[Entry]) -> Iterator[Told]:
    held: dict[str, list[Entry]] = {}
    for entry in entries:
        if comes_in_pairs(entry.function):
            held.setdefault(entry.function.name, []).append(entry)
    for name, many in held.items():
        cavities = " and ".join(entry.cavity for entry in many)
        last = many[-1].row
        if not many[0].function.sign:
            yield Told("not understood", last.number, last.line,
                       f"{name} at cavity {cavities}: the chart doesn't say which is +.",
                       "Tone it; then write the pair with + first.", last.own)  # fmt: skip
        elif len(many) > 1:
            do = "One of them is wrong, or both are joined in the car: meter between them."
            yield Told("twice", last.number, last.line, f"{name} stands at cavities {cavities}.", do, last.own)


def _halves(entries: Sequence[Entry]) -> Iterator[Told]:
    """Wires of a pair whose partner no row names: half a pair can't be joined, toned or read."""
    names = {entry.function.name for entry in entries}
    for entry in entries:
        function = entry.function
        if not function.sign or function.kind == "restraint" or not comes_in_pairs(function):
            continue  # nobody is sent to look for a restraint's wire
        both = pair_of(function._replace(name=function.base, sign="")) or ()
        missing = [each.name for each in both if each.name not in names]
        if missing:
            row = entry.row
            yield Told("not understood", row.number, row.line,
                       f"{entry.function.name} at cavity {entry.cavity}: no row has {missing[0]}, its other "
                       "wire.",
                       f"Look for {missing[0]} on the page and at the plug, and add its row.", row.own)  # fmt: skip
