"""A08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "A08", Severity.STOP, "Tones fit no pattern",
    source="common practice, no source", by_joints=False, needs="tones",
)  # fmt: skip
def tones_fit_no_pattern(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a plug where at least two tones speak against the chart, and no way in which a chart goes
    wrong as a whole or at one pair explains them.

    Why it matters: a chart of another variant has the same housing and other wires in it. Opening pairs by it may
    hit a feed, a data pair or the restraint circuit.

    Example: 1/2 is charted FL and the right rear speaker answers; at 3/4, charted FR, nothing answers; at 5/6,
    charted RL, the left front one does.

    What to do: stop using the chart. Tone every pair and write down what answers, meter the other wires, or find
    the page of this variant.

    Known limits: two faults at once, such as two exchanges of pairs, have no name either. Without the face a
    mirrored or turned view can't be told, and the message says so. One tone that differs from many that agree isn't
    told here: A25 asks for it again.

    Source: common practice, no source.
    """
    from harness.checks.misreading import without_pattern  # few jobs have tones that speak against a chart

    yield from without_pattern(wiring, "A08")
