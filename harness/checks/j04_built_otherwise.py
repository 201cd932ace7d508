"""J04."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.as_built import as_built
from harness.graph.wiring import Wiring


@check(
    "J04",
    Severity.NOTE,
    "Built otherwise than planned",
    source="common practice, no source",
    by_joints=False,
    needs="record built",
)
def built_otherwise(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a lead or cavity of which a record says that it was made otherwise than the plan has it.

    Why it matters: the paper of this job, and the map that the next bay takes over, say what isn't so.

    Example: lead 7 is planned to be capped, and was joined.

    What to do: decide which of the two is kept: change the plan, or the car. Then a new record.

    Known limits: the last record about a contact counts; what nobody recorded is not known to be as planned.

    Source: common practice, no source.
    """
    for each in as_built(wiring):
        if each.same:
            continue
        yield Fault(
            at=Spot(each.record.place, each.name),
            message=f"{each.name} was built: {each.built}, the plan says {each.planned}: paper and car differ.",
            do="Keep one of the two: correct the plan, or the car, and record it again.",
            about=(each.contact,),
        )
