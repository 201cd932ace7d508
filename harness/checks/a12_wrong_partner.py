"""A12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A12", Severity.FIX, "Wrong partner",
    source="common practice, no source", by_joints=False, needs="readings",
    bases=("speaker by meter", "wires by meter"),
)  # fmt: skip
def wrong_partner(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a pair of which one wire is charted right and the other at the wrong cavity: the speaker
    answers with another partner; or the pair reads open, and its wires read a speaker each with another one.

    Why it matters: two wires of two speakers taken for a pair carry nothing, and an amplifier on them ties two
    speakers together.

    Example: FL is charted at 3/4; nothing answers there, and the left front speaker answers at 3/7.

    What to do: meter the wire that is right against both others: a speaker reads a few ohm, a wrong partner is
    open. Correct the chart and tone the pair as corrected.

    Known limits: what was charted at the right partner's cavity is taken to be at the wrong one's. A meter doesn't tell
    which speaker lies between two wires, so by ohms alone the chart isn't corrected: tone what reads first. Between 1
    and 16 ohm count as a speaker. Where the tones of the plug speak against its chart, they alone decide. Of a pair
    with a capacitor in line, which reads open by itself, nothing is said, nor where a wire reads a speaker with two.

    Source: a speaker of 16 ohm reads 16 ohm at most (two retailers' guides, seen 2026); wires that touch read less than
    1 ohm (a handbook's wire table); the rest is common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have records that speak against a chart

    yield from named(wiring, "A12")
    if "ohm records" in wiring.facts:
        from harness.checks.unpairing import by_ohms

        yield from by_ohms(wiring)
