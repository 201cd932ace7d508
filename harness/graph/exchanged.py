"""Units whose constant and switched feed are exchanged."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.fitted import PASSED, is_fed, terminals_for
from harness.graph.waking import CONSTANT, SWITCHED, givers
from harness.graph.wiring import Wiring


class Wrong(NamedTuple):
    """A unit's terminal and the cavity or post from which it gets the other kind of feed."""

    terminal: str
    giver: str


def exchanged(wiring: Wiring) -> Iterator[tuple[Wrong, ...]]:
    """For each unit that stays and has terminals for both: what is wrong, its B+ first, the other one if it is too.

    A switched terminal on the constant feed is wrong only where the B+ gets nothing constant: where a car has no
    switched wire, both hang on one.
    """
    for unit in wiring.job.parts.units.values():
        if unit.kind in PASSED or unit.name in wiring.gone:
            continue
        switched = terminals_for(wiring, unit.name, "switched")
        constant = terminals_for(wiring, unit.name, "battery") if switched else []
        if not constant:
            continue
        of_constant = [Wrong(name, giver) for name in constant if (giver := _only(wiring, name, SWITCHED))]
        if not of_constant and any(is_fed(wiring, name) for name in constant):
            continue
        of_switched = [Wrong(name, giver) for name in switched if (giver := _only(wiring, name, CONSTANT))]
        if of_constant or of_switched:
            yield (*of_constant[:1], *of_switched[:1])


def _only(wiring: Wiring, terminal: str, kind: str) -> str:
    """What gives a terminal a feed of this kind, empty where nothing does or one of the other kind does as well."""
    given = {each.kind: each.contact for each in reversed(givers(wiring, terminal))}
    return given.get(kind, "") if not given.keys() & ({CONSTANT, SWITCHED} - {kind}) else ""
