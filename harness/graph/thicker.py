"""Which cables to lay thicker so that a unit gets its volts: the fewest pieces, each no thicker than needed."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from harness.electrical.conductors import ohm_per_m
from harness.electrical.sizing import sizes_like
from harness.graph.cable import segments, way_from_source
from harness.graph.shop import figure
from harness.graph.supply import Fed, Supply
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.job import Segment
from harness.units import WireSize


class Piece(NamedTuple):
    """A cable on a unit's way, with the current in it and the volts lost over it."""

    segment: Segment
    current_a: float
    drop_v: float


class Thicker(NamedTuple):
    """Pieces with the sizes to lay, and the drop of the whole way then. Empty where no size on the list is enough."""

    changes: tuple[tuple[Segment, WireSize], ...]
    drop_v: float


def pieces(wiring: Wiring, solved: Supply, fed: Fed) -> list[Piece]:
    """The cables from the source to a unit's feed and from its ground to the body, that lose most first."""
    made = []
    known = segments(wiring)
    there = way_from_source(wiring, fed.feed)
    back = [hop.contact for hop in wiring.planned.path(fed.ground, CHASSIS)]
    for way in (there, (fed.ground, *back)):
        for ends in pairwise(way):
            segment = known.get(ends) or known.get(ends[::-1])
            if segment is not None and segment.laid and segment.size is not None:
                current = abs(solved.current_a[segment.a, segment.b])
                made.append(Piece(segment, current, current * _ohm(wiring, segment, segment.size)))
    return sorted(made, key=lambda piece: -piece.drop_v)


def thicker(wiring: Wiring, solved: Supply, fed: Fed, allowed_v: float) -> Thicker:
    """One piece where one is enough, the one that loses most first; else one after another as thick as there is.

    The currents are taken as they are: thicker cable changes those of a mesh a little, so `Thicker.drop_v` is right
    for a tree and an estimate for a mesh.
    """
    here = pieces(wiring, solved, fed)
    total = fed.drop_v
    for piece in here:
        for size in _thicker_sizes(piece.segment):
            then = total - piece.drop_v + piece.current_a * _ohm(wiring, piece.segment, size)
            if then <= allowed_v:
                return Thicker(((piece.segment, size),), then)
    changes: list[tuple[Segment, WireSize]] = []
    for piece in here:
        for size in _thicker_sizes(piece.segment):
            then = total - piece.drop_v + piece.current_a * _ohm(wiring, piece.segment, size)
            if then <= allowed_v:
                return Thicker((*changes, (piece.segment, size)), then)
        largest = next(reversed(_thicker_sizes(piece.segment)), None)
        if largest is not None:
            total += piece.current_a * _ohm(wiring, piece.segment, largest) - piece.drop_v
            changes.append((piece.segment, largest))
    return Thicker((), fed.drop_v)


def _thicker_sizes(segment: Segment) -> list[WireSize]:
    assert segment.size is not None
    return [size for size in sizes_like(segment.size) if size.area_mm2 > segment.size.area_mm2]


def _ohm(wiring: Wiring, segment: Segment, size: WireSize) -> float:
    assert segment.length_m is not None
    return segment.length_m * ohm_per_m(size, segment.metal, figure(wiring, "temperature").value)
