"""J07."""

from collections.abc import Iterator

from harness.checks.recording import record_words
from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.outdated import outdated
from harness.graph.wiring import Wiring
from harness.model.evidence import STRUCK

_AGAIN = {
    "tone": "Tone it again", "polarity": "Find + again", "ohm": "Read the ohms again", "volts": "Read the volts again",
    "response": "Take the response again", "plays": "Play it again", "seen": "Look again", "built": "Look again",
    "checked": "Check it again",
}  # fmt: skip


@check("J07", Severity.ASK, "Stale evidence", source="common practice, no source", by_joints=False, needs="records")
def stale_evidence(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record that keeps in words what it rests on (`fact`), where the job now says otherwise of
    that cavity: function, colour, size, twist, or the side from which the plug is seen; or a record about what the job
    no longer names.

    Why it matters: the record proved another chart. Whoever counts it takes a wire for toned that nobody toned as it
    is charted now.

    Example: the tone of 1/9 was taken with cavity 1 charted FL + white, and cavity 1 is now charted as violet.

    What to do: take it again and add a record; where the edit was a slip, put the chart back. Of something renamed or
    taken out, add a record with `replaces` and the old name.

    Known limits: a record without `fact` rests on nothing but the names in it. A later record of the same kind about
    the same contacts stands in for it. A chart that was corrected to what the tone heard makes that tone no older.
    Other spellings of a colour or a size, notes, titles, places and other plugs make nothing stale.

    Source: common practice, no source.
    """
    for record in outdated(wiring):
        again = _AGAIN.get(record.verb, "Do it again")
        if record.verb == STRUCK:
            do = "Look which record was meant, and strike that: ringout record JOB strike LINE."
        elif record.contacts:
            do = f"{again} and add a record, or put the chart back if the change was a slip."
        else:
            do = f"{again} under its new name, in a record with `replaces: {record.what}`."
        yield Fault(
            at=Spot(record.place, record.what),
            message=f"{_capital(record_words(wiring, record))} can't be counted any more: {record.stale}. It "
            "proves nothing of the job as it is now.",
            do=do,
            about=record.contacts,
        )


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
