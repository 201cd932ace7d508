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

    `plus` and `minus` are the last contacts reached there, along the wire that starts at the output's + and −;
    empty where only the other wire has this stop. `other` is the joint on the − wire where it isn't the + wire's.
    """

    kind: str  # unit | plug | loom | joint | speaker | other
    owner: str  # the unit's, plug's, joint's or speaker's name
    plus: str
    minus: str
    loom: str = ""  # the loom whose pins sit in this plug
    pins: tuple[str, str] = ("", "")  # its lead or pin, + and −
    other: str = ""


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
    """One output to one input or speaker, by wire; to a speaker in line it begins at the speaker before.

    `back` are the stops behind the last speaker of a line, to the output's −, with the wires that lead there.
    """

    feed: Feed
    stops: tuple[Stop, ...]
    wires: tuple[Wire, ...]  # one fewer than stops
    channels: tuple[str, ...]  # the source channels that it carries
    speakers: tuple[str, ...]  # the speakers that it leads to in the end
    back: tuple[tuple[Wire, Stop], ...] = ()

    @property
    def turned(self) -> bool:
        return self.feed.turned


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
    if feed.series:
        return _leg_in_line(wiring, pieces, feed, channels, speakers)
    driver = feed.driver
    by_plus = _Walk(wiring, pieces, driver.plus, wiring.planned.path(driver.plus, feed.entry)).made
    by_minus = _Walk(wiring, pieces, driver.minus, wiring.planned.path(driver.minus, feed.leaving)).made
    stops, wires = [], []
    for plus, minus in _abreast(by_plus, by_minus):
        here = plus or minus
        assert here is not None
        apart = plus is not None and minus is not None and plus.owner != minus.owner
        stops.append(
            Stop(
                here.kind, here.owner, plus.contact if plus else "", minus.contact if minus else "", here.loom,
                (plus.pin if plus else "", minus.pin if minus else ""), minus.owner if minus and apart else "",
            )
        )  # fmt: skip
        if len(stops) > 1:
            colours = (plus.colour if plus else None, minus.colour if minus else None)
            twisted = all(each.twisted for each in (plus, minus) if each is not None)
            wires.append(Wire(*colours, here.run, twisted=twisted))
    return Leg(feed, tuple(stops), tuple(wires), channels, speakers)


def _leg_in_line(
    wiring: Wiring, pieces: _Pieces, feed: Feed, channels: tuple[str, ...], speakers: tuple[str, ...]
) -> Leg:
    """From the output, or from the speaker before in the line, to this speaker; behind the last one, the way back."""
    number = wiring.planned.net_number
    by_name = {receiver.name: receiver for receiver in wiring.signals.receivers}
    start, net, far = feed.driver.plus, number(feed.driver.plus), ""
    for name in feed.series:
        receiver = by_name[name]
        turned = number(receiver.plus) != net
        near, far = (receiver.minus, receiver.plus) if turned else (receiver.plus, receiver.minus)
        if name == feed.receiver.name:
            break
        start, net = far, number(far)
    found = _Walk(wiring, pieces, start, wiring.planned.path(start, near)).made
    stops = tuple(_one_wire(each) for each in found)
    wires = [Wire(each.colour, None, each.run, twisted=each.twisted) for each in found[1:]]
    if start != feed.driver.plus:
        others = tuple(name.removeprefix("spk.") for name in feed.series if name != feed.receiver.name)
        wires[-1] = wires[-1]._replace(in_line=others)
    back: tuple[tuple[Wire, Stop], ...] = ()
    if number(far) == number(feed.driver.minus):
        behind = _Walk(wiring, pieces, far, wiring.planned.path(far, feed.driver.minus)).made[1:]
        back = tuple((Wire(each.colour, None, each.run, twisted=each.twisted), _one_wire(each)) for each in behind)
    return Leg(feed, stops, tuple(wires), channels, speakers, back)


def _one_wire(found: _Found) -> Stop:
    return Stop(found.kind, found.owner, found.contact, "", found.loom, (found.pin, ""))


def _abreast(by_plus: list[_Found], by_minus: list[_Found]) -> list[tuple[_Found | None, _Found | None]]:
    """The stops of both wires side by side: the same plug beside itself, each joint beside one of the other wire.

    A joint that only the − wire has stands alone, where it is. Other stops of the − wire alone are left out:
    a plug or unit is told by its + wire.
    """
    keys, others = _keys(by_plus), _keys(by_minus)
    made: list[tuple[_Found | None, _Found | None]] = []
    at, opened = 0, 0
    for key, here in zip(keys, by_plus, strict=True):
        if key in others[at:]:
            twin = others.index(key, at)
            _beside(made, opened, by_minus[at:twin])
            made.append((here, by_minus[twin]))
            at, opened = twin + 1, len(made)
        else:
            made.append((here, None))
    _beside(made, opened, by_minus[at:])
    return made


def _beside(made: list[tuple[_Found | None, _Found | None]], opened: int, left: list[_Found]) -> None:
    """Puts the joints of the − wire beside those of the + wire from `opened` on that have none yet."""
    joints = [each for each in left if each.kind == "joint"]
    for index in range(opened, len(made)):
        plus = made[index][0]
        if joints and plus is not None and plus.kind == "joint":
            made[index] = (plus, joints.pop(0))
    made += [(None, each) for each in joints]


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
