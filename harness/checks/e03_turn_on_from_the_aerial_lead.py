"""E03."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.waking import AERIAL
from harness.graph.wiring import Wiring
from harness.graph.woken import causes, only_from, what_units_do


@check(
    "E03",
    Severity.FIX,
    "Turn-on from the aerial lead only",
    source="common practice, no source",
    by_joints=False,
    needs="aerial",
)
def turn_on_from_the_aerial_lead(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit whose turn-on terminal gets its 12 V from the radio's aerial feed and nothing else.

    Why it matters: many radios give that 12 V only while the tuner plays. The amplifier falls silent as soon as
    somebody plays from the telephone.

    Example: the blue lead is taken for the blue/white one; it works on the test bench, where the tuner plays.

    What to do: take the turn-on lead (AMP-ON, mostly blue/white), and leave the aerial feed to the aerial.

    Known limits: some radios keep the aerial feed up on every source; nothing in the file can say so. A further
    source that comes by a diode counts, and then nothing is told. Units without sound are not looked at: an
    aerial's own amplifier, a camera.

    Source: common practice, no source.
    """
    for cause in causes(wiring, only_from(wiring, AERIAL)):
        terminals = [wake.contact for wake in cause.woken]
        yield Fault(
            at=Spot(cause.way.place, wiring.words(terminals[0])),
            message=f"{wiring.words(terminals[0])} has its 12 V from {wiring.words(cause.giver.contact)}, the aerial "
            f"feed: {what_units_do(cause.woken, 'sleeps', 'sleep')} when the tuner doesn't play.",
            do="Take the radio's turn-on lead (AMP-ON) in place of the aerial feed.",
            about=tuple(dict.fromkeys((*terminals, cause.giver.contact))),
            path=cause.way.path,
        )
