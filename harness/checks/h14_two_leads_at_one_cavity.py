"""H14."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import PLUGGED
from harness.graph.pins import Pin
from harness.graph.whole_wire import along, far_end
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.place import Place


@check("H14", Severity.FIX, "Two leads at one cavity", source="common practice, no source")
def two_leads_at_one_cavity(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: two leads of a loom at one cavity, or a moved terminal where another one stands.

    Why it matters: one terminal takes one wire. Two in one barrel pull out; two terminals don't go into one hole.

    Example: terminal 5 is moved to cavity 6, and 6 still has its own.

    What to do: depin or move the other one, or make it one lead with a splice outside of the plug.

    Known limits: a lead that branches off a wire that goes through is made so on purpose and is right.

    Source: common practice, no source.
    """
    job, board = wiring.job, wiring.board
    for loom in job.parts.looms.values():
        pins = board.pins(loom.name)
        for pin in pins:
            if len(pin.leads) < 2 and len(pin.throughs) < 2:
                continue
            place = _second(pin)
            if place is not None:
                words = f"{loom.name} {pin.end} end cavity {pin.cavity}"
                yield Fault(
                    at=Spot(place, words),
                    message=f"{words} has two leads in one terminal: one of them pulls out.",
                    do="Keep one lead in the terminal and splice the other outside of the plug.",
                    about=(pin.contact, *(lead.name for lead in pin.leads)),
                    path=_way(wiring, pin.contact, pin.leads[1].name if len(pin.leads) > 1 else ""),
                )
        if job.moved:
            yield from _moved_onto(wiring, pins)


def _second(pin: Pin) -> Place | None:
    """Where the second of two leads of a pin is written: two leads, or wires through to two cavities."""
    if len(pin.leads) > 1:
        return pin.leads[1].place
    wires = {(through.unit_cavity, through.car_cavity) for through in pin.throughs}  # one may be written twice
    return pin.throughs[1].place if len(wires) > 1 else None


def _moved_onto(wiring: Wiring, pins: list[Pin]) -> Iterator[Fault]:
    job = wiring.job
    standing: dict[tuple[str, str], Pin] = {}
    arrivals = [pin for pin in pins if pin.contact in job.moved]
    for pin in pins:
        if pin.contact not in job.moved and pin.contact not in job.depinned:
            standing[pin.end, pin.stands.lower()] = pin
    for pin in arrivals:
        key = (pin.end, pin.stands.lower())
        there = standing.setdefault(key, pin)
        if there is pin:
            continue
        words, occupied = wiring.words(pin.contact), wiring.words(there.contact)
        also = (Spot(job.moved[there.contact][1], occupied),) if there.contact in job.moved else ()
        yield Fault(
            at=Spot(job.moved[pin.contact][1], words),
            message=f"{words} is moved to cavity {pin.stands}, where {occupied} stands: two terminals don't fit.",
            do=f"Depin or move {occupied} first, and write it.",
            about=_about(wiring, pin.contact, there.contact),
            also=also,
            path=_way(wiring, pin.contact),
        )


def _way(wiring: Wiring, pin: str, lead: str = "") -> tuple[str, ...]:
    """From the far end of the lead that is one too many over the terminal to the far end of the car's wire."""
    planned = wiring.planned
    start = far_end(planned, lead, not_by=pin) if lead else far_end(planned, pin, kind=PLUGGED)
    half = next((each.other(pin) for each in planned.conductors(pin) if each.kind == PLUGGED), "")
    if not half:
        return along(wiring, planned, start, pin)
    onward = along(wiring, planned, half, far_end(planned, half, kind=PLUGGED))
    return tuple(dict.fromkeys((*along(wiring, planned, start, pin), *onward)))


def _about(wiring: Wiring, *pins: str) -> tuple[str, ...]:
    """All that meets only because two terminals are said to share a hole: none of it can come true."""
    about = dict.fromkeys(pins)
    for pin in pins:
        if not wiring.planned.joined(pin, CHASSIS):
            about.update(dict.fromkeys(wiring.planned.net(pin)))
    return tuple(about)
