"""How each signal goes, stop by stop: output, plug, loom, joint, inline plug, input, speaker."""

from __future__ import annotations

from collections import Counter
from typing import NamedTuple

from harness.graph.conductor import FUSE, JOINT, RUN, WIRE, Conductor
from harness.graph.conductor import Hop as Step
from harness.graph.signal import Feed
from harness.graph.wiring import Wiring
from harness.model.colour import Colour
from harness.model.function import read_function
from harness.model.job import Segment

# a segment's two contacts -> the segment
_Pieces = dict[tuple[str, str], Segment]

GROUPS = {"FL": "front", "FR": "front", "RL": "rear", "RR": "rear", "C": "centre", "SUB": "subwoofer"}


class Stop(NamedTuple):
    """Where a pair of wires arrives: a unit's port, a plug (with the loom in it), a joint, a speaker.

    `plus` and `minus` are the last contacts reached there, along the wire that starts at the output's + and −.
    """

    kind: str  # unit | plug | loom | joint | speaker | other
    owner: str  # the unit's, plug's, joint's or speaker's name
    plus: str
    minus: str
    loom: str = ""  # the loom whose pins sit in this plug
    pins: tuple[str, str] = ("", "")  # its lead or pin, + and −


class Wire(NamedTuple):
    """What lies between two stops: colours of the two wires where known, and the pieces of a run.

    `in_line` names the speakers that stand in line where there is no wire from the output itself. `twisted`
    where it is the car's own wire and a plug at one of its ends has it as twisted.
    """

    plus: Colour | None
    minus: Colour | None
    run: tuple[Segment, ...]
    in_line: tuple[str, ...] = ()
    twisted: bool = False


class Leg(NamedTuple):
    """One output to one input or speaker, by wire."""

    feed: Feed
    stops: tuple[Stop, ...]
    wires: tuple[Wire, ...]  # one fewer than stops
    channels: tuple[str, ...]  # the source channels that it carries
    speakers: tuple[str, ...]  # the speakers that it leads to in the end

    @property
    def turned(self) -> bool:
        return self.feed.polarity < 0


def legs(wiring: Wiring) -> tuple[Leg, ...]:
    """Every feed that is part of a way from a source to a speaker, sources first, in the order written."""
    signals = wiring.signals
    used: dict[tuple[str, str], tuple[Feed, int, dict[str, None], dict[str, None]]] = {}
    for receiver in signals.speaker_receivers:
        for way in signals.ways(receiver):
            for depth, hop in enumerate(way.hops):
                key = (hop.feed.driver.name, hop.feed.receiver.name)
                _, level, channels, speakers = used.setdefault(key, (hop.feed, depth, {}, {}))
                used[key] = (hop.feed, max(depth, level), channels, speakers)
                channels[way.source.port.name] = None
                speakers[receiver.speaker] = None
    drivers = {driver.name: number for number, driver in enumerate(signals.drivers)}
    receivers = {receiver.name: number for number, receiver in enumerate(signals.receivers)}
    made = sorted(
        used.values(), key=lambda each: (each[1], drivers[each[0].driver.name], receivers[each[0].receiver.name])
    )
    pieces: _Pieces = {(segment.a, segment.b): segment for segment in wiring.job.segments}
    return tuple(_leg(wiring, pieces, feed, tuple(channels), tuple(speakers)) for feed, _, channels, speakers in made)


def group_of(channel: str) -> str:
    """front, rear, centre, subwoofer, or the channel itself."""
    function = read_function(channel)
    return GROUPS.get(function.channel, channel) if function and function.channel else channel


def _leg(wiring: Wiring, pieces: _Pieces, feed: Feed, channels: tuple[str, ...], speakers: tuple[str, ...]) -> Leg:
    driver, receiver = feed.driver, feed.receiver
    ends = (receiver.plus, receiver.minus) if feed.polarity > 0 else (receiver.minus, receiver.plus)
    by_plus = _Walk(wiring, pieces, driver.plus, wiring.planned.path(driver.plus, ends[0])).made
    by_minus = _Walk(wiring, pieces, driver.minus, wiring.planned.path(driver.minus, ends[1])).made
    other = dict(zip(_keys(by_minus), by_minus, strict=True))
    stops, wires = [], []
    for at, (key, here) in enumerate(zip(_keys(by_plus), by_plus, strict=True)):
        twin = other.get(key)
        minus, pin, colour = (twin.contact, twin.pin, twin.colour) if twin else ("", "", None)
        stops.append(Stop(here.kind, here.owner, here.contact, minus, here.loom, (here.pin, pin)))
        if at:
            wires.append(Wire(here.colour, colour, here.run, twisted=here.twisted and (twin is None or twin.twisted)))
    if feed.series and stops[-1].kind != "speaker":
        others = tuple(name.removeprefix("spk.") for name in feed.series if name != receiver.name)
        stops.append(Stop("speaker", receiver.speaker, receiver.plus, receiver.minus))
        wires.append(Wire(None, None, (), others))
    return Leg(feed, tuple(stops), tuple(wires), channels, speakers)


