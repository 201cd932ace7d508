"""Features whose sound comes, as planned, only through added units that sleep while the key is out."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.broken import Break, first_break
from harness.graph.heard import Heard, sounding
from harness.graph.kept import kept
from harness.graph.waking import CONSTANT, CONTROL, wakes_without_lead
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring
from harness.graph.woken import woken
from harness.model.job import Feature


class Muted(NamedTuple):
    """A feature, the contacts at which it is silent while `units` sleep, what opens its way, and its way as planned."""

    feature: Feature
    contacts: tuple[str, ...]
    units: tuple[str, ...]
    cause: Break | None
    path: tuple[str, ...]


@kept
def asleep(wiring: Wiring) -> frozenset[str]:
    """Units that are awake only with the key or the radio on: all that wakes them is a switched or turn-on wire.

    What the bus or a signal wakes, what hangs on the battery, and what nothing is written of, is not among them.
    """
    by_unit: dict[str, list[tuple[str, str]]] = {}
    for each in woken(wiring):
        if not each.wake.coil and not wakes_without_lead(wiring.job.parts.units[each.wake.unit]):
            by_unit.setdefault(each.wake.unit, []).extend((giver.kind, giver.unit) for giver in each.sources)
    found = {unit for unit, givers in by_unit.items() if givers and all(kind != CONSTANT for kind, _ in givers)}
    while True:
        # what another unit switches on sleeps with that unit, and else may be awake
        awake = {unit for unit in found if any(kind == CONTROL and giver not in found for kind, giver in by_unit[unit])}
        if not awake:
            return frozenset(found)
        found -= awake


@kept
def muted(wiring: Wiring) -> list[Muted]:
    """Features that arrive as planned, but not without a unit that sleeps and that they didn't pass as found.

    Emergency calls are left out: they must pass no added unit at all.
    """
    sleepers = asleep(wiring)
    if not sleepers:
        return []
    made: list[Muted] = []
    heard: dict[str, tuple[Heard, Heard, Heard]] = {}
    units = wiring.job.parts.units
    for feature in wiring.job.features:
        unit = feature.unit
        if feature.kind == "emergency" or unit in wiring.gone:
            continue
        if unit not in heard:
            starts = sounding(wiring, unit)
            awake = frozenset(units) - sleepers
            heard[unit] = (
                Heard(wiring.found_signals, starts),
                Heard(wiring.signals, starts),
                Heard(wiring.signals, starts, awake),
            )
        before, after, with_key_out = heard[unit]
        silent = [c for c in feature.contacts if before.at(c) and after.at(c) and not with_key_out.at(c)]
        passed = dict.fromkeys(u for c in silent for u in after.units(c) if u in sleepers)
        added = tuple(u for u in passed if all(u not in before.units(c) for c in silent))
        if not added:
            continue
        path = tuple(
            name for stage in after.stages(silent[0]) for name in along(wiring, wiring.planned, stage.start, stage.end)
        )
        made.append(Muted(feature, tuple(silent), added, _opened(wiring, before, silent), path))
    return made


def _opened(wiring: Wiring, before: Heard, contacts: list[str]) -> Break | None:
    """Where the plan opens the way that it had."""
    for contact in contacts:
        for stage in before.stages(contact):
            found = first_break(wiring, stage.start, wiring.found.path(stage.start, stage.end))
            if found is not None:
                return found
    return None
