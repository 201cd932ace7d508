"""G11."""

from collections.abc import Iterator
from functools import partial

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.bus import bus_troubles
from harness.graph.meeting import meeting, place_of
from harness.graph.wiring import Wiring


@check("G11", Severity.FIX, "Data pair crossed", source="common practice, no source", needs="data")
def data_pair_crossed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a CAN-H that arrives at a CAN-L: of the plug's other half, or of a unit that is joined on.

    Why it matters: the unit hears nothing but errors; it stays off the bus, and may disturb the others.

    Example: a loom's two data wires are crossed between its ends.

    What to do: exchange the two wires at the place named.

    Known limits: both wires shorted together are told as G12.

    Source: common practice, no source.
    """
    made: dict[frozenset[str], Fault] = {}
    for what, first, second in bus_troubles(wiring):
        if what != "crossed":
            continue
        sign = wiring.contact(first).function.sign
        met = meeting(wiring, first, second, partial(_has, wiring, sign))
        near, far = wiring.words(met.near), wiring.words(second)
        at = Spot(place_of(wiring, met.conductor, met.near), near)
        owners = frozenset(wiring.contact(name).owner for name in (met.near, second))
        about = (first, met.near, second)
        before = made.get(owners)
        if before is not None:
            made[owners] = before._replace(about=before.about + about, also=(*before.also, at))
            continue
        made[owners] = Fault(
            at=at,
            message=f"{near} arrives at {far}: high and low are swapped, and the unit stays off the bus.",
            do="Exchange the two wires of the pair there.",
            about=about,
            path=wiring.way_in_words(first, met.hops),
        )
    yield from made.values()


def _has(wiring: Wiring, sign: str, name: str) -> bool:
    contact = wiring.contact(name)
    return contact.function.sign == sign and contact.kind != "loom"
