"""B04."""

from collections.abc import Iterator

from harness.checks.b03_left_right_crossed import crossing_fault
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.crossing import crossings
from harness.graph.wiring import Wiring


@check("B04", Severity.FIX, "Front and rear crossed", source="common practice, no source")
def front_rear_crossed(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a speaker that plays the channel of the other axle on its own side.

    Why it matters: the fader acts backwards, the picture sits behind the driver, and a delay set for the front
    is heard in the rear.

    Example: input 1 takes left front and output 1 is joined to the loom's RL lead.

    What to do: exchange the two pairs at the place named, or correct the route.

    Known limits: where left and right are crossed as well, B03 tells both. Rear speakers that play the front's
    signal while the front plays it too, and while nothing else was displaced, are taken as wanted.

    Source: common practice, no source.
    """
    for group in crossings(wiring):
        if not any(each.by_side for each in group):
            yield crossing_fault(wiring, group)
