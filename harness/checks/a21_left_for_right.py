"""A21."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A21", Severity.FIX, "Left for right in the chart",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def left_for_right(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose tones go with its chart when left and right change places in all its
    channels, front and rear.

    Why it matters: a page that names the sides as seen from the front of the car, or that was copied for a car with
    the wheel on the other side, has each channel at the other's wires. Balance then works backwards, and a
    processor delays the wrong side.

    Example: FL is charted at 1/9, and the right front speaker answers there; RR is charted at 11/3, and the left
    rear one answers.

    What to do: see what the page means by left: a seat facing forward counts. Correct the chart, and tone the used
    pairs as corrected.

    Known limits: where only one left and one right channel are charted, the two pairs exchanged (A23) are the same.
    A crossing in the car's own wiring sounds the same as one in the chart.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A21")
