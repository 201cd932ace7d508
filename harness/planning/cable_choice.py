"""For each cable of the supply the size to lay and the fuse to fit, each with the next choice and the reason.

A cable may lose what the other cables of a unit's way leave of the allowed drop, by the worst unit that hangs on it.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from harness.electrical.conductors import CCA_FACTOR
from harness.electrical.fuses import Choice as FuseChoice
from harness.electrical.fuses import fuse_for
from harness.electrical.sizing import Sized, size_for, sizes_like
from harness.graph.cable import cables
from harness.graph.grounding import feed_cable
from harness.graph.overfused import end_words
from harness.graph.shop import cable_limit_a, figure, fuse_chart
from harness.graph.supply import Fed, supply
from harness.graph.thicker import pieces
from harness.graph.wiring import Wiring
from harness.model.job import Segment
from harness.units import WireSize

_SAME = 0.9  # one step of a row of sizes is a fifth or more, so a tenth less is the same size


class CableChoice(NamedTuple):
    """One cable: what is laid, what to lay (None: no size is enough), its neighbours, and its fuse.

    `allowed_v` is what it may lose; `why` is `loses too much`, `fuse too big for it`, `thinner than its feed` or
    `thinnest of the list`, of the size below. `fuse` is None for a ground cable.
    """

    end: str
    laid: WireSize
    metal: str
    current_a: float
    length_m: float
    allowed_v: float
    lay: Sized | None
    thinner: Sized | None
    thicker: Sized | None
    why: str
    limit_a: float | None
    fuse: FuseChoice | None


class _Row(NamedTuple):
    """Pieces that carry the same to the same end, before and behind a fuse: what hangs on them, volts lost over all."""

    segment: Segment
    end: str
    fed: bool
    current_a: float
    length_m: float
    hanging: dict[str, tuple[Fed, float]]


def cable_choices(wiring: Wiring) -> tuple[CableChoice, ...]:
    """Every cable with a length and a size that carries what is counted, in the order of the job.

    Pieces in a row, a fuse between them or not, are one cable where they end at the same place and are of one size.
    """
    solved = supply(wiring)
    if solved is None or solved.collapsed:
        return ()
    hanging: dict[int, list[tuple[Fed, float, float]]] = {}
    for unit in solved.fed:
        for piece in pieces(wiring, solved, unit):
            hanging.setdefault(id(piece.segment), []).append((unit, piece.current_a, piece.drop_v))
    feeds = {id(cable.segment) for cable in cables(wiring)}
    rows: dict[tuple[object, ...], _Row] = {}
    for segment in wiring.job.segments:
        here = hanging.get(id(segment))
        if here is None or segment.size is None or segment.length_m is None:
            continue
        end, fed, current = end_words(wiring, segment.b, segment.a), id(segment) in feeds, max(each[1] for each in here)
        units = tuple(unit.unit for unit, _, _ in here)
        key = (end, fed, segment.size, segment.metal, units, round(current, 6))
        row = rows.get(key, _Row(segment, end, fed, current, 0.0, {}))
        lost = {unit.unit: (unit, own + row.hanging.get(unit.unit, (unit, 0.0))[1]) for unit, _, own in here}
        rows[key] = row._replace(length_m=row.length_m + segment.length_m, hanging=lost)
    return tuple(_choice(wiring, row) for row in rows.values())


def _choice(wiring: Wiring, row: _Row) -> CableChoice:
    segment = row.segment
    assert segment.size is not None
    limit_v, warm = figure(wiring, "drop").value, figure(wiring, "temperature").value
    allowed = min(limit_v - (unit.drop_v - own) for unit, own in row.hanging.values())
    sizes = sizes_like(segment.size)
    least_mm2 = 0.0 if row.fed else max(_feed_mm2(wiring, unit) for unit, _ in row.hanging.values())
    share = CCA_FACTOR if segment.metal == "CCA" else 1.0
    fitting = tuple(size for size in sizes if size.area_mm2 / share >= least_mm2 * _SAME)
    wanted = (fuse_for(row.current_a, math.inf).rating_a or 0.0) if row.fed else 0.0
    chosen = size_for(
        row.current_a, row.length_m, allowed, fitting,
        fuse_a=wanted, chart=fuse_chart(wiring), metal=segment.metal, temperature_c=warm,
    )  # fmt: skip
    thinner, why = chosen.thinner, "thinnest of the list"
    if chosen.chosen is None:
        why = "loses too much"
    elif thinner is not None:
        why = "loses too much" if thinner.drop_v > allowed * (1 + 1e-9) else "fuse too big for it"
    elif len(fitting) < len(sizes):
        why = "thinner than its feed"
    limit = cable_limit_a(wiring, chosen.chosen.size, segment.metal) if row.fed and chosen.chosen is not None else None
    fuse = fuse_for(row.current_a, limit) if limit is not None else None
    return CableChoice(
        row.end, segment.size, segment.metal, row.current_a, row.length_m, allowed,
        chosen.chosen, thinner, chosen.thicker, why, limit, fuse,
    )  # fmt: skip


def _feed_mm2(wiring: Wiring, fed: Fed) -> float:
    """The copper of the cable at a unit's feed; 0 where none has a size."""
    found = feed_cable(wiring, [fed.feed])
    return found.area_mm2 if found is not None else 0.0
