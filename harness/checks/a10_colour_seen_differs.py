"""A10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding
from harness.graph.wiring import Wiring
from harness.model.colour import UNKNOWN, read_colour
from harness.model.evidence import Record


@check(
    "A10",
    Severity.ASK,
    "Colour seen differs from the chart",
    source="common practice, no source",
    by_joints=False,
    needs="record seen",
)
def colour_seen_differs(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a cavity whose wire was seen in another colour than its chart has (`seen: dash.car.3,
    colour: GN`).

    Why it matters: a faded stripe is harmless; another colour is the first sign of another variant, and of a
    cut in the wrong wire.

    Example: cavity 3 is charted green with yellow stripe, and the wire there is plain green.

    What to do: look again with a lamp; tone the pair before you cut. Is it another colour, correct the row.

    Known limits: the last sighting of a cavity counts. A colour code that nobody explained (A11), and a row
    without a colour, are compared with nothing.

    Source: common practice, no source.
    """
    last: dict[str, Record] = {}
    for record in holding(wiring, "seen"):
        for name in record.contacts if len(record.contacts) == 1 else ():
            last[name.replace(".unit.", ".car.", 1)] = record
    for name, record in last.items():
        charted, seen = wiring.contact(name).colour, read_colour(record.word("colour"))
        if charted is None or seen is None or charted.unread or seen.unread or UNKNOWN in (charted.base, seen.base):
            continue
        if (charted.base, charted.stripe) == (seen.base, seen.stripe):
            continue
        words = wiring.words(name)
        faded = charted.base == seen.base
        yield Fault(
            at=Spot(record.place, words),
            message=f"{words} was seen {seen.words}, and is charted {charted.words}: "
            f"{'a faded stripe, or another variant' if faded else 'another wire, or another variant'}.",
            do="Tone it before you cut or join anything there, and correct the row if the wire is right.",
            about=(name,),
            also=(Spot(wiring.contact(name).place, words),),
        )
