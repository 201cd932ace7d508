"""A19."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import read_as_one
from harness.graph.wiring import Wiring


@check(
    "A19",
    Severity.STOP,
    "Two pairs shorted together",
    source="common practice, no source",
    by_joints=False,
    needs="record ohm",
)
def two_pairs_shorted(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: two wires of different speaker pairs of a plug that read as one, and are not one wire in
    the car as found.

    Why it matters: two outputs are tied together as soon as the amplifier is on: one or both fail.

    Example: cavities 3 and 7 belong to different speakers and read 0.1 ohm: an older splice behind the kick
    panel.

    What to do: connect neither. Find the old splice or the rub, part them, and read again.

    Known limits: one ohm or less is one wire. The last reading of two cavities counts; pairs that share a
    wire in the job are not told.

    Source: common practice, no source: a reading of about nothing between two circuits is a joint.
    """
    for record, one, other in read_as_one(wiring):
        if one.kind != "plug" or other.kind != "plug":
            continue
        if not (one.function.kind == other.function.kind == "audio") or one.function.base == other.function.base:
            continue
        if wiring.found.joined(one.name, other.name):
            continue
        words = f"{wiring.words(one.name)} and {wiring.words(other.name)}"
        yield Fault(
            at=Spot(record.place, words),
            message=f"{words} read {record.word('reads')}: two pairs are joined somewhere, and would tie two outputs.",
            do="Connect neither; find the old splice or the rub, part them and read again.",
            about=(one.name, other.name),
        )
