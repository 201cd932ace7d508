"""Where units are grounded: what their ground terminals reach, at which points of the body, by which cable."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from heapq import heappop, heappush
from typing import NamedTuple

from harness.electrical.conductors import copper_mm2
from harness.graph.cable import segment_of
from harness.graph.conductor import INSIDE, JOINT, RUN, Conductor, Hop
from harness.graph.fitted import OF_THE_CAR, ours, seated, terminals_for
from harness.graph.joined import made_at
from harness.graph.kept import kept
from harness.graph.meeting import feeds
from harness.graph.state import Reached, hops_to
from harness.graph.wiring import Wiring
from harness.model.job import Segment
from harness.place import Place
from harness.units import WireSize

_UNKNOWN = float("inf")


class Ground(NamedTuple):
    """Ground terminals that are joined to each other, and the contacts of the body that they reach."""

    terminals: tuple[str, ...]
    points: tuple[str, ...]


class Thickness(NamedTuple):
    """A wire as copper: its area, as it is written, and where."""

    area_mm2: float
    words: str
    place: Place


def is_body(wiring: Wiring, name: str) -> bool:
    """Ground for sure: a ground point, the body, a battery's −, or what the car grounds itself."""
    contact = wiring.contact(name)
    if contact.kind in ("ground", "chassis"):
        return True
    if contact.kind == "battery":
        return contact.last == "-"
    if contact.kind == "unit":
        if contact.last == "-":
            return wiring.job.parts.units[contact.owner].kind == "battery"
        return contact.function.kind == "ground" and _grounded_by_the_car(wiring, contact.owner)
    if contact.kind == "plug" and contact.function.kind == "ground":
        plug = wiring.job.parts.plugs[contact.owner]
        return not (plug.unit if contact.half == "unit" else plug.car)
    return False


def _grounded_by_the_car(wiring: Wiring, unit: str) -> bool:
    kind = wiring.job.parts.units[unit].kind
    return unit not in wiring.gone and (kind in OF_THE_CAR or unit in seated(wiring))


def is_signal_wire(wiring: Wiring, conductor: Conductor) -> bool:
    """Whether it leads to or from an input or output, and not to a ground point."""
    if conductor.kind not in (JOINT, RUN, INSIDE):
        return False
    a, b = conductor.a, conductor.b
    if a not in wiring.ports and b not in wiring.ports:
        return False
    return not is_body(wiring, a) and not is_body(wiring, b)


@kept
def grounds(wiring: Wiring) -> dict[str, Ground]:
    """The ground of each ground terminal of a unit that stays, signal wires left out, by terminal.

    The walk ends at the body, so that one joint of many grounds is walked once.
    """
    made: dict[str, Ground] = {}
    for unit in wiring.job.parts.units.values():
        if unit.name in wiring.gone:
            continue
        for terminal in terminals_for(wiring, unit.name, "ground"):
            if terminal not in made:
                reached = ground_walk(wiring, terminal)
                own = is_body(wiring, terminal)  # the car grounds it: what hangs on it is grounded at it
                terminals = [name for name in reached if name == terminal or (not own and _is_terminal(wiring, name))]
                points = tuple(name for name in reached if name != terminal and is_body(wiring, name))
                made |= dict.fromkeys(terminals, Ground(tuple(terminals), points))
    return made


def _is_terminal(wiring: Wiring, name: str) -> bool:
    contact = wiring.contact(name)
    return contact.kind == "unit" and contact.function.kind == "ground" and not is_body(wiring, name)


def ground_walk(wiring: Wiring, start: str, *, signals: bool = False, without: Iterable[Conductor] = ()) -> Reached:
    """What a ground terminal conducts to, with the hop that led there; what is ground for sure ends the walk.

    `signals` allows the wires of inputs and outputs; `without` leaves conductors out.
    """
    left_out = frozenset(without) | (frozenset() if signals else signal_wires(wiring))
    return wiring.planned.around(start, left_out, lambda name: is_body(wiring, name))


@kept
def signal_wires(wiring: Wiring) -> frozenset[Conductor]:
    """What carries a signal; a shield is none of the ways to ground."""
    ends = [conductor for name in wiring.ports for conductor in wiring.planned.conductors(name)]
    return frozenset(conductor for conductor in ends if is_signal_wire(wiring, conductor))


def ungrounded(wiring: Wiring) -> list[Ground]:
    """The grounds of our units that reach no body but by way of a signal, in the order of the job.

    One on a feed is left out: that is a short, and told as one.
    """
    made: dict[Ground, None] = {}
    number = wiring.planned.net_number
    fed: set[int] | None = None
    for unit in ours(wiring):
        own = [grounds(wiring)[terminal] for terminal in terminals_for(wiring, unit.name, "ground")]
        if not own or any(ground.points for ground in own):
            continue
        if fed is None:
            fed = {number(name) for name in feeds(wiring)}
        if number(own[0].terminals[0]) not in fed:
            made[own[0]] = None
    return list(made)


def by_signal(wiring: Wiring, terminal: str) -> tuple[Hop, ...]:
    """The way from a ground terminal to the body, signal wires allowed; empty where there is none."""
    back = ground_walk(wiring, terminal, signals=True)
    end = next((name for name in back if is_body(wiring, name)), "")
    return hops_to(back, end) if end else ()


