"""J06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import planned_away, put_back, tried
from harness.graph.wiring import Wiring
from harness.model.evidence import FAILS


@check(
    "J06",
    Severity.FIX,
    "Worked before, untested after",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def untested_after(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function of the car that worked before the work and that nobody tried again, once the
    trials after the work have begun or the car was handed back.

    Why it matters: what stopped working in the bay is found by the customer, and then it was the shop, whatever the
    cause.

    Example: the reversing tone sounded at intake; outputs were played and the belt tone tried after the work, the
    reversing tone wasn't.

    What to do: try it before the key goes back, and add a record `after` with `result`.

    Known limits: before the first `after` or `plays` record, and before `handover: closed`, it is only listed as not
    checked. A function that the plan itself takes away, or for whose loss somebody signed, isn't asked for; no
    signature does away with a warning or an emergency call. `result: not tried` is no trial.

    Source: common practice, no source.
    """
    if not put_back(wiring):
        return
    for each in tried(wiring):
        after = each.after.word("result") if each.after is not None else ""
        if not each.missing or after in FAILS or each.name.lower() in planned_away(wiring):
            continue
        assert each.before is not None, "only what worked before can be missing"
        place = each.feature.place if each.feature is not None else each.before.place
        when = f" on {each.before.when[:10]}" if each.before.when else ""
        yield Fault(
            at=Spot(place, each.name),
            message=f"{each.name} worked before the work{when}, and nobody tried it since: if it is gone, the customer "
            "finds it.",
            do=f"Try it before the key goes back, and add a record `after: {each.name}` with its `result`.",
            about=each.feature.contacts if each.feature is not None else (),
            also=(Spot(each.before.place, each.name),) if each.before.place != place else (),
        )
