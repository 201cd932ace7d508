"""E07."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.back_feed import tied
from harness.graph.meeting import place_of
from harness.graph.wiring import Wiring


@check("E07", Severity.FIX, "Two turn-on sources feed each other", source="common practice, no source")
def two_sources_back_feed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit's turn-on output in one net with another source of 12 V, another unit's output or a
    feed of the car, that it did not share as found.

    Why it matters: each keeps alive what the other wakes. ACC holds the processor's output up, the output feeds
    whatever else hangs on ACC, and neither goes to sleep as it should.

    Example: the processor's rem-out and the ACC lead are both joined to the amplifier's rem, to be sure.

    What to do: use one of them. Where both are wanted, put a diode in each, or let one switch a relay.

    Known limits: two feeds of the car's own plug are told by another code. A relay's contact that is tied to an
    output isn't looked at.

    Source: common practice, no source.
    """
    for each in tied(wiring):
        output, other = each.output.contact, each.other.contact
        yield Fault(
            at=Spot(place_of(wiring, each.met.conductor, each.met.near), wiring.words(each.met.at)),
            message=f"{wiring.words(output)} and {wiring.words(other)} are tied: each feeds the other backwards and "
            "keeps awake what it should not.",
            do="Use one of them; where both are wanted, a diode in each or a relay.",
            about=tuple(dict.fromkeys((output, other, *(hop.contact for hop in each.met.hops)))),
            path=wiring.way_in_words(output, each.met.hops),
        )
