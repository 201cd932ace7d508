"""G09."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring

_NEVER = frozenset(("unknown", "data", "restraint", "high voltage", "optical", "digital", "control", "mic"))


@check(
    "G09",
    Severity.STOP,
    "Test lamp on an unidentified or data wire",
    source="a basic electronics guide and a trade exam's answer, seen 2026",
    by_joints=False,
    needs="records",
)
def test_lamp_used(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record that was taken with a test lamp at a wire whose function isn't known, or at data
    or restraint wiring.

    Why it matters: the lamp's current fires an airbag, or spoils a data line and what hangs on it.

    Example: an unknown cavity under the seat was tried with a lamp.

    What to do: put the lamp away; a digital meter only. Where restraint wiring may have been touched: battery
    off, wait, and a licensed person's look.

    Known limits: only what is recorded is seen: `tool: lamp` (also `test lamp`).

    Source: test lamps can fire an airbag (a basic electronics guide, seen 2026); not recommended for
    measuring in a vehicle (a trade exam, seen 2026).
    """
    for record in wiring.job.records:
        if "lamp" not in record.word("tool").lower().split():
            continue
        touched = [name for name in record.contacts if wiring.contact(name).function.kind in _NEVER]
        if not touched:
            continue
        words = " and ".join(wiring.words(name) for name in touched)
        yield Fault(
            at=Spot(record.place, words),
            message=f"A test lamp was held on {words}: its current fires an airbag or spoils a data line.",
            do="Digital meter only. If it may have been restraint wiring: battery off, wait, have it looked at.",
            about=tuple(touched),
        )
