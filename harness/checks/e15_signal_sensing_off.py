"""E15."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.set_otherwise import asleep
from harness.graph.wiring import Wiring


@check(
    "E15",
    Severity.FIX,
    "Signal sensing set off",
    source="the unit's own instructions",
    by_joints=False,
    needs="settings",
)
def signal_sensing_off(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit that `wakes: signal`, whose signal sensing is set off, and that nothing else wakes.

    Why it matters: everything is joined, the supply is there, and the unit never wakes.

    Example: `wakes: signal` with `set: {signal sense: unused}` and no lead to its rem.

    What to do: set signal sensing on, or wake it by a lead and write that under `wakes`.

    Known limits: looks only where `signal sense` is written; a unit that a lead with 12 V or the bus wakes as well is
    no fault. Whether the signal is large enough to be sensed isn't known.

    Source: the unit's own instructions.
    """
    for each in asleep(wiring):
        path: tuple[str, ...] = ()
        about: tuple[str, ...] = ()
        if each.feed is not None:
            driver, receiver = each.feed.driver, each.feed.receiver
            path = wiring.way_in_words(driver.plus, wiring.planned.path(driver.plus, receiver.plus))
            about = (driver.plus, driver.minus, receiver.plus, receiver.minus)
        yield Fault(
            at=Spot(each.setting.place, f"{each.unit.name} signal sense"),
            message=f"{each.unit.name} is to wake by its signal, its signal sensing is off, and no lead with 12 V "
            "comes to it: it never wakes.",
            do=f"Set the signal sensing of {each.unit.name} on, or wake it by a lead and write that under `wakes`.",
            about=about,
            path=path,
        )
