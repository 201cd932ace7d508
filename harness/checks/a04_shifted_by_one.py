"""A04."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A04", Severity.FIX, "Chart shifted by one",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def shifted_by_one(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug whose tones go with its chart when each cavity is the next one, or the one before;
    in the whole plug, or from a gap or a number left out on.

    Why it matters: a chart that counts from 0, or counts the keyway as a cavity, or leaves one out, is wrong by one
    everywhere behind. Each half of a pair then sits beside a stranger.

    Example: FL is charted at 1/2 and answers at 2/3; FR, charted at 3/4, answers at 4/5.

    What to do: look whether the chart counts from 0, or counts or leaves out a keyway, correct it, and tone the
    used pairs as corrected.

    Known limits: numbers are taken in their order. A shift that begins where no gap and no number left out is isn't
    looked for. With the shift nothing that is charted may fall off the end.

    Source: common practice, no source.
    """
    from harness.checks.misreading import named  # few jobs have tones that speak against a chart

    yield from named(wiring, "A04")
