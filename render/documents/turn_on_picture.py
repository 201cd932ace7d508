"""The picture of the turn-on chain: what gives the 12 V, through which relays and diodes, to which unit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from harness.graph.waking import CAR, Giver
from harness.graph.woken import amperes
from harness.model.contact import printed
from harness.planning.turn_on_chain import (
    BUS,
    SIGNAL,
    UNKNOWN,
    RelayLine,
    TurnOnChain,
    WakeLine,
    Waker,
    source_of,
)
from render.blocks import Edge, Node, Picture
from render.documents.wording import NOT_RECORDED, labelled

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

_HOLD = "\N{NO-BREAK SPACE}"
SOURCES = {
    "constant": "constant feed, always live",
    "acc": "ACC, with the key in accessory",
    "ign": "IGN, with the key in run",
    "light": "illumination, with the lamps",
    "aerial": "aerial supply",
    "radio": "radio's turn-on",
}


def milliamps(current_a: float | None) -> str:
    """`30 mA`, or the words for nothing written."""
    return f"mA {NOT_RECORDED}" if current_a is None else amperes(current_a).replace(" ", _HOLD)


def source_words(wiring: Wiring, giver: Giver) -> str:
    """What kind of giver it is; an output by the kind of its unit."""
    source = source_of(wiring, giver)
    unit = wiring.job.parts.units.get(giver.unit)
    return SOURCES.get(source) or (f"{unit.kind}'s turn-on output" if unit is not None else "another unit's output")


def terminal_words(wiring: Wiring, contact: str) -> str:
    """A unit's terminal by its last name, a coil's by its number."""
    last = printed(wiring.contact(contact).last)
    return f"coil {last}" if last in ("85", "86") else last


class _Boxes:
    """Boxes by their key, each made once, in the order in which they are met."""

    def __init__(self, wiring: Wiring, chain: TurnOnChain) -> None:
        self._wiring = wiring
        self._relays = {line.relay: line for line in chain.relays}
        self._turn: dict[str, int | None] = {line.unit: line.order for line in chain.wakes}
        self.nodes: dict[str, Node] = {}
        self.edges: dict[tuple[str, str], Edge] = {}

    def add(self, key: str, title: str, lines: tuple[str, ...] = (), battery: bool = False) -> str:
        name = f"t{len(self.nodes)}"
        return self.nodes.setdefault(key, Node(name, title, lines, "battery" if battery else "box")).name

    def unit(self, name: str) -> str:
        found = self._wiring.job.parts.units[name]
        turn = self._turn.get(name)
        if name in self._relays:
            return self.add(f"unit {name}", name, (found.kind, *relay_words(self._relays[name])))
        if name in self._turn:
            said = f"turn {turn}" if turn is not None else "nothing known wakes it"
            return self.add(f"unit {name}", name, (found.kind, said))
        return self.add(f"unit {name}", name, (found.kind,))

    def giver(self, giver: Giver) -> str:
        """The box that the 12 V comes out of: the unit, or the car's own wire."""
        if giver.unit:
            return self.unit(giver.unit)
        contact = self._wiring.contact(giver.contact)
        words = source_words(self._wiring, giver)
        return self.add(giver.contact, labelled(contact), (words,), contact.kind == "battery")

    def line(self, tail: str, head: str, words: str, group: str) -> None:
        """One line between two boxes; a unit is drawn as waking itself by no line."""
        if tail != head:
            self.edges.setdefault((tail, head), Edge(tail, head, words, group=group))


def relay_words(line: RelayLine) -> tuple[str, ...]:
    """Fuse and diode, as they stand in the relay's box."""
    rated = [each for each in line.fuses_a if each is not None]
    if not line.feed:
        fuse = f"{terminal(line.fed)}: no feed found"
    elif rated:
        fuse = f"{terminal(line.fed)} behind fuse {min(rated):g}{_HOLD}A"
    elif line.fuses_a:
        fuse = f"{terminal(line.fed)}: fuse value {NOT_RECORDED}"
    else:
        fuse = f"{terminal(line.fed)}: fuse {NOT_RECORDED}"
    return fuse, f"across the coil: {line.across or NOT_RECORDED}"


def terminal(contact: str) -> str:
    """The number of a relay's terminal."""
    return contact.rpartition(".")[2]


def turn_on_picture(wiring: Wiring, chain: TurnOnChain) -> Picture | None:
    """All that wakes anything; None where nothing does. Where it must be parted, unit by unit."""
    boxes = _Boxes(wiring, chain)
    for line in chain.wakes:
        for waker in line.by:
            _lines(wiring, boxes, line, waker)
        if line.contact and not line.by:
            words = f"{terminal_words(wiring, line.contact)}\n{milliamps(line.draws_a)}"
            boxes.line(boxes.add("nothing", "nothing", ("no source of 12 V",)), boxes.unit(line.unit), words, line.unit)
    for relay in chain.relays:
        for name in relay.switches:
            contact = wiring.contact(name)
            if contact.function.kind in ("battery", "switched"):
                words = f"{terminal(relay.given)} → {printed(contact.last)}\nits supply"
                boxes.line(boxes.unit(relay.relay), boxes.unit(contact.owner), words, contact.owner)
    if not boxes.edges:
        return None
    used = {end for edge in boxes.edges.values() for end in (edge.tail, edge.head)}
    nodes = tuple(node for node in boxes.nodes.values() if node.name in used)
    return Picture("Who wakes whom", nodes, tuple(boxes.edges.values()), close=True)


def _lines(wiring: Wiring, boxes: _Boxes, line: WakeLine, waker: Waker) -> None:
    """From what wakes a unit to the unit, by way of relays and diodes."""
    head = boxes.unit(line.unit)
    if waker.source == SIGNAL:
        tail = boxes.unit(waker.unit) if waker.unit not in (UNKNOWN, CAR) else boxes.add("signal", "signal")
        boxes.line(tail, head, "by its signal", line.unit)
    elif waker.source == BUS:
        boxes.line(boxes.add("bus", "the car's data bus"), head, "by the bus", line.unit)
    elif waker.giver is not None:
        here, words = head, f"{terminal_words(wiring, line.contact)}\n{milliamps(line.draws_a)}"
        for name in waker.giver.through:
            before = boxes.unit(name) if name in wiring.job.parts.units else name
            leaves = "87" if wiring.job.parts.units[name].kind == "relay" else "k"
            boxes.line(before, here, f"{leaves} → {words}", line.unit)
            relay = next((each for each in _drawn(wiring, name)), None)
            here, words = before, relay or "a"
        gives = terminal_words(wiring, waker.giver.contact) if waker.giver.unit else "12 V"
        if wiring.contact(waker.giver.contact).kind == "plug" and waker.giver.unit:
            gives = printed(wiring.contact(waker.giver.contact).function.name)
        boxes.line(boxes.giver(waker.giver), here, f"{gives} → {words}", line.unit)


def _drawn(wiring: Wiring, name: str) -> list[str]:
    """What a relay's coil draws, as words of a line to it; nothing of a diode."""
    unit = wiring.job.parts.units[name]
    return [f"coil\n{milliamps(unit.power.coil_a)}"] if unit.kind == "relay" else []
