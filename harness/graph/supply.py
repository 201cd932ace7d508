"""The supply as a DC network: volts at each contact and amperes in each piece, everything at full power at once.

The car's body and its own ground strap count as nothing, and so do joints and the leads of looms, since nobody
writes their length. A fuse counts as a microohm, so that its current can be told; a relay's contact is closed.
"""

from __future__ import annotations

from typing import NamedTuple

from harness.electrical.solve import Load, Resistor, Solution, Source, solve
from harness.graph.cable import let_through, ohms, posts
from harness.graph.conductor import FUSE, INSIDE, JOINT, PLANNED
from harness.graph.draws import Draw, draws
from harness.graph.grounding import is_signal_wire
from harness.graph.kept import kept
from harness.graph.shop import figure
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS

FUSE_OHM = 1e-6
_new = tuple.__new__  # a named tuple made from a tuple: there is one for every piece of conductor


class Fed(NamedTuple):
    """One unit on the laid supply: its terminals, what it draws, and the volts lost on the way there and back."""

    unit: str
    feed: str
    ground: str
    draw: Draw
    current_a: float
    feed_drop_v: float
    ground_drop_v: float

    @property
    def drop_v(self) -> float:
        return self.feed_drop_v + self.ground_drop_v


class Supply(NamedTuple):
    """The solved network. `current_a` goes by a conductor's ends, in amperes from the first to the second.

    `unknown` are units on the laid feed whose draw can't be told: they count as drawing nothing. `collapsed` are
    units whose power can't arrive; then no number here is an answer.
    """

    fed: tuple[Fed, ...]
    current_a: dict[tuple[str, str], float]
    unknown: tuple[str, ...]
    collapsed: tuple[str, ...]
    solution: Solution


@kept
def supply(wiring: Wiring) -> Supply | None:
    """None where no feed is laid, or where the feed meets ground: that is told as another fault."""
    through = let_through(wiring)
    if not wiring.job.has_runs or len(through) <= len(posts(wiring)):
        return None
    resistors = _resistors(wiring, through)
    terminals = _terminals(wiring, through)
    known = draws(wiring)
    wanted = [(unit, known[unit]) for unit in terminals if unit in known]
    loads = []
    for unit, draw in wanted:
        feed, ground = terminals[unit]
        loads.append(Load(feed, ground, draw.current_a, draw.power_w or 0.0, unit))
    volts = figure(wiring, "supply").value
    sources = [Source(post, CHASSIS, volts, name=post) for post in posts(wiring) if post in through]
    solved = solve(resistors, sources, loads)
    current_a = {
        (str(each.a), str(each.b)): amperes
        for each, amperes in zip(resistors, solved.resistors_a, strict=True)
        if amperes is not None
    }
    fed = []
    for at, (unit, draw) in enumerate(wanted):
        feed, ground = terminals[unit]
        if at not in solved.floating:
            drops = volts - solved.volts[feed], solved.volts[ground]
            fed.append(Fed(unit, feed, ground, draw, solved.loads_a[at], *drops))
    unknown = tuple(unit for unit in terminals if unit not in known)
    collapsed = tuple(wanted[at][0] for at in solved.collapsed)
    return Supply(tuple(fed), current_a, unknown, collapsed, solved)


def _resistors(wiring: Wiring, through: dict[str, float]) -> list[Resistor]:
    """Every conductor of the nets that a feed or a ground of ours lies in."""
    number = wiring.planned.net_number
    nets = {number(name) for name in through} | {number(CHASSIS)}
    warm = figure(wiring, "temperature").value
    made: list[Resistor] = []
    laid = {(each.a, each.b, each.place): each for each in wiring.job.segments}  # two cables may join the same two
    for conductor in wiring.conductors:
        a, b, kind, states, _, place = conductor
        if not states & PLANNED or kind == INSIDE or number(a) not in nets:
            continue
        if is_signal_wire(wiring, conductor):
            continue  # a shield carries next to nothing beside a ground cable; where it is the only ground, F17 says so
        segment = laid.get((a, b, place)) if kind != JOINT else None  # a joint beside a cable between the same two
        ohm = 0.0
        if kind == FUSE:
            ohm = FUSE_OHM
        elif segment is not None and segment.laid:
            ohm = ohms(segment, warm)
        made.append(_new(Resistor, (a, b, ohm, "")))
    for unit in wiring.job.parts.units.values():
        if unit.kind == "relay" and unit.name not in wiring.gone and f"{unit.name}.30" in through:
            made.append(Resistor(f"{unit.name}.30", f"{unit.name}.87", FUSE_OHM))
    return made


@kept
def feed_terminals(wiring: Wiring) -> dict[str, tuple[str, str]]:
    """(feed terminal, ground terminal) of each unit on a laid feed."""
    return _terminals(wiring, let_through(wiring))


_PASSIVE = ("battery", "fuse block", "relay", "switch", "diode")


def _terminals(wiring: Wiring, through: dict[str, float]) -> dict[str, tuple[str, str]]:
    """The first feed terminal of a unit that a laid feed reaches, and its first ground terminal that is on ground."""
    made: dict[str, tuple[str, str]] = {}
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone or unit.kind in _PASSIVE:
            continue
        names = wiring.of_unit.get(unit.name, [])
        feeds = [n for n in names if n in through and wiring.contact(n).function.kind in ("battery", "switched")]
        if not feeds:
            continue
        grounds = [n for n in names if wiring.contact(n).function.kind == "ground"]
        earthed = [n for n in grounds if wiring.planned.joined(n, CHASSIS)]
        made[unit.name] = (feeds[0], (earthed or grounds or [CHASSIS])[0])
    return made
