"""A20."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A20", Severity.FIX, "Chart read half a turn round",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def half_turn(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose tones go with its chart when the face is turned half round: the first cavity
    is the last, in rows and in columns.

    Why it matters: a plug held with the latch down shows the same picture as one with the latch up, and every
    number is another wire.

    Example: in two rows of eight FL is charted at 1/2 and answers at 16/15.

    What to do: look at which edge the page has the latch, and how you held the plug; correct the chart, and tone
    the used pairs as corrected.

    Known limits: it needs the face. In a single row half a turn is the same as the mirrored view, and is told as
    that (A02).

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A20")
