"""F22."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import GROUND, Wiring


@check("F22", Severity.STOP, "Battery feed and ground in one net", source="common practice, no source")
def battery_meets_ground(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a battery feed (B+, 30, the post) that conducts to ground as planned.

    Why it matters: it is a short across the battery. It burns, before the fuse if the joint is upstream of it.

    Example: a loom's yellow lead and its black lead are twisted into one splice.

    What to do: undo the joint named.

    Known limits: current through a unit is not a short here; only what is joined counts.

    Source: common practice, no source.
    """
    told: set[int] = set()
    for name, contact in wiring.job.contacts.items():
        if contact.function.kind != "battery" or contact.kind == "run":
            continue
        number = wiring.planned.net_number(name)
        if number in told:
            continue
        net = wiring.planned.net(name)
        ground = next((other for other in net if wiring.role(other) == GROUND), "")
        if not ground:
            continue
        told.add(number)
        reached = wiring.planned.around(name)
        ground = next(other for other in reached if wiring.role(other) == GROUND)
        hops = wiring.planned.path(name, ground)
        blamed = wiring.blame(hops)
        place = blamed.place if blamed else contact.place
        at = wiring.words(blamed.a) if blamed else contact.words
        yield Fault(
            at=Spot(place, at),
            message=f"{contact.words} reaches {wiring.words(ground)} through {at}: a short across the battery, it burns.",
            do=f"Undo the joint at {at} before anything is powered.",
            about=tuple(net),
            path=wiring.way_in_words(name, hops),
        )
