"""The settings that a job relies on, unit by unit: what the plan wants of each switch and control, and what is set."""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from harness.graph.fitted import OF_THE_CAR
from harness.graph.set_otherwise import (
    bridge_settings,
    differs,
    level_of_output,
    planned_of,
    setting_of,
    signals_into,
)  # fmt: skip
from harness.graph.signal import Driver
from harness.graph.waking import is_alone
from harness.graph.wiring import Wiring
from harness.model.parts import Setting, Unit

INPUT, SENSE, BRIDGE = "input", "signal sense", "bridge"
HIGH, LOW, GAIN, DELAY, TURNED = "high-pass", "low-pass", "gain", "delay", "polarity"
OF_OUTPUTS = (HIGH, LOW, GAIN)


class SettingLine(NamedTuple):
    """One control, of the outputs named (none: of the whole unit).

    `planned` is what the job relies on: a word, hertz, decibels or seconds, None where nothing in it says. `is_set` is
    what is written under `set:`, None where nothing is; `agrees` None where the two can't be compared.
    """

    what: str
    outputs: tuple[str, ...]
    planned: str | float | None
    is_set: str | None
    agrees: bool | None


class UnitSettings(NamedTuple):
    """A unit with its lines; none where the job relies on no setting of it and none is written."""

    unit: Unit
    lines: tuple[SettingLine, ...]


def settings_list(wiring: Wiring) -> tuple[UnitSettings, ...]:
    """Every unit that we fit and that signals go through, or of which a setting is written, in the order of the job."""
    return tuple(
        UnitSettings(unit, _lines(wiring, unit))
        for unit in wiring.job.parts.units.values()
        if unit.name not in wiring.gone
        and (unit.settings or unit.switches or (unit.ports and unit.kind not in OF_THE_CAR))
    )


def _lines(wiring: Wiring, unit: Unit) -> tuple[SettingLine, ...]:
    made = [*_of_unit(wiring, unit), *_bridges(wiring, unit)]
    for driver in wiring.signals.drivers:
        if driver.port.unit == unit.name and not unit.is_source and _in_use(wiring, driver):
            made += _of_output(wiring, unit, driver)
    done = {(line.what, output) for line in made for output in line.outputs or ("",)}
    for setting in unit.switches:
        if setting.what != BRIDGE and (setting.what, setting.output) not in done:
            outputs = (setting.output,) if setting.output else ()
            made.append(SettingLine(setting.what, outputs, None, setting.words, None))
    return _together(made)


def _in_use(wiring: Wiring, driver: Driver) -> bool:
    """Whether it feeds anything, or is joined to something at all: a split pair still wants its band."""
    alone = is_alone(wiring, driver.plus) and is_alone(wiring, driver.minus)
    return bool(wiring.signals.feeds_from(driver)) or not ("/" in driver.name or alone)


def _of_unit(wiring: Wiring, unit: Unit) -> list[SettingLine]:
    made = []
    if any(words.lower() == "signal" for words in unit.wakes):
        made.append(_line(SENSE, (), "on", _words(unit, SENSE)))
    levels = {level_of_output(feed.driver) for feed in signals_into(wiring, unit)}
    if levels - {""} and not unit.is_source:
        planned = levels.pop() if len(levels) == 1 else "unlike inputs"
        made.append(_line(INPUT, (), planned, _words(unit, INPUT)))
    return made


def _bridges(wiring: Wiring, unit: Unit) -> list[SettingLine]:
    """A line for each bridge that may be made; one that is used wants its switch on, and off else."""
    used = {driver.name for driver in wiring.signals.drivers if wiring.signals.feeds_from(driver)}
    said = bridge_settings(unit)
    on = {frozenset(setting.output.split("/")) for setting in said if setting.output}
    made = []
    for plus, minus in unit.bridges:
        outputs = tuple(each.rstrip("+-") for each in (plus, minus))
        planned = "on" if f"{unit.name}.{plus}/{minus}" in used else "off"
        made.append(_line(BRIDGE, ("/".join(outputs),), planned, _switch(said, outputs, on)))
    known = {line.outputs[0] for line in made}
    for setting in said:
        if setting.output and not any(set(setting.output.split("/")) == set(each.split("/")) for each in known):
            made.append(SettingLine(BRIDGE, (setting.output,), None, "on", None))
    return made


def _switch(said: list[Setting], outputs: tuple[str, ...], on: set[frozenset[str]]) -> str | None:
    if not said:
        return None
    return "on" if frozenset(outputs) in on else "off"


def _of_output(wiring: Wiring, unit: Unit, driver: Driver) -> list[SettingLine]:
    name = (driver.port.name,)
    made = []
    for what in OF_OUTPUTS:
        planned, setting = planned_of(wiring, driver, what), setting_of(unit, what, driver.port.name)
        if planned is None and setting is None:
            continue
        agrees = not differs(what, planned, setting) if planned is not None and setting is not None else None
        made.append(SettingLine(what, name, planned, setting.words if setting is not None else None, agrees))
    route = wiring.signals.route(driver)
    if route is not None and route.signal.delay_s:
        made.append(SettingLine(DELAY, name, route.signal.delay_s, None, None))
    if route is not None and route.inverted:
        made.append(SettingLine(TURNED, name, "turned round", None, None))
    return made


def _words(unit: Unit, what: str) -> str | None:
    setting = setting_of(unit, what)
    return setting.words if setting is not None else None


def _line(what: str, outputs: tuple[str, ...], planned: str | None, is_set: str | None) -> SettingLine:
    agrees = planned == is_set if planned is not None and is_set is not None else None
    return SettingLine(what, outputs, planned, is_set, agrees)


def _together(lines: list[SettingLine]) -> tuple[SettingLine, ...]:
    """Outputs of which all is alike in one line."""
    found: dict[SettingLine, list[str]] = defaultdict(list)
    for line in lines:
        found[line._replace(outputs=())] += line.outputs
    return tuple(line._replace(outputs=tuple(dict.fromkeys(outputs))) for line, outputs in found.items())
