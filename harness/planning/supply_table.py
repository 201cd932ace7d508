"""The supply as tables: what each unit draws and gets, each fuse and each cable."""

from __future__ import annotations

import math
from typing import NamedTuple

from harness.graph.cable import cables, fuses, segments, way_from_source
from harness.graph.overfused import end_words
from harness.graph.shop import cable_limit_a, figure
from harness.graph.supply import Fed, supply
from harness.graph.wiring import Wiring


class UnitLine(NamedTuple):
    """A unit on the supply: amperes, how they are known, volts lost there and back, volts left."""

    unit: str
    current_a: float
    how: str
    feed_drop_v: float
    ground_drop_v: float
    left_v: float


class FuseLine(NamedTuple):
    """A fuse: its rating (None: not recorded), the amperes in it, what its cable carries at most, what it feeds."""

    name: str
    rating_a: float | None
    current_a: float
    limit_a: float | None
    feeds: tuple[str, ...]


class CableLine(NamedTuple):
    """A piece of cable: where it ends, length, size, amperes, volts lost, the fuse before it, its own limit."""

    end: str
    length_m: float | None
    size: str
    current_a: float
    drop_v: float
    fuse_a: float
    limit_a: float


class SupplyTable(NamedTuple):
    """All three tables. `collapsed` are units whose power can't arrive: then there are no lines of units."""

    units: tuple[UnitLine, ...]
    fuses: tuple[FuseLine, ...]
    cables: tuple[CableLine, ...]
    unknown: tuple[str, ...]
    collapsed: tuple[str, ...]


def supply_table(wiring: Wiring) -> SupplyTable:
    """What the sheet prints; empty where no feed is laid."""
    solved = supply(wiring)
    if solved is None or solved.collapsed:
        collapsed = solved.collapsed if solved is not None else ()
        return SupplyTable((), (), (), solved.unknown if solved else (), collapsed)
    return SupplyTable(
        tuple(_unit_line(wiring, fed) for fed in solved.fed),
        tuple(_fuse_lines(wiring)),
        tuple(_cable_lines(wiring)),
        solved.unknown,
        (),
    )


def _unit_line(wiring: Wiring, fed: Fed) -> UnitLine:
    left = figure(wiring, "supply").value - fed.drop_v
    return UnitLine(fed.unit, fed.current_a, fed.draw.how, fed.feed_drop_v, fed.ground_drop_v, left)


def _fuse_lines(wiring: Wiring) -> list[FuseLine]:
    solved = supply(wiring)
    assert solved is not None
    ways = {fed.unit: way_from_source(wiring, fed.feed) for fed in solved.fed}
    made = []
    for fuse in fuses(wiring).values():
        behind = tuple(unit for unit, way in ways.items() if fuse.a in way and fuse.b in way)
        limits = [
            cable_limit_a(wiring, cable.segment.size, cable.segment.metal)
            for cable in cables(wiring)
            if cable.segment.size is not None and cable.near == fuse.b
        ]
        name = end_words(wiring, fuse.b, fuse.a)
        flowing = abs(solved.current_a.get((fuse.a, fuse.b), 0.0))
        made.append(FuseLine(name, fuse.rating_a, flowing, min(limits, default=None), behind))
    return made


def _cable_lines(wiring: Wiring) -> list[CableLine]:
    solved = supply(wiring)
    assert solved is not None
    known = {(cable.segment.a, cable.segment.b): cable for cable in cables(wiring)}
    made = []
    for ends, segment in segments(wiring).items():
        if not segment.laid or segment.kind != "wire" or segment.size is None or ends not in solved.current_a:
            continue
        flowing = abs(solved.current_a[ends])
        a, b = solved.solution.volts.get(ends[0], 0.0), solved.solution.volts.get(ends[1], 0.0)
        cable = known.get(ends)
        made.append(
            CableLine(
                end_words(wiring, segment.b, segment.a), segment.length_m,
                segment.size.text + (" CCA" if segment.metal == "CCA" else ""), flowing, abs(a - b),
                cable.through_a if cable is not None else math.nan,
                cable_limit_a(wiring, segment.size, segment.metal),
            )
        )  # fmt: skip
    return made
