"""B02."""

from collections.abc import Iterator

from harness.checks.b01_reversed import in_this_car, speaker_name, times, turn_spots, turn_words
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.polarity import cancelling
from harness.graph.walk import way_contacts
from harness.graph.wiring import Wiring


@check("B02", Severity.NOTE, "Reversals that cancel", source="common practice, no source")
def reversals_cancel(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a way to a speaker on which the pair is reversed an even number of times, two or more.

    Why it matters: it plays right. The next person finds one of the two, mends it, and makes the fault.

    Example: the loom's lead is joined turned round at the input, and the output is joined turned round too.

    What to do: put both right, or write down in the job's notes that the two belong together.

    Known limits: reversals by routes inside units count like those in wires. Where an inversion is asked for,
    a third reversal beside a cancelling two is not told.

    Source: common practice, no source.
    """
    for cause in cancelling(wiring):
        first, second = cause.turns[:2]
        names = " and ".join(dict.fromkeys(speaker_name(each) for each in cause.wrong))
        record = next((r for turn in cause.turns if (r := in_this_car(wiring, turn))), None)
        do = "Put both places right, or write on the sheet that they belong together."
        if record is not None:
            do = (
                f"Leave it: {record.what} is turned in this car ({record.signed}), and the plan turns it back. Whoever "
                "puts the speaker right undoes both. Not so on the next car."
            )
        yield Fault(
            at=Spot(cause.place, wiring.words(first.after)),
            message=(
                f"{names}: reversed {times(len(cause.turns))}, {turn_words(wiring, first)}, and again "
                f"{turn_words(wiring, second)}; it cancels, until somebody undoes one."
            ),
            do=do,
            about=tuple(c for each in cause.wrong for c in (each.receiver.plus, each.receiver.minus)),
            also=turn_spots(wiring, cause.turns[1:], cause.turns[:1]),
            path=way_contacts(wiring, cause.wrong[0].way),
        )
