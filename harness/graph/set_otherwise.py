"""Where a unit's switches and controls, as they are set, contradict what the plan relies on."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.load_words import receiver_of
from harness.graph.loads import AUDIBLE_HZ, Load, coil_of, loads
from harness.graph.signal import Driver, Feed, Receiver
from harness.graph.wiring import Wiring
from harness.graph.woken import woken
from harness.model.parts import Setting, Unit

# Common practice, no source: no tweeter of a car is meant to play below this.
LOWEST_HZ = 1000.0
# Common practice, no source: what a knob's scale may be off by.
OFF_OCTAVES = 1 / 3
OFF_DB = 1.0
OFF = "off"
HIGH_LEVEL, LOW_LEVEL = "high level", "low level"


class Asleep(NamedTuple):
    """A unit that only its signal would wake, with its sensing off; `feed` is that signal, where there is one."""

    unit: Unit
    setting: Setting
    feed: Feed | None


class Levelled(NamedTuple):
    """A signal of one level into a unit whose input switch is set for the other; `level` is what comes."""

    feed: Feed
    setting: Setting
    level: str


class Bridging(NamedTuple):
    """A load and the bridge switch that doesn't suit it; `outputs` are those of the load, as `out1/out2` or `out1`."""

    load: Load
    outputs: str
    setting: Setting


class Otherwise(NamedTuple):
    """A crossover or gain that is set otherwise than planned: hertz or decibels, `is_set` None for off."""

    feed: Feed
    setting: Setting
    planned: float


class BareTweeter(NamedTuple):
    """A tweeter without capacitor on an output of ours whose band begins too low.

    `setting` is the high-pass that makes it so, against the route; None where the route itself does.
    """

    load: Load
    receiver: Receiver
    low_hz: float
    setting: Setting | None


def setting_of(unit: Unit, what: str, output: str = "") -> Setting | None:
    """How a control of a unit, or of one of its outputs, is set; None where that isn't written or not known."""
    return next(
        (s for s in unit.switches if (s.what, s.output) == (what, output) and s.words != "unknown"),
        None,
    )


def bridge_settings(unit: Unit) -> list[Setting]:
    """What is written of a unit's bridge switches."""
    return [setting for setting in unit.switches if setting.what == "bridge" and setting.words != "unknown"]


def outputs_of(load: Load) -> str:
    """`out1/out2` of a bridge, without signs, else the one output."""
    return "/".join(each.rstrip("+-") for each in load.driver.name.rpartition(".")[2].split("/"))


def asleep(wiring: Wiring) -> Iterator[Asleep]:
    """Units woken by their signal whose sensing is off, and that neither the bus nor a lead with 12 V wakes."""
    for unit in wiring.job.parts.units.values():
        if not unit.switches or unit.name in wiring.gone:
            continue
        setting = setting_of(unit, "signal sense")
        words = [each.lower() for each in unit.wakes]
        if setting is None or setting.words != OFF or "signal" not in words or "bus" in words:
            continue
        if any(each.wake.unit == unit.name and each.sources for each in woken(wiring)):
            continue
        yield Asleep(unit, setting, next(iter(signals_into(wiring, unit)), None))


def level_of_output(driver: Driver) -> str:
    """A speaker output gives a high level, a grounded or balanced one without watts a low one; empty: not said."""
    signal = driver.port.signal
    if signal.form == "btl" or signal.power_w:
        return HIGH_LEVEL
    return LOW_LEVEL if signal.form in ("grounded", "differential", "transformer") else ""


def signals_into(wiring: Wiring, unit: Unit) -> list[Feed]:
    """What comes in at the inputs of a unit, in their order."""
    receivers = [each for each in wiring.signals.receivers if each.port is not None and each.port.unit == unit.name]
    return [feed for receiver in receivers for feed in wiring.signals.feeds_into(receiver)]


def inputs_otherwise(wiring: Wiring) -> Iterator[Levelled]:
    """Signals whose level is known and that the input switch, as it is set, doesn't suit."""
    for unit in wiring.job.parts.units.values():
        setting = setting_of(unit, "input")
        for feed in signals_into(wiring, unit) if setting is not None else ():
            level = level_of_output(feed.driver)
            if level and setting is not None and level != setting.words:
                yield Levelled(feed, setting, level)


