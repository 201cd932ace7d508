"""How each signal goes, stop by stop: output, plug, loom, joint, inline plug, input, speaker."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.conductor import FUSE, JOINT, RUN, WIRE, Conductor
from harness.graph.signal import Feed
from harness.graph.wiring import Wiring
from harness.model.colour import Colour
from harness.model.function import read_function
from harness.model.job import Segment

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
    """What lies between two stops: colours of the two wires where known, and what it is made of."""

    plus: Colour | None
    minus: Colour | None
    words: str


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
    pieces = _pieces(wiring)
    return tuple(_leg(wiring, pieces, feed, tuple(channels), tuple(speakers)) for feed, _, channels, speakers in made)


def group_of(channel: str) -> str:
    """front, rear, centre, subwoofer, or the channel itself."""
    function = read_function(channel)
    return GROUPS.get(function.channel, channel) if function and function.channel else channel


# a segment's two contacts -> its colour and what it is made of
_Pieces = dict[tuple[str, str], tuple[Colour | None, str]]


def _leg(
    wiring: Wiring, pieces: _Pieces, feed: Feed, channels: tuple[str, ...], speakers: tuple[str, ...]
) -> Leg:
    driver, receiver = feed.driver, feed.receiver
    ends = (receiver.plus, receiver.minus) if feed.polarity > 0 else (receiver.minus, receiver.plus)
    plus = wiring.planned.path(driver.plus, ends[0])
    minus = wiring.planned.path(driver.minus, ends[1])
    by_plus = _stops(wiring, pieces, driver.plus, [(hop.conductor, hop.contact) for hop in plus])
    by_minus = _stops(wiring, pieces, driver.minus, [(hop.conductor, hop.contact) for hop in minus])
    other = {(kind, owner): (contact, loom, pin, colour) for kind, owner, contact, loom, pin, colour, _ in by_minus}
    stops, wires = [], []
    for at, (kind, owner, contact, loom, pin, colour, words) in enumerate(by_plus):
        twin = other.get((kind, owner), ("", "", "", None))
        stops.append(Stop(kind, owner, contact, twin[0], loom, (pin, twin[2])))
        if at:
            wires.append(Wire(colour, twin[3], words))
    if feed.series and stops[-1].kind != "speaker":
        others = [name.removeprefix("spk.") for name in feed.series if name != receiver.name]
        stops.append(Stop("speaker", receiver.speaker, receiver.plus, receiver.minus))
        wires.append(Wire(None, None, f"in line with {' and '.join(others)}"))
    return Leg(feed, tuple(stops), tuple(wires), channels, speakers)


# kind, owner, contact, loom, pin, colour of the wire that led here, its words
_Found = tuple[str, str, str, str, str, Colour | None, str]


def _stops(wiring: Wiring, pieces: _Pieces, start: str, path: list[tuple[Conductor, str]]) -> list[_Found]:
    """One wire's stops. Contacts of one plug and of the loom in it are one stop; each joint is one."""
    job = wiring.job
    made: list[_Found] = []
    colour: Colour | None = None
    words: list[str] = []

    def arrive(kind: str, owner: str, contact: str, loom: str = "", pin: str = "") -> None:
        nonlocal colour, words
        made.append((kind, owner, contact, loom, pin, colour, ", ".join(words)))
        colour, words = None, []

    def visit(name: str) -> None:
        nonlocal colour
        contact = job.contacts[name]
        if contact.kind == "run":
            return
        if contact.kind == "loom" and made and made[-1][0] in ("plug", "loom"):
            kind, owner, _, loom, pin, led, said = made[-1]
            if loom in ("", contact.owner):
                made[-1] = (kind, owner, name, contact.owner, name, led, said)
                return
        if contact.kind == "plug" and made and made[-1][0] == "loom" and made[-1][1] == contact.owner:
            return
        if contact.kind == "plug" and made and made[-1][0] == "plug" and made[-1][1] == contact.owner:
            kind, owner, _, loom, pin, led, said = made[-1]
            made[-1] = (kind, owner, name, loom, pin, led, said)
            return
        if contact.kind == "plug" and made and made[-1][0] == "loom":
            # a loom's pin came first, then the plug that it sits in: one stop, named for the plug
            _, loom_name, pin_name, _, pin, led, said = made[-1]
            made[-1] = ("plug", contact.owner, name, loom_name, pin or pin_name, led, said)
            return
        kind = contact.kind if contact.kind in ("unit", "plug", "loom", "speaker") else "other"
        if made and made[-1][:2] == (kind, contact.owner) and kind in ("unit", "loom"):
            return
        arrive(kind, contact.owner, name, "", name if kind == "loom" else "")

    visit(start)
    before = start
    for conductor, name in path:
        if conductor.kind == JOINT:
            colour = colour or job.contacts[before].colour
            arrive("joint", conductor.name, before)
            colour = job.contacts[name].colour
        else:
            led, said = _wire_words(wiring, pieces, conductor, before, name)
            colour = colour or led
            if said:
                words.append(said)
        visit(name)
        before = name
    return made


def _wire_words(
    wiring: Wiring, pieces: _Pieces, conductor: Conductor, before: str, after: str
) -> tuple[Colour | None, str]:
    """The colour of a wire of the car, and what a run is made of."""
    colour, words = pieces.get((conductor.a, conductor.b), (None, ""))
    if conductor.kind == WIRE:
        contacts = wiring.job.contacts
        return colour or contacts[before].colour or contacts[after].colour, ""
    return None, words if conductor.kind in (RUN, FUSE) else ""


def _pieces(wiring: Wiring) -> _Pieces:
    made: _Pieces = {}
    for segment in wiring.job.segments:
        made[segment.a, segment.b] = (segment.colour, piece_words(segment))
    return made


def piece_words(segment: Segment) -> str:
    """What a piece of a chain is made of: `3.05 m 8 AWG`, `fuse 40 A`, `signal cable 5 m`; empty if not written."""
    if segment.kind == "fuse":
        return f"fuse {segment.fuse_a:.4g} A" if segment.fuse_a is not None else "fuse, value not recorded"
    length = f"{segment.length_m:.3g} m" if segment.length_m is not None else ""
    size = segment.size.text if segment.size else ""
    through = f"through {segment.via} ({segment.grommet})" if segment.via else ""
    cable = "signal cable" if segment.kind == "rca" else ""
    return " ".join(filter(None, (cable, length, size, segment.metal, through)))
