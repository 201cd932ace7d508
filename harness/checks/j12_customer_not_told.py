"""J12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import planned_away, signatures, tried, worked
from harness.graph.wiring import Wiring
from harness.model.evidence import Record

_CUSTOMER = ("customer", "owner", "keeper", "driver")


@check(
    "J12",
    Severity.NOTE,
    "Customer not told of a lost function",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def customer_not_told(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function whose loss was signed for, by somebody else than the customer.

    Why it matters: the shop agreed with itself. The customer finds the function gone and never said yes to it.

    Example: `signed: lost, lost: [navigation voice], by: JM`, and no `who: customer`.

    What to do: tell the customer, and add a record `signed: lost` with `who: customer` and his name.

    Known limits: a lost function that nobody signed for is told as C25, or as J21 where it was tried. No signature does
    away with a lost warning (C15) or emergency call (C23), so that those are told there. `who` must hold the word
    customer, owner, keeper or driver.

    Source: common practice, no source.
    """
    signed = signatures(wiring)
    for each in tried(wiring) if signed else ():
        records = signed.get(each.name.lower(), ())
        if not each.signed or any(_by_customer(record) for record in records):
            continue
        if worked(each.after) and each.name.lower() not in planned_away(wiring):
            continue
        record = records[-1]
        who = record.word("name") or record.word("who") or record.by or "somebody"
        yield Fault(
            at=Spot(record.place, each.name),
            message=f"{each.name} will be lost, and {who} signed for that; the customer's signature is missing.",
            do=f"Tell the customer, and add a record `signed: lost` with `lost: [{each.name}]`, `who: customer` and "
            "the name.",
            about=each.feature.contacts if each.feature is not None else (),
            also=(Spot(each.feature.place, each.name),) if each.feature is not None else (),
        )


def _by_customer(record: Record) -> bool:
    said = record.word("who").lower().replace(",", " ").split()
    return any(word in said for word in _CUSTOMER)
