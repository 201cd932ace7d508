"""J03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding
from harness.graph.wiring import Wiring


@check(
    "J03",
    Severity.ASK,
    "Volts without the state of the key",
    source="common practice, no source",
    by_joints=False,
    needs="record volts",
)
def volts_without_key(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a reading in volts of a feed, turn-on or ground that doesn't say in which state the key
    was.

    Why it matters: 12.1 V with the key out is a battery, in accessory a switched feed, while cranking a good
    one: without the state it proves nothing.

    Example: `volts: dash.unit.7, reads: 12.1 V` and no `key`.

    What to do: read it again and write `key: out`, accessory, run, crank, engine or locked.

    Known limits: levels of a signal (`signal` or `step` written) need none. A later reading of the same
    contact with its state settles it.

    Source: common practice, no source: workshop tables give each value with its condition.
    """
    settled: set[str] = set()
    found = []
    for record in reversed(list(holding(wiring, "volts"))):
        if record.word("key") or record.word("signal") or record.word("step"):
            settled.add(record.what.lower())
        elif record.what.lower() not in settled:
            settled.add(record.what.lower())
            found.append(record)
    for record in reversed(found):
        words = " and ".join(wiring.words(name) for name in record.contacts) or record.what
        yield Fault(
            at=Spot(record.place, words),
            message=f"{words} was read with {record.word('reads') or 'some volts'}, and nobody wrote where the key "
            "was: it "
            "proves nothing.",
            do="Read it again and write `key:` out, accessory, run, crank, engine or locked.",
            about=record.contacts,
        )
