"""A24."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A24", Severity.FIX, "+ and − exchanged in the chart",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def plus_and_minus_exchanged(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: pairs that answer where they are charted, where the tones found + at the other wire than
    the chart says, and no fault of the whole chart explains it.

    Why it matters: wired by such a chart the speaker is reversed: alone it sounds normal, with the others the bass
    goes thin.

    Example: FL is charted with + at 1 and − at 9; the pulse moved the cone out with its + on 9.

    What to do: find + once more by a pulse and a look at the cone, correct the chart, and tone the pair as
    corrected.

    Known limits: it needs `plus` in the record. Behind a crossover, or with a capacitor, a pulse can lie. A speaker
    that the maker inverted on purpose answers the same way: look at its terminals before the chart is changed.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A24")
