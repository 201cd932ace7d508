"""H10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding
from harness.graph.wiring import Wiring
from harness.model.evidence import CLOSED

_WORK = ("built", "plays", "after", "handover")


@check(
    "H10",
    Severity.FIX,
    "Moved terminal not looked at again",
    source="workshop manual, maker withheld",
    by_joints=False,
    needs="records",
)
def moved_not_checked(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a terminal that the plan moves to another cavity, once the work on it has begun, without a
    record that its position, lock and tug were checked.

    Why it matters: a terminal that isn't locked backs out when the plug is pushed home: an open contact that
    comes and goes.

    Example: terminal 5 of a loom was moved to 6 and plugged in.

    What to do: look at its position from the mating side, close both locks, tug it; then record `checked:
    T1.car.5, found: position lock tug`.

    Known limits: asked from the first record on that says what was built, plays or is closed: a plan that
    isn't built yet is not nagged.

    Source: position is verified for all terminals, and each is tugged: a training text on terminal
    installation, seen 2026.
    """
    begun = any(r.verb in ("built", "plays", "after") or r.what == CLOSED for r in holding(wiring, *_WORK))
    if not begun:
        return
    checked = {
        name
        for record in holding(wiring, "checked")
        if {"position", "lock", "tug"} <= set(record.word("found").replace(",", " ").split())
        for name in record.contacts
    }
    for name, (cavity, place) in wiring.job.moved.items():
        if name in checked:
            continue
        words = wiring.words(name)
        yield Fault(
            at=Spot(place, words),
            message=f"{words} is moved to cavity {cavity}, and nobody wrote that position, lock and tug were "
            "checked: it "
            "can back out when the plug goes home.",
            do=f"Look, lock, tug; then record `checked: {name}` with `found: position lock tug`.",
            about=(name,),
        )
