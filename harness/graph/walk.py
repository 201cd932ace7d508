"""A feed or a whole way laid out contact by contact along its + wire, and which of the things passed is suspect."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.conductor import ELSEWHERE, JOINT, PLUGGED, RANK, TURNED, Conductor, crosses
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
        here, target = made[-1].contact, each.entry
        made += [Stage(hop.conductor, hop.contact) for hop in wiring.planned.path(here, target)]
        if each.receiver != feed.receiver:
            made.append(Stage(None, each.leaving))
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


def suspect(wiring: Wiring, passed: Iterable[Conductor]) -> Conductor | None:
    """The conductor that most likely leads to the wrong contact: what is said to be turned or moved comes first."""
    return min(passed, key=lambda conductor: _rank(wiring, conductor), default=None)


def _rank(wiring: Wiring, conductor: Conductor) -> int:
    kind = conductor.kind
    if kind == JOINT:
        turned = wiring.joints[conductor.name].turned
    else:
        turned = frozenset((conductor.a, conductor.b)) in wiring.turned
    if turned:
        return RANK[TURNED]
    return RANK[ELSEWHERE if crosses(conductor) or (kind == PLUGGED and _moved(wiring, conductor)) else kind]


def place_to_change(wiring: Wiring, conductor: Conductor) -> Place:
    """Where the file says that this conductor is there; for a moved terminal the line that moves it."""
    moved = _moved(wiring, conductor) if conductor.kind == PLUGGED else ""
    return wiring.job.moved[moved][1] if moved else conductor.place


def _moved(wiring: Wiring, conductor: Conductor) -> str:
    return next((end for end in (conductor.a, conductor.b) if end in wiring.job.moved), "")
