"""J21."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import last_of, lost, worked
from harness.graph.wiring import Wiring


@check(
    "J21",
    Severity.FIX,
    "Worked before, fails after",
    source="FCS 1362:2010 5.2, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="record after",
)
def fails_after(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function of the car that worked before the work and was found silent or wrong after it.

    Why it matters: the work took it away: a joint, a lead not passed on, a unit asleep. The customer had it.

    Example: the belt tone sounded at intake, and is silent with everything joined.

    What to do: find what the plan opened on its way, mend it, and try again; or agree the loss in writing
    (`signed: lost`).

    Known limits: the last trial counts. What did not work before is not told.

    Source: FCS 1362:2010 section 5.2: functional tests before and after.
    """
    before, signed = last_of(wiring, "before"), lost(wiring)
    places = {feature.name.lower(): feature for feature in wiring.job.features}
    for name, record in last_of(wiring, "after").items():
        if worked(record) or record.word("result") in ("", "not tried") or name in signed:
            continue
        if not worked(before.get(name)):
            continue
        feature = places.get(name)
        yield Fault(
            at=Spot(record.place, record.what),
            message=f"{record.what} worked before and is {record.word('result')} after: the work took it away.",
            do="Find what was opened on its way, mend it and try again; or agree the loss in writing.",
            about=feature.contacts if feature is not None else (),
        )
