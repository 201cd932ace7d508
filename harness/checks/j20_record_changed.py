"""J20."""

from collections.abc import Iterator

from harness.checks.recording import record_words
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J20",
    Severity.ASK,
    "A record was changed after it was sealed",
    source="the seal is SHA-256, FIPS 180-4; that records aren't changed: common practice, no source",
    by_joints=False,
    needs="records",
)
def record_changed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record whose seal isn't that of its line and of the record sealed before it.

    Why it matters: records are added and never changed. One that was changed says what somebody wished later; and
    where one was taken out, a trial that failed may be what is missing.

    Example: `heard: FR` became `heard: FL` in an editor, a day after the tone.

    What to do: put the line back as it was, from the bundle, the backup or the print. What was wrong in it is put
    right by a new record below it.

    Known limits: a record without `seal`, written by hand, isn't looked at. Whoever rewrites the file from there to its
    end can seal it anew, and the last records can be taken away without a trace: a seal is no signature. Of a record
    taken out the next sealed one is told. No later record answers it, nor one that strikes it; a job can be released
    over it by a signature.

    Source: SHA-256, FIPS 180-4; that records aren't changed is common practice, no source.
    """
    # one that was struck may have said something else when it was
    taken_back = [each.record for each in wiring.job.struck]
    for record in sorted((*wiring.job.records, *taken_back), key=lambda each: each.place.line):
        if record.unsealed:
            words = record_words(wiring, record)
            yield Fault(
                at=Spot(record.place, record.what),
                message=f"{words[:1].upper()}{words[1:]} no longer has the right seal: it was changed since it was "
                "written, or a record before it was taken out.",
                do="Put the line, or the missing one, back as it was, and write what was wrong in a new record.",
                about=record.contacts,
            )
