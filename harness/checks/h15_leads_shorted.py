"""H15."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import read_as_one
from harness.graph.wiring import Wiring


@check(
    "H15",
    Severity.STOP,
    "Leads shorted together",
    source="common practice, no source",
    by_joints=False,
    needs="record ohm",
)
def leads_shorted(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: two leads or terminals of a loom or unit that read as one with the speakers unplugged, and
    are not one wire in the plan.

    Why it matters: an output that is switched on into it is shorted; a feed beside it burns the loom.

    Example: after a terminal was put back, cavities 4 and 5 of the loom read 0.2 ohm.

    What to do: pull both terminals, look for a stray strand or one terminal in two cavities' way, and read
    again.

    Known limits: only readings of which `unplugged` names something count: a speaker that is still on reads
    low by right. One ohm or less is one wire.

    Source: common practice, no source: the last look before power is a reading of each pair with the speakers
    off.
    """
    for record, one, other in read_as_one(wiring):
        if not record.word("unplugged"):
            continue
        if one.kind not in ("loom", "unit") or wiring.planned.joined(one.name, other.name):
            continue
        words = f"{wiring.words(one.name)} and {wiring.words(other.name)}"
        yield Fault(
            at=Spot(record.place, words),
            message=f"{words} read {record.word('reads')} with {record.word('unplugged')} unplugged: they are shorted, "
            "and power on them burns something.",
            do="Power nothing; pull both terminals, look for a stray strand, and read again.",
            about=(one.name, other.name),
        )
