"""F19."""

from collections.abc import Callable, Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.exchanged import exchanged
from harness.graph.meeting import meeting, place_of
from harness.graph.wiring import Wiring


@check("F19", Severity.FIX, "Constant and switched feed exchanged", source="common practice, no source")
def constant_and_switched_exchanged(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit with both a B+ and an ACC or IGN terminal, whose B+ gets the car's switched feed, or
    whose switched terminal gets the constant one while its B+ gets none.

    Why it matters: the radio forgets its settings whenever the key is out, and what should sleep stays awake until
    the battery is flat.

    Example: the yellow and the red wire are crossed where the new radio's leads are joined.

    What to do: exchange the two joints, or take the other feed to the terminal named.

    Known limits: both terminals on the constant feed are no fault, as some plugs have no switched wire. A loom whose
    maker's list differs from the plug is told by its pins. What a relay makes of a feed is not judged.

    Source: common practice, no source.
    """
    for wrong in exchanged(wiring):
        met = [meeting(wiring, each.giver, each.terminal, _same_feed(wiring, each.giver)) for each in wrong]
        places = [place_of(wiring, each.conductor, each.near) for each in met]
        said = [f"{wiring.words(each.terminal)} gets {wiring.words(each.giver)}" for each in wrong]
        constant = wiring.contact(wrong[0].terminal).function.kind == "battery"
        outcome = " and ".join(("no memory",) * constant + ("a flat battery",) * (len(wrong) > 1 or not constant))
        terminals = " and ".join(wiring.words(each.terminal) for each in wrong)
        yield Fault(
            at=Spot(places[0], wiring.words(wrong[0].terminal)),
            message=f"{', and '.join(said)}: {outcome}.",
            do=f"Exchange the two wires at {terminals}." if len(wrong) > 1 else f"Take the other feed to {terminals}.",
            about=tuple(dict.fromkeys(name for each in met for name in (each.start, *(h.contact for h in each.hops)))),
            also=tuple(Spot(place, wiring.words(each.terminal)) for each, place in zip(wrong, places, strict=True)),
            path=wiring.way_in_words(wrong[0].giver, met[0].hops),
        )


def _same_feed(wiring: Wiring, giver: str) -> Callable[[str], bool]:
    """Whether a contact is a cavity of the kind of feed that the giver gives."""
    kind = wiring.contact(giver).function.kind
    return lambda name: wiring.contact(name).kind == "plug" and wiring.contact(name).function.kind == kind
