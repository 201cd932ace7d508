"""What a unit gives is heard where: by wire and on through other units, as found and as planned."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from harness.graph.broken import Break, first_break
from harness.graph.signal import Signals
from harness.graph.state import State
from harness.graph.whole_wire import along
from harness.graph.wiring import Wiring
from harness.model.job import Feature

# A unit's sound leaves by these; supply, ground and turn-on carry none.
_CARRY = frozenset({"audio", "port", "mic", "digital", "terminal", "unknown", "other"})


class Arrival(NamedTuple):
    """A net that the sound arrives in: the contact it starts from there, and the input it came through."""

    start: str
    through: str  # the input's terminal in the net before; empty at the start
    unit: str


class Stage(NamedTuple):
    """One piece of a way by wire, from contact to contact."""

    start: str
    end: str


class Heard:
    """Where the sound of some contacts arrives in one state; `only` limits the units that it may pass through.

    A unit whose routes nobody wrote passes everything on, as far as is known.
    """

    def __init__(self, signals: Signals, starts: Iterable[str], only: frozenset[str] | None = None) -> None:
        self.state: State = signals.state
        self.nets: dict[int, Arrival] = {}
        for name in starts:
            owner = signals.job.contacts[name].owner
            self.nets.setdefault(self.state.net_number(name), Arrival(name, "", owner))
        if self.nets:
            self._on(signals, only)

    def _on(self, signals: Signals, only: frozenset[str] | None) -> None:
        number = self.state.net_number
        row = list(self.nets)
        for net in row:
            for receiver in signals.inputs_at.get(net, ()):
                port = receiver.port
                if port is None or (only is not None and port.unit not in only):
                    continue
                if number(receiver.plus) not in self.nets or number(receiver.minus) not in self.nets:
                    continue
                for driver in signals.onward.get((port.unit, port.name), ()):
                    for out, back in ((driver.plus, receiver.plus), (driver.minus, receiver.minus)):
                        if number(out) not in self.nets:
                            self.nets[number(out)] = Arrival(out, back, port.unit)
                            row.append(number(out))

    def at(self, contact: str) -> bool:
        return self.state.net_number(contact) in self.nets

    def stages(self, contact: str) -> list[Stage]:
        """The pieces of wire from the start to a contact that it is heard at, first piece first."""
        made: list[Stage] = []
        end = contact
        while end:
            arrival = self.nets[self.state.net_number(end)]
            made.append(Stage(arrival.start, end))
            end = arrival.through
        return made[::-1]

    def units(self, contact: str) -> tuple[str, ...]:
        """The units passed on the way to a contact, the one it comes from first."""
        arrivals = [self.nets[self.state.net_number(stage.start)] for stage in self.stages(contact)]
        return tuple(dict.fromkeys(arrival.unit for arrival in arrivals))


def sounding(wiring: Wiring, unit: str) -> list[str]:
    """The contacts of a unit that its sound can leave by, in the order of the job."""
    return [name for name in wiring.of_unit.get(unit, ()) if wiring.contact(name).function.kind in _CARRY]


class Lost(NamedTuple):
    """A function that no longer arrives: the contacts that miss it and what breaks it (None where unknown)."""

    feature: Feature
    contacts: tuple[str, ...]
    cause: Break | None
    through: tuple[str, ...] = ()  # units that it must pass as planned and did not as found
    way: tuple[str, ...] = ()  # as found, from the unit's terminal to the first contact that misses it


def lost_features(wiring: Wiring, kinds: frozenset[str], *, untouched: bool = False) -> list[Lost]:
    """Features of these kinds that arrived as found and don't as planned.

    `untouched`: it must arrive without passing a unit that it did not pass as found.
    """
    made: list[Lost] = []
    starts: dict[str, list[str]] = {}
    before: dict[str, Heard] = {}
    after: dict[tuple[str, frozenset[str] | None], Heard] = {}

    def planned(unit: str, only: frozenset[str] | None) -> Heard:
        if (unit, only) not in after:
            after[unit, only] = Heard(wiring.signals, starts[unit], only)
        return after[unit, only]

    for feature in wiring.job.features:
        unit = feature.unit
        if feature.kind not in kinds:
            continue
        if unit not in before:
            starts[unit] = sounding(wiring, unit)
            before[unit] = Heard(wiring.found_signals, starts[unit])
        had = [c for c in feature.contacts if before[unit].at(c)]
        if unit in wiring.gone:
            way = _way(wiring, before[unit], had[0]) if had else ()
            made.append(Lost(feature, feature.contacts, Break(wiring.job.removed[unit], "", (), unit), way=way))
            continue
        only = frozenset(u for c in had for u in before[unit].units(c)) if untouched else None
        missing = tuple(c for c in had if not planned(unit, only).at(c))
        if not missing:
            continue
        through: tuple[str, ...] = ()
        if only is not None:
            anyhow = planned(unit, None)
            if anyhow.at(missing[0]):
                through = tuple(u for u in anyhow.units(missing[0]) if u not in only)
        cause, at = _cause(wiring, before[unit], missing)
        made.append(Lost(feature, missing, cause, through, _way(wiring, before[unit], at)))
    return made


def _way(wiring: Wiring, before: Heard, contact: str) -> tuple[str, ...]:
    """From the unit to a contact that it was heard at as found, through the units between."""
    return tuple(
        name for stage in before.stages(contact) for name in along(wiring, wiring.found, stage.start, stage.end)
    )


def _cause(wiring: Wiring, before: Heard, missing: tuple[str, ...]) -> tuple[Break | None, str]:
    """What breaks the way, and the contact on whose way that lies."""
    for contact in missing:
        for stage in before.stages(contact):
            unit = wiring.job.contacts[stage.start].owner
            if unit in wiring.gone:
                return Break(wiring.job.removed[unit], stage.start, (stage.start, stage.end), unit), contact
            found = first_break(wiring, stage.start, wiring.found.path(stage.start, stage.end))
            if found is not None:
                return found, contact
    return None, missing[0]
