"""What a meter reads at the leads of each output, taken off its terminals once everything beyond is joined."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.joined import made_at
from harness.graph.loads import loads, part_of
from harness.graph.resistance import Expected, Part, expected_of
from harness.graph.signal import Driver
from harness.graph.wiring import Wiring


class AtOutput(NamedTuple):
    """One output of ours and what hangs on it as planned.

    `lines` are side by side; each is one speaker (or coil), or several in line, by name. `nominal_ohm` is the load by
    nominal ohms, None where one isn't written.
    """

    driver: Driver
    lines: tuple[tuple[str, ...], ...]
    expected: Expected
    nominal_ohm: float | None


def at_outputs(wiring: Wiring) -> list[AtOutput]:
    """Each output with a speaker on it whose two terminals are joined by hand, so that its leads can come off.

    In the order of the job.
    """
    made = []
    for load in loads(wiring):
        driver = load.driver
        if made_at(wiring, driver.plus) and made_at(wiring, driver.minus):
            lines = _lines(wiring, driver)
            parts = [[_part(wiring, name) for name in line] for line in lines]
            words = tuple(tuple(name.removeprefix("spk.") for name in line) for line in lines)
            made.append(AtOutput(driver, words, expected_of(parts), load.nominal_ohm))
    return made


def _lines(wiring: Wiring, driver: Driver) -> list[tuple[str, ...]]:
    """Receivers by name, each line once."""
    lines: dict[tuple[str, ...], None] = {}
    for feed in wiring.signals.feeds_from(driver):
        if feed.receiver.port is None:
            lines.setdefault(feed.series or (feed.receiver.name,))
    return list(lines)


def _part(wiring: Wiring, receiver: str) -> Part:
    name = receiver.removeprefix("spk.")
    speakers = wiring.job.parts.speakers
    return part_of(speakers[name] if name in speakers else speakers[name.rpartition(".")[0]])._replace(name=name)
