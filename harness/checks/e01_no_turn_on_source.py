"""E01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.waking import is_alone
from harness.graph.wiring import Wiring
from harness.graph.woken import DeadEnd, dead_ends, names, nothing_gives


@check("E01", Severity.FIX, "No turn-on source", source="common practice, no source", by_joints=False)
def no_turn_on_source(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit whose `wakes` names a terminal, or the coil of a relay in use, that nothing gives
    12 V to.

    Why it matters: the unit is fed and grounded and never wakes. The car leaves the bay in silence, or comes back.

    Example: the loom's blue/white lead of the car side is joined to the processor's rem; the radio that gives the
    12 V sits on the other side.

    What to do: join the terminal to the radio's turn-on lead, to another unit's turn-on output, or by a relay.

    Known limits: a job without `runs:` in which the terminal is joined to nothing is not planned yet, which is told
    under what was not checked. A hand switch counts as giving, and so does another unit's terminal of which nothing
    is written. A relay is taken to close when one end of its coil gets 12 V.

    Source: common practice, no source.
    """
    ends = dead_ends(wiring)
    if not ends or nothing_gives(wiring):
        return
    for each in ends:
        units = [wake.unit for wake in each.wakes if not wake.coil]
        yield Fault(
            at=Spot(each.way.place, wiring.words(each.end)),
            message=f"{wiring.words(each.end)} gets no 12 V: {_how_far(wiring, each)}. "
            f"{names(units or [wake.unit for wake in each.wakes])} will never {'wake' if units else 'close'}.",
            do=f"Join {wiring.words(each.end)} to a turn-on output of the radio or of a unit that wakes before it.",
            about=tuple(dict.fromkeys((*(wake.contact for wake in each.wakes), each.end, each.far))),
            path=each.way.path,
        )


def _how_far(wiring: Wiring, each: DeadEnd) -> str:
    if is_alone(wiring, each.end):
        own = [name for name in wiring.planned.net(each.end) if name != each.end]
        return "only its own unit is joined to it" if own else "nothing is joined to it"
    return f"its wire goes as far as {wiring.words(each.far)}, and nothing on it gives any"
