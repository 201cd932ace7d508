"""J25."""

from collections.abc import Iterator

from harness.checks.building import told_as_built
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "J25",
    Severity.FIX,
    "Built so that it doesn't work",
    source="as for the code that it names",
    by_joints=False,
    needs="built records",
)
def built_so_that_it_fails(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: as for J24 (built so that it does harm), where what the record brings is a FIX.

    Why it matters: the plan was proved, not this. What was built stays silent, plays elsewhere or comes back.

    Example: the left front lead was joined to out 3, which feeds the left rear: out 1 has no speaker.

    What to do: look at the joint; make it, the plan and the record agree.

    Known limits: as for J24.

    Source: as for the code that it names; see `ringout explain` of that.
    """
    yield from told_as_built(wiring, Severity.FIX)
