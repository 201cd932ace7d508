"""C02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.conductor import JOINT
from harness.graph.live import outside, seen_at
from harness.graph.loops import Return, returns
from harness.graph.state import hops_to
from harness.graph.wiring import Wiring


@check("C02", Severity.STOP, "Output returned to its own input", source="common practice, no source")
def output_on_own_input(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output on the wire of an input that it is made from, at once or through further
    units.

    Why it matters: the unit amplifies its own output; it howls at full power, and the source that drives
    the same wire is driven backwards.

    Example: the factory wire is tapped for the amplifier's input and the amplifier's output is joined to
    the same uncut wire.

    What to do: a tap is not enough here. Open the wire: radio side to the input, speaker side to the
    output.

    Known limits: where the unit's `routes` are written, only the inputs routed to that output count. An output
    that the unit itself joins to an input's wire (`bonds`) gives what comes in, and is no return.

    Source: common practice, no source.
    """
    for found in returns(wiring):
        yield _told(wiring, found)


def _told(wiring: Wiring, found: Return) -> Fault:
    out, into = found.output, found.input
    hops = hops_to(outside(wiring, out), into)
    blamed = wiring.blame(hops)
    place = blamed.place if blamed else wiring.contact(out).place
    further = [hop.conductor for hop in hops if hop.conductor.kind == JOINT]
    on_the_way = f" through {' and '.join(found.units)}" if found.units else ""
    return Fault(
        at=Spot(place, wiring.words(out)),
        message=(
            f"{wiring.words(out)} is joined to {wiring.words(into)}, which it is made from{on_the_way}: "
            "it amplifies itself and howls at full power."
        ),
        do="Open that wire: source side to the input, speaker side to the output; a tap is not enough.",
        about=(out, into, *found.terminals),
        also=tuple(Spot(c.place, wiring.words(seen_at(wiring, c, out))) for c in further),
        path=wiring.way_in_words(out, hops),
    )
