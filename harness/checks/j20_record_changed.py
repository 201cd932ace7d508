"""J20."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J20",
    Severity.ASK,
    "Record changed after it was sealed",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def record_changed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record whose seal is not that of its line, or whose seal before it is missing: it was
    changed, or one was taken out.

    Why it matters: evidence that can be rewritten proves nothing; a slip of an editor looks the same as a
    lie.

    Example: `heard: RR` was overwritten with `heard: FL` in the evidence file.

    What to do: do again what the line is about, and record it anew; leave old lines alone.

    Known limits: a seal is a digest and no signature: who can write the file can write seals. Lines without a
    seal were written by hand and are not told.

    Source: common practice, no source; the digest is SHA-256 (FIPS 180-4).
    """
    for record in wiring.job.records:
        if record.broken:
            yield Fault(
                at=Spot(record.place, record.what),
                message=f"The record of {record.what} ({record.verb}) no longer fits its seal: it was changed, or a "
                "line before "
                "it was taken out.",
                do="Do again what it is about and record it anew; leave old lines alone.",
                about=record.contacts,
            )
