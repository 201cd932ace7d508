"""Polarity at each speaker, with the places where it turns."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.signal import Flip, Receiver, Way
from harness.graph.wiring import Wiring


class Turned(NamedTuple):
    """One speaker's polarity: `wrong` where it isn't as wished; `lone` where only a part of its set is wrong."""

    receiver: Receiver
    speaker: str
    way: Way
    wrong: bool
    lone: bool
    flips: tuple[Flip, ...]
    routes_turned: int
    path: tuple[str, ...]


def speaker_polarities(wiring: Wiring) -> list[Turned]:
    """Every fed speaker with its first way from a source; reversals counted and placed."""
    made: list[Turned] = []
    signals = wiring.signals
    for receiver in signals.speaker_receivers:
        ways = signals.ways(receiver, most=8)
        if not ways:
            continue
        speaker = wiring.job.parts.speakers[receiver.speaker]
        wished = -1 if speaker.inverted else 1
        way = next((w for w in ways if w.polarity != wished), ways[0])
        wrong = way.polarity != wished
        flips = tuple(flip for hop in way.hops for flip in signals.flips(hop.feed))
        routes_turned = sum(1 for hop in way.hops if hop.route is not None and hop.route.inverted)
        made.append(Turned(receiver, receiver.speaker, way, wrong, False, flips, routes_turned, _path(wiring, way)))
    return _with_lone(wiring, made)


def _with_lone(wiring: Wiring, made: list[Turned]) -> list[Turned]:
    """Marks drivers that alone are wrong in a set of drivers of one channel."""
    sets: dict[str, list[Turned]] = {}
    for turned in made:
        channel = wiring.job.parts.speakers[turned.speaker].function.channel or turned.speaker
        sets.setdefault(channel, []).append(turned)
    lone = {id(t) for group in sets.values() if any(not t.wrong for t in group) for t in group if t.wrong}
    return [turned._replace(lone=id(turned) in lone) for turned in made]


def _path(wiring: Wiring, way: Way) -> tuple[str, ...]:
    """The contacts that the + wire passes, from the source to the speaker."""
    names: list[str] = []
    for hop in way.hops:
        feed = hop.feed
        target = feed.receiver.plus if feed.polarity > 0 else feed.receiver.minus
        names.append(feed.driver.plus)
        names += [step.contact for step in wiring.planned.path(feed.driver.plus, target)]
    return tuple(names)
