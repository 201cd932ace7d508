"""Wires of one plug that look alike, where one of them is worked on by hand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.graph.worked import Work, worked
from harness.model.colour import UNKNOWN
from harness.model.parts import HALVES, Plug, Row


class Alike(NamedTuple):
    """Rows of a plug in one colour, and what is done to those of them that are worked on."""

    plug: Plug
    rows: list[Row]
    worked: list[tuple[Row, Work]]


def alike(wiring: Wiring) -> Iterator[Alike]:
    """Colours that can't tell a worked wire from another one, a plug at a time, in the order of the job."""
    plugs = dict.fromkeys(wiring.contact(name).owner for name in worked(wiring))
    for name in plugs:
        plug = wiring.job.parts.plugs[name]
        if not plug.inline:
            yield from _of_plug(wiring, plug)


def _of_plug(wiring: Wiring, plug: Plug) -> Iterator[Alike]:
    by_colour: dict[tuple[str, str, str], list[Row]] = {}
    for row in plug.rows:
        colour = row.colour
        if colour is not None and colour.base != UNKNOWN and row.function.kind != "empty":
            by_colour.setdefault((colour.base, colour.stripe, colour.mark), []).append(row)
    done = worked(wiring)
    for rows in by_colour.values():
        if len(rows) < 2:
            continue
        works = {
            row.cavity: done[name]
            for row in rows
            for name in (f"{plug.name}.{half}.{row.cavity}" for half in HALVES)
            if name in done
        }
        done_to = [row for row in rows if row.cavity in works]
        pairs = [(row, other) for row in done_to for other in rows if _wrong(wiring, plug, row, other)]
        like = {row.cavity for pair in pairs for row in pair}
        if like:
            taken = [(row, works[row.cavity]) for row in done_to if row.cavity in like]
            yield Alike(plug, [row for row in rows if row.cavity in like], taken)


def _wrong(wiring: Wiring, plug: Plug, row: Row, other: Row) -> bool:
    """Whether another wire in the same colour would be the wrong one, and nothing written tells the two apart."""
    if row.cavity == other.cavity or row.note or other.note:
        return False
    if row.function.name == other.function.name and row.function.kind != "unknown":
        return False
    here, there = (f"{plug.name}.car.{each.cavity}" for each in (row, other))
    return not wiring.found.joined(here, there)
