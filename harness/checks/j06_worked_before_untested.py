"""J06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.proven import last_of, open_evidence
from harness.graph.recorded import holding
from harness.graph.wiring import Wiring
from harness.model.evidence import CLOSED


@check(
    "J06",
    Severity.FIX,
    "Worked before, untested after",
    source="FCS 1362:2010 4.5.1.3 and 5.2, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="record before",
)
def worked_before_untested(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a function of the car that worked before the work and was not tried since, once the outputs
    are being heard or the job is closed.

    Why it matters: the customer finds the missing chime; a warning that stays silent is a danger.

    Example: the reverse tone worked at intake, all outputs are heard, and nobody put it in reverse.

    What to do: try it, and record `after`.

    Known limits: asked from the first output heard, function tried again or closing on; before that it is
    listed as not checked. A loss that was signed for isn't asked.

    Source: FCS 1362:2010 sections 4.5.1.3 and 5.2: warning tones and functions are verified in the final
    test.
    """
    if not any(
        record.verb != "handover" or record.what == CLOSED for record in holding(wiring, "plays", "after", "handover")
    ):
        return
    before, after = last_of(wiring, "before"), last_of(wiring, "after")
    for feature in open_evidence(wiring).after:
        if feature.name.lower() in after:
            continue  # tried, and it fails: told as that
        record = before[feature.name.lower()]
        yield Fault(
            at=Spot(record.place, feature.name),
            message=f"{feature.name} worked before ({record.signed}), and nobody tried it since: the customer would "
            "find out.",
            do=f"Try it before anything is closed, and record `after: {feature.name}`.",
            about=feature.contacts,
            also=(Spot(feature.place, feature.name),),
        )
