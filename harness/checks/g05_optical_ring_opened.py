"""G05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.broken import opened_at
from harness.graph.whole_wire import through_cavity
from harness.graph.wiring import Wiring
from harness.model.parts import Plug

_IN, _OUT = "OPTICAL-IN", "OPTICAL-OUT"


@check("G05", Severity.STOP, "Optical ring opened", source="workshop manual, maker withheld", needs="optical")
def optical_ring_opened(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug with the light-guide's two ends whose unit no longer closes the ring.

    Why it matters: the ring carries everything from one unit to the next; open in one place, the whole
    system stays dark and silent.

    Example: the factory amplifier comes out and its optical plug hangs loose.

    What to do: close the ring with a passive link, join the two ends, or pass both through to the unit.

    Known limits: the order of units round the ring is not known; each plug is looked at by itself.

    Source: workshop manual, maker withheld: the ring must be closed where a node is removed.
    """
    for plug in wiring.job.parts.plugs.values():
        ends = {row.function.name: row.cavity for row in plug.rows if row.function.kind == "optical"}
        if len(ends) < 2:
            if "optical" in plug.carries and (plug.unit in wiring.gone or plug.name in wiring.opened):
                yield _not_followed(wiring, plug)
            continue
        incoming, outgoing = f"{plug.name}.car.{ends[_IN]}", f"{plug.name}.car.{ends[_OUT]}"
        if wiring.planned.joined(incoming, outgoing) or _unit_between(wiring, incoming, outgoing):
            continue
        halves = [f"{plug.name}.unit.{ends[name]}" for name in (_IN, _OUT)]
        passed = [wiring.planned.joined(*both) for both in zip(halves, (incoming, outgoing), strict=True)]
        if not plug.unit and all(passed):
            continue
        broken = halves[0] if not passed[0] else halves[1]
        if plug.unit in wiring.gone:
            place, why = wiring.job.removed[plug.unit], f"{plug.unit} comes out"
        else:
            found = opened_at(wiring, broken, broken.replace(".unit.", ".car.", 1))
            place, why = found.place, f"{plug.name} is opened"
        yield Fault(
            at=Spot(place, wiring.words(incoming)),
            message=f"{why}, and {wiring.words(incoming)} leads nowhere: the ring is open, the system stays dead.",
            do="Close it with a passive link, or pass both light-guides on.",
            about=(incoming, outgoing, *halves),
            path=_ring(wiring, plug.name, ends),
        )


def _not_followed(wiring: Wiring, plug: Plug) -> Fault:
    """A plug said to carry light-guides is opened, and which cavities they are isn't written."""
    why = f"{plug.unit} comes out" if plug.unit in wiring.gone else f"{plug.name} is opened"
    place = wiring.job.removed.get(plug.unit, plug.place)
    return Fault(
        at=Spot(place, plug.name),
        message=f"{why}, and {plug.name} carries light-guides: nothing says that the ring stays closed.",
        do="Write its cavities OPTICAL-IN and OPTICAL-OUT, and close the ring with a passive link.",
    )


def _ring(wiring: Wiring, plug: str, ends: dict[str, str]) -> tuple[str, ...]:
    """The ring as found: the light comes in by the one wire and, past the unit, goes on by the other."""
    incoming, outgoing = (through_cavity(wiring, plug, ends[name]) for name in (_IN, _OUT))
    return tuple(dict.fromkeys((*reversed(incoming), *outgoing)))


def _unit_between(wiring: Wiring, incoming: str, outgoing: str) -> bool:
    """Whether one unit that stays takes the light in and sends it on."""
    takes = {
        contact.owner
        for contact in map(wiring.contact, wiring.planned.net(incoming))
        if contact.kind == "unit" and contact.function.name == _IN and contact.owner not in wiring.gone
    }
    return any(
        wiring.contact(name).owner in takes and wiring.contact(name).function.name == _OUT
        for name in wiring.planned.net(outgoing)
    )
