"""The level and the band of each signal on its way: what an output gives, what an input gets of it."""

from __future__ import annotations

import math
from typing import NamedTuple

from harness.electrical.levels import Band, Fit, Reached, Stage, decibels, fit, levels_through, overlap, volts_of
from harness.graph.kept import kept
from harness.graph.signal import Driver, Feed, Hop, Receiver, Way
from harness.graph.wiring import Wiring
from harness.model.parts import Port

AUDIBLE: Band = (20.0, 20_000.0)
_MOST_DB = 200.0  # beyond it a slip of the pen
FACTORY = "factory amplifier"


class Level(NamedTuple):
    """What an output gives, volts RMS: `volts` with all sums in step, `likely_v` with unrelated signals.

    `how` says how that is known, `gain_db` what became of the largest source on the way (0 where the output's own
    level is taken), `leaves` are the outputs whose written level it rests on.
    """

    volts: float
    likely_v: float
    how: str
    gain_db: float
    leaves: tuple[Driver, ...]


class Missing(NamedTuple):
    """Why a level isn't known: the output of which nobody wrote the level, or (`gain`) the gain to it."""

    driver: Driver
    gain: bool


class Arriving(NamedTuple):
    """A feed into an input that has a window, the level that arrives, and how it sits in the window.

    `hot` is against the most, by the worst case of sums, with the headroom; `small` against the least, by what
    unrelated signals make: that two channels are alike and in step is no promise of full power. `band_hz` is what
    output and routes leave of the audible (None: nothing), `delay_s` the longest delay that is written on a way.
    """

    feed: Feed
    level: Level
    hot: Fit
    small: Fit
    band_hz: Band | None
    delay_s: float


class _Known(NamedTuple):
    """An output's stage, and what it rests on."""

    stage: Stage
    leaves: tuple[Driver, ...]
    how: str


def most_of(driver: Driver) -> tuple[float, str] | None:
    """Volts that an output gives at most as far as it is written, and how; None where it isn't.

    Across a bridge stand both outputs, one turned round: twice the volts.
    """
    signal = driver.port.signal
    times = _outputs(driver)
    if signal.level_v:
        return signal.level_v * times, "as written"
    if signal.power_w and signal.load_ohm:
        return volts_of(signal.power_w, signal.load_ohm) * times, f"{signal.power_w:g} W at {signal.load_ohm:g} ohm"
    return None


def gain_of(wiring: Wiring, driver: Driver) -> float | None:
    """Decibels from a unit's input to this output, as written of its route, else of the output; None: not written."""
    route = wiring.signals.route(driver)
    said = [each for each in (route.signal.gain_db if route else None, driver.port.signal.gain_db) if each is not None]
    total = sum(said)
    return total + decibels(_outputs(driver)) if said and abs(total) <= _MOST_DB else None


def _outputs(driver: Driver) -> float:
    """How many outputs make the volts: a bridge is two, one turned round."""
    return 2.0 if "/" in driver.name else 1.0


class _Ways:
    """Each output's stage, made once: a source with its volts, or a gain over what its inputs get, up to its most."""

    def __init__(self, wiring: Wiring) -> None:
        self.wiring = wiring
        self.known: dict[str, _Known | None] = {}
        self.missing: dict[str, tuple[Missing, ...]] = {}
        self.reached: dict[str, Reached] = {}

    def of(self, driver: Driver) -> _Known | None:
        if driver.name not in self.known:
            self.known[driver.name] = None  # asked for again on its own way: a loop, which tells nothing
            self.missing[driver.name] = ()
            self.known[driver.name] = self._made(driver)
        return self.known[driver.name]

    def level(self, driver: Driver) -> Level | None:
        known = self.of(driver)
        if known is None:
            return None
        if driver.name not in self.reached:
            self.reached[driver.name] = levels_through(known.stage)[-1]
        reached = self.reached[driver.name]
        volts = reached.most_v
        if not (reached.likely_v > 0 and volts < math.inf):
            return None
        how = f"{known.how}, which clips there" if reached.clips else known.how
        largest = max(self.level_of_leaf(leaf) for leaf in known.leaves)
        gain_db = decibels(volts / largest) if known.stage.inputs else 0.0
        return Level(volts, reached.likely_v, how, gain_db, known.leaves)

    @staticmethod
    def level_of_leaf(leaf: Driver) -> float:
        most = most_of(leaf)
        assert most is not None, "a leaf is an output of which the level is written"
        return most[0]

    def _made(self, driver: Driver) -> _Known | None:
        most = most_of(driver)
        own = _Known(Stage(driver.name, source_v=most[0]), (driver,), most[1]) if most else None
        unit = self.wiring.job.parts.units[driver.port.unit]
        if unit.is_source:
            digital = driver.port.signal.form == "digital"  # which has no volts
            self.missing[driver.name] = () if own or digital else (Missing(driver, gain=False),)
            return own
        route, gain_db = self.wiring.signals.route(driver), gain_of(self.wiring, driver)
        if gain_db is None or route is None:
            self.missing[driver.name] = () if own or route is None else (Missing(driver, gain=True),)
            return own
        stages: list[Stage] = []
        leaves: list[Driver] = []
        wanting: list[Missing] = []
        for receiver in self.wiring.signals.inputs_of(driver):
            found = self._loudest(receiver, wanting)
            if found is not None:
                stages.append(found.stage)
                leaves += found.leaves
        if wanting or not stages:
            self.missing[driver.name] = () if own else tuple(dict.fromkeys(wanting))
            return own
        ceiling = most[0] if most else None
        how = f"{gain_db:+g} dB from {' and '.join(route.inputs)}" + (f", {ceiling:.3g} V at most" if most else "")
        stage = Stage(driver.name, tuple(stages), gain_db=gain_db, most_v=ceiling)
        return _Known(stage, tuple(dict.fromkeys(leaves)), how)

    def _loudest(self, receiver: Receiver, wanting: list[Missing]) -> _Known | None:
        """What an input gets: the largest, where faults make several outputs reach it. What isn't known is added."""
        known: list[tuple[float, _Known | None]] = []
        for feed in self.wiring.signals.feeds_into(receiver):
            level = self.level(feed.driver)
            if level is None:
                wanting += self.missing[feed.driver.name] or (Missing(feed.driver, gain=True),)
            else:
                known.append((level.volts, self.of(feed.driver)))
        return max(known, key=lambda each: each[0])[1] if known else None


