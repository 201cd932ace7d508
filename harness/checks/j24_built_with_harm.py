"""J24."""

from collections.abc import Iterator

from harness.checks.building import told_as_built
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.wiring import Wiring


@check(
    "J24",
    Severity.STOP,
    "Built so that it does harm",
    source="as for the code that it names",
    by_joints=False,
    needs="built records",
)
def built_with_harm(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record `built` whose `is` names another contact than planned, and that, carried out, brings
    a STOP which the plan doesn't have. The car as built is proved as a job of its own; the finding names the code
    that it brings, and what that says.

    Why it matters: the plan was proved, not this. What was built can burn an output, a unit or a cable at the first
    power.

    Example: the lead planned to out 1 was joined to a radio output: two outputs on one wire (C01).

    What to do: power nothing. Look at the joint. Make it as planned, or change the plan and prove it again; then
    add a record of what is there now.

    Known limits: the last record of each contact counts, and all of them are carried out at once. What was planned
    at that contact is taken as not made, unless `is` names it too. A fate such as `capped` is told as J04 or J26.

    Source: as for the code that it names; see `ringout explain` of that.
    """
    yield from told_as_built(wiring, Severity.STOP)
