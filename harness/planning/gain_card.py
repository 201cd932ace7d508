"""The gain card: for each output whose gain is set, the tone to play and the volts to read with the speakers off."""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.levels import Band, gain, overlap, tone_for
from harness.graph.levels import AUDIBLE, band_of_way
from harness.graph.loads import Load, loads
from harness.graph.output_ohms import at_outputs
from harness.graph.signal import Driver, Way
from harness.graph.wiring import Wiring
from harness.planning.output_volts import OutputVolts, output_volts

TONE_DBFS = 0.0


class SourceStep(NamedTuple):
    """A source output and how it is set: the last clean step (None: not written) of so many, or a fixed level."""

    name: str
    clean_step: int | None
    read_step: int | None
    steps: int | None
    fixed: bool


class GainLine(NamedTuple):
    """One output: its sources, the tone (None: nothing is left of the band), what it gives and what to read.

    `target_v` is None where the rating or the ohms aren't written; `missing` says which.
    """

    driver: Driver
    speakers: tuple[str, ...]
    sources: tuple[SourceStep, ...]
    tone_hz: float | None
    target_v: float | None
    rated: OutputVolts | None
    load: Load
    missing: str


def gain_card(wiring: Wiring) -> tuple[GainLine, ...]:
    """Each output that we joined to speakers, of a unit that is no source itself, in the order of the job."""
    ours = {each.driver.name for each in at_outputs(wiring)}
    units = wiring.job.parts.units
    return tuple(
        _line(wiring, load)
        for load in loads(wiring)
        if load.driver.name in ours and not units[load.driver.port.unit].is_source
    )


def _line(wiring: Wiring, load: Load) -> GainLine:
    ways = _ways(wiring, load.driver)
    band: Band | None = AUDIBLE
    for way in ways:
        here = band_of_way(way)
        band = overlap(band, here) if band is not None and here is not None else None
    rated = output_volts(wiring, load)
    signal = load.driver.port.signal
    missing = ""
    if load.nominal_ohm is None:
        missing = f"ohms of {', '.join(load.unknown)}"
    elif not (signal.power_w and signal.load_ohm):
        missing = "rated watts and their ohms"
    target = rated.volts * gain(TONE_DBFS) if rated is not None and not missing else None
    sources = {way.source.name: _source(way.source) for way in ways}
    speakers = tuple(dict.fromkeys(feed.receiver.speaker for feed in wiring.signals.feeds_from(load.driver)))
    tone = tone_for(band) if band is not None else None
    return GainLine(load.driver, speakers, tuple(sources.values()), tone, target, rated, load, missing)


def _ways(wiring: Wiring, driver: Driver) -> list[Way]:
    """Every way from a source that ends at a speaker of this output."""
    receivers = [feed.receiver for feed in wiring.signals.feeds_from(driver) if feed.receiver.port is None]
    return [
        way
        for receiver in receivers
        for way in wiring.signals.ways(receiver)
        if way.hops[-1].feed.driver.name == driver.name
    ]


def _source(driver: Driver) -> SourceStep:
    port = driver.port
    return SourceStep(driver.name, port.clean_step, port.signal.step, port.steps, port.signal.volume == "fixed")