def way_to_body(wiring: Wiring, terminal: str) -> tuple[str, ...]:
    """The contacts from a ground terminal to the body or, where it reaches none, to where its wire ends."""
    back = ground_walk(wiring, terminal)
    end = next((name for name in back if is_body(wiring, name)), list(back)[-1])
    return wiring.way_in_words(terminal, hops_to(back, end))


def way_to_point(wiring: Wiring, point: str, last: Conductor | None = None) -> tuple[str, ...]:
    """The contacts from the nearest ground terminal to a point that we ground at, or from where our wire begins.

    With `last` the way that comes in by that conductor.
    """
    kept_in = made_at(wiring, point) if last is None else [last]
    others = [each for each in wiring.planned.conductors(point) if each not in kept_in]
    back = ground_walk(wiring, point, without=others)
    named = [name for name in back if wiring.contact(name).kind != "run"]
    start = next((name for name in named if name != point and is_ground_terminal(wiring, name)), named[-1])
    return (start, *(hop.contact for hop in _back_to(back, start)))


def is_ground_terminal(wiring: Wiring, name: str) -> bool:
    """A unit's GND, or the − of a further battery."""
    contact = wiring.contact(name)
    return contact.kind == "unit" and (contact.function.kind == "ground" or is_body(wiring, name))


def _back_to(back: dict[str, Hop | None], end: str) -> Iterator[Hop]:
    while (step := back[end]) is not None:
        yield step
        end = step.contact


# -- how thick ------------------------------------------------------------------------------------------


def thickness(segment: Segment) -> Thickness | None:
    """A piece of cable as copper, copper-clad aluminium by its resistance; None where its size isn't written."""
    if segment.size is None:
        return None
    if segment.metal == "CCA":
        area_mm2 = copper_mm2(segment.size, segment.metal)
        return Thickness(area_mm2, f"{segment.size.text} CCA ({area_mm2:.3g} mm² as copper)", segment.place)
    return Thickness(segment.size.area_mm2, sized(segment.size), segment.place)


def sized(size: WireSize) -> str:
    """`8 AWG (8.37 mm²)`, `10 mm²`."""
    return f"{size.area_mm2:g} mm²" if size.text.endswith("mm2") else f"{size.text} ({size.area_mm2:.3g} mm²)"


def _of_step(wiring: Wiring, conductor: Conductor, other: str) -> Thickness | None:
    """The wire that one step is: a piece of cable, else the lead or cavity reached; None where no size is written."""
    segment = segment_of(wiring, conductor)
    if segment is not None:
        return thickness(segment)
    contact = wiring.contact(other)
    if contact.kind in ("loom", "plug") and contact.size is not None:
        return Thickness(contact.size.area_mm2, sized(contact.size), contact.place)
    return None


def ground_cables(wiring: Wiring, terminal: str) -> list[Thickness]:
    """For each way from a ground terminal to the body its thinnest wire; empty where a way has no size at all.

    Ways that leave the terminal side by side are separate cables.
    """
    widths = _widths(wiring)
    made = []
    for conductor in wiring.planned.conductors(terminal):
        other = conductor.other(terminal)
        if is_signal_wire(wiring, conductor) or other not in widths or widths[other][1] == terminal:
            continue
        behind, _ = widths[other]
        here = _of_step(wiring, conductor, other)
        thinnest = min((each for each in (here, behind) if each is not None), key=_area, default=None)
        if thinnest is None:
            return []
        made.append(thinnest)
    return made


def _area(wire: Thickness) -> float:
    return wire.area_mm2


@kept
def _widths(wiring: Wiring) -> dict[str, tuple[Thickness | None, str]]:
    """Contact -> the thinnest wire of its thickest way to the body (None: no size on it), and the contact before it.

    A widest path search from all points of the body at once, over what is joined to a ground terminal of a unit.
    """
    heap: list[tuple[float, int, str, Thickness | None, str]] = []
    starts = dict.fromkeys(point for ground in grounds(wiring).values() for point in ground.points)
    for point in starts:
        heappush(heap, (-_UNKNOWN, len(heap), point, None, ""))
    order = len(heap)
    made: dict[str, tuple[Thickness | None, str]] = {}
    while heap:
        negative, _, here, thinnest, before = heappop(heap)
        if here in made:
            continue
        made[here] = (thinnest, before)
        for conductor in wiring.planned.conductors(here):
            other = conductor.other(here)
            if other in made or is_body(wiring, other) or is_signal_wire(wiring, conductor):
                continue
            step = _of_step(wiring, conductor, other)
            wire = step if step is not None and step.area_mm2 < -negative else thinnest
            order += 1
            heappush(heap, (-wire.area_mm2 if wire else -_UNKNOWN, order, other, wire, here))
    return made


def feed_cable(wiring: Wiring, terminals: Iterable[str]) -> Thickness | None:
    """The thickest wire that comes first from these terminals, over joints and fuses; None where none has a size."""
    found: list[Thickness] = []
    row = list(terminals)
    seen = set(row)
    for here in row:
        for conductor in wiring.planned.conductors(here):
            other = conductor.other(here)
            if other in seen or conductor.kind == INSIDE or is_body(wiring, other):
                continue
            seen.add(other)
            wire = _of_step(wiring, conductor, other)
            if wire is None:
                row.append(other)
            else:
                found.append(wire)
    return max(found, key=_area, default=None)
