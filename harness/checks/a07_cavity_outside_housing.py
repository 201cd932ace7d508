"""A07."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.rows import cavities_missing, row_contacts, row_words
from harness.graph.wiring import Wiring


@check("A07", Severity.FIX, "Cavity outside the housing", source="common practice, no source")
def cavity_outside_housing(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a row whose cavity the plug's housing has not, by its face or by its number of ways.

    Why it matters: the chart is for another plug, or it counts otherwise; then every row is in doubt and not
    this one alone.

    Example: a plug of 16 ways with a row for cavity 17.

    What to do: count the cavities of the plug in hand, look at its number and its latch, and correct the row
    or the housing.

    Known limits: where the face is given by rows and columns, and where only the ways are given, cavities
    with letters (A5) can't be judged; they are where the numbers are drawn. Leading zeros don't matter. A
    chart that counts from 0 is taken at its word.

    Source: common practice, no source.
    """
    for plug in wiring.job.parts.plugs.values():
        has, rows = cavities_missing(plug)
        if not rows:
            continue
        spots: dict[object, Spot] = {}
        for row in rows:
            spots.setdefault(row.place, Spot(row.place, row_words(plug, row)))
        at, *also = spots.values()
        named = ", ".join(row.cavity for row in rows)
        yield Fault(
            at=at,
            message=f"{plug.name} has {has}; the chart uses {named} ({at.name}): another plug or another count.",
            do=f"Count {plug.name} in the hand and compare its housing with the chart's before you go by any row.",
            about=row_contacts(plug, *rows),
            also=tuple(also),
        )