def bridged_otherwise(wiring: Wiring) -> Iterator[Bridging]:
    """Bridged loads whose switch is off or on for other outputs, and single ones on outputs that are set to bridge."""
    units = wiring.job.parts.units
    if not any(unit.switches for unit in units.values()):
        return
    for load in loads(wiring):
        said = bridge_settings(units[load.driver.port.unit])
        if not said:
            continue
        mine = outputs_of(load)
        sets = {frozenset(setting.output.split("/")): setting for setting in said if setting.output}
        if load.bridged and frozenset(mine.split("/")) not in sets:
            yield Bridging(load, mine, said[0])
        elif not load.bridged:
            setting = next((setting for pair, setting in sets.items() if mine in pair), None)
            if setting is not None:
                yield Bridging(load, mine, setting)


def planned_of(wiring: Wiring, driver: Driver, what: str) -> float | None:
    """What route, else output, say of a crossover (hertz) or of the gain (decibels); None where neither does.

    A crossover at the edge of hearing is none.
    """
    route = wiring.signals.route(driver)
    signals = [*([route.signal] if route is not None else []), driver.port.signal]
    if what == "gain":
        said = [each.gain_db for each in signals if each.gain_db is not None]
        return sum(said) if said else None
    if what == "high-pass":
        return next((s.low_hz for s in signals if s.low_hz and s.low_hz > AUDIBLE_HZ[0]), None)
    return next((s.high_hz for s in signals if s.high_hz and s.high_hz < AUDIBLE_HZ[1]), None)


def differs(what: str, planned: float, setting: Setting) -> bool:
    """Whether a setting is another one than planned, by more than a scale may be off."""
    if setting.value is None:
        return True
    if what == "gain":
        return abs(setting.value - planned) > OFF_DB + 1e-9
    return setting.value <= 0 or abs(math.log2(setting.value / planned)) > OFF_OCTAVES + 1e-9


def set_otherwise(wiring: Wiring) -> Iterator[Otherwise]:
    """Crossovers and gains of outputs in use that contradict their route; a tweeter's high-pass is told for itself."""
    units = wiring.job.parts.units
    if not any(unit.switches for unit in units.values()):
        return
    told = {id(each.setting) for each in bare_tweeters(wiring) if each.setting is not None}
    for driver in wiring.signals.drivers:
        unit = units[driver.port.unit]
        feed = next(iter(wiring.signals.feeds_from(driver)), None) if unit.switches else None
        for what in ("high-pass", "low-pass", "gain") if feed is not None else ():
            setting, planned = setting_of(unit, what, driver.port.name), planned_of(wiring, driver, what)
            if setting is None or planned is None or id(setting) in told or not differs(what, planned, setting):
                continue
            assert feed is not None
            yield Otherwise(feed, setting, planned)


def unset(wiring: Wiring) -> Iterator[tuple[str, str]]:
    """(unit, control) that the plan relies on and that isn't written, of units of which some setting is written."""
    gone = wiring.gone
    units = {unit.name: unit for unit in wiring.job.parts.units.values() if unit.switches and unit.name not in gone}
    for unit in units.values():
        if any(words.lower() == "signal" for words in unit.wakes) and setting_of(unit, "signal sense") is None:
            yield unit.name, "signal sense"
    if not units:
        return
    for load in loads(wiring):
        owner = units.get(load.driver.port.unit)
        if owner is not None and load.bridged and not bridge_settings(owner):
            yield owner.name, f"bridge of {outputs_of(load)}"
    for driver in wiring.signals.drivers:
        owner = units.get(driver.port.unit)
        if owner is None or not wiring.signals.feeds_from(driver):
            continue
        for what in ("high-pass", "low-pass", "gain"):
            if planned_of(wiring, driver, what) is not None and setting_of(owner, what, driver.port.name) is None:
                yield owner.name, f"{what} of {driver.port.name}"


def bare_tweeters(wiring: Wiring) -> Iterator[BareTweeter]:
    """Each tweeter without a capacitor on an output of ours that gives it less than it may have.

    What is set counts, where it is written, and not what the route says.
    """
    units = wiring.job.parts.units
    for load in loads(wiring):
        unit = units[load.driver.port.unit]
        if unit.is_source or unit.kind == "factory amplifier":
            continue
        planned = load.band_hz[0]
        setting = setting_of(unit, "high-pass", load.driver.port.name) if unit.switches else None
        low = planned if setting is None else setting.value or AUDIBLE_HZ[0]
        if low >= LOWEST_HZ:
            continue
        for name in dict.fromkeys(feed.receiver.name for feed in wiring.signals.feeds_from(load.driver)):
            receiver = receiver_of(wiring, name)
            speaker = wiring.job.parts.speakers.get(receiver.speaker)
            if speaker is not None and speaker.function.driver == "TW" and coil_of(speaker).capacitor is None:
                yield BareTweeter(load, receiver, low, setting if planned >= LOWEST_HZ else None)
