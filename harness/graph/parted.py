"""Wires with something unplugged: which contacts still hang together.

Many readings may be taken at one large net, each with another plug pulled. Walking the whole net for each would take
time by its square, so what a pulled plug cuts off is found by walking from the cut to both sides in turn, until the
smaller side ends; the rest is told by what it isn't.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.conductor import Conductor
from harness.graph.kept import kept
from harness.graph.signal import Receiver
from harness.graph.state import State
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS

Cut = frozenset[Conductor]


class Wire(NamedTuple):
    """Contacts that conduct to each other without the car's body: their number, all of them, and what of them is asked
    for: contacts of speakers and of units, in the order of the job, and those that are joined to the body.
    """

    number: int
    contacts: tuple[str, ...]
    speakers: tuple[str, ...]
    units: tuple[str, ...]
    grounded: tuple[str, ...]


class Reach(NamedTuple):
    """What of a wire hangs together: `only` these contacts, or all of it `without` those. The body is its end."""

    wires: Wires
    wire: Wire
    only: frozenset[str] | None
    without: frozenset[str]

    def has(self, name: str) -> bool:
        """Whether a contact, or the body, conducts to it."""
        if name == CHASSIS:
            return any(map(self._holds, self.wire.grounded))
        return self._holds(name)

    def _holds(self, name: str) -> bool:
        if self.only is not None:
            return name in self.only
        return name not in self.without and self.wires.wire(name).number == self.wire.number

    def meets(self, other: Reach) -> bool:
        """Whether the two conduct to each other; the body counts, as it is the end of both."""
        return self.same(other) or (self.has(CHASSIS) and other.has(CHASSIS))

    def same(self, other: Reach) -> bool:
        """Whether the two are one."""
        return self.wire.number == other.wire.number and self.only == other.only and self.without == other.without

    @property
    def speakers(self) -> Iterator[str]:
        """Contacts of speakers, in the order of the job."""
        return filter(self._holds, self.wire.speakers)

    @property
    def units(self) -> Iterator[str]:
        """Contacts of units, in the order of the job."""
        return filter(self._holds, self.wire.units)


class Wires:
    """The wires of one state, found as they are asked for."""

    def __init__(self, wiring: Wiring, state: State, touching: dict[str, list[Receiver]]) -> None:
        self._wiring = wiring
        self._state = state
        self._touching = touching
        self._order = {name: at for at, name in enumerate(wiring.job.contacts)}
        self._of: dict[str, Wire] = {}
        self._count = 0
        self._cuts: dict[Cut, dict[int, list[Conductor]]] = {}
        self._parts: dict[tuple[Cut, int], tuple[list[frozenset[str]], frozenset[str]]] = {}

    def wire(self, contact: str) -> Wire:
        """The wire that a contact is on, nothing pulled."""
        if contact not in self._of:
            self._find(contact)
        return self._of[contact]

    def reach(self, contact: str, cut: Cut) -> Reach:
        """What conducts to a contact while these conductors don't."""
        wire = self.wire(contact)
        at = self._at_wires(cut).get(wire.number) if cut else None
        if not at:
            return Reach(self, wire, None, frozenset())
        key = (cut, wire.number)
        if key not in self._parts:
            parts = self._split(at, cut)
            self._parts[key] = parts, frozenset().union(*parts)
        parts, all_parts = self._parts[key]
        if contact not in all_parts:
            return Reach(self, wire, None, all_parts)
        return Reach(self, wire, next(part for part in parts if contact in part), frozenset())

    def _find(self, start: str) -> None:
        met, grounded = {start: None}, []
        row = [] if start == CHASSIS else [start]
        for here in row:
            for conductor in self._state.conductors(here):
                other = conductor.other(here)
                if other == CHASSIS:
                    grounded.append(here)
                elif other not in met:
                    met[other] = None
                    row.append(other)
        contact = self._wiring.contact
        speakers = sorted((name for name in met if name in self._touching), key=self._order.__getitem__)
        units = sorted((name for name in met if contact(name).kind == "unit"), key=self._order.__getitem__)
        ends = (start,) if start == CHASSIS else tuple(dict.fromkeys(grounded))
        made = Wire(self._count, tuple(met), tuple(speakers), tuple(units), ends)
        self._count += 1
        self._of.update(dict.fromkeys(met, made))

    def _at_wires(self, cut: Cut) -> dict[int, list[Conductor]]:
        """What is cut, by the number of the wire that it is in."""
        if cut not in self._cuts:
            made: dict[int, list[Conductor]] = {}
            for conductor in cut:
                if CHASSIS not in (conductor.a, conductor.b):
                    made.setdefault(self.wire(conductor.a).number, []).append(conductor)
            self._cuts[cut] = made
        return self._cuts[cut]

    def _split(self, at: list[Conductor], cut: Cut) -> list[frozenset[str]]:
        """All parts of a wire but one, the last to end: a walk from each end of a cut, one conductor each in turn."""
        walks: dict[str, tuple[dict[str, None], list[Iterator[str]]]] = {}
        owner: dict[str, str] = {}
        for end in sorted({end for conductor in at for end in (conductor.a, conductor.b)}):
            walks[end] = ({end: None}, [self._beside(end, cut)])
            owner[end] = end
        ended = []
        while len(walks) > 1:
            for name in list(walks):
                if name not in walks or len(walks) == 1:
                    continue
                met, row = walks[name]
                if not row:
                    ended.append(frozenset(met))
                    del walks[name]
                    continue
                other = next(row[-1], None)
                if other is None:
                    row.pop()
                elif other not in owner:
                    owner[other] = name
                    met[other] = None
                    row.append(self._beside(other, cut))
                elif owner[other] != name:  # they meet: the smaller goes into the larger
                    small, large = sorted((name, owner[other]), key=lambda each: len(walks[each][0]))
                    walks[large][0].update(walks[small][0])
                    walks[large][1].extend(walks[small][1])
                    owner.update(dict.fromkeys(walks.pop(small)[0], large))
        return ended

    def _beside(self, here: str, cut: Cut) -> Iterator[str]:
        for conductor in self._state.conductors(here):
            other = conductor.other(here)
            if other != CHASSIS and conductor not in cut:
                yield other


@kept
def touching(wiring: Wiring) -> dict[str, list[Receiver]]:
    """Speakers by each of their two contacts."""
    made: dict[str, list[Receiver]] = {}
    for each in wiring.found_signals.speaker_receivers:
        made.setdefault(each.plus, []).append(each)
        made.setdefault(each.minus, []).append(each)
    return made


@kept
def _wires(wiring: Wiring) -> tuple[Wires, Wires]:
    return Wires(wiring, wiring.found, touching(wiring)), Wires(wiring, wiring.planned, touching(wiring))


def wires_of(wiring: Wiring, state: State) -> Wires:
    """The wires of the state as found or as planned."""
    return _wires(wiring)[0 if state is wiring.found else 1]
