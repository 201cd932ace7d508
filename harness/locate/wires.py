"""The conductors of a plan as pieces that a person would name: a joint, a plug, a lead, a stretch of wire."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.conductor import BODY, BOND, FUSE, INSIDE, JOINT, LEAD, MATED, PLUGGED, RUN, WIRE, Conductor, Hop
from harness.graph.wiring import Wiring
from harness.locate import circuit as kinds
from harness.locate.circuit import PIN, Ends, Piece

_KIND = {
    JOINT: kinds.JOINT, PLUGGED: kinds.PLUG, MATED: kinds.MATED, LEAD: kinds.LEAD, WIRE: kinds.WIRE, RUN: kinds.RUN,
    FUSE: kinds.FUSE,
}  # fmt: skip


class Stretch(NamedTuple):
    """One stretch of a single wire: what it is (`kind`, `owner`), its conductors, and the contact at its far end."""

    kind: str
    owner: str
    wires: tuple[Ends, ...]
    contact: str


class Pieces:
    """The pieces met so far, each once."""

    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        self.made: list[Piece] = []
        self.conductors: dict[Ends, Conductor] = {}
        self._known: dict[tuple[str, frozenset[Ends], str], int] = {}
        self._leads = {
            lead.name: loom.name
            for loom in wiring.job.parts.looms.values()
            for lead in loom.leads
            if lead.cavity and not lead.own
        }

    def add(self, piece: Piece) -> int:
        """Its number; the same thing met again is the same piece."""
        key = (piece.kind, piece.wires, "" if piece.wires else piece.name)
        number = self._known.get(key)
        if number is None:
            number = self._known[key] = len(self.made)
            self.made.append(piece)
        return number

    def stretches(self, start: str, hops: Iterable[Hop]) -> tuple[str, list[Stretch]]:
        """The contact that a wire is first reached at, and its stretches. Terminals of units count as their cavity."""
        made: list[Stretch] = []
        before = start
        wall = ""
        for conductor, contact in hops:
            ends = (conductor.a, conductor.b)
            self.conductors[ends] = conductor
            if conductor.kind in (INSIDE, BOND):
                if made:
                    made[-1] = made[-1]._replace(contact=contact)
                else:
                    start = contact
            elif conductor.kind == BODY:
                made.append(Stretch(kinds.GROUND, conductor.name, (ends,), contact))
            else:
                if before in self._leads and conductor.kind == PLUGGED and wall != LEAD:
                    made.append(self._lead(before, before + PIN))
                self._go_on(made, conductor, ends, contact, wall)
                if contact in self._leads and conductor.kind == PLUGGED:
                    made[-1] = made[-1]._replace(contact=contact + PIN)
                    made.append(self._lead(contact, contact))
            if conductor.kind == LEAD and len(made) > 1 and made[-2][0] == kinds.LEAD and made[-2].contact == before:
                made[-2:] = [made[-1]]  # it goes through: the free end of a branch is not on this way
            wall = conductor.kind
            before = contact
        return start, made

    def _go_on(self, made: list[Stretch], conductor: Conductor, ends: Ends, contact: str, wall: str) -> None:
        kind = _KIND[conductor.kind]
        run_on = (
            bool(made)
            and conductor.kind == wall
            and conductor.kind in (WIRE, RUN)
            and self.wiring.contact(made[-1].contact).kind == "run"
        )
        if run_on:
            made[-1] = made[-1]._replace(wires=(*made[-1].wires, ends), contact=contact)
        else:
            made.append(Stretch(kind, conductor.name, (ends,), contact))

    def _lead(self, lead: str, contact: str) -> Stretch:
        return Stretch(kinds.LEAD, self._leads[lead], ((lead + PIN, lead),), contact)

    def of(self, plus: Stretch, minus: Stretch | None = None) -> tuple[int, ...]:
        """The piece or, where the wires of a pair are joined apart, the two pieces that a stretch is."""
        if minus is None:
            return (self._single(plus, plus.wires),)
        if plus.owner == minus.owner:
            return (self._single(plus, plus.wires + minus.wires),)
        return (self._single(plus, plus.wires), self._single(minus, minus.wires))

    def _single(self, stretch: Stretch, wires: tuple[Ends, ...]) -> int:
        kind, owner = stretch.kind, stretch.owner
        ends = frozenset(wires)
        number = self._known.get((kind, ends, ""))
        if number is not None:
            return number
        name, where, ours, method, alike = self._about(kind, owner, wires)
        return self.add(Piece(kind, name, ends, "", where, ours, method, alike=alike, owner=owner, along=wires))

    def _about(self, kind: str, owner: str, wires: tuple[Ends, ...]) -> tuple[str, str, bool, str, str]:
        """(name, where, ours, method, alike) of a stretch."""
        parts = self.wiring.job.parts
        contact = self.wiring.contact
        first, last = wires[0][0], wires[-1][1]
        if kind == kinds.JOINT:
            joint = self.wiring.joints[owner]
            return owner, joint.at, True, joint.method, f"joint {joint.at}"
        if kind == kinds.PLUG:
            end = contact(first).half  # a conductor of this kind has the loom's pin first
            where = self._place(contact(wires[0][1]).owner)
            return f"{owner}.{end}.{lasts(self.wiring, wires)}", where, True, "", f"plug {owner} {end}"
        if kind == kinds.MATED:
            part = parts.plugs.get(owner)
            name = f"{owner}.{lasts(self.wiring, wires)}"
            return name, self._place(owner), bool(part and part.unit), "", f"plug {owner}"
        if kind == kinds.LEAD:
            where = self._place_of_loom(owner)
            if is_through(self.wiring, wires):
                return f"through {owner} {lasts(self.wiring, wires)}", where, True, "", f"through {owner}"
            name = "/".join(dict.fromkeys(wire[1] for wire in wires))
            return f"lead {name}", where, True, "", f"leads {owner} {contact(last).half}"
        if kind == kinds.GROUND:
            point = parts.grounds.get(owner)
            if point is None:
                return "battery −", "", False, "", ""
            return f"gnd.{owner}", point.where, True, point.metal, ""
        if kind == kinds.FUSE:
            near = next((contact(end) for end in wires[0] if contact(end).kind == "unit"), None)
            where = parts.units[near.owner].where if near is not None else ""
            return f"fuse {first}>{last}", where, True, "", ""
        word = "run" if kind == kinds.RUN else "wire"
        return f"{word} {first}>{last}", "", kind == kinds.RUN, "", f"{kind} {contact(first).owner}"

    def _place(self, plug: str) -> str:
        part = self.wiring.job.parts.plugs.get(plug)
        return part.where if part is not None else ""

    def _place_of_loom(self, loom: str) -> str:
        return next((self._place(mate.plug) for mate in self.wiring.job.mates if mate.loom == loom), "")


def lasts(wiring: Wiring, wires: tuple[Ends, ...]) -> str:
    """`1/9`: the cavities that wires begin at."""
    return "/".join(dict.fromkeys(wiring.contact(wire[0]).last for wire in wires))


def is_through(wiring: Wiring, wires: tuple[Ends, ...]) -> bool:
    """Whether a loom's wire goes from end to end, and is no lead."""
    return not wires[0][0].endswith(PIN) and bool(wiring.contact(wires[-1][1]).half)
