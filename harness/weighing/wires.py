"""A loom as separate wires: which pins hang together inside it, and where each can be joined."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.pins import differ
from harness.model.function import Function
from harness.model.parts import Loom, Row


class Pin(NamedTuple):
    """A terminal of an end: the end, the cavity that it comes in, and what the loom says that it is for."""

    end: str
    cavity: str
    says: tuple[Function, ...]

    @property
    def name(self) -> str:
        """Behind the loom's name: `unit.7`."""
        return f"{self.end}.{self.cavity}"


class Wire(NamedTuple):
    """One piece of copper of a loom: its pins, and its free ends by name (`unit.7`, `aerial`), with the pin of each."""

    pins: tuple[Pin, ...]
    points: tuple[tuple[str, Pin | None], ...]

    def pin(self, end: str) -> Pin | None:
        """The pin at an end, where there is exactly one."""
        found = [pin for pin in self.pins if pin.end == end]
        return found[0] if len(found) == 1 else None

    @property
    def plain(self) -> bool:
        """At most one pin at each end: a wire whose terminals can be moved one by one."""
        return len({pin.end for pin in self.pins}) == len(self.pins)


def wires_of(loom: Loom) -> list[Wire]:
    """Every wire of a loom, in the order written."""
    says: dict[tuple[str, str], list[Function]] = {}
    listed = {row.cavity.lower(): row.function for row in loom.pins}
    groups: dict[tuple[str, str], list[tuple[str, str]]] = {}

    def group(pin: tuple[str, str]) -> list[tuple[str, str]]:
        return groups.setdefault(pin, [pin])

    points: dict[tuple[str, str], list[tuple[str, tuple[str, str]]]] = {}
    alone: list[str] = []
    for lead in loom.leads:
        if not lead.cavity:
            alone.append(lead.own)
            continue
        pin = (lead.end, lead.cavity)
        group(pin)
        says.setdefault(pin, []).append(lead.function)
        points.setdefault(pin, []).append((lead.own or f"{lead.end}.{lead.cavity}", pin))
    for unit, car, _ in loom.throughs:
        one, other = group(("unit", unit)), group(("car", car))
        if one is not other:
            one += other
            for pin in other:
                groups[pin] = one
    made, done = [], set()
    for pins in groups.values():
        if id(pins) in done:
            continue
        done.add(id(pins))
        held = {pin: Pin(*pin, (*says.get(pin, ()), *_said(listed, pin[1]))) for pin in pins}
        free = tuple((name, held[at]) for pin in pins for name, at in dict.fromkeys(points.get(pin, ())))
        made.append(Wire(tuple(held.values()), free))
    made += [Wire((), ((name, None),)) for name in alone]
    return made


def _said(listed: dict[str, Function], cavity: str) -> tuple[Function, ...]:
    function = listed.get(cavity.lower())
    return () if function is None else (function,)


def fits(pin: Pin, row: Row | None) -> bool:
    """Whether a terminal may stand in a cavity: what the loom says of it doesn't differ from what the cavity is for."""
    return row is None or not any(differ(said, row.function) or _turned(said, row.function) for said in pin.says)


def _turned(said: Function, there: Function) -> bool:
    """One wire of a pair in the place of the other."""
    return bool(said.sign and there.sign and said.sign != there.sign and said.base == there.base)
