"""A23."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A23", Severity.FIX, "Pair exchanged in the chart",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def pairs_exchanged(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose tones go with its chart when two of its pairs change places, or when one pair
    is at two cavities that the chart leaves free.

    Why it matters: one slip in copying a page puts each of two channels at the other's wires, and the rest of the
    chart, which is right, makes it look trustworthy.

    Example: FL and RR answer at each other's cavities; FR and RL answer where they are charted.

    What to do: look at the two rows of the page, correct the chart, and tone both pairs as corrected.

    Known limits: one exchange is looked for, not two at once. The other pairs must be toned too before it is named,
    for a chart that is wrong as a whole does the same to two of them.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A23")
