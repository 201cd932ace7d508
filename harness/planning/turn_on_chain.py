"""The turn-on chain: each giver with what hangs on it, each unit with what wakes it and in which order, each relay."""

from __future__ import annotations

from collections import defaultdict
from itertools import pairwise
from typing import NamedTuple

from harness.graph.cable import fuses, let_through, way_from_source
from harness.graph.meeting import grounded_nets
from harness.graph.relays import relays
from harness.graph.turn_on_load import hanging, outputs
from harness.graph.turn_on_test import ACC_ON, OFF, REST, TRIGGER_ON
from harness.graph.wake_order import feeders
from harness.graph.waking import (
    AERIAL,
    CAR,
    CONSTANT,
    LIGHT,
    SWITCHED,
    TRIGGER,
    Giver,
    coil_plus,
    givers,
    relay_in_use,
    sources,
)
from harness.graph.wiring import Wiring
from harness.graph.woken import has_sound, woken

# What a source is, as the sheet says it.
ACC, IGN, RADIO, OUTPUT, SIGNAL, BUS, OWN = "acc", "ign", "radio", "output", "signal", "bus", "own"
UNKNOWN = "unknown"


class Hung(NamedTuple):
    """A terminal or coil that draws from a giver, `draws_a` None where nobody wrote it; `behind` which diodes."""

    unit: str
    contact: str
    draws_a: float | None
    coil: bool
    behind: tuple[str, ...]


class GiverLine(NamedTuple):
    """One giver: what it is, its limit (None: not recorded), what hangs on it and the sum of what is written of that.

    `unwritten` are those whose current nobody wrote: the sum is then the least it can be.
    """

    giver: Giver
    source: str
    hung: tuple[Hung, ...]
    sum_a: float
    unwritten: tuple[str, ...]

    @property
    def left_a(self) -> float | None:
        """The limit less the sum, below nothing where it is too much; None where the limit isn't recorded."""
        return None if self.giver.gives_a is None else self.giver.gives_a - self.sum_a


class Waker(NamedTuple):
    """One thing that wakes a unit: a giver with its way, or a signal, a bus, the unit's own feeds.

    `unit` gives it (CAR for the car): the relay where it comes through one. `off` and `on` are the volts at the woken
    terminal before and after, empty where there are none, `on` None where nobody wrote them. `diodes` is how many the
    12 V passes after the last relay.
    """

    source: str
    unit: str
    giver: Giver | None = None
    off: str = ""
    on: str | None = ""
    diodes: int = 0


class WakeLine(NamedTuple):
    """A unit's turn-on: at which terminal (empty: no lead), by what, and its turn in the order, 1 for the first.

    `order` is None where nothing that is awake wakes it, or nobody wrote how it wakes.
    """

    unit: str
    contact: str
    draws_a: float | None
    coil: bool
    by: tuple[Waker, ...]
    order: int | None


class RelayLine(NamedTuple):
    """A relay: the coil's + and − end with what they are joined to, its current and what lies across it, the fed
    contact with the fuses before it (in amperes, None: value not recorded) and the terminals on the other contact.
    """

    relay: str
    plus: str
    drivers: tuple[Giver, ...]
    grounded: bool
    coil_a: float | None
    across: str
    fed: str
    feed: str
    fuses_a: tuple[float | None, ...]
    given: str
    switches: tuple[str, ...]


class TurnOnChain(NamedTuple):
    """All of it, in the order of the job; wakes in the order of waking."""

    givers: tuple[GiverLine, ...]
    wakes: tuple[WakeLine, ...]
    relays: tuple[RelayLine, ...]


def turn_on_chain(wiring: Wiring) -> TurnOnChain:
    """Who wakes whom as planned. Units that have no sound and no turn-on lead aren't in it."""
    lines = _wakes(wiring)
    return TurnOnChain(_givers(wiring), _in_order(lines), _relays(wiring))


def source_of(wiring: Wiring, giver: Giver) -> str:
    """What a giver is: battery, ACC, IGN, the radio's turn-on, aerial, lamps, or another unit's turn-on output."""
    if giver.kind == SWITCHED:
        return IGN if wiring.contact(giver.contact).function.base.upper() in ("IGN", "15", "15A") else ACC
    if giver.kind in (CONSTANT, AERIAL, LIGHT):
        return giver.kind
    unit = wiring.job.parts.units.get(giver.unit)
    if (unit is not None and unit.kind == "radio") or (unit is None and giver.kind == TRIGGER):
        return RADIO
    return OUTPUT


def _givers(wiring: Wiring) -> tuple[GiverLine, ...]:
    """Every giver on which something hangs, and each turn-on output that is free."""
    found: dict[tuple[str, str], Giver] = {}
    for each in woken(wiring):
        for giver in each.sources:
            found.setdefault((giver.unit, giver.contact), giver._replace(through=()))
    for giver in outputs(wiring):
        found.setdefault((giver.unit, giver.contact), giver)
    made = []
    for giver in found.values():
        hung = tuple(
            Hung(wake.unit, wake.contact, wake.draws_a, wake.coil, through)
            for wake, through in hanging(wiring, giver)
            if not wake.coil or relay_in_use(wiring, wake.unit)
        )
        unwritten = tuple(each.unit for each in hung if each.draws_a is None)
        sum_a = sum(each.draws_a or 0.0 for each in hung)
        made.append(GiverLine(giver, source_of(wiring, giver), hung, sum_a, unwritten))
    return tuple(made)


