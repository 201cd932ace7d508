"""J07."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J07",
    Severity.ASK,
    "Evidence no longer holds",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def stale_evidence(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record that rests on a row which was changed later, or that names what is no longer in
    the job.

    Why it matters: a tone of the old row proves nothing of the new one; without this it would go on counting.

    Example: pair 7/8 was toned, then cavity 7 was corrected to another colour.

    What to do: tone, read or look again, and record it; the old record stays where it is.

    Known limits: a record without `fact` is held against nothing but its names. A newer record of the same
    kind about the same thing settles it.

    Source: common practice, no source.
    """
    newer: set[tuple[str, str]] = set()
    for record in reversed(wiring.job.records):
        thing = (record.verb, record.what.lower())
        if record.stale and thing not in newer:
            yield Fault(
                at=Spot(record.place, record.what),
                message=f"The record of {record.what} ({record.verb}, {record.signed or 'unsigned'}) no longer holds: "
                f"{record.stale}. It proves nothing of the job as it is now.",
                do="Do it again as the job is now, and record it; the old line stays.",
                about=record.contacts,
            )
        newer.add(thing)