@kept
def _ways(wiring: Wiring) -> _Ways:
    return _Ways(wiring)


def level_of(wiring: Wiring, driver: Driver) -> Level | None:
    """What an output gives, as written or by way of taps, gains, sums and its own most; None where that isn't known.

    Where the gain to it isn't written, a written level is the most that it gives, whatever comes in.
    """
    return _ways(wiring).level(driver)


def missing_for(wiring: Wiring, driver: Driver) -> tuple[Missing, ...]:
    """What would have to be written to know an output's level; empty where it is known or nothing comes in."""
    level_of(wiring, driver)
    return _ways(wiring).missing[driver.name]


def has_window(port: Port) -> bool:
    """Whether it is written how many volts an input wants, or takes."""
    return bool(port.signal.least_v or port.signal.most_v)


@kept
def arriving(wiring: Wiring) -> list[Arriving]:
    """Every feed into an input with a window whose level is known, in the order of the job."""
    made = []
    for receiver in wiring.signals.receivers:
        if receiver.port is None or not has_window(receiver.port):
            continue
        for feed in wiring.signals.feeds_into(receiver):
            level = level_of(wiring, feed.driver)
            if level is None:
                continue
            signal = receiver.port.signal
            hot, small = fit(level.volts, None, signal.most_v or None), fit(level.likely_v, signal.least_v, None)
            made.append(Arriving(feed, level, hot, small, *_band_and_delay(wiring, receiver, feed)))
    return made


class Unknown(NamedTuple):
    """A feed into an input with a window, and what isn't written so that its level isn't known."""

    feed: Feed
    missing: tuple[Missing, ...]


@kept
def unknown_levels(wiring: Wiring) -> list[Unknown]:
    """Every feed into an input with a window whose level isn't known, in the order of the job."""
    return [
        Unknown(feed, missing)
        for receiver in wiring.signals.receivers
        if receiver.port is not None and has_window(receiver.port)
        for feed in wiring.signals.feeds_into(receiver)
        if (missing := missing_for(wiring, feed.driver))
    ]


def without_window(wiring: Wiring) -> list[Receiver]:
    """Inputs that an output feeds and of which no window is written."""
    return [
        receiver
        for receiver in wiring.signals.receivers
        if receiver.port is not None and not has_window(receiver.port) and wiring.signals.feeds_into(receiver)
    ]


def _band_and_delay(wiring: Wiring, receiver: Receiver, feed: Feed) -> tuple[Band | None, float]:
    """Over the ways by this feed: the band from the lowest to the highest that one leaves, the longest delay."""
    if wiring.job.parts.units[feed.driver.port.unit].is_source:
        ways = [Way((Hop(feed, None),))]
    else:
        ways = [way for way in wiring.signals.ways(receiver) if way.hops[-1].feed == feed]
    bands = [band for way in ways if (band := band_of_way(way)) is not None]
    whole = (min(band[0] for band in bands), max(band[1] for band in bands)) if bands else None
    return whole, max((delay_of_way(way) for way in ways), default=0.0)


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
