"""Each channel from its source to the speakers: gain, volts, the window of each input, band and delay, step by step."""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.impedance import LEAST_SHARE, Delivery
from harness.electrical.levels import Band, Fit, fit
from harness.electrical.rewiring import Coils, Rewiring, one_of_each, rewirings
from harness.graph.levels import AUDIBLE, Level, band_of_way, delay_of_way, level_of
from harness.graph.loads import Load, coil_of, counted, delivery, loads
from harness.graph.signal import Driver, Hop, Receiver, Way
from harness.graph.wiring import Wiring
from harness.model.parts import Route
from harness.planning.output_volts import OutputVolts, output_volts


class Volts(NamedTuple):
    """Volts RMS at most, and how that is known."""

    volts: float
    how: str


class StageLine(NamedTuple):
    """One output to one input, or to all its speakers: what arrives there, and what the output makes of its inputs.

    `tapped` where the output feeds something else besides an input. `route` is None at a source; `level` None where
    nobody wrote it; `fit` None where there is no window or no level.
    `bands` go by channel, None for one that nothing is left of; empty where no band is written on the way.
    `delay_s` is the longest, None where none is written.
    """

    channels: tuple[str, ...]
    driver: Driver
    route: Route | None
    receivers: tuple[Receiver, ...]
    tapped: bool
    level: Volts | None
    fit: Fit | None
    bands: dict[str, Band | None]
    delay_s: float | None


class OutputLine(NamedTuple):
    """An output with its speakers: load, least over the band by IEC 60268-5, volts, and what arrives at each.

    `volts` and `delivery` are None where a rating, a level or ohms aren't written.
    """

    load: Load
    speakers: tuple[str, ...]
    nominal_ohm: float | None
    least_ohm: float | None
    volts: OutputVolts | None
    delivery: Delivery | None


class Rewired(NamedTuple):
    """Other ways to wire the speakers of one output; `reason` is why they are shown, `why_not` why there are none."""

    load: Load
    reason: str  # below | above | coils
    ways: tuple[Rewiring, ...]
    why_not: str


class _Step(NamedTuple):
    """One line before it is worked out: the route before it, its receivers, the ways that lead to it, its place."""

    driver: Driver
    route: Route | None
    receivers: dict[str, Receiver]
    ways: list[Way]
    place: tuple[int, int]


def stage_lines(wiring: Wiring) -> tuple[StageLine, ...]:
    """Every step of every way to a speaker once, channel by channel, sources first."""
    signals = wiring.signals
    found: dict[tuple[str, str], _Step] = {}
    places = {driver.name: at for at, driver in enumerate(signals.drivers)}
    for receiver in signals.speaker_receivers:
        for way in signals.ways(receiver):
            for at, hop in enumerate(way.hops):
                feed, here = hop.feed, (places[way.source.name], at)
                # up to here: the route behind this input is no part of what arrives at it
                part = Way((*way.hops[:at], Hop(feed, None)))
                key = feed.driver.name, feed.receiver.name if feed.receiver.port is not None else ""
                route = way.hops[at - 1].route if at else None
                step = found.get(key) or _Step(feed.driver, route, {}, [], here)
                step.receivers[feed.receiver.name] = feed.receiver
                step.ways.append(part)
                found[key] = step._replace(place=min(step.place, here))
    volts = {load.driver.name: output_volts(wiring, load) for load in loads(wiring)}
    steps = sorted(found.values(), key=lambda step: step.place)
    return tuple(_stage(wiring, step, volts) for step in steps)


def _stage(wiring: Wiring, step: _Step, volts: dict[str, OutputVolts | None]) -> StageLine:
    receivers = tuple(step.receivers.values())
    port = receivers[0].port
    if port is None:
        given: OutputVolts | Level | None = volts.get(step.driver.name)
    else:
        given = level_of(wiring, step.driver)
    level = Volts(given.volts, given.how) if given is not None else None
    fits = None
    if level is not None and level.volts > 0 and port is not None and (port.signal.least_v or port.signal.most_v):
        fits = fit(level.volts, port.signal.least_v, port.signal.most_v)
    bands = {way.source.name: band_of_way(way) for way in step.ways}
    delays = [delay_of_way(way) for way in step.ways if _delay_written(way)]
    feeds = wiring.signals.feeds_from(step.driver)
    return StageLine(
        tuple(dict.fromkeys(way.source.name for way in step.ways)), step.driver, step.route, receivers,
        len(feeds) > 1 and any(feed.receiver.port is not None for feed in feeds), level, fits,
        {} if all(band == AUDIBLE for band in bands.values()) else bands, max(delays, default=None),
    )  # fmt: skip


def _delay_written(way: Way) -> bool:
    signals = [hop.feed.driver.port.signal for hop in way.hops]
    signals += [hop.route.signal for hop in way.hops if hop.route is not None]
    return any(signal.delay_s is not None for signal in signals)


def output_lines(wiring: Wiring) -> tuple[OutputLine, ...]:
    """Every output that drives a speaker, in the order of the job."""
    made = []
    for load in loads(wiring):
        names = tuple(
            dict.fromkeys(
                feed.receiver.speaker for feed in wiring.signals.feeds_from(load.driver) if feed.receiver.port is None
            )
        )
        volts = output_volts(wiring, load)
        known = load.nominal_ohm is not None and load.least is not None
        least = load.least.ohm * LEAST_SHARE if load.least is not None else None
        arriving = delivery(wiring, load, volts.volts) if known and volts is not None else None
        made.append(OutputLine(load, names, load.nominal_ohm, least, volts, arriving))
    return tuple(made)


def rewired(wiring: Wiring) -> tuple[Rewired, ...]:
    """Ways to wire the same speakers, where the load is too low, where it might be lower, or where coils are double.

    Speakers with a capacitor in line are left as they are: they share no more than a band.
    """
    made = []
    for load in loads(wiring):
        if load.nominal_ohm is None:
            continue
        coils = _coils(wiring, load)
        if coils is None or sum(each.many for each in coils) < 2:
            continue
        below = load.rated_ohm is not None and load.nominal_ohm < load.rated_ohm * (1 - 1e-9)
        try:
            ways = one_of_each(rewirings(coils, load.rated_ohm or 0.0))
        except ValueError as why:
            made.append(Rewired(load, "below" if below else "coils", (), str(why)))
            continue
        lower = [
            way for way in ways
            if load.rated_ohm is not None and way.allowed and way.ohm < load.nominal_ohm * (1 - 1e-6)
        ]  # fmt: skip
        reason = "below" if below else "above" if lower else "coils" if any(each.many > 1 for each in coils) else ""
        if reason:
            made.append(Rewired(load, reason, ways, ""))
    return tuple(made)


def _coils(wiring: Wiring, load: Load) -> list[Coils] | None:
    """The speakers of a load with the coils that hang on it; None where one has a capacitor or no ohms."""
    made = []
    arrivals = [arrival.speaker for arrival in load.arrivals]
    for name in dict.fromkeys(arrivals):
        speaker = wiring.job.parts.speakers[name]
        whole = coil_of(speaker)
        said = counted(speaker)
        if whole.capacitor is not None or not whole.ohm:
            return None
        if said.coil_ohm is None:
            made.append(Coils(name, 1, whole.ohm))
        elif said.coil_wiring in ("series", "parallel"):
            made.append(Coils(name, said.coils, said.coil_ohm))
        else:
            made.append(Coils(name, arrivals.count(name), said.coil_ohm))
    return made
