"""A10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.colour import UNKNOWN, Colour, read_colour
from harness.model.evidence import Record


@check(
    "A10",
    Severity.ASK,
    "Colour seen differs from the chart",
    source="common practice, no source",
    by_joints=False,
    needs="seen records",
)
def colour_seen_differs(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record of a colour seen at a cavity or lead, where the chart has another one, or
    says that the cavity is empty.

    Why it matters: a chart of another variant has its functions elsewhere too. One wrong colour is the cheapest
    sign of it, and comes before anything is cut.

    Example: cavity 3 is charted green with a yellow stripe, and the wire in it is plain green.

    What to do: tone the pair or meter the wire before anything is cut. Right: correct the colour in the chart. Wrong:
    find the chart of this car.

    Known limits: the last record of a contact counts. Stripe, rings and dots aren't told apart. A letter code that
    wants a legend is compared only as it is written. Of a pair both colours are written, + first; with one colour only
    the first wire is compared.

    Source: common practice, no source.
    """
    last: dict[str, tuple[Record, str]] = {}
    for record in wiring.job.records:
        if record.verb == "seen" and not record.stale:
            for name, text in zip(record.contacts, record.word("colour").split(), strict=False):
                last[name] = (record, text)
    for name, (record, text) in last.items():
        charted, seen = wiring.contact(name).colour, read_colour(text)
        if wiring.contact(name).function.kind == "empty" and seen is not None:
            words = wiring.words(name)
            yield Fault(
                at=Spot(record.place, words),
                message=f"{words} is charted empty, and a wire was seen there, {seen.words}: somebody added it, or the "
                "chart is another variant's.",
                do="Follow the wire or meter it before anything is cut, and write it into the chart; else find the "
                "chart of this car.",
                about=(name,),
                also=(Spot(wiring.contact(name).place, words),),
            )
            continue
        if charted is None or seen is None or _alike(charted, seen):
            continue
        words = wiring.words(name)
        yield Fault(
            at=Spot(record.place, words),
            message=f"{words} is charted {charted.words}, and {_as_seen(seen)} was seen: "
            f"{_why(charted, seen)}, or the chart of another variant.",
            do="Tone or meter this wire before anything is cut. If the chart is right but for the colour, correct its "
            "row; else find the chart of this car.",
            about=(name,),
            also=(Spot(wiring.contact(name).place, words),),
        )


def _alike(charted: Colour, seen: Colour) -> bool:
    if UNKNOWN in (charted.base, seen.base):
        return True  # nothing is said that could differ
    return (charted.base.upper(), charted.stripe.upper()) == (seen.base.upper(), seen.stripe.upper())


def _as_seen(seen: Colour) -> str:
    return seen.words if seen.stripe else f"plain {seen.words}"


def _why(charted: Colour, seen: Colour) -> str:
    """What else than a wrong chart would explain it."""
    if charted.base == seen.base and not seen.stripe:
        return "a stripe that faded"
    if charted.base == seen.base and not charted.stripe:
        return "a stripe that the chart left out"
    if (charted.base, charted.stripe) == (seen.stripe, seen.base):
        return "base and stripe exchanged"
    return "another wire"
