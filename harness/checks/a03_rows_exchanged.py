"""A03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A03", Severity.FIX, "Rows exchanged in the chart",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def rows_exchanged(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose tones go with its chart when two of its rows change places, column by column.

    Why it matters: a page that shows the latch at the other edge has the rows the other way round. Nothing in the
    numbers looks wrong.

    Example: in two rows of eight FL is charted at 1/2 and answers at 9/10; RL is charted at 9/10 and answers at
    1/2.

    What to do: look at which edge the page has the latch, correct the chart, and tone the used pairs as corrected.

    Known limits: it needs the face. Rows of unlike length are put together from their left end. In a plug of two
    rows where each pair is one above the other, this looks like + and − exchanged everywhere: then both are named.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A03")
