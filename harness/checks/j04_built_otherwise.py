"""J04."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.as_built import as_built, not_made
from harness.graph.wiring import Wiring


@check(
    "J04",
    Severity.NOTE,
    "Built otherwise than planned",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def built_otherwise(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a record of what was built (`built`, `is`) that isn't what the plan says of that contact: its
    fate, or what it is joined to.

    Why it matters: the paper that stays with the car is the plan. The next person opens the panel and finds another
    wiring than on paper; and all that was proved was proved of the plan.

    Example: lead 7 is capped in the plan and used in the car.

    What to do: decide which of the two stays. Change the plan and prove it again, or change the car and add a record.

    Known limits: `is` holds a fate (used, capped, depinned, loose, passed, intercepted, tapped, empty), a contact that
    it is joined to, a function (which something on its net must have), or several of these with commas; other words are
    listed as not checked. The last record of a contact counts. A pair in one record is one difference. A joint or a
    run that isn't there, or a wire capped where one is planned, is told as J26.

    Source: common practice, no source.
    """
    for built in as_built(wiring)[0]:
        record = built.record
        if not_made(wiring, record):
            continue
        who = ", ".join(filter(None, (record.by, record.when[:10])))
        where = " and ".join(wiring.words(name) for name in built.contacts)
        yield Fault(
            at=Spot(record.place, wiring.words(built.contacts[0])),
            message=f"{where}: planned {built.planned}, built {record.word('is')}"
            f"{f' ({who})' if who else ''}. The paper in the car says otherwise than the car.",
            do="Decide which stays: change the plan and prove it again, or change the car and add a record.",
            about=built.contacts,
            also=(Spot(built.place, wiring.words(built.contacts[0])),),
        )
