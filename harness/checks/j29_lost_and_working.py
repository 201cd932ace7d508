"""J29."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import signatures, tried, worked
from harness.graph.wiring import Wiring


@check(
    "J29",
    Severity.ASK,
    "Signed as lost, and recorded as working",
    source="common practice, no source",
    by_joints=False,
    needs="signed records",
)
def lost_and_working(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function for whose loss somebody signed although the last trial after the work had said that
    it works.

    Why it matters: one of the two is wrong, and the customer's paper says that it is gone. Whoever believes the
    signature doesn't miss it when it fails.

    Example: `signed: lost, lost: hands-free`, and `after: hands-free, result: works`.

    What to do: try it once more. Where it works, strike the signature; where it doesn't, add a record `after`.

    Known limits: names are compared in small letters, as they are written. The last trial counts; one that is written
    below the signature answers it.

    Source: common practice, no source.
    """
    signed = signatures(wiring)
    for each in tried(wiring):
        records = signed.get(each.name.lower(), ())
        if not records or each.after is None or not worked(each.after):
            continue
        if records[-1].place.line < each.after.place.line:
            continue  # it was tried since, and works
        yield Fault(
            at=Spot(records[-1].place, each.name),
            message=f"{each.name} is signed for as lost ({records[-1].signed}), and {each.after.signed} recorded that "
            "it works after the work: one of the two is wrong.",
            do=f"Try it once more. If it works: ringout record JOB strike {records[-1].place.line}; else add a record "
            "`after`.",
            about=each.feature.contacts if each.feature is not None else (),
            also=(Spot(each.after.place, each.name),),
        )
