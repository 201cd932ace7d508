"""B09."""

from collections.abc import Iterator

from harness.checks.b03_left_right_crossed import crossing_fault
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.crossing import Crossing, changes_of, crossings
from harness.graph.wiring import Wiring


@check(
    "B09",
    Severity.FIX,
    "Sides crossed in a unit's routing",
    source="common practice, no source",
    by_joints=False,
)
def sides_crossed_in_the_routing(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit that sends an input of one side to an output that plays on the other side, while the
    wires before and behind it keep the sides.

    Why it matters: it sounds like two pairs exchanged. Who swaps wires then has two mistakes in place of one, and
    the next tune turns the sides once more.

    Example: the processor's out 1 feeds the left front speaker and its routing table gives it input 2, which takes
    right front.

    What to do: correct the routing table at the outputs named; leave the wires as they are.

    Known limits: whether the table or the wires are wrong is told by the customary count (1 to 4 are FL, FR, RL, RR)
    and by what the other inputs carry; where neither settles it, it is told as B03, at the wires. Front and rear
    exchanged in the table on one side stays B04, which names the routing too.

    Source: common practice, no source.
    """
    for group in crossings(wiring):
        if any(each.by_side for each in group) and in_the_table(wiring, group):
            yield crossing_fault(wiring, group)


def in_the_table(wiring: Wiring, group: list[Crossing]) -> bool:
    """Whether every place of a crossing lies inside a unit, in its routes."""
    changes = changes_of(wiring, group)
    return bool(changes) and all(change.route is not None for change in changes)