class _Found(NamedTuple):
    """One stop of one wire: the contact reached, the loom and pin in a plug, and the wire that led here."""

    kind: str
    owner: str
    contact: str
    loom: str
    pin: str
    colour: Colour | None
    run: tuple[Segment, ...]
    twisted: bool


def _keys(found: list[_Found]) -> list[tuple[str, str, int]]:
    """What a stop of one wire and of the other are matched by: kind, owner, and the how-many-eth of these."""
    seen: Counter[tuple[str, str]] = Counter()
    keys = []
    for each in found:
        keys.append((each.kind, each.owner, seen[each.kind, each.owner]))
        seen[each.kind, each.owner] += 1
    return keys


class _Walk:
    """One wire's stops. Contacts of one plug and of the loom in it are one stop; each joint is one."""

    def __init__(self, wiring: Wiring, pieces: _Pieces, start: str, path: tuple[Step, ...]) -> None:
        self.made: list[_Found] = []
        self._wiring = wiring
        self._colour: Colour | None = None
        self._run: list[Segment] = []
        self._twisted = False
        contacts = wiring.job.contacts
        self._visit(start)
        before = start
        for conductor, name in path:
            if conductor.kind == JOINT:
                self._colour = self._colour or contacts[before].colour
                self._arrive("joint", conductor.name, before)
                self._colour = contacts[name].colour
            else:
                self._follow(pieces.get((conductor.a, conductor.b)), conductor, before, name)
            self._visit(name)
            before = name

    def _follow(self, segment: Segment | None, conductor: Conductor, before: str, after: str) -> None:
        """Keeps the colour of a wire of the car, and what a run is made of."""
        contacts = self._wiring.job.contacts
        if conductor.kind == WIRE:
            led = segment.colour if segment is not None else None
            self._colour = self._colour or led or contacts[before].colour or contacts[after].colour
            self._twisted = self._twisted or self._is_twisted(before) or self._is_twisted(after)
        elif conductor.kind in (RUN, FUSE) and segment is not None:
            self._run.append(segment)

    def _is_twisted(self, name: str) -> bool:
        """Whether a plug's row says so; an inline plug has no rows of its own to say it."""
        contact = self._wiring.job.contacts[name]
        if contact.kind != "plug" or not self._wiring.fates.has(contact.owner, contact.last):
            return False
        return self._wiring.fates.cavity(contact.owner, contact.last).row.twisted

    def _arrive(self, kind: str, owner: str, contact: str, pin: str = "") -> None:
        self.made.append(_Found(kind, owner, contact, "", pin, self._colour, tuple(self._run), self._twisted))
        self._colour, self._run, self._twisted = None, [], False

    def _visit(self, name: str) -> None:
        contact = self._wiring.job.contacts[name]
        last = self.made[-1] if self.made else None
        if contact.kind == "run":
            return
        if contact.kind == "loom" and last and _takes_loom(last, contact.owner):
            at = last.contact if last.kind == "plug" else name
            self.made[-1] = last._replace(contact=at, loom=contact.owner, pin=name)
            return
        if contact.kind == "plug" and last and last.kind == "plug" and last.owner == contact.owner:
            self.made[-1] = last._replace(contact=name)
            return
        if contact.kind == "plug" and last and last.kind == "loom":
            # a loom's pin came first, then the plug that it sits in: one stop, named for the plug
            self.made[-1] = last._replace(kind="plug", owner=contact.owner, contact=name, loom=last.owner)
            return
        kind = contact.kind if contact.kind in ("unit", "plug", "loom", "speaker") else "other"
        if last and last[:2] == (kind, contact.owner) and kind in ("unit", "loom"):
            return
        self._arrive(kind, contact.owner, name, name if kind == "loom" else "")


def _takes_loom(stop: _Found, loom: str) -> bool:
    """Whether a pin of this loom belongs to the stop: it sits in that plug, or is another pin of the same loom."""
    if stop.kind == "plug":
        return stop.loom in ("", loom)
    return stop.kind == "loom" and stop.owner == loom
