"""G12."""

from collections.abc import Iterator
from functools import partial

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.bus import bus_troubles
from harness.graph.meeting import meeting, place_of
from harness.graph.wiring import Wiring
from harness.place import Place

_OUTCOMES = {
    "shorted": "the bus stops, and the car may not start",
    "stranger": "not its own bus: data stops and the other circuit is disturbed",
    "other bus": "two buses that were apart: both can stop",
}


@check(
    "G12",
    Severity.STOP,
    "Data pair shorted, or a data wire joined to what is not its own bus",
    source="common practice, no source",
    needs="data",
)
def data_wire_joined_to_stranger(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: both wires of a data pair in one net, or a data wire in one net with something else.

    Why it matters: the bus stops. With it go locks, lamps, sometimes the starter; the car may not move.

    Example: an interface's CAN-H and CAN-L leads are joined to the same wire of the plug.

    What to do: part them at the joint named.

    Known limits: two plugs on one and the same bus need their `found` chain, or they count as two buses.

    Source: common practice, no source.
    """
    told: dict[Place, Fault] = {}
    for what, first, second in bus_troubles(wiring):
        if what not in _OUTCOMES:
            continue
        sign = wiring.contact(first).function.sign
        met = meeting(wiring, first, second, partial(_same, wiring, sign))
        place = place_of(wiring, met.conductor, met.near)
        about = (first, met.near, second)
        if place in told:
            told[place] = told[place]._replace(about=told[place].about + about)
        else:
            told[place] = Fault(
                at=Spot(place, wiring.words(met.near)),
                message=f"{wiring.words(met.near)} meets {wiring.words(second)}: {_OUTCOMES[what]}.",
                do=f"Part {wiring.words(met.near)} from {wiring.words(second)}.",
                about=about,
                path=wiring.way_in_words(first, met.hops),
            )
    yield from told.values()


def _same(wiring: Wiring, sign: str, name: str) -> bool:
    return wiring.contact(name).function.sign == sign
