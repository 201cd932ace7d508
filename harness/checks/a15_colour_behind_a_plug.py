"""A15."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recoloured import uncoloured_beyond
from harness.graph.whole_wire import through_cavity
from harness.graph.wiring import Wiring


@check(
    "A15",
    Severity.NOTE,
    "Colour behind an inline plug not written",
    source="common practice, no source",
    needs="found chains",
)
def colour_behind_a_plug(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a wire of the car that passes an inline plug and is joined, cut or toned behind it, while the
    job has its colour before the plug and none behind it.

    Why it matters: makers change colours at a door boot or a pillar. Whoever opens the trim next looks for the colour
    on the sheet, doesn't find it, or finds it on another wire.

    Example: left front is green at the radio and passes the door boot C204; an output is joined there, and nobody
    wrote that the wire is blue in the door.

    What to do: look at the wire behind the plug and write its colours after the plug's cavities: `C204.7/8 BU BU/BK`.
    Write them too where they stay the same.

    Known limits: told once a plug. A plug further on whose rows have colours says them as well. A joint at the
    speaker's own terminals, and a wire that only passes, aren't asked for.

    Source: common practice, no source.
    """
    for name, wires in uncoloured_beyond(wiring).items():
        first = wires[0]
        at = wiring.contact(first.segment.a)
        where = wiring.job.parts.plugs[name].where
        plug = f"{name} ({where})" if where else name
        cavities = [wiring.contact(each.segment.a).last for each in wires]
        several = f"cavities {', '.join(cavities[:-1])} and {cavities[-1]}" if len(wires) > 1 else f"cavity {at.last}"
        places = {each.segment.place: wiring.words(each.segment.a) for each in wires}
        yield Fault(
            at=Spot(first.segment.place, wiring.words(first.segment.a)),
            message=f"{plug} {several}: {first.before.words} before the plug, no colour written "
            f"behind it, and {first.what}. The next one looks for {first.before.words}.",
            do=f"Look at the wire behind {name} and write its colour there: `{name}.{at.last} "
            f"{first.before.short}` if it stays the same.",
            about=tuple(end for each in wires for end in (each.segment.a, each.segment.b)),
            also=tuple(Spot(place, words) for place, words in places.items()),
            path=through_cavity(wiring, name, at.last),
        )
