"""Which levels a run could not judge, and what would have to be written; a line a unit and reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from harness.finding import Unchecked
from harness.graph.levels import FACTORY, arriving, gain_of, unknown_levels, without_window
from harness.graph.signal import Driver, Receiver
from harness.graph.wiring import Wiring
from harness.read.names import spans


def levels_unchecked(wiring: Wiring) -> Iterator[Unchecked]:
    """Inputs without a window, sources without a level, gains that aren't written; in this order."""
    for unit, inputs in by_unit(without_window(wiring)).items():
        yield Unchecked(
            f"whether {unit} {inputs} {_gets(inputs)} a signal of the right level",
            "how many volts it takes isn't written",
        )
    sources: dict[Driver, list[Receiver]] = {}
    gains: dict[Driver, list[Receiver]] = {}
    for unknown in unknown_levels(wiring):
        for missing in unknown.missing:
            (gains if missing.gain else sources).setdefault(missing.driver, []).append(unknown.feed.receiver)
    yield from _unknown(sources, "the level of {} isn't written")
    yield from _unknown(gains, "neither the level of {} nor the gain to it is written")
    assumed = [
        each.feed.driver
        for each in arriving(wiring)
        # its level is known all the same: by the most that it gives
        if _is_ours(wiring, each.feed.driver) and gain_of(wiring, each.feed.driver) is None
    ]
    for unit, outputs in by_unit(assumed).items():
        yield Unchecked(
            f"the gain to {unit} {outputs}", "not written: the level behind it is taken as the most it gives"
        )


def _is_ours(wiring: Wiring, driver: Driver) -> bool:
    """Whether somebody sets a gain there: neither a source nor the car's own amplifier, whose outputs were read."""
    unit = wiring.job.parts.units[driver.port.unit]
    return not unit.is_source and unit.kind != FACTORY


def _unknown(found: dict[Driver, list[Receiver]], why: str) -> Iterator[Unchecked]:
    """One line for the outputs of one unit: which inputs can't be judged, and for want of what."""
    units: dict[str, list[Driver]] = {}
    for driver in found:
        units.setdefault(driver.port.unit, []).append(driver)
    for unit, drivers in units.items():
        receivers = [receiver for driver in drivers for receiver in found[driver]]
        at = ", ".join(f"{owner} {inputs}" for owner, inputs in by_unit(receivers).items())
        yield Unchecked(f"the level at {at}", why.format(f"{unit} {by_unit(drivers)[unit]}"))


def by_unit(found: Iterable[Driver | Receiver]) -> dict[str, str]:
    """Unit -> the names of its ports that were found, each once, numbers in a row as a range: `in1..4, aux`."""
    made: dict[str, dict[str, None]] = {}
    for each in found:
        unit, _, name = each.name.partition(".")
        made.setdefault(unit, {})[name] = None
    return {unit: ", ".join(spans(list(names))) for unit, names in made.items()}


def _gets(names: str) -> str:
    return "get" if "," in names or ".." in names else "gets"
