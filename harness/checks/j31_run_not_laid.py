"""J31."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J31",
    Severity.FIX,
    "Run not laid",
    source="common practice, no source",
    by_joints=False,
    needs="built records",
)
def run_not_laid(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a run of the plan, by the name that the paper gives it, that the last record of it says isn't
    laid.

    Why it matters: what hangs on it has no feed, no ground or no signal, and the plan was proved with the run in it. No
    signature lays it.

    Example: `built: RUN 2, is: not laid`, and RUN 2 is the amplifier's ground.

    What to do: lay it and record `built: RUN 2`. Where it isn't wanted any more, take it out of the plan.

    Known limits: the last record of a run counts. Where runs were numbered anew it is of the run that goes from and
    to where that one went when it was written, or of none. A wire left off at one of its ends is told as J26.

    Source: common practice, no source.
    """
    from harness.graph.ticked import not_laid  # few jobs have records

    for each in not_laid(wiring):
        who = f" ({each.record.signed})" if each.record.signed else ""
        yield Fault(
            at=Spot(each.record.place, each.name),
            message=f"{each.name}, {each.way}: planned, and not laid{who}. What hangs on it has no feed, no ground or "
            "no signal.",
            do=f"Lay it and add a record `built: {each.name}`; or take it out of the plan.",
            about=each.ends,
            also=(Spot(each.place, each.name),),
        )
