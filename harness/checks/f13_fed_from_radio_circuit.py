"""F13."""

from collections.abc import Callable, Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.cable import way_from_source
from harness.graph.meeting import meeting, place_of
from harness.graph.radio_circuit import fed_from_car
from harness.graph.wiring import Wiring


@check(
    "F13", Severity.STOP, "Amplifier fed from the radio's circuit", source="common practice, no source", by_joints=False
)
def fed_from_radio_circuit(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit of ours on a feed of the car's own plug that draws more than that circuit's fuse.

    Why it matters: the wire in the car's loom was made for the radio. It gets hot where nobody sees it, or the fuse
    takes the radio down with the amplifier.

    Example: an amplifier of 29 A on the yellow wire behind the radio, whose fuse is 15 A.

    What to do: run its own fused cable from the battery.

    Known limits: where `found` shows the circuit's fuse that counts, else 15 A. Of a constant feed and a switched one
    that are both joined the constant one carries what the unit draws. A unit whose draw can't be told is asked for on
    the list of what was not checked.

    Source: common practice, no source.
    """
    for each in fed_from_car(wiring):
        if each.draw.current_a <= each.rating_a * (1 + 1e-9):
            continue
        met = meeting(wiring, each.feed, each.cavity, _of_unit(wiring, each.draw.unit))
        said = "" if each.recorded else ", not recorded and taken as"
        yield Fault(
            at=Spot(place_of(wiring, met.conductor, met.near), wiring.words(each.feed)),
            message=f"{each.draw.unit} draws {each.draw.current_a:.3g} A from {wiring.words(each.cavity)}, whose "
            f"circuit has a fuse{said} of {each.rating_a:g} A: the car's wire gets hot where nobody sees it.",
            do="Run a fused cable of its own from the battery.",
            about=(each.feed, each.cavity),
            path=way_from_source(wiring, each.feed) if each.recorded else wiring.way_in_words(each.feed, met.hops),
        )


def _of_unit(wiring: Wiring, unit: str) -> Callable[[str], bool]:
    return lambda name: wiring.contact(name).owner == unit
