"""F09."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.grounding import way_to_point
from harness.graph.joined import made_at
from harness.graph.wiring import Wiring
from harness.model.parts import GroundPoint

_BELT = "belt anchor"


@check("F09", Severity.FIX, "Poor ground point", source="common practice, no source", needs="grounds")
def poor_ground_point(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a ground point that we use, on painted metal or at the anchor of a seat belt.

    Why it matters: paint insulates; the ring holds by a scratch, and the ground goes away with heat and damp. A belt
    anchor is part of the restraint system: its torque and its thread lock are what holds a person.

    Example: the amplifier's ground goes under the seat-belt bolt next to it.

    What to do: take a stud or a bolt of the body near the unit, bare to the metal, and seal it afterwards. Never
    loosen a belt anchor.

    Known limits: what the metal is and how the ground is fixed is known from `metal` and `fixed` alone.

    Source: common practice, no source; a shop's page, seen 2026, says that a seat bolt is not the frame.
    """
    for point in wiring.job.parts.grounds.values():
        belt, painted = point.fixed == _BELT, point.metal == "painted"
        if not belt and not painted:
            continue
        if not made_at(wiring, f"gnd.{point.name}"):
            continue
        where = wiring.words(f"gnd.{point.name}") + (f" ({point.where})" if point.where else "")
        yield Fault(
            at=Spot(point.place, wiring.words(f"gnd.{point.name}")),
            message=f"{where} is {_what(point)}",
            do="Take another bolt or stud near the unit, bare to the metal; never touch the belt anchor."
            if belt
            else "Bare the metal under the ring, fix it tight and seal it; or take another point.",
            about=(f"gnd.{point.name}",),
            path=way_to_point(wiring, f"gnd.{point.name}"),
        )


def _what(point: GroundPoint) -> str:
    if point.fixed == _BELT:
        painted = ", and painted" if point.metal == "painted" else ""
        return f"a belt anchor{painted}: it is part of the restraint system, and what holds a person comes loose."
    return "painted metal: the ring touches by a scratch, and the ground goes away with heat and damp."
