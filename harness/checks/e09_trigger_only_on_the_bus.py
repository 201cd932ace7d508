"""E09."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.graph.woken import dead_ends, names, nothing_gives


@check("E09", Severity.ASK, "Turn-on only by the bus", source="common practice, no source", by_joints=False)
def trigger_only_on_the_bus(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit that wants 12 V on a lead, in a car in which no plug of the job has a switched or
    turn-on wire and no unit gives one.

    Why it matters: such a car wakes its units by data. There is no lead to take, and which way round it is chosen
    decides whether the car still goes to sleep.

    Example: the radio's plug has B+, ground and the bus; the amplifier wants 12 V on its rem.

    What to do: choose signal sensing, an interface on the bus that gives a turn-on, or a switched feed elsewhere in
    the car, and measure that the car goes to sleep.

    Known limits: only what is written of the plugs is known. An aerial feed or a lamp wire doesn't count.

    Source: common practice, no source.
    """
    if not nothing_gives(wiring):
        return
    ends = dead_ends(wiring)
    first = ends[0]
    wakes = [wake for each in ends for wake in each.wakes]
    contacts = dict.fromkeys(wake.contact for wake in wakes)
    yield Fault(
        at=Spot(wiring.contact(wakes[0].contact).place, wiring.words(wakes[0].contact)),
        message=f"{names(map(wiring.words, contacts))} {'wants' if len(contacts) == 1 else 'want'} 12 V, and neither a "
        "plug written here nor a unit has a switched or turn-on wire: the car wakes its units by the bus.",
        do="Choose: signal sensing, an interface with a turn-on output, or another switched feed. Measure the sleep.",
        about=(*contacts, first.end),
        also=tuple(Spot(wiring.contact(name).place, wiring.words(name)) for name in list(contacts)[1:]),
        path=first.way.path,
    )
