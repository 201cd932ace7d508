"""J17."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.stepping import live_from, newly_powered, spot
from harness.finding import Severity
from harness.graph.fitted import terminals_for
from harness.graph.grounding import ungrounded
from harness.graph.wiring import Wiring


@check(
    "J17", Severity.STOP, "Powered before its ground", source="common practice, no source", by_joints=False,
    needs="steps",
)  # fmt: skip
def powered_before_its_ground(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a state between two steps in which a unit of ours has its B+ live and its ground isn't joined
    yet, though the finished plan grounds it.

    Why it matters: its current goes back by the signal cable's shield, and burns that and the radio's output with it.

    Example: the fuse is put in while the amplifier's ground cable still lies on the floor.

    What to do: ground first, then the signal cables, the supply last.

    Known limits: a unit that is grounded by its case counts as ungrounded until a run or joint says so (F28). Units
    that the car brings are grounded there.

    Source: common practice, no source.
    """
    for_good = {name for ground in ungrounded(wiring) for name in ground.terminals}
    told: set[str] = set()
    for moment, laid in newly_powered(wiring):
        for ground in ungrounded(laid):
            terminal = ground.terminals[0]
            unit = wiring.contact(terminal).owner
            if not for_good.isdisjoint(ground.terminals) or unit in told:
                continue
            for feed in terminals_for(laid, unit, "battery"):
                source = live_from(laid, feed, key=moment.during.power.key)
                if not source or source == feed:
                    continue
                told.add(unit)
                yield Fault(
                    at=spot(moment),
                    message=f"In {moment.words} {wiring.words(feed)} is live from {wiring.words(source)} and "
                    f"{wiring.words(terminal)} is on nothing: its current goes back by a signal's shield.",
                    do=f"Join {wiring.words(terminal)} to its ground before this step.",
                    about=(feed, *ground.terminals),
                    path=laid.way_in_words(source, laid.planned.path(source, feed)),
                )
                break
