"""J21."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import planned_away, tried, worked
from harness.graph.wiring import Wiring

_HOW = {"silent": "is silent", "wrong": "works wrongly"}


@check(
    "J21",
    Severity.FIX,
    "Worked before, fails after",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def fails_after(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function of the car that is silent or wrong after the work, and that worked before it, or
    that nobody tried before.

    Why it matters: the work broke it, as far as anybody can tell. The customer had it when the car came in.

    Example: the voice of the navigation was heard at intake, and after the work it is silent.

    What to do: find what the work changed on its way, mend it, try it again and add a record `after`. Where it can't be
    kept, agree the loss with the customer and add `signed: lost`.

    Known limits: the last trial counts. What didn't work before either isn't told, nor what the plan itself takes away:
    that is a fault of the plan. A signature answers it, but not for a warning or an emergency call.

    Source: common practice, no source.
    """
    for each in tried(wiring):
        result = each.after.word("result") if each.after is not None else ""
        if each.after is None or result not in _HOW or each.signed or each.name.lower() in planned_away(wiring):
            continue
        if each.before is not None and each.before.word("result") in _HOW:
            continue
        was = "worked before" if worked(each.before) else "was never tried before"
        danger = " A warning or a call that stays silent is a danger." if each.kind in ("warning", "emergency") else ""
        yield Fault(
            at=Spot(each.after.place, each.name),
            message=f"{each.name} {was} and {_HOW[result]} after the work: as far as anybody can tell the work broke "
            f"it.{danger}",
            do="Find what the work changed on its way, mend it, try it again and add a record `after`.",
            about=each.feature.contacts if each.feature is not None else (),
            also=(Spot(each.feature.place, each.name),) if each.feature is not None else (),
        )
