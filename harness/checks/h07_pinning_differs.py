"""H07."""

from collections.abc import Iterator
from typing import NamedTuple

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import LEAD, PLUGGED
from harness.graph.pins import Pin, PlugBoard, differ
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS, printed
from harness.model.job import Mate
from harness.model.parts import Lead, Row
from harness.place import Place

_MOST_TOLD = 4


class _Odd(NamedTuple):
    """One cavity that differs: its number, what is told of it, where it is written, the contacts concerned."""

    cavity: str
    words: str
    place: Place
    contacts: tuple[str, ...]


@check(
    "H07",
    Severity.STOP,
    "Housing fits, pinning differs",
    source="FCS 1362:2010 4.5.1.4, as quoted in the trade, seen 2026",
)
def pinning_differs(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a loom plugged in whose list or leads name another function than the plug's cavity has.

    Why it matters: the housing clicks in and puts the battery on a speaker output, or the radio on the wrong bus.

    Example: the loom's cavity 4 is ACC by its maker's list, and the plug has B+ there.

    What to do: do not plug it in; take the loom for this car, or move the terminals and write it under `moved`.

    Known limits: kinds and channels are compared, not signs (a reversal is told where it is heard) and not CAN's
    letters. A cavity that is empty, unknown or not recorded differs from nothing.

    Source: FCS 1362:2010 section 4.5.1.4 asks for the pinning of a ready-made lead to be checked.
    """
    board = wiring.board
    made: dict[tuple[str, str], list[_Odd]] = {}
    places: dict[tuple[str, str], Place] = {}
    plugs: dict[str, set[str]] = {}
    for mate in wiring.job.mates:
        plugs.setdefault(mate.loom, set()).add(mate.plug)
    for mate in wiring.job.mates:
        key = (mate.loom, mate.plug)
        places.setdefault(key, mate.place)
        alike = len(plugs[mate.loom]) == 1 and not wiring.job.moved
        for pin in board.pins(mate.loom, mate.end):
            if alike and pin.said is None and not pin.leads:
                for through in pin.throughs:
                    if through.unit_cavity != through.car_cavity:
                        break
                else:
                    continue  # from a cavity to the same one of the same plug
            row = board.row(mate.plug, pin.stands)
            if row is None or pin.contact in wiring.job.depinned:
                continue
            odd = _odd(board, mate, pin, row)
            if odd is not None and odd.cavity not in [each.cavity for each in made.get(key, ())]:
                made.setdefault(key, []).append(odd)
    for (loom, plug), odds in made.items():
        told = "; ".join(odd.words for odd in odds[:_MOST_TOLD])
        more = f"; and {len(odds) - _MOST_TOLD} more" if len(odds) > _MOST_TOLD else ""
        numbers = ", ".join(odd.cavity for odd in odds)
        yield Fault(
            at=Spot(places[loom, plug], f"{loom} in {plug}"),
            message=f"{loom} fits {plug}, its pins don't: {told}{more}.",
            do=f"Do not plug it in. Take this car's loom, or move the terminals of {numbers} (`moved`).",
            about=_about(wiring, odds),
            also=tuple(dict.fromkeys(Spot(odd.place, f"cavity {odd.cavity}") for odd in odds)),
            path=_way(wiring, odds[0]),
        )


def _way(wiring: Wiring, odd: _Odd) -> tuple[str, ...]:
    """The car's wire from its far end to the first wrong pin."""
    pin, here = odd.contacts[:2]
    plugged = frozenset(c for c in wiring.planned.conductors(pin) if c.kind == PLUGGED)
    start = list(wiring.planned.around(here, without=plugged))[-1]
    return wiring.way_in_words(start, wiring.planned.path(start, pin))


def _odd(board: PlugBoard, mate: Mate, pin: Pin, row: Row) -> _Odd | None:
    """What differs at one pin: its leads and the maker's list first, then where its wire through lands."""
    says: tuple[Lead | Row, ...] = pin.leads if pin.said is None else (*pin.leads, pin.said)
    for said in says:
        if differ(said.function, row.function):
            words = f"{row.cavity} is {printed(said.function.name)} there, {printed(row.function.name)} here"
            return _Odd(row.cavity, words, said.place, (pin.contact, _hole(mate, row)))
    throughs = pin.throughs if pin.end == "unit" and pin.stands == pin.cavity else ()
    for through in throughs:
        far = board.mated(mate.loom, "car")
        far_pin = f"{mate.loom}.car.{through.car_cavity}"
        stands = board.job.moved[far_pin][0] if far_pin in board.job.moved else through.car_cavity
        lands = board.row(far.plug, stands) if far else None
        if far is None or lands is None or far_pin in board.job.depinned:
            continue
        if differ(row.function, lands.function):
            where = lands.cavity if far.plug == mate.plug else f"{far.plug} {lands.cavity}"
            start, end = printed(row.function.name), printed(lands.function.name)
            words = f"{row.cavity} ({start}) goes to {where} ({end})"
            contacts = (pin.contact, _hole(mate, row), far_pin, _hole(far, lands))
            return _Odd(row.cavity, words, through.place, contacts)
    return None


def _hole(mate: Mate, row: Row) -> str:
    """The plug's contact that an end meets in this cavity."""
    return f"{mate.plug}.{mate.half}.{row.cavity}"


def _about(wiring: Wiring, odds: list[_Odd]) -> tuple[str, ...]:
    """All that a wrong pin brings together: what goes wrong there goes wrong because of the loom.

    What else lies on the car's own wire behind the plug is no doing of the loom's, unless its wire lands there.
    """
    about: dict[str, None] = {}
    for odd in odds:
        about.update(dict.fromkeys(odd.contacts))
        pin, *others = (name for name in odd.contacts if name in wiring.job.contacts)
        if wiring.planned.joined(pin, CHASSIS):
            continue
        at = wiring.planned.conductors
        own = (pin, *(c.other(pin) for c in at(pin) if c.kind == LEAD)) if len(others) == 1 else ()
        plugged = frozenset(c for name in own for c in at(name) if c.kind == PLUGGED)
        about.update(dict.fromkeys(wiring.planned.around(pin, without=plugged)))
    return tuple(about)
