"""A chart's entries as lines of the job file: a plug's source, legend and rows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from harness.charts.entries import Entry
from harness.charts.numbering import natural
from harness.charts.reading import Chart
from harness.model.colour import UNKNOWN as UNKNOWN_COLOUR
from harness.model.function import EMPTY
from harness.read.quoting import quoted


class Source(NamedTuple):
    """Who says so: the chart's name, its date (2026-03-02), the person, the years (2020 or 2020..2023)."""

    chart: str
    date: str = ""
    by: str = ""
    covers: str = ""


def source_line(source: Source) -> str:
    """`source: {chart: …, date: …}` with what is known."""
    pairs = [f"{key}: {quoted(value) if key in ('chart', 'by') else value}"
             for key, value in zip(source._fields, source, strict=True) if value]  # fmt: skip
    return f"source: {{{', '.join(pairs)}}}"


def plug_lines(chart: Chart, source: Source, ways: int | None) -> list[str]:
    """What the chart says, as the lines under a plug's name, without indent: source, ways, legend, note, cavities."""
    lines = [source_line(source)]
    if ways is not None:
        lines.insert(0, f"ways: {ways}")
    if chart.legend:
        lines.append(f"legend: {{{', '.join(f'{code}: {word}' for code, word in chart.legend.items())}}}")
    if chart.loose:
        lines.append(f"note: {quoted(' | '.join(chart.loose))}")
    lines.append("cavities:")
    lines += [f"  {line}" for line in cavity_lines(chart.entries)]
    return lines


def cavity_lines(entries: Sequence[Entry]) -> Iterator[str]:
    """The rows in the order of their numbers, each pair in one row where its two say the same."""
    partner = _pairs(entries)
    seconds = {minus.cavity for minus in partner.values()}
    made = [(min(natural(entry.cavity), natural(partner[entry.cavity].cavity))
             if entry.cavity in partner else natural(entry.cavity), entry)
            for entry in entries if entry.cavity not in seconds]  # fmt: skip
    for _, entry in sorted(made, key=lambda each: each[0]):
        minus = partner.get(entry.cavity)
        if minus is None:
            yield f"{entry.cavity}: {_words(entry, entry.function.name, entry.colour)}"
        else:
            colours = f"{entry.colour} {minus.colour}".strip()
            yield f"{entry.cavity}/{minus.cavity}: {_words(entry, entry.function.base, colours)}"


def _pairs(entries: Sequence[Entry]) -> dict[str, Entry]:
    """The + cavity of each pair that can stand in one row, with the entry of its −."""
    ends: dict[str, dict[str, list[Entry]]] = {}
    for entry in entries:
        if entry.function.sign:
            ends.setdefault(entry.function.base, {}).setdefault(entry.function.sign, []).append(entry)
    made = {}
    for signs in ends.values():
        first, second = signs.get("+", signs.get("H", [])), signs.get("-", signs.get("L", []))
        if len(first) == len(second) == 1 and _alike(first[0], second[0]):
            made[first[0].cavity] = second[0]
    return made


def _alike(plus: Entry, minus: Entry) -> bool:
    said = [bool(each.colour) and each.colour != UNKNOWN_COLOUR for each in (plus, minus)]
    coloured = all(said) or not (plus.colour or minus.colour)
    return coloured and plus[3:7] == minus[3:7]


def _words(entry: Entry, function: str, colours: str) -> str:
    if entry.function is EMPTY and not entry.note:
        return "empty"
    if not entry.note and entry.mark == "stripe" and entry.colour != UNKNOWN_COLOUR:
        pieces = (function, colours, entry.size, "twisted" if entry.twisted else "")
        return " ".join(piece for piece in pieces if piece)
    pairs = {"function": function, "colour": colours, "size": entry.size}
    if entry.mark != "stripe":
        pairs["mark"] = entry.mark
    if entry.twisted:
        pairs["twisted"] = "pair"
    if entry.note:
        pairs["note"] = quoted(entry.note)
    return f"{{{', '.join(f'{key}: {value}' for key, value in pairs.items() if value)}}}"


def part_file(name: str, chart: Chart, source: Source, ways: int | None) -> str:
    """The chart as a part file with one plug, which a job takes by `part: NAME`."""
    lines = ["ringout: 1", f"title: {quoted('Chart of ' + name)}", "", "plugs:", f"  {name}:"]
    lines += [f"    {line}" for line in plug_lines(chart, source, ways)]
    return "\n".join(lines) + "\n"
