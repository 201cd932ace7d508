"""A feed or a whole way laid out contact by contact along its + wire, and which of the things passed is suspect."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.conductor import (
    BODY,
    BOND,
    FUSE,
    INSIDE,
    JOINT,
    LEAD,
    MATED,
    PLUGGED,
    RUN,
    WIRE,
    Conductor,
)
from harness.graph.signal import Feed, Way
from harness.graph.wiring import Wiring
from harness.model.parts import Route
from harness.place import Place


class Stage(NamedTuple):
    """One contact of a way and what led to it.

    `by` is the conductor taken, the route inside a unit, or None at the start and where a speaker of a
    series line was passed.
    """

    by: Conductor | Route | None
    contact: str


def entry(feed: Feed) -> str:
    """The speaker's or input's contact that the driver's + reaches."""
    return feed.receiver.plus if feed.polarity > 0 else feed.receiver.minus


def leaving(feed: Feed) -> str:
    """The receiver's other contact: in a series line the next speaker hangs on it."""
    return feed.receiver.minus if feed.polarity > 0 else feed.receiver.plus


def line_of(wiring: Wiring, feed: Feed) -> list[Feed]:
    """The feeds of a series line up to and with this one, nearest the driver's + first; else the feed alone."""
    if not feed.series:
        return [feed]
    others = {f.receiver.name: f for f in wiring.signals.feeds_from(feed.driver) if f.series == feed.series}
    return [others[name] for name in feed.series[: feed.series.index(feed.receiver.name) + 1]]


def feed_stages(wiring: Wiring, feed: Feed) -> list[Stage]:
    """From the driver's + to the receiver; a series line passes through the speakers before it."""
    made = [Stage(None, feed.driver.plus)]
    for each in line_of(wiring, feed):
        here, target = made[-1].contact, entry(each)
        made += [Stage(hop.conductor, hop.contact) for hop in wiring.planned.path(here, target)]
        if each.receiver != feed.receiver:
            made.append(Stage(None, leaving(each)))
    return made


def way_stages(wiring: Wiring, way: Way) -> list[Stage]:
    """From the source's + to the last receiver, through the units on the way."""
    made: list[Stage] = []
    route: Route | None = None
    for hop in way.hops:
        stages = feed_stages(wiring, hop.feed)
        made += [Stage(route, stages[0].contact), *stages[1:]]
        route = hop.route
    return made


def way_contacts(wiring: Wiring, way: Way) -> tuple[str, ...]:
    """The contacts of a way in order, for a report."""
    return tuple(stage.contact for stage in way_stages(wiring, way))


# What a person made is likelier to be wrong than what a maker made (common practice, no source).
_RANK = {JOINT: 2, RUN: 3, FUSE: 3, PLUGGED: 4, LEAD: 5, WIRE: 6, MATED: 7, INSIDE: 8, BOND: 9, BODY: 10}


def suspect(wiring: Wiring, passed: Iterable[Conductor]) -> Conductor | None:
    """The conductor that most likely leads to the wrong contact: what is said to be turned or moved comes first."""
    return min(passed, key=lambda conductor: _rank(wiring, conductor), default=None)


def _rank(wiring: Wiring, conductor: Conductor) -> int:
    if conductor.kind == JOINT:
        joint = wiring.joints.get(conductor.name)
        return 0 if joint is not None and joint.turned else _RANK[JOINT]
    if conductor.kind in (RUN, WIRE, FUSE) and frozenset((conductor.a, conductor.b)) in wiring.turned:
        return 0
    if conductor.kind == PLUGGED and _moved(wiring, conductor):
        return 1
    if conductor.kind == LEAD and conductor.a.count(".") == 2 and _last(conductor.a) != _last(conductor.b):
        return 1  # a wire of a loom that crosses over
    return _RANK.get(conductor.kind, 11)


def place_to_change(wiring: Wiring, conductor: Conductor) -> Place:
    """Where the file says that this conductor is there; for a moved terminal the line that moves it."""
    moved = _moved(wiring, conductor) if conductor.kind == PLUGGED else ""
    return wiring.job.moved[moved][1] if moved else conductor.place


def _moved(wiring: Wiring, conductor: Conductor) -> str:
    return next((end for end in (conductor.a, conductor.b) if end in wiring.job.moved), "")


def _last(contact: str) -> str:
    return contact.rsplit(".", 1)[1]
