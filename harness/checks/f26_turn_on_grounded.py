"""F26."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.twelve_volts import gives_turn_on, turn_on_wires
from harness.finding import Severity, Spot
from harness.graph.meeting import grounded_nets, is_ground, meeting, place_of
from harness.graph.wiring import Wiring


@check("F26", Severity.STOP, "Turn-on, aerial or lamp wire on ground", source="common practice, no source")
def turn_on_grounded(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a wire that carries 12 V by switch (AMP-ON, AERIAL, ILL, a unit's turn-on output) in one net
    with ground as planned.

    Why it matters: the output behind it is shorted when it switches on; a radio's turn-on output has no fuse of
    its own.

    Example: the loom's blue/white lead goes onto the ground bolt together with the black one.

    What to do: undo the joint named.

    Known limits: a lamp wire that is switched to ground by the car itself must be written as `unknown`.

    Source: common practice, no source.
    """
    told: set[int] = set()
    grounded = grounded_nets(wiring)
    for name in turn_on_wires(wiring):
        number = wiring.planned.net_number(name)
        if number in told or number not in grounded:
            continue
        told.add(number)
        ground = wiring.planned.nearest(name, lambda other: is_ground(wiring, other))
        met = meeting(wiring, name, ground, lambda other: gives_turn_on(wiring, other))
        if met.conductor is None:
            continue
        yield Fault(
            at=Spot(place_of(wiring, met.conductor, met.near), wiring.words(met.at)),
            message=f"{wiring.words(met.near)} reaches {wiring.words(ground)}: it is shorted when it switches on.",
            do=f"Part {wiring.words(met.at)} from {wiring.words(ground)} before anything is powered.",
            about=(met.near, ground),
            path=wiring.way_in_words(name, met.hops),
        )
