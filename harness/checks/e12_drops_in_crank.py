"""E12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.waking import SWITCHED, Giver
from harness.graph.wiring import Wiring
from harness.graph.woken import causes, what_units_do, woken

_ACCESSORY = ("ACC", "75")  # DIN 72552: 75 is what the key's radio position feeds


@check(
    "E12",
    Severity.NOTE,
    "Turn-on drops while cranking",
    source="common practice, no source",
    by_joints=False,
    needs="fitted",
)
def drops_in_crank(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit that ACC alone wakes, in a car that has stop-start.

    Why it matters: ACC is dropped while the engine is cranked, and such a car cranks at every light: the sound cuts
    out and comes back with a pop.

    Example: the amplifier's rem on the red lead, `fitted: [stop-start]`.

    What to do: take the radio's turn-on lead, which the car holds up, or a feed that has been measured in crank.

    Known limits: some cars hold ACC up with a converter of their own; measured, it may stay. IGN isn't told, as
    most cars hold it.

    Source: common practice, no source.
    """
    car = wiring.job.car
    if car is None or "stop-start" not in car.fitted:
        return
    wrong = [
        (giver, each.wake)
        for each in woken(wiring)
        if not each.wake.coil and all(_accessory(wiring, giver) for giver in each.sources)
        for giver in each.sources
    ]
    for cause in causes(wiring, wrong):
        terminals = [wake.contact for wake in cause.woken]
        yield Fault(
            at=Spot(cause.way.place, wiring.words(terminals[0])),
            message=f"{wiring.words(terminals[0])} is woken by {wiring.words(cause.giver.contact)} alone, which drops "
            f"at every start: {what_units_do(cause.woken, 'cuts out and pops', 'cut out and pop')}.",
            do="Measure it while cranking; take the radio's turn-on lead or a feed that holds.",
            about=tuple(dict.fromkeys((*terminals, cause.giver.contact))),
            path=cause.way.path,
        )


def _accessory(wiring: Wiring, giver: Giver) -> bool:
    return giver.kind == SWITCHED and wiring.contact(giver.contact).function.name.upper() in _ACCESSORY
