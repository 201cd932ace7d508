"""G06."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring
from harness.units import length_like

_LEAST_M = 0.025


@check(
    "G06",
    Severity.FIX,
    "Light guide bent too tightly",
    source="workshop manual, maker withheld: 25 mm",
    by_joints=False,
    needs="runs",
)
def fibre_bent(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a fibre that is laid with a radius under 25 mm.

    Why it matters: light leaves the guide where it is bent. The ring goes dark in the heat, or after a year.

    Example: `2 m fibre bend 15 mm` from the amplifier's place to the radio.

    What to do: lay it in wider bends; no ties pulled tight, no heat gun near it, nothing above 85 °C.

    Known limits: only what is written as `bend` is known; a fibre without it is told on the list of what was not
    checked.

    Source: workshop manual, maker withheld: radius at least 25 mm, below 85 °C.
    """
    for segment in wiring.job.segments:
        if segment.kind != "fibre" or segment.bend_m is None or segment.bend_m >= _LEAST_M * (1 - 1e-9):
            continue
        here = length_like(segment.bend_m, "25 mm")
        yield Fault(
            at=Spot(segment.place, wiring.words(segment.a)),
            message=f"The fibre from {wiring.words(segment.a)} is bent to {here}, at least 25 mm: light is lost and "
            "the ring goes dark.",
            do="Lay it in bends of 25 mm or more, no tie pulled tight, no heat gun near it.",
            about=(segment.a, segment.b),
        )
