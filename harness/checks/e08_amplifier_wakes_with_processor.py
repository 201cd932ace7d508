"""E08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wake_order import together
from harness.graph.wiring import Wiring


@check(
    "E08",
    Severity.NOTE,
    "Amplifier wakes with its processor",
    source="common practice, no source",
    by_joints=False,
)
def amplifier_wakes_with_processor(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an amplifier woken by the same source as the processor that feeds its input, though the
    processor has a turn-on output that nothing hangs on.

    Why it matters: the amplifier is awake while the processor still starts, and plays its thump; at switching off
    it may be the last one awake and plays another.

    Example: the radio's turn-on lead goes to the processor's rem and on to the amplifier's.

    What to do: wake the amplifier from the processor's own turn-on output, which comes when its outputs are quiet.

    Known limits: only a direct connection from output to input is followed. Whether the processor's output is delayed
    isn't known from the file.

    Source: common practice, no source.
    """
    for each in together(wiring):
        yield Fault(
            at=Spot(each.way.place, wiring.words(each.wake.contact)),
            message=f"{each.wake.unit} and {each.feeder}, which feeds it, are both woken by "
            f"{wiring.words(each.giver.contact)}: expect a thump at switching on.",
            do=f"Wake {each.wake.unit} from {wiring.words(each.free)}, which is free.",
            about=(each.wake.contact, each.free),
            path=each.way.path,
        )
