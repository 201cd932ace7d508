"""E02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.waking import CONSTANT, givers_of_net
from harness.graph.wiring import Wiring
from harness.graph.woken import causes, what_units_do, woken


@check("E02", Severity.FIX, "Turn-on from constant 12 V", source="common practice, no source", by_joints=False)
def turn_on_from_constant(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit's turn-on terminal, or a relay's coil, that the battery or a B+ wire gives 12 V to,
    directly or through a diode or the coil of a relay.

    Why it matters: the unit never sleeps. The battery is flat by the weekend, and the car is blamed.

    Example: the processor's rem is crimped to the yellow lead, since it was there and had 12 V.

    What to do: take a wire that the key or the radio switches: the turn-on lead, ACC, another unit's output.

    Known limits: constant 12 V on a relay's 30 is as it should be, only its coil counts. Where the constant wire is
    tied to another source, the tie is told and not this.

    Source: common practice, no source.
    """
    wrong = [
        (giver, each.wake)
        for each in woken(wiring)
        for giver in each.sources
        if giver.kind == CONSTANT and all(it.kind == CONSTANT for it in givers_of_net(wiring, giver.contact))
    ]
    for cause in causes(wiring, wrong):
        terminals = [wake.contact for wake in cause.woken]
        yield Fault(
            at=Spot(cause.way.place, wiring.words(terminals[0])),
            message=f"{wiring.words(terminals[0])} is woken by {wiring.words(cause.giver.contact)}, which is constant: "
            f"{what_units_do(cause.woken, 'never sleeps', 'never sleep')} and the battery runs flat.",
            do="Take a wire that the radio or the key switches: a turn-on lead, ACC, another unit's output.",
            about=tuple(dict.fromkeys((*terminals, cause.giver.contact))),
            path=cause.way.path,
        )
