"""J27."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import open_evidence, voided
from harness.graph.wiring import Wiring


@check(
    "J27",
    Severity.ASK,
    "A release that no longer stands",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def release_no_longer_stands(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a job that somebody signed to be let go, and a record written after that which speaks against
    the plan: a joint found loose or not made, a run not laid, an output that stays silent or that another speaker
    answers, a function that fails, a reading or a tone that isn't as planned.

    Why it matters: who signed didn't know it. A car that is let go on that signature is let go with a fault.

    Example: released in the morning; after lunch `checked: J1, found: loose`.

    What to do: mend what was found and record that; then sign anew, or record what is still open.

    Known limits: records count in the order of the file. The release stays void when the fault was mended since; of
    readings by a meter only the last is known to be wrong. A later release stands in for it. Where nothing is open any
    more no release is needed, and nothing is told.

    Source: common practice, no source.
    """
    void = voided(wiring)
    if void is None or open_evidence(wiring).nothing:
        return
    yield Fault(
        at=Spot(void.signature.place, "released"),
        message=f"{void.signature.signed} signed to let the job go; since then {void.by.signed or 'somebody'} "
        f"recorded: {void.words}. That signature no longer stands.",
        do="Mend it and record that; then add a new `signed: released` with its `reason`, or prove what is open.",
        also=(Spot(void.by.place, void.by.what),),
    )
