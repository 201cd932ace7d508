"""A24."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A24", Severity.FIX, "+ and − of a pair found exchanged",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def plus_and_minus_exchanged(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: pairs that answer where they are charted, where the tones found + at the other wire than
    written, and no fault of the whole chart explains it.

    Why it matters: either the speaker is turned in this car, or the chart has the two wires exchanged. Wired as
    written the speaker is reversed: alone it sounds normal, with the others the bass goes thin.

    Example: FL is charted with + at 1 and − at 9; the pulse moved the cone out with its + on 9.

    What to do: look at the speaker's marks, and find + at the radio's side of the plug, where no speaker can turn it.
    On the charted wire: the speaker is turned; record `polarity: spk.FL, found: turned`, and the plan is held against
    it, in this car alone. On the other one: correct the chart, which other jobs may share, and tone the pair again.

    Known limits: it needs `plus` in the record. Behind a crossover, or with a capacitor, a pulse can lie. A speaker
    that the maker turned answers the same way: write it under `found:` as `reversed`, and `inverted: factory` on the
    speaker if it shall stay so. Whether a wire is turned at the speaker or on the way to it is not told apart.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named, turned_or_charted  # few jobs have tones that speak against a chart

    yield from named(wiring, "A24")
    yield from turned_or_charted(wiring)
