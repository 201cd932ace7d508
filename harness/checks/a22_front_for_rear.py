"""A22."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A22", Severity.FIX, "Front for rear in the chart",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def front_for_rear(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose tones go with its chart when front and rear change places in all its
    channels, left and right.

    Why it matters: the fader then works backwards, and what is planned for the front speakers is done to the rear
    ones.

    Example: FL is charted at 1/9, and the left rear speaker answers there; RR is charted at 11/3, and the right
    front one answers.

    What to do: look which pairs the page calls front, correct the chart, and tone the used pairs as corrected.

    Known limits: where only one front and one rear channel are charted, the two pairs exchanged (A23) are the same.
    A crossing in the car's own wiring sounds the same as one in the chart.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A22")
