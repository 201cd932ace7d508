"""A12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A12", Severity.FIX, "Wrong partner",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def wrong_partner(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a pair of which one wire is charted right and the other at the wrong cavity: the speaker
    answers with another partner.

    Why it matters: two wires of two speakers taken for a pair carry nothing, and an amplifier on them ties two
    speakers together.

    Example: FL is charted at 3/4; nothing answers there, and the left front speaker answers at 3/7.

    What to do: meter the wire that is right against both others: a speaker reads a few ohm, a wrong partner is
    open. Correct the chart and tone the pair as corrected.

    Known limits: it goes by tones; readings in ohms are not compared with the chart yet. What was charted at the
    right partner's cavity is taken to be at the wrong one's.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A12")
