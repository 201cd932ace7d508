"""Speakers that play another corner's channel, and where on the way it changes over."""

from __future__ import annotations

import re
from typing import NamedTuple

from harness.graph.conductor import Conductor
from harness.graph.kept import kept
from harness.graph.signal import Driver, Receiver, Way
from harness.graph.walk import Stage, place_to_change, suspect, way_contacts, way_stages
from harness.graph.wiring import Wiring
from harness.model.function import CHANNELS, read_function
from harness.model.parts import Route
from harness.place import Place

CORNERS = CHANNELS[:4]  # FL FR RL RR: the channels that have a side and an axle


class Change(NamedTuple):
    """Where a way leaves one channel's contacts for another's; `route` is set where a unit does it inside."""

    place: Place
    before: str
    after: str
    route: Route | None


class Crossing(NamedTuple):
    """A speaker that plays `heard` (a corner) and not its `own`; its changes, source first."""

    receiver: Receiver
    own: str
    heard: str
    changes: tuple[Change, ...]
    path: tuple[str, ...]

    @property
    def by_side(self) -> bool:
        return self.own[1] != self.heard[1]

    @property
    def by_axle(self) -> bool:
        return self.own[0] != self.heard[0]


@kept
def crossings(wiring: Wiring) -> list[list[Crossing]]:
    """Crossed speakers, those of one cause together: an exchange of two channels is one cause.

    A speaker that gets its own channel among others isn't crossed, nor is C or SUB, nor a speaker that gets
    a mixture of which a part is right.
    """
    heard = _heard(wiring)
    at_home = {channel for _, channel, arrived in heard if channel in arrived}
    # what arrives at corners that lack their own
    strayed = {
        each for _, channel, arrived in heard if channel in CORNERS and channel not in arrived for each in arrived
    }
    found: list[Crossing] = []
    for receiver, own, ways in heard:
        if own not in CORNERS or not ways or any(channel not in CORNERS for channel in ways):
            continue
        by_side = all(channel[1] != own[1] for channel in ways)
        by_axle = all(channel[0] != own[0] for channel in ways)
        if not by_side and (not by_axle or _derived(own, ways, at_home, strayed)):
            continue
        channel, way = next(iter(ways.items()))
        found.append(Crossing(receiver, own, channel, _changes(wiring, way, channel, own), way_contacts(wiring, way)))
    return _by_cause(found)


_Heard = list[tuple[Receiver, str, dict[str, Way]]]


def _heard(wiring: Wiring) -> _Heard:
    """Each speaker with its own channel and the channels that arrive, in the order of their names, FL FR RL RR."""
    signals, speakers = wiring.signals, wiring.job.parts.speakers
    known: dict[str, str] = {}
    made: _Heard = []
    for receiver in signals.speaker_receivers:
        arrived: dict[str, Way] = {}
        for way in signals.ways(receiver):
            driver = way.source
            if driver.name not in known:
                known[driver.name] = source_channel(wiring, driver)
            arrived.setdefault(known[driver.name], way)
        made.append((receiver, speakers[receiver.speaker].function.channel, arrived))
    return sorted(made, key=lambda each: (each[1], each[0].name))


def source_channel(wiring: Wiring, driver: Driver) -> str:
    """The channel that a source gives: by its output's name, else by the one channel its plug is charted for."""
    function = read_function(driver.port.name)
    if function is not None and function.channel:
        return function.channel
    contacts = [wiring.contact(name) for name in wiring.planned.net(driver.plus)]
    charted = {contact.function.channel for contact in contacts if contact.kind == "plug" and contact.half == "unit"}
    charted.discard("")
    return charted.pop() if len(charted) == 1 else ""


def _derived(own: str, ways: dict[str, Way], at_home: set[str], strayed: set[str]) -> bool:
    """Rear made from front (or front from rear) on purpose: each source plays at home too, and nothing was
    displaced, which a mistake in wiring would do.
    """
    return own not in strayed and all(channel in at_home for channel in ways)


def _changes(wiring: Wiring, way: Way, heard: str, own: str) -> tuple[Change, ...]:
    """Every stretch between contacts of two different channels, its likeliest place picked."""
    stages = way_stages(wiring, way)
    changes: list[Change] = []
    channel, stretch = heard, [stages[0]]
    for at, stage in enumerate(stages[1:], start=2):
        stretch.append(stage)
        here = own if at == len(stages) else wiring.contact(stage.contact).function.channel
        if not here:
            continue
        if here != channel:
            changes.append(_pick(wiring, stretch, channel, here, own))
        channel, stretch = here, [stage]
    return tuple(changes)


