"""Levels: volts and power, decibels, a signal's way through stages and sums, windows of inputs, pads, gain targets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from harness.electrical.bands import Band as Band
from harness.electrical.bands import band
from harness.electrical.bands import overlap as overlap
from harness.electrical.summing import in_step_v, unrelated_v
from harness.electrical.summing import nulls_hz as nulls_hz

# IEC 60063: rated values of resistors, E24 5 %, E12 10 %
E24 = (
    1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0,
    3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1,
)  # fmt: skip
E12 = E24[::2]
# full-scale sine of 1 kHz, or 50, 500, 5000 Hz where the band needs it; common practice, no source
TONES_HZ = (1000.0, 50.0, 500.0, 5000.0)
_CLOSE = 1e-9


def volts_of(power_w: float, load_ohm: float) -> float:
    """V = sqrt(P R), RMS."""
    return math.sqrt(power_w * load_ohm)


def power_of(level_v: float, load_ohm: float) -> float:
    """P = V²/R, watts."""
    return level_v * level_v / load_ohm


def decibels(ratio: float) -> float:
    """Of a ratio of volts; minus infinity for 0."""
    return 20 * math.log10(ratio) if ratio > 0 else -math.inf


def gain(level_db: float) -> float:
    """The ratio of volts that a number of decibels is."""
    return 10 ** (level_db / 20)


class Stage(NamedTuple):
    """One stage of a signal's way: a source with its volts, or what is made of other stages' signals.

    A tap gives 0 dB, a pad or a converter less, a route its gain; with several inputs it sums them. `most_v` is
    what it gives at most, where it clips.
    """

    words: str
    inputs: tuple[Stage, ...] = ()
    source_v: float | None = None
    gain_db: float = 0.0
    most_v: float | None = None


class Reached(NamedTuple):
    """What a stage gives, RMS: `most_v` with all sums in step, the worst case; `likely_v` with unrelated signals.

    `wanted_v` is what it would have to give in the worst case: above `most_v` it clips.
    """

    words: str
    most_v: float
    likely_v: float
    wanted_v: float

    @property
    def clips(self) -> bool:
        return self.wanted_v > self.most_v * (1 + _CLOSE)


def levels_through(last: Stage) -> tuple[Reached, ...]:
    """Every stage on the way to the last one, inputs before what is made of them, each once.

    Raises ValueError for a stage that has neither volts nor inputs, or both.
    """
    made: dict[Stage, Reached] = {}

    def reach(stage: Stage) -> Reached:
        if stage in made:
            return made[stage]
        if (stage.source_v is None) == (not stage.inputs):
            raise ValueError(f"{stage.words}: a stage has volts of its own or inputs")
        before = [reach(each) for each in stage.inputs]
        ratio = gain(stage.gain_db)
        own_v = [] if stage.source_v is None else [stage.source_v]
        wanted_v = ratio * in_step_v([*own_v, *(each.most_v for each in before)])
        likely_v = ratio * unrelated_v([*own_v, *(each.likely_v for each in before)])
        ceiling_v = math.inf if stage.most_v is None else stage.most_v
        made[stage] = Reached(stage.words, min(wanted_v, ceiling_v), min(likely_v, ceiling_v), wanted_v)
        return made[stage]

    reach(last)
    return tuple(made.values())


class Fit(NamedTuple):
    """A level against an input's window.

    `headroom_db` is what is left to the most (negative: too hot, infinite without a most), `pad_db` the whole
    decibels that a pad must take off, `short_db` what is wanting to the least.
    """

    verdict: str  # too hot | too small | fits
    headroom_db: float
    pad_db: int
    short_db: float


def fit(level_v: float, least_v: float | None, most_v: float | None) -> Fit:
    """How a level above 0 sits in a window whose ends may be open. Raises ValueError for an upside-down window."""
    if least_v is not None and most_v is not None and least_v > most_v:
        raise ValueError(f"a window runs from least to most: {least_v:g} to {most_v:g} V")
    headroom_db = math.inf if most_v is None else decibels(most_v / level_v)
    if most_v is not None and level_v > most_v * (1 + _CLOSE):
        return Fit("too hot", headroom_db, math.ceil(-headroom_db - _CLOSE), 0.0)
    if least_v is not None and level_v < least_v * (1 - _CLOSE):
        return Fit("too small", headroom_db, 0, decibels(least_v / level_v))
    return Fit("fits", headroom_db, 0, 0.0)


class Pad(NamedTuple):
    """Two resistors, in line and across, in ohm, and the decibels that they take off with the load across."""

    in_line_ohm: float
    across_ohm: float
    loss_db: float


def pad_for(loss_db: float, whole_ohm: float, load_ohm: float = math.inf, series: Sequence[float] = E24) -> Pad:
    """The pad of E24 or E12 values nearest to a loss, not below it, with `load_ohm` of the input behind it.

    `whole_ohm` is about what the source sees without that input; with it less. Raises ValueError for a loss of 0 or
    less.
    """
    if loss_db <= 0:
        raise ValueError(f"a pad takes something off: {loss_db:g} dB")
    share = gain(-loss_db)
    best: Pad | None = None
    wanted = whole_ohm * share
    for across in _values_near(wanted, series):
        loaded = across if math.isinf(load_ohm) else across * load_ohm / (across + load_ohm)
        for in_line in _values_near(loaded * (1 / share - 1), series):
            pad = Pad(in_line, across, -decibels(loaded / (in_line + loaded)))
            if pad.loss_db >= loss_db - _CLOSE and (best is None or pad.loss_db < best.loss_db):
                best = pad
    assert best is not None, "the next value up always takes off enough"
    return best


def pad_heat_w(pad: Pad, level_v: float, load_ohm: float = math.inf) -> tuple[float, float]:
    """Watts in the resistor in line and in the one across, at so many volts of the source."""
    loaded = pad.across_ohm if math.isinf(load_ohm) else 1 / (1 / pad.across_ohm + 1 / load_ohm)
    across_v = level_v * loaded / (loaded + pad.in_line_ohm)
    return power_of(level_v - across_v, pad.in_line_ohm), power_of(across_v, pad.across_ohm)


class GainTarget(NamedTuple):
    """A line of the gain card: `clip_v` is the rated power's level, `read_v` what the meter shows at the tone.

    With a tone of 0 dBFS both are one.
    """

    clip_v: float
    read_v: float
    tone_hz: float
    tone_dbfs: float


def gain_target(
    power_w: float, load_ohm: float, low_hz: float | None = None, high_hz: float | None = None, tone_dbfs: float = 0.0
) -> GainTarget:
    """Volts to set an output's gain to, so that full scale gives its rated power. Raises ValueError above 0 dBFS."""
    if tone_dbfs > 0:
        raise ValueError(f"no tone is above full scale: {tone_dbfs:g} dBFS")
    clip_v = volts_of(power_w, load_ohm)
    return GainTarget(clip_v, clip_v * gain(tone_dbfs), tone_for(band(low_hz, high_hz)), tone_dbfs)


def tone_for(played: Band) -> float:
    """The first tone at least half an octave inside a band; the middle of a band that has none."""
    edge = math.sqrt(2)
    for hz in TONES_HZ:
        if played[0] * edge <= hz <= played[1] / edge:
            return hz
    low, high = max(played[0], 20.0), min(played[1], 20_000.0)
    return float(f"{math.sqrt(low * high):.2g}")


def _values_near(ohm: float, series: Sequence[float]) -> list[float]:
    """Three values of a series around a resistance, the greatest at least as great."""
    decade = math.floor(math.log10(ohm))
    values = sorted(each * 10.0**power for power in (decade - 1, decade, decade + 1) for each in series)
    above = next(at for at, value in enumerate(values) if value >= ohm * (1 - _CLOSE))
    return [float(f"{value:.3g}") for value in values[above - 1 : above + 2]]
