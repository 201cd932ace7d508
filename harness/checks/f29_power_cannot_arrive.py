"""F29."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.cable import way_from_source
from harness.graph.shop import figure
from harness.graph.supply import feed_terminals, supply
from harness.graph.wiring import Wiring


@check(
    "F29",
    Severity.STOP,
    "The cables can't carry the power at all",
    source="maximum power transfer",
    by_joints=False,
    needs="runs",
)
def power_cannot_arrive(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: units that draw so much over cables so thin that no voltage at their terminals satisfies it.

    Why it matters: such a supply draws more and more as its volts sink, until something opens or glows. No number
    for this plan would be true, so none is given.

    Example: a supply of 2 kW that keeps its power, over 30 ft of 16 AWG.

    What to do: lay far thicker cable, or look for a length or a power written with a wrong unit.

    Known limits: a constant current collapses only where it would need less than 0 V.

    Source: the greatest power that arrives over a resistance R from a source of V is V²/4R (maximum power transfer,
    any handbook of circuits).
    """
    solved = supply(wiring)
    if solved is None:
        return
    volts = figure(wiring, "supply").words
    for unit in solved.collapsed:
        feed = feed_terminals(wiring)[unit][0]
        place = next(
            (each.place for each in wiring.job.segments if each.laid and each.b == feed), wiring.contact(feed).place
        )
        yield Fault(
            at=Spot(place, wiring.words(feed)),
            message=f"{unit} can't get its power over these cables from {volts}: its volts collapse, the cables burn.",
            do="Lay far thicker or shorter cable; look for a wrong unit in its length or its power first.",
            about=(feed,),
            path=way_from_source(wiring, feed),
        )
