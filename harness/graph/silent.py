"""Speakers that no signal reaches as planned, each reason once, with how far the way goes."""

from __future__ import annotations

from collections.abc import Hashable
from typing import NamedTuple

from harness.graph.signal import Receiver, Way
from harness.graph.wiring import Wiring


class Silent(NamedTuple):
    """Speakers (or coils) silent for one reason.

    `reached` is the contact that the wire from the speaker reaches, `next` the one beyond it as found; `why`
    the reason where an output is wired to the speaker; `removed` the unit whose leaving is the reason.
    """

    receivers: tuple[Receiver, ...]
    had_feed: bool
    coil: bool  # the other coil of the same speaker is fed
    reached: str
    next: str
    why: str
    removed: str
    about: tuple[str, ...]


def silent_speakers(wiring: Wiring) -> list[Silent]:
    """Every speaker without feed as planned, in the file's order, without the channels that the car lacks."""
    signals = wiring.signals
    unfed = [receiver for receiver in signals.speaker_receivers if not signals.ways(receiver, most=1)]
    if not unfed:
        return []
    fed = {r.speaker for r in signals.speaker_receivers} - {r.speaker for r in unfed}
    half_fed = {r.speaker for r in signals.speaker_receivers if r not in unfed} - fed
    lacks = set(wiring.job.car.lacks) if wiring.job.car else set()
    groups: dict[Hashable, list[tuple[Receiver, Silent]]] = {}
    for receiver in unfed:
        one = _one(wiring, receiver, receiver.speaker in half_fed)
        function = wiring.job.parts.speakers[receiver.speaker].function
        if {function.channel, function.base} & lacks and not one.why:
            continue
        groups.setdefault(_reason(wiring, receiver, one), []).append((receiver, one))
    made = []
    for group in groups.values():
        receivers = tuple(receiver for receiver, _ in group)
        about = tuple(dict.fromkeys(name for _, one in group for name in one.about))
        made.append(group[0][1]._replace(receivers=receivers, about=about))
    return made


def _reason(wiring: Wiring, receiver: Receiver, one: Silent) -> Hashable:
    if one.removed:
        return ("removed", one.removed)
    if one.why:
        return ("why", one.why)
    number = wiring.planned.net_number
    nets = frozenset((number(receiver.plus), number(receiver.minus)))
    lonely = all(len(wiring.planned.nets[net]) == 1 for net in nets)
    return ("speaker", receiver.speaker) if lonely else ("nets", nets)


def _one(wiring: Wiring, receiver: Receiver, coil: bool) -> Silent:
    signals = wiring.signals
    before = wiring.found_signals.ways(receiver, most=1)
    removed, reached, after = "", "", ""
    if before:
        removed = next((u for h in before[0].hops if (u := h.feed.driver.port.unit) in wiring.gone), "")
        reached, after = _end_of_way(wiring, receiver, before[0])
    ends = signals.dead_ends(receiver)
    why = ""
    about = [name for t in (receiver.plus, receiver.minus) for name in wiring.planned.net(t)[:200]]
    for driver, _ in ends:
        about += [driver.plus, driver.minus]
        route = signals.route(driver)
        unit = driver.port.unit
        about += [f"{unit}.{name}{sign}" for name in (route.inputs if route else ()) for sign in "+-"]
    if ends:
        why, reached, removed = ends[0][1], ends[0][0].plus, ""
    if not reached:
        reached = _farthest(wiring, receiver)
    if after:
        about.append(after)
    return Silent((receiver,), bool(before), coil, reached, after, why, removed, tuple(dict.fromkeys(about)))


def _end_of_way(wiring: Wiring, receiver: Receiver, way: Way) -> tuple[str, str]:
    """The last contact that still conducts to the speaker and the first beyond it, on the way as found."""
    feed = way.hops[-1].feed
    ends = (receiver.plus, receiver.minus)
    starts = (feed.driver.plus, feed.driver.minus)
    for end, start in zip(ends, starts if feed.polarity > 0 else starts[::-1], strict=True):
        here = end
        for hop in wiring.found.path(end, start):
            if not wiring.planned.joined(end, hop.contact):
                return here, hop.contact
            here = hop.contact
    return receiver.plus, ""


def _farthest(wiring: Wiring, receiver: Receiver) -> str:
    """The far end of what is joined to the speaker."""
    return list(wiring.planned.around(receiver.plus))[-1]
