"""The supply as a tree to draw: battery, fuses, blocks, units and ground points, with what lies between them.

Pieces of one cable are one line; a fuse is a box of its own. A unit that takes its feed from the car's own wiring
stands there too, without amperes, since nobody wrote what the car's wire carries besides.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from harness.graph.cable import fuses, let_through, way_from_source
from harness.graph.conductor import JOINT, LEAD, MATED, PLUGGED
from harness.graph.fitted import terminals_for
from harness.graph.grounding import is_body
from harness.graph.meeting import grounded_nets
from harness.graph.supply import Supply, feed_terminals, supply
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.job import Segment

NOTHING_A = 1e-6  # less is no current, but rounding


class TreeNode(NamedTuple):
    """A box: `kind` is battery, fuse, block, unit, ground, feed (the car's own) or joint.

    `rating_a` of a fuse (None: not recorded); amperes and volts at its terminals of a unit that is counted.
    """

    key: str
    kind: str
    name: str
    where: str = ""
    rating_a: float | None = None
    current_a: float | None = None
    volts: float | None = None


class TreeLine(NamedTuple):
    """From one box to the next: the pieces of cable, none where they touch; None where a figure can't be told.

    `units` are those that hang on it; `ground` is the side from the unit back.
    """

    tail: str
    head: str
    pieces: tuple[Segment, ...]
    current_a: float | None
    drop_v: float | None
    ground: bool
    units: tuple[str, ...]


class PowerTree(NamedTuple):
    """Boxes and lines from the battery on; both empty where no supply is laid."""

    nodes: tuple[TreeNode, ...]
    lines: tuple[TreeLine, ...]


class _Part(NamedTuple):
    """A piece of cable (`piece` set) or the touching of two boxes, between two boxes by key."""

    a: str
    b: str
    piece: Segment | None
    ground: bool


def power_tree(wiring: Wiring) -> PowerTree:
    """All that is laid between batteries, units and ground; parts in the order of the job."""
    laid = _laid(wiring)
    if not laid:
        return PowerTree((), ())
    boxes = _Boxes(wiring)
    solved = supply(wiring)
    parts: list[_Part] = []
    known = fuses(wiring)
    in_chain = {(segment.a, segment.b) for segment, _ in laid}
    for ends in known:
        if ends not in in_chain and ends[0] in let_through(wiring):
            name = boxes.fuse(ends)
            parts += [_Part(boxes.of(ends[0]), name, None, False), _Part(name, boxes.of(ends[1]), None, False)]
    for segment, ground in laid:
        here, there = boxes.of(segment.a), boxes.of(segment.b)
        if segment.kind == "fuse":
            name = boxes.fuse((segment.a, segment.b))
            parts += [_Part(here, name, None, ground), _Part(name, there, None, ground)]
        else:
            parts.append(_Part(here, there, segment, ground))
    turned = [part for part in _turned(boxes, parts) if part.a != part.b]
    lines = _lines(wiring, boxes, turned, solved)
    touched = dict.fromkeys(key for line in lines for key in (line.tail, line.head))
    return PowerTree(tuple(boxes.node(key, solved) for key in touched), tuple(lines))


def _laid(wiring: Wiring) -> list[tuple[Segment, bool]]:
    """Cables and fuses of ours on a feed or a ground, the latter with True."""
    number = wiring.planned.net_number
    grounded = grounded_nets(wiring)
    fed = {number(name) for name in let_through(wiring)} if wiring.job.has_runs else set()
    for unit in wiring.job.parts.units:
        if unit not in wiring.gone:
            fed |= {number(name) for kind in ("battery", "switched") for name in terminals_for(wiring, unit, kind)}
    made = []
    for segment in wiring.job.segments:
        if not segment.laid or segment.kind not in ("wire", "fuse"):
            continue
        net = number(segment.a)
        if {segment.a, segment.b} & wiring.ports.keys() or net not in fed | grounded:
            continue
        made.append((segment, net in grounded))
    return made


class _Boxes:
    """Which box a contact belongs to: its unit, the battery, a ground point; points of a run each their own."""

    def __init__(self, wiring: Wiring) -> None:
        self._wiring = wiring
        self._fuses = fuses(wiring)
        self._joined: dict[str, str] = {}
        self._drawn: dict[str, tuple[str, str]] = {}
        self._ways = {ends[1] for ends in self._fuses if wiring.contact(ends[1]).kind == "unit"}
        laid = {(each.a, each.b) for each in wiring.job.segments}
        self.feeds: set[str] = set()  # boxes where the car's own wiring feeds us
        for way in _ways(wiring):
            for a, b in pairwise(way):
                if not {(a, b), (b, a)} & (laid | self._fuses.keys()):
                    self._join(a, b)
        for end in dict.fromkeys(end for ends in laid for end in ends):
            if wiring.contact(end).kind not in ("unit", "battery", "ground", "chassis"):
                self._gather(end)

    def _join(self, a: str, b: str) -> None:
        """Two contacts that touch are one box, unless each has a name of its own already."""
        one, other = self.of(a), self.of(b)
        named = [key for key in (one, other) if not key.startswith("at ")]
        if one != other and len(named) < 2:
            pins = [key for key in (one, other) if self.is_pin(key)]
            target = (named or pins or [one])[0]
            for key in {one, other} - {target}:
                self._joined[key] = target

    def _gather(self, start: str) -> None:
        """Joins what touches a point of a run: joints, plugs and looms; wires and runs are no touching."""
        seen = {start}
        row = [start]
        for here in row:
            for conductor in self._wiring.planned.conductors(here):
                other = conductor.other(here)
                if conductor.kind in (JOINT, MATED, PLUGGED, LEAD) and other not in seen:
                    seen.add(other)
                    self._join(here, other)
                    if self._own(other).startswith("at "):
                        row.append(other)

    def of(self, contact: str) -> str:
        """The key of a contact's box."""
        key = self._own(contact)
        while key in self._joined:
            key = self._joined[key]
        return key

    def _own(self, contact: str) -> str:
        found = self._wiring.contact(contact)
        if contact in self._ways:
            return f"at {contact}"
        if found.kind == "unit":
            return f"unit {found.owner}"
        if found.kind in ("battery", "ground"):
            return contact
        return contact if contact == CHASSIS else f"at {contact}"

    def fuse(self, ends: tuple[str, str]) -> str:
        """The key of a fuse's box."""
        key = f"fuse {ends[0]} {ends[1]}"
        self._drawn[key] = ends
        return key

    def is_end(self, key: str) -> bool:
        """Whether current ends there on its way back: ground, body or a battery's −."""
        return key == CHASSIS or key.startswith("gnd.") or key == "battery.-"

    def node(self, key: str, solved: Supply | None) -> TreeNode:
        """The box with its figures, as far as they are known."""
        wiring = self._wiring
        if key in self._drawn:
            found = self._fuses.get(self._drawn[key])
            return TreeNode(key, "fuse", "fuse", rating_a=found.rating_a if found is not None else None)
        if key.startswith("unit "):
            unit = wiring.job.parts.units[key.removeprefix("unit ")]
            if unit.kind == "battery":
                return TreeNode(key, "battery", unit.name, unit.where)
            if unit.kind in ("fuse block", "relay", "switch", "diode"):
                return TreeNode(key, "block", unit.name, unit.where)
            fed = next((each for each in solved.fed if each.unit == unit.name), None) if solved else None
            if solved is None or solved.collapsed or fed is None:
                return TreeNode(key, "unit", unit.name, unit.where)
            volts = solved.solution.volts
            left = volts[fed.feed] - volts[fed.ground]
            return TreeNode(key, "unit", unit.name, unit.where, current_a=fed.current_a, volts=left)
        if self.is_end(key):
            name = key.removeprefix("gnd.")
            point = wiring.job.parts.grounds.get(name)
            if key == CHASSIS:
                return TreeNode(key, "ground", "body")
            return TreeNode(key, "ground", wiring.words(key) if point is None else name, point.where if point else "")
        if key == "battery.+":
            return TreeNode(key, "battery", "battery +")
        if key in self.feeds:
            return TreeNode(key, "feed", wiring.words(key.removeprefix("at ")))
        return TreeNode(key, "joint", "joint")

    def is_pin(self, key: str) -> bool:
        """Whether it is a pin of a plug or loom, where the car's own wiring may feed us."""
        return key.startswith("at ") and self._wiring.contact(key.removeprefix("at ")).kind in ("loom", "plug")


def _ways(wiring: Wiring) -> Iterable[tuple[str, ...]]:
    """The contacts from the source to each unit's feed, and from its ground to the first point of the body."""
    for feed, ground in feed_terminals(wiring).values():
        yield way_from_source(wiring, feed)
        back = [ground]
        for hop in wiring.planned.path(ground, CHASSIS):
            back.append(hop.contact)
            if is_body(wiring, hop.contact):
                break
        yield tuple(back)


def _turned(boxes: _Boxes, parts: list[_Part]) -> list[_Part]:
    """Every part the way the current goes: from a source on, and on the ground side towards the body."""
    made = []
    for ground in (False, True):
        side = [part for part in parts if part.ground == ground]
        beside: dict[str, list[str]] = defaultdict(list)
        for part in side:
            beside[part.a].append(part.b)
            beside[part.b].append(part.a)
        if ground:
            depth = _depth(beside, [[key for key in beside if boxes.is_end(key)]])
        else:
            posts = [key for key in beside if _is_post(boxes, key)]
            depth = _depth(beside, [["battery.+"] if "battery.+" in beside else [], *([key] for key in posts)])
            boxes.feeds |= {key for key in beside if key not in depth and boxes.is_pin(key)}
            depth |= _depth(beside, [[key for key in beside if key in boxes.feeds]])
        for part in side:
            near, far = depth.get(part.a, 0), depth.get(part.b, 0)
            backwards = far > near if ground else near > far
            made.append(part._replace(a=part.b, b=part.a) if backwards else part)
    return made


def _depth(beside: dict[str, list[str]], groups: list[list[str]]) -> dict[str, int]:
    """How many steps each box lies from the starts; those of a later group count only where none before reaches."""
    depth: dict[str, int] = {}
    for starts in groups:
        row = [key for key in starts if key not in depth]
        depth |= dict.fromkeys(row, 0)
        for here in row:
            for other in beside[here]:
                if other not in depth:
                    depth[other] = depth[here] + 1
                    row.append(other)
    return depth


def _is_post(boxes: _Boxes, key: str) -> bool:
    return key.startswith("unit ") and boxes.node(key, None).kind == "battery"


def _lines(wiring: Wiring, boxes: _Boxes, parts: list[_Part], solved: Supply | None) -> list[TreeLine]:
    """Parts in a row through a nameless point are one line."""
    into: dict[str, list[_Part]] = defaultdict(list)
    out: dict[str, list[_Part]] = defaultdict(list)
    for part in parts:
        out[part.a].append(part)
        into[part.b].append(part)

    def passes(key: str) -> bool:
        nameless = key.startswith("at ") and boxes.node(key, None).kind == "joint"
        return nameless and len(into[key]) == 1 and len(out[key]) == 1

    made = []
    for part in parts:
        if passes(part.a):
            continue
        row = [part]
        while passes(row[-1].b) and out[row[-1].b][0] not in row:
            row.append(out[row[-1].b][0])
        pieces = tuple(each.piece for each in row if each.piece is not None)
        current, drop = _figures(pieces, solved)
        units = _hanging(boxes, *((part.a, into) if part.ground else (row[-1].b, out)), ground=part.ground)
        made.append(TreeLine(part.a, row[-1].b, pieces, current, drop, part.ground, units))
    return made


def _hanging(boxes: _Boxes, start: str, beyond: dict[str, list[_Part]], *, ground: bool) -> tuple[str, ...]:
    """The units that hang on a line: behind it on the feed side, before it on the ground side."""
    seen = {start}
    row = [start]
    found = []
    for here in row:
        if here.startswith("unit ") and boxes.node(here, None).kind == "unit":
            found.append(here.removeprefix("unit "))
        for part in beyond[here]:
            other = part.a if ground else part.b
            if part.ground == ground and other not in seen:
                seen.add(other)
                row.append(other)
    return tuple(found)


def _figures(pieces: tuple[Segment, ...], solved: Supply | None) -> tuple[float | None, float | None]:
    """Amperes in a cable and volts lost over it; None where nothing counted flows or a piece has no measure."""
    if solved is None or solved.collapsed or not pieces:
        return None, None
    ends = (pieces[0].a, pieces[0].b)
    current = abs(solved.current_a.get(ends, 0.0))
    if current < NOTHING_A:
        return None, None
    if any(piece.length_m is None or piece.size is None for piece in pieces):
        return current, None
    volts = solved.solution.volts
    return current, sum(abs(volts.get(piece.a, 0.0) - volts.get(piece.b, 0.0)) for piece in pieces)
