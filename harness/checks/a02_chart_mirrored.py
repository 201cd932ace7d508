"""A02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A02", Severity.FIX, "Chart read mirrored",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def chart_mirrored(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose tones go with its chart when each row is counted from its other end: in a row
    of n, cavity k is n + 1 − k.

    Why it matters: numbers on a page are meant from the wire side or from the mating side, and not every page says
    which. Read from the wrong side every wire but a middle one is another one.

    Example: FL is charted at 1/2 in a row of eight, and answers at 8/7; FR, charted at 3/4, answers at 6/5.

    What to do: see from which side the page shows the plug, correct the chart, and tone the used pairs as
    corrected. Where numbers are moulded into the housing, look at them: then it may be the `view` or the `first`
    corner of the face that is wrong.

    Known limits: it needs the face. A row with gaps is counted without them, or taken by the places in it,
    whichever goes with the tones. Tones taken with a unit plugged in count as well (C21 asks for them).

    Source: common practice, no source; that makers draw one plug from either side is read in several makers'
    manuals, seen 2026.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A02")
