"""The conductors of a plan as pieces that a person would name: a joint, a plug, a lead, a stretch of wire."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.conductor import BODY, BOND, FUSE, INSIDE, JOINT, LEAD, MATED, PLUGGED, RUN, WIRE, Conductor, Hop
from harness.graph.wiring import Wiring
from harness.locate import circuit as kinds
from harness.locate.circuit import PIN, Ends, Piece
from harness.locate.spots import chain_words, pair_words

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
        self._fuses = {
            (each.a, each.b): each.fuse_a for each in wiring.job.segments if each.kind == "fuse"
        }  # fmt: skip

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
        name, words, where, ours, method, alike = self._about(kind, owner, wires)
        return self.add(Piece(kind, name, ends, words, where, ours, method, alike=alike))

    def _about(
        self, kind: str, owner: str, wires: tuple[Ends, ...]
    ) -> tuple[str, str, str, bool, str, str]:  # fmt: skip
        """(name, words, where, ours, method, alike) of a stretch."""
        parts = self.wiring.job.parts
        first, last = wires[0][0], wires[-1][1]
        if kind == kinds.JOINT:
            joint = self.wiring.joints[owner]
            ends = " to ".join(pair_words(self.wiring, [wire[at] for wire in wires]) for at in (0, 1))
            return owner, f"joint {owner}, {ends}", joint.at, True, joint.method, f"joint {joint.at}"
        if kind == kinds.PLUG:
            pin, half = wires[0]  # a conductor of this kind has the loom's pin first
            plug = self.wiring.contact(half).owner
            end = self.wiring.contact(pin).half
            pins = "/".join(dict.fromkeys(self.wiring.contact(wire[0]).last for wire in wires))
            words = f"{owner}’s {end} end in {plug}, terminals {pins}"
            return f"{owner}.{end}.{pins}", words, self._place(plug), True, "", f"plug {owner} {end}"
        if kind == kinds.MATED:
            cavities = "/".join(dict.fromkeys(self.wiring.contact(wire[0]).last for wire in wires))
            plug_part = parts.plugs.get(owner)
            ours = bool(plug_part and plug_part.unit)
            return (
                f"{owner}.{cavities}",
                f"plug {owner}, terminals {cavities}",
                self._place(owner),
                ours,
                "",
                f"plug {owner}",
            )
        if kind == kinds.LEAD and not first.endswith(PIN) and self.wiring.contact(last).half:
            numbers = "/".join(dict.fromkeys(self.wiring.contact(wire[0]).last for wire in wires))
            words = f"{owner}’s own wire, passed through at terminals {numbers}"
            return f"through {owner} {numbers}", words, self._place_of_loom(owner), True, "", f"through {owner}"
        if kind == kinds.LEAD:
            shown = pair_words(self.wiring, [wire[1] for wire in wires])
            return (
                f"lead {shown}",
                f"the loom’s lead {shown}",
                self._place_of_loom(owner),
                True,
                "",
                f"leads {owner} {self.wiring.contact(last).half}",
            )
        if kind == kinds.GROUND:
            point = parts.grounds.get(owner)
            if point is None:
                return "battery −", "the battery’s own ground strap", "", False, "", ""
            return f"gnd.{owner}", f"ground point {owner}", point.where, True, point.metal, ""
        if kind == kinds.FUSE:
            return self._fuse(wires[0])
        ours = kind == kinds.RUN
        ends = f"from {self._end_words(wires, 0)} to {self._end_words(wires, 1)}"
        words = f"{'our run' if ours else 'the car’s own wire'} {ends}"
        return (
            f"{'run' if ours else 'wire'} {first}>{last}",
            words,
            "",
            ours,
            "",
            f"{kind} {self.wiring.contact(first).owner}",
        )

    def _fuse(self, ends: Ends) -> tuple[str, str, str, bool, str, str]:
        amperes = self._fuses.get(ends)
        size = f"the fuse {amperes:g} A" if amperes else "the fuse"
        near = next((end for end in ends if self.wiring.contact(end).kind != "run"), "")
        owners = {self.wiring.contact(end).owner for end in ends}
        if len(owners) == 1 and self.wiring.contact(ends[0]).kind == "unit":
            unit = self.wiring.job.parts.units[owners.pop()]
            way = self.wiring.contact(ends[1]).last
            return f"fuse {ends[0]}>{ends[1]}", f"the fuse in {unit.name}, way {way}", unit.where, True, "", ""
        about = f" at {self.wiring.words(near)}" if near else f" in {chain_words(ends[0])}"
        where = ""
        if near and self.wiring.contact(near).kind == "unit":
            where = self.wiring.job.parts.units[self.wiring.contact(near).owner].where
        return f"fuse {ends[0]}>{ends[1]}", size + about, where, True, "", ""

    def _place(self, plug: str) -> str:
        part = self.wiring.job.parts.plugs.get(plug)
        return part.where if part is not None else ""

    def _place_of_loom(self, loom: str) -> str:
        return next((self._place(mate.plug) for mate in self.wiring.job.mates if mate.loom == loom), "")

    def _end_words(self, wires: tuple[Ends, ...], side: int) -> str:
        """One end of a stretch: the contacts that occur in it once, on that side."""
        count: dict[str, int] = {}
        for wire in wires:
            for end in wire:
                count[end] = count.get(end, 0) + 1
        ends = [wire[side] for wire in wires if count[wire[side]] == 1]
        return pair_words(self.wiring, ends or [wires[0][side]])
