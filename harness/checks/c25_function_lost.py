"""C25."""

from collections.abc import Iterator

from harness.checks.losses import faults_of_lost
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.heard import lost_features
from harness.graph.proven import lost
from harness.graph.wiring import Wiring

_KINDS = frozenset({"voice", "other"})


@check(
    "C25",
    Severity.FIX,
    "A function that the car had is lost by the plan",
    source="common practice, no source",
    needs="features",
)
def function_lost(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a feature that is no warning and no emergency call, heard as found and no longer
    as planned.

    Why it matters: the customer had it when the car came in, and it comes back as a complaint.

    Example: navigation voice came from a unit that the plan takes out.

    What to do: keep the path, or agree the loss with the customer in writing and add a record `signed: lost`.

    Known limits: a path through a unit counts as whole; whether that unit is awake is not known here. Paths
    by data bus are not followed. Warnings are C15, emergency calls C23. A signature for the loss answers it;
    where the customer's own is missing, J12 says so.

    Source: common practice, no source.
    """
    signed = lost(wiring)
    yield from faults_of_lost(
        wiring,
        [
            each
            for each in lost_features(wiring, frozenset({"voice", "other"}))
            if each.feature.name.lower() not in signed
        ],
        "the customer had it and will miss it",
        "Keep the path, or agree the loss with the customer and add a record `signed: lost` with his name.",
    )
