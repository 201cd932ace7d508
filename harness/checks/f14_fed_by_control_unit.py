"""F14."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.control_feed import Tap, taps
from harness.graph.meeting import place_of
from harness.graph.wiring import Wiring
from harness.place import Place


@check(
    "F14",
    Severity.STOP,
    "Feed taken from a control unit's supply",
    source="FCS 1362:2010 4.6, as quoted in the trade, seen 2026",
    by_joints=False,
)
def fed_by_control_unit(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a B+, ACC or IGN wire of a control unit that is joined to feed something else, be it only
    the coil of a relay.

    Why it matters: a control unit reads what its feed does. A few hundred milliamperes, or the spike of a coil, make
    it store faults, reset while driving, or fail.

    Example: a relay's 86 is joined to the IGN wire at the gateway's plug.

    What to do: take the feed from a fused accessory or battery circuit of its own.

    Known limits: the wire of a control unit is known from plugs whose `unit` or `car` is of kind control unit, up to
    the next fuse, battery or plug of another unit.

    Source: FCS 1362:2010 section 4.6, as quoted in the trade, seen 2026: never from a control unit's supply.
    """
    told: set[Place] = set()
    for tap in taps(wiring):
        place = place_of(wiring, tap.conductor, tap.cavity)
        if place in told:
            continue
        told.add(place)
        cavity, taker = wiring.words(tap.cavity), wiring.words(tap.taker)
        yield Fault(
            at=Spot(place, wiring.words(tap.near)),
            message=f"{taker} is fed from {cavity}, the supply of {tap.unit}, a control unit: it can reset or fail.",
            do=f"Part {wiring.words(tap.near)} from {_other(wiring, tap)}; take another feed.",
            about=(tap.near, tap.taker),
            path=wiring.way_in_words(tap.cavity, wiring.planned.path(tap.cavity, tap.taker)),
        )


def _other(wiring: Wiring, tap: Tap) -> str:
    """What is joined there; of a run what it feeds."""
    other = tap.conductor.other(tap.near)
    return wiring.words(other if wiring.contact(other).kind != "run" else tap.taker)
