"""A09."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.alike import alike
from harness.graph.rows import row_contacts, row_words
from harness.graph.wiring import Wiring
from harness.model.contact import printed


@check("A09", Severity.ASK, "Colour not unique", source="workshop manual, maker withheld; common practice, no source")
def colour_not_unique(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a wire of a plug that is joined, cut or tapped by hand, and another wire of the same plug in
    the same colours, for another function.

    Why it matters: behind the radio a person picks a wire by its colour. Where two look alike, the wrong one is cut
    every other time; within a pair that turns the speaker round.

    Example: cavities 3 and 11 are both green, and a tap is soldered to cavity 3.

    What to do: work from the cavity: find the number at the housing, mark the wire there, then cut. Write the mark in
    the row, `{function: FL, colour: GN GN, note: + has a white sleeve}`; the plug sheet prints it.

    Known limits: told once a colour of a plug. Wires on which only a loom is plugged in aren't picked by colour, and
    the leads of a loom are metered from cavity to lead. Two wires of one function, as two grounds, or of one circuit
    as found may be mistaken for each other. Only written colours are compared, and not those at inline plugs. A note
    at one of two rows is taken to say how they are told apart.

    Source: a workshop manual, maker withheld, sends its reader to the view of the plug for this reason; common
    practice, no source.
    """
    for group in alike(wiring):
        plug = group.plug
        row, work = group.worked[0]
        colour = row.colour.words if row.colour is not None else ""
        listed = [f"{each.cavity} ({printed(each.function.name)})" for each in group.rows]
        places = {done.place: row_words(plug, each) for each, done in group.worked}
        places |= {each.place: row_words(plug, each) for each in group.rows}
        yield Fault(
            at=Spot(work.place, row_words(plug, row)),
            message=f"{plug.name} has {len(group.rows)} wires in {colour}, cavities {', '.join(listed[:-1])} and "
            f"{listed[-1]}: colour cannot tell them apart, and at {row.cavity} {work.words}.",
            do="Work from the cavity: mark the wire at the housing before you cut or join it, and write the mark as "
            "`note:` in its row.",
            about=row_contacts(plug, *group.rows),
            also=tuple(Spot(place, words) for place, words in places.items()),
        )
