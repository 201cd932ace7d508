"""A25."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A25", Severity.FIX, "Chart is wrong, not yet told how",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def chart_wrong_how_not_known(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug where a tone speaks against the chart, and the tones are too few to say how it is
    wrong, or more than one way goes with them.

    Why it matters: a chart that is wrong at one pair may be wrong at all of them; corrected by a guess it is wrong
    in another way.

    Example: in a row of eight FL, charted at 1/2, answers at 8/7, where RR is charted: the chart is mirrored, or
    the two are exchanged. FR at 6/5 parts them.

    What to do: take the next tone that it names: after it the fewest ways are left, and of such tones it is the one
    with the least way for the probes. Change nothing at the plug before.

    Known limits: how many more tones are needed holds if one of the ways named is the right one; answers that none
    of them expects ask for more. A wire that the chart, in one of the ways, has as a feed, data or restraint is
    never offered for a tone. Silence alone speaks against a chart only where two pairs stay silent and none is
    heard as charted.

    Source: common practice, no source.
    """
    from harness.checks.misreading import undecided  # few jobs have tones that speak against a chart

    yield from undecided(wiring, "A25")
