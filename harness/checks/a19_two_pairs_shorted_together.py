"""A19."""

from __future__ import annotations

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "A19",
    Severity.STOP,
    "Two pairs shorted together",
    source="a meter guide: two wires that meet nowhere must read open, seen 2026; common practice, no source",
    by_joints=False,
    needs="ohm records",
    bases=("wires by meter",),
)
def two_pairs_shorted_together(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading below 1 ohm between cavities of two speaker pairs, on the car's side, that the
    chart doesn't have on one wire.

    Why it matters: two outputs work into each other through it. Somebody spliced here before, or two wires have worn
    through where they lie together.

    Example: cavities 3 and 7 belong to left front and right rear and read 0.1 ohm.

    What to do: join neither pair. Look for a splice of an earlier job, part it, and read all four wires to each other.

    Known limits: the last reading between two contacts counts. Between 1 ohm and open two pairs don't touch, and
    the reading may be that of a speaker: then the pairs may be charted wrongly. A
    reading between other than speaker wires is told as H15.

    Source: two wires that meet nowhere must read open, and any continuity is a short (a meter guide, seen 2026); that
    wires that meet in the car read less than 1 ohm: 15 ft of No. 24 each way, 0.77 ohm (a handbook's wire table).
    """
    # few jobs have such records
    from harness.graph.readings import TOUCHING_OHM, less_than_drawn, pair_readings, wire_of
    from harness.graph.speaker_readings import of_two_pairs

    for reading in pair_readings(wiring):
        a, b = reading.contacts
        if of_two_pairs(wiring, reading) and less_than_drawn(wiring, reading, a, b, TOUCHING_OHM):
            words = f"{wiring.words(a)} and {wiring.words(b)}"
            yield Fault(
                at=Spot(reading.record.place, words),
                message=f"{words} read {reading.words} to each other and belong to two pairs: two outputs would "
                "work into each other.",
                do="Join neither pair. Look for a splice of an earlier job or a worn place, part the two, and read "
                "them to each other once more.",
                about=reading.contacts,
                path=wire_of(wiring, a),
            )