class _Piece(NamedTuple):
    """A part of a stretch between two contacts: wires, or the inside of a unit."""

    stages: tuple[Stage, ...]  # the first is where it starts
    route: Route | None

    @property
    def ends(self) -> tuple[str, str]:
        return self.stages[0].contact, self.stages[-1].contact


def _pieces(stretch: list[Stage]) -> list[_Piece]:
    pieces: list[_Piece] = []
    wire = [stretch[0]]
    for stage in stretch[1:]:
        if isinstance(stage.by, Route):
            pieces += [_Piece(tuple(wire), None), _Piece((wire[-1], stage), stage.by)]
            wire = [stage]
        else:
            wire.append(stage)
    pieces.append(_Piece(tuple(wire), None))
    return [piece for piece in pieces if len(piece.stages) > 1]


def _pick(wiring: Wiring, stretch: list[Stage], before: str, after: str, own: str) -> Change:
    """Where on an unmarked stretch the channel changes.

    Inputs and outputs are counted FL FR RL RR by custom; what breaks the count alone is where it crosses.
    Where the count doesn't settle it: a route, if another input of the unit carries what is wanted; else
    the wires behind the last unit.
    """
    pieces = _pieces(stretch)
    by_side = before[-1] != after[-1]
    odd = [piece for piece in pieces if _breaks(wiring, piece, before, after, by_side)]
    if len(odd) != 1:
        odd = [piece for piece in odd if piece.route is not None and _other_input_fits(wiring, piece, own)]
    piece = odd[0] if odd else pieces[-1]
    start, end = piece.ends
    if piece.route is not None:
        return Change(piece.route.place, start, end, piece.route)
    blamed = suspect(wiring, [stage.by for stage in piece.stages if isinstance(stage.by, Conductor)])
    place = place_to_change(wiring, blamed) if blamed is not None else wiring.contact(end).place
    return Change(place, start, end, None)


_COUNTED = re.compile(r"[A-Za-z_-]+?([1-4])[+-]?")


def _corner(wiring: Wiring, contact: str, marked: str) -> str:
    """The corner of a contact: its channel, by custom the port of that number, or empty."""
    if wiring.contact(contact).function.channel:
        return marked
    match = _COUNTED.fullmatch(wiring.contact(contact).last) if contact in wiring.ports else None
    return CORNERS[int(match[1]) - 1] if match else ""


def _breaks(wiring: Wiring, piece: _Piece, before: str, after: str, by_side: bool) -> bool:
    start, end = _corner(wiring, piece.ends[0], before), _corner(wiring, piece.ends[1], after)
    if start not in CORNERS or end not in CORNERS:
        return False
    return start[1] != end[1] if by_side else start[0] != end[0]


def _other_input_fits(wiring: Wiring, piece: _Piece, own: str) -> bool:
    """Whether the input with the output's number would bring the speaker its own channel."""
    signals = wiring.signals
    route = piece.route
    assert route is not None
    unit = wiring.contact(piece.ends[1]).owner
    receiver = signals.receiver(unit, re.sub(r"^out", "in", route.output))
    return receiver is not None and any(source_channel(wiring, way.source) == own for way in signals.ways(receiver))


def changes_of(wiring: Wiring, group: list[Crossing]) -> list[Change]:
    """The places of one cause, each once, in the order of the channels marked there (not of the file)."""

    def order(change: Change) -> tuple[int, str]:
        ends = [wiring.contact(name) for name in (change.before, change.after)]
        marked = sorted((end for end in ends if end.function.channel), key=lambda end: end.kind == "unit")
        if marked:
            return (CHANNELS.index(marked[0].function.channel), change.after)
        return (len(CHANNELS), ends[0 if change.route is None else 1].last)  # the output's name

    changes: dict[Place, Change] = {}
    for change in sorted((change for each in group for change in each.changes), key=order):
        changes.setdefault(change.place, change)
    return list(changes.values())


def _by_cause(found: list[Crossing]) -> list[list[Crossing]]:
    """Crossings that exchange channels with each other, or are written in one place, are one cause."""
    parent: dict[object, object] = {}

    def root(key: object) -> object:
        while parent.setdefault(key, key) != key:
            key = parent[key]
        return key

    for each in found:
        for key in (each.own, *(change.place for change in each.changes)):
            parent[root(key)] = root(each.heard)
    groups: dict[object, list[Crossing]] = {}
    for each in found:
        groups.setdefault(root(each.heard), []).append(each)
    return list(groups.values())
