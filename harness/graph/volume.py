"""Where the volume is made on the way of a signal, and the levels on which our inputs rest."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.levels import FACTORY, arriving, most_of, unknown_levels
from harness.graph.signal import Driver, Feed, Receiver
from harness.graph.walk import feed_stages
from harness.graph.wiring import Wiring

FIXED, HERE = "fixed", "here"
# What we add; with no inputs written it seems to be a source.
_ADDED = ("processor", "amplifier", "processor amplifier", "line converter")
# Units that make sound and have no volume of their own to turn.
_WITHOUT_VOLUME = ("cluster", "control unit")


class Rests(NamedTuple):
    """Outputs of the car written in one line, and the inputs with a window that rest on their level."""

    drivers: tuple[Driver, ...]
    inputs: tuple[Receiver, ...]


class Taken(NamedTuple):
    """A fixed level that our unit takes and that plays from speakers without any volume on the way."""

    feed: Feed
    speakers: tuple[str, ...]
    path: tuple[str, ...]


def of_the_car(wiring: Wiring, driver: Driver) -> bool:
    """Whether an output's level has to be read at the car: a source's, or the car's own amplifier's."""
    unit = wiring.job.parts.units[driver.port.unit]
    return (unit.is_source and unit.kind not in _ADDED) or unit.kind == FACTORY


def ours(wiring: Wiring, receiver: Receiver) -> bool:
    """Whether we set a gain there; the car's own amplifier works as its maker set it."""
    return receiver.port is not None and wiring.job.parts.units[receiver.port.unit].kind != FACTORY


def without_level(wiring: Wiring) -> list[Rests]:
    """Outputs of the car of which nobody wrote the level, though an input with a window rests on it."""
    found: dict[Driver, dict[Receiver, None]] = {}
    for unknown in unknown_levels(wiring):
        if ours(wiring, unknown.feed.receiver):
            for missing in unknown.missing:
                if of_the_car(wiring, missing.driver):
                    found.setdefault(missing.driver, {})[unknown.feed.receiver] = None
    return _by_line(found)


@kept
def without_step(wiring: Wiring) -> list[Rests]:
    """Outputs of the car with a level and without its last clean volume step, and the inputs that rest on it.

    Where the level is fixed, or the unit has no volume, there is no step to write.
    """
    found: dict[Driver, dict[Receiver, None]] = {}
    for each in arriving(wiring):
        if not ours(wiring, each.feed.receiver):
            continue
        for leaf in each.level.leaves:
            if leaf.port.clean_step is None and of_the_car(wiring, leaf) and _is_turned(wiring, leaf):
                found.setdefault(leaf, {})[each.feed.receiver] = None
    return _by_line(found)


def _is_turned(wiring: Wiring, driver: Driver) -> bool:
    """Whether a volume is made in or before an output, so that its level belongs to a step."""
    kind = wiring.job.parts.units[driver.port.unit].kind
    return driver.port.signal.volume != FIXED and kind not in _WITHOUT_VOLUME


def _by_line(found: dict[Driver, dict[Receiver, None]]) -> list[Rests]:
    lines: dict[object, list[Driver]] = {}
    for driver in found:
        lines.setdefault((driver.port.place, driver.port.signal.text), []).append(driver)
    return [
        Rests(tuple(drivers), tuple(dict.fromkeys(each for driver in drivers for each in found[driver])))
        for drivers in lines.values()
    ]


def way_from(wiring: Wiring, driver: Driver) -> tuple[str, ...]:
    """The contacts from an output to the first input or speaker that it feeds by wire, by its + wire."""
    feeds = wiring.signals.feeds_from(driver)
    feed = next((each for each in feeds if each.receiver.port is not None), feeds[0] if feeds else None)
    return tuple(stage.contact for stage in feed_stages(wiring, feed)) if feed is not None else (driver.plus,)


def taken_fixed(wiring: Wiring) -> list[Taken]:
    """Fixed levels into units of ours that reach a speaker with no volume made on the way."""
    made = []
    for driver in wiring.signals.drivers:
        if driver.port.signal.volume != FIXED:
            continue
        for feed in wiring.signals.feeds_from(driver):
            if not ours(wiring, feed.receiver):
                continue
            speakers, path = _loud(wiring, feed)
            if speakers:
                made.append(Taken(feed, speakers, path))
    return made


def _loud(wiring: Wiring, start: Feed) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The speakers that a fixed level reaches without a volume on the way, and the contacts to the first of them."""
    speakers: dict[str, None] = {}
    first: tuple[str, ...] = ()
    seen = {start.receiver.name}
    row: list[tuple[Feed, tuple[str, ...]]] = [(start, ())]
    for feed, before in row:
        path = (*before, *(stage.contact for stage in feed_stages(wiring, feed)))
        port = feed.receiver.port
        if port is None:
            speakers[feed.receiver.name] = None
            first = first or path
            continue
        for driver in wiring.signals.onward.get((port.unit, port.name), ()):
            if _makes_volume(wiring, driver):
                continue
            for onward in wiring.signals.feeds_from(driver):
                if onward.receiver.name not in seen:
                    seen.add(onward.receiver.name)
                    row.append((onward, path))
    return tuple(speakers), first


def _makes_volume(wiring: Wiring, driver: Driver) -> bool:
    """Whether the volume is made in this output: it says so, or it is the car's amplifier, which doesn't deny it."""
    said = driver.port.signal.volume
    return said == HERE or (not said and wiring.job.parts.units[driver.port.unit].kind == FACTORY)


def level_words(driver: Driver) -> str:
    """`8.5 V` or `18 W at 4 ohm`, for a message."""
    most = most_of(driver)
    assert most is not None, "an output without a level has no words for it"
    return f"{most[0]:.3g} V" if most[1] == "as written" else most[1]
