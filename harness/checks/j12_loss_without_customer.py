"""J12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.recorded import holding
from harness.graph.wiring import Wiring
from harness.model.evidence import LOST


@check(
    "J12",
    Severity.NOTE,
    "Lost function, customer not told",
    source="FCS 1362:2010 4.5.1.3, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="record signed",
)
def loss_without_customer(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function that somebody signed off as lost, without the customer's name beside it.

    Why it matters: the customer finds it out on the way home, and nobody can show that it was agreed.

    Example: `signed: lost, lost: [reverse tone]` by the shop alone.

    What to do: tell the customer, and record it again with `who: customer` and the name.

    Known limits: whether the signature is real isn't known. A warning that is lost stays C15, whoever signs.

    Source: FCS 1362:2010 section 4.5.1.3: the customer is told of lost warning tones before, and it is noted
    on the report.
    """
    told = [record for record in holding(wiring, "signed") if record.what == LOST]
    agreed = {_name(each) for record in told if record.word("who") for each in record.word("lost").split(",")}
    for record in told:
        names = [each.strip() for each in record.word("lost").split(",") if _name(each) not in agreed]
        if not names or record.word("who"):
            continue
        yield Fault(
            at=Spot(record.place, ", ".join(names)),
            message=f"{' and '.join(names)} is given up by {record.signed or 'somebody'}, and no customer's name "
            "stands by it.",
            do="Tell the customer, and record it again with `who:` and the name.",
        )


def _name(text: str) -> str:
    return text.strip().lower()
