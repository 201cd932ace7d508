"""A06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.rows import one_function_twice, row_contacts, row_words
from harness.graph.wiring import Wiring


@check("A06", Severity.FIX, "One function, two cavities", source="common practice, no source")
def one_function_two_cavities(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: one function charted at two cavities of the same plug.

    Why it matters: either the wire is doubled, and opening one of the two opens nothing, or one of the rows
    is wrong and another wire is taken for it.

    Example: cavities 5 and 9 are both charted as the left front +.

    What to do: plug off, meter between the two. About 0 ohm: doubled; both must be opened. Open: one row is
    wrong; tone both.

    Known limits: ground, battery and shield may stand at several cavities, and so may SWC, ILL, SRS, HV and
    numbers for relays, where one word is used for wires that differ. A woofer and a tweeter of one channel
    are two functions. Several plugs of a car may carry the same function.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        for clash in one_function_twice(plug):
            before, after = clash.pairs[0]
            said = ", and ".join(f"{row_words(plug, b)} comes again at {row_words(plug, a)}" for b, a in clash.pairs)
            yield Fault(
                at=Spot(after.place, row_words(plug, after)),
                message=f"{said}: doubled, or one of the rows is another wire.",
                do=f"Plug off, meter {before.cavity} to {after.cavity}: 0 ohm is doubled; open: one row is wrong.",
                about=row_contacts(plug, *clash.rows),
                also=(Spot(before.place, row_words(plug, before)),),
            )
