"""E13."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wake_order import loops
from harness.graph.wiring import Wiring
from harness.graph.woken import names


@check("E13", Severity.FIX, "Units wait for each other", source="common practice, no source", by_joints=False)
def units_wait_for_each_other(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: units that wake each other in a circle, into which neither the car nor a unit that is
    awake gives 12 V.

    Why it matters: each has its turn-on joined and looks finished, and none is ever the first to wake.

    Example: the processor's rem on the amplifier's turn-on output, and the amplifier's rem on the processor's.

    What to do: wake the first one in the signal from the car, and let the others follow.

    Known limits: the unit told is the one whose input no other of the circle feeds; where the signal doesn't say,
    the first in the file. A circle that something of the car wakes too is no fault.

    Source: common practice, no source.
    """
    for each in loops(wiring):
        yield Fault(
            at=Spot(each.way.place, wiring.words(each.wake.contact)),
            message=f"{names(each.units)} wait for each other: {each.wake.unit} is woken by "
            f"{wiring.words(each.giver.contact)}, and nothing of the car wakes any of them.",
            do=f"Wake {each.wake.unit} from the radio's turn-on lead or a switched feed, the others from it.",
            about=(each.wake.contact, each.giver.contact),
            path=each.way.path,
        )
