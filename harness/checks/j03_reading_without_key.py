"""J03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.model.evidence import Record


@check(
    "J03",
    Severity.ASK,
    "Volts without the state of the key",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def reading_without_key(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading in volts of which nobody wrote in which state of the key it was taken.

    Why it matters: 12.1 V with the key out is a constant feed, with the key in run perhaps an ACC wire. Without the
    state the reading can't be taken again, and nothing can be built on it.

    Example: `volts: dash.car.2, reads: 12.1 V`.

    What to do: read again in each state that matters and write `key`: out, accessory, run, crank, engine or locked.

    Known limits: the level of a signal (`signal` or `step` written) needs no key, as something played. A later reading
    of the same contact with `key` answers it. The reading itself isn't judged here.

    Source: common practice, no source.
    """
    asked: dict[tuple[str, ...], Record] = {}
    for record in wiring.job.records:
        if record.verb != "volts" or record.stale or record.word("signal") or record.word("step"):
            continue
        if record.word("key"):
            asked.pop(record.contacts, None)
        else:
            asked[record.contacts] = record
    for record in asked.values():
        words = wiring.words(record.contacts[0]) if record.contacts else record.what
        reads = record.word("reads") or "no value"
        yield Fault(
            at=Spot(record.place, words),
            message=f"{words}: {reads}, and nobody wrote when. Key out, accessory, run, crank or engine on? The same "
            "wire reads otherwise in each.",
            do="Read it once more with the key in each state that matters, and add records with `key`.",
            about=record.contacts,
        )
