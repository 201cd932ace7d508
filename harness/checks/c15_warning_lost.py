"""C15."""

from collections.abc import Iterator

from harness.checks.losses import faults_of_lost
from harness.checks.registry import Fault, check
from harness.finding import Severity
from harness.graph.heard import lost_features
from harness.graph.wiring import Wiring


@check("C15", Severity.STOP, "Warning tone path broken", source="common practice, no source", needs="features")
def warning_lost(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a warning (belt, parking, collision, chime) that was heard as found and no longer
    is as planned.

    Why it matters: somebody relies on it. A warning that stays silent is a danger, and the shop answers for
    it.

    Example: the factory amplifier makes the chimes and the plan takes it out.

    What to do: keep the unit or the wire, or replace the function; try it before and after, and get a
    signature.

    Known limits: what a feature is follows from its `kind`, else from its name. A path through a unit
    counts as whole; whether that unit is awake is not known here. Paths by data bus are not followed. A
    signature doesn't answer it: only keeping or replacing the function does.

    Source: common practice, no source.
    """
    yield from faults_of_lost(
        wiring,
        lost_features(wiring, frozenset({"warning"})),
        "a warning that stays silent is a danger",
        "Keep it, or replace the function and get a signature; try it before the car is closed.",
    )
