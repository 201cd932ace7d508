"""E05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.turn_on_load import loaded
from harness.graph.wiring import Wiring
from harness.graph.woken import amperes


@check("E05", Severity.STOP, "Turn-on source overloaded", source="common practice, no source", by_joints=False)
def turn_on_source_overloaded(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a turn-on output on which more current hangs, turn-on terminals and relay coils together,
    than its unit's `gives` allows.

    Why it matters: the output is a small transistor inside the radio. It burns, and then nothing in the car wakes;
    the radio comes out again.

    Example: 20, 35 and 300 mA on a lead that gives 100 mA.

    What to do: let that output drive one unit or a relay's coil, and wake the rest by the relay or by the turn-on
    output of the unit before.

    Known limits: an output without a figure in `gives` isn't judged, and a terminal without a current counts as
    nothing: the sum is then the least it can be. What a relay's contact feeds isn't counted, what hangs behind a
    diode is. A fan or a lamp must be written as what it draws.

    Source: common practice, no source.
    """
    for each in loaded(wiring):
        if each.sum_a <= each.gives_a * (1 + 1e-9):
            continue
        drawn = [wake for wake in each.wakes if wake.draws_a is not None]
        shown = ", ".join(f"{wake.unit} {amperes(wake.draws_a or 0.0)}" for wake in drawn[:4])
        least = "at least " if len(drawn) < len(each.wakes) else ""
        yield Fault(
            at=Spot(each.way.place, wiring.words(each.giver.contact)),
            message=f"{wiring.words(each.giver.contact)} gives {amperes(each.gives_a)} and {least}"
            f"{amperes(each.sum_a)} hangs on it ({shown}{', …' if drawn[4:] else ''}): the output burns.",
            do="Wake the rest by a relay with a fused feed, or by the turn-on output of the unit before.",
            about=tuple(dict.fromkeys((each.giver.contact, *(wake.contact for wake in each.wakes)))),
            path=each.way.path,
        )