def _wakes(wiring: Wiring) -> list[WakeLine]:
    made: list[WakeLine] = []
    leads = defaultdict(list)
    for each in woken(wiring):
        if not each.wake.coil or relay_in_use(wiring, each.wake.unit):
            leads[each.wake.unit].append(each)
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        for each in leads[unit.name]:
            by = tuple(_waker(wiring, giver) for giver in each.sources)
            made.append(WakeLine(unit.name, each.wake.contact, each.wake.draws_a, each.wake.coil, by, None))
        for words in unit.wakes:
            if words.lower() == SIGNAL:
                by = tuple(Waker(SIGNAL, feeder) for feeder in feeders(wiring, unit.name))
                made.append(WakeLine(unit.name, "", None, False, by or (Waker(SIGNAL, UNKNOWN),), None))
            elif words.lower() == BUS:
                made.append(WakeLine(unit.name, "", None, False, (Waker(BUS, CAR),), None))
        if not unit.wakes and not leads[unit.name] and (has_sound(unit) or unit.kind == "radio"):
            by = (Waker(OWN, CAR),) if unit.kind == "radio" else ()
            made.append(WakeLine(unit.name, "", None, False, by, None))
    turns = _turns(made)
    return [line._replace(order=turns.get(line.unit) if line.by else None) for line in made]


def _turns(lines: list[WakeLine]) -> dict[str, int]:
    """By unit its turn: 1 for what the car wakes, 2 for what those wake. Units that nothing awake wakes are left out.

    What no line of the chain tells of (a switch, a control unit) is awake with the car.
    """
    wakes_whom: dict[str, list[str]] = defaultdict(list)
    for line in lines:
        for waker in line.by:
            wakes_whom[waker.unit].append(line.unit)
    told = {line.unit for line in lines}
    turns = {CAR: 0} | {name: 0 for name in wakes_whom if name not in told and name != UNKNOWN}
    row = list(turns)
    for here in row:
        for unit in wakes_whom.get(here, ()):
            if unit not in turns:
                turns[unit] = turns[here] + 1
                row.append(unit)
    return turns


def _in_order(lines: list[WakeLine]) -> tuple[WakeLine, ...]:
    return tuple(sorted(lines, key=lambda line: line.order if line.order is not None else len(lines) + 1))


def _waker(wiring: Wiring, giver: Giver) -> Waker:
    """The volts that a giver brings: its own, or those on a relay's fed contact, less what diodes take."""
    kinds = [wiring.job.parts.units[name].kind for name in giver.through]
    diodes = kinds.index("relay") if "relay" in kinds else len(kinds)
    source = source_of(wiring, giver)
    if "relay" in kinds:
        feed = next(iter(givers(wiring, _fed(wiring, giver.through[diodes])[0])), None)
        on = _on(source_of(wiring, feed)) if feed is not None else None
    else:
        on = _on(source)
    off = REST if source == CONSTANT else OFF
    by = giver.through[diodes] if "relay" in kinds else giver.unit
    return Waker(source, by, giver, off, on, diodes)


def _on(source: str) -> str | None:
    return {CONSTANT: REST, ACC: ACC_ON, IGN: ACC_ON, RADIO: TRIGGER_ON}.get(source)


def _fed(wiring: Wiring, relay: str) -> tuple[str, str]:
    """(the contact that the feed comes to, the one that it is switched to) of a relay; 30 where nothing is fed."""
    first, second = f"{relay}.30", f"{relay}.87"
    reached = let_through(wiring)
    if first in reached and second in reached:
        return (second, first) if second in way_from_source(wiring, first) else (first, second)
    return (second, first) if givers(wiring, second) and not givers(wiring, first) else (first, second)


def _relays(wiring: Wiring) -> tuple[RelayLine, ...]:
    made = []
    known, grounded = fuses(wiring), grounded_nets(wiring)
    number = wiring.planned.net_number
    diodes = {
        frozenset((number(f"{unit.name}.a"), number(f"{unit.name}.k"))): unit.name
        for unit in wiring.job.parts.units.values()
        if unit.kind == "diode" and unit.name not in wiring.gone
    }
    for unit in relays(wiring):
        plus = coil_plus(wiring, unit.name)
        minus = f"{unit.name}.{'85' if plus.endswith('.86') else '86'}"
        fed, given = _fed(wiring, unit.name)
        way = way_from_source(wiring, fed) if fed in let_through(wiring) else ()
        ratings = [known[pair].rating_a for pair in _both(way) if pair in known]
        feed = way[0] if way else next((each.contact for each in givers(wiring, fed)), "")
        across = unit.power.coil_across or diodes.get(frozenset((number(plus), number(minus))), "")
        switches = tuple(
            name
            for name in wiring.planned.net(given)
            if wiring.contact(name).kind == "unit" and wiring.contact(name).owner != unit.name
        )
        made.append(
            RelayLine(
                unit.name, plus, tuple(sources(wiring, plus)), number(minus) in grounded, unit.power.coil_a, across,
                fed, feed, tuple(ratings), given, switches,
            )
        )  # fmt: skip
    return tuple(made)


def _both(way: tuple[str, ...]) -> list[tuple[str, str]]:
    """The pairs of a way in its order, each in both directions."""
    return [pair for a, b in pairwise(way) for pair in ((a, b), (b, a))]
