"""F15."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.place import Place


@check(
    "F15",
    Severity.FIX,
    "Cable through bare metal",
    source="FCS 1362:2010 2.11, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="runs",
)
def bare_pass_through_metal(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a run that goes `via` a place `bare`, without a grommet.

    Why it matters: the edge of the hole saws through the insulation as the car shakes. On a feed it is a fire, on a
    signal a fault that comes and goes.

    Example: `15 ft 4 AWG via bulkhead bare`.

    What to do: fit a grommet that fits the hole and the cable, and seal it.

    Known limits: only what is written behind `via` is known.

    Source: FCS 1362:2010 section 2.11, as quoted in the trade, seen 2026.
    """
    told: set[tuple[Place, str]] = set()
    for segment in wiring.job.segments:
        if not segment.laid or segment.grommet != "bare" or (segment.place, segment.via) in told:
            continue
        told.add((segment.place, segment.via))
        cable = f"{segment.size.text} cable" if segment.size else "cable"
        yield Fault(
            at=Spot(segment.place, segment.via),
            message=f"The {cable} goes through {segment.via} bare: the edge saws through its "
            "insulation as the car shakes.",
            do=f"Fit a grommet at {segment.via} and write `via {segment.via} grommet`.",
            about=(segment.a, segment.b),
        )
