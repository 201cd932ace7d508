"""The level and the band of each signal on its way: what an output gives at most, what an input gets."""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.levels import Band, gain, overlap, volts_of
from harness.graph.kept import kept
from harness.graph.signal import Driver, Feed, Receiver, Way
from harness.graph.wiring import Wiring

AUDIBLE: Band = (20.0, 20_000.0)


class Level(NamedTuple):
    """Volts at most, RMS, and how they are known: as written, from power and load, or from inputs and gain."""

    volts: float
    how: str


class Arriving(NamedTuple):
    """A feed into an input that has a window, with the level that arrives."""

    feed: Feed
    level: Level


def level_of(wiring: Wiring, driver: Driver, seen: frozenset[str] = frozenset()) -> Level | None:
    """What an output gives at most; None where nobody wrote it and its inputs don't tell.

    A written level is the most that the output gives, whatever comes in. Inputs that are summed count as in step.
    """
    signal = driver.port.signal
    if signal.level_v:
        return Level(signal.level_v, "as written")
    if signal.power_w and signal.load_ohm:
        return Level(volts_of(signal.power_w, signal.load_ohm), f"{signal.power_w:g} W at {signal.load_ohm:g} ohm")
    unit = wiring.job.parts.units[driver.port.unit]
    route = wiring.signals.route(driver)
    if unit.is_source or route is None or driver.name in seen:
        return None
    total = 0.0
    for name in route.inputs:
        receiver = wiring.signals.receiver(unit.name, name)
        levels = [
            level
            for feed in (wiring.signals.feeds_into(receiver) if receiver is not None else ())
            if (level := level_of(wiring, feed.driver, seen | {driver.name})) is not None
        ]
        if not levels:
            return None
        total += max(level.volts for level in levels)
    return Level(total * gain(route.signal.gain_db or 0.0), "from its inputs and gain") if route.inputs else None


@kept
def arriving(wiring: Wiring) -> list[Arriving]:
    """Every feed into an input with a window whose level is known, in the order of the job."""
    made = []
    for receiver in wiring.signals.receivers:
        if receiver.port is None or (receiver.port.signal.least_v is None and receiver.port.signal.most_v is None):
            continue
        for feed in wiring.signals.feeds_into(receiver):
            level = level_of(wiring, feed.driver)
            if level is not None:
                made.append(Arriving(feed, level))
    return made


def without_level(wiring: Wiring) -> list[Receiver]:
    """Inputs with a window that an output of unknown level feeds."""
    return [
        receiver
        for receiver in wiring.signals.receivers
        if receiver.port is not None
        and (receiver.port.signal.least_v is not None or receiver.port.signal.most_v is not None)
        and any(level_of(wiring, feed.driver) is None for feed in wiring.signals.feeds_into(receiver))
    ]


def band_of_way(way: Way) -> Band | None:
    """What every output and route of a way leaves of the band; None where nothing is left."""
    left: Band | None = AUDIBLE
    for hop in way.hops:
        signals = [hop.feed.driver.port.signal]
        if hop.route is not None:
            signals.append(hop.route.signal)
        for signal in signals:
            here = (signal.low_hz or AUDIBLE[0], signal.high_hz or AUDIBLE[1])
            left = overlap(left, here) if left is not None else None
    return left


def delay_of_way(way: Way) -> float:
    """Seconds of delay that are written on a way."""
    return sum(
        (hop.feed.driver.port.signal.delay_s or 0.0) + ((hop.route.signal.delay_s or 0.0) if hop.route else 0.0)
        for hop in way.hops
    )
