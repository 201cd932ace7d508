"""F05."""

from collections.abc import Iterator

from harness.checks.overfusing import faults
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.overfused import STEP_DOWN
from harness.graph.wiring import Wiring


@check(
    "F05",
    Severity.STOP,
    "Step-down to thinner cable without a fuse",
    source="common practice, no source",
    by_joints=False,
    needs="runs",
)
def step_down_without_fuse(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a thinner cable that branches off or goes on behind a thicker one, where the fuse before both
    protects the thicker one only.

    Why it matters: the fuse at the battery was chosen for the main cable. The branch glows at a current that the
    fuse takes for normal.

    Example: 4 AWG behind 125 A ends in a block, and 8 AWG leaves it without a fuse of its own.

    What to do: fit a fuse where the size changes, of the value named, or go on with the thicker cable.

    Known limits: as for F03. A branch is told once, at its first piece.

    Source: common practice, no source; boats have the same rule, 33 CFR 183.455.
    """
    yield from faults(wiring, STEP_DOWN, "it burns at a current that this fuse takes for normal.", "fuse")
