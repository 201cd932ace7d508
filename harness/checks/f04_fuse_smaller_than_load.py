"""F04."""

import math
from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.electrical.fuses import fuse_for
from harness.finding import Severity, Spot
from harness.graph.cable import fuses, way_from_source
from harness.graph.overfused import least_limit_behind
from harness.graph.supply import Fed, supply
from harness.graph.wiring import Wiring


@check(
    "F04",
    Severity.FIX,
    "Fuse smaller than its load",
    source="a car-audio guide's page, seen 2026",
    by_joints=False,
    needs="runs",
)
def fuse_smaller_than_load(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a fuse that more current flows through, with everything at full power, than it is rated for.

    Why it matters: it opens in the first loud song, or after an hour of heat, when nobody has the tools at hand.

    Example: 40 A before an amplifier that draws 58 A.

    What to do: fit the value named; where the cable doesn't allow it, lay the cable that does.

    Known limits: full power of all units at once, which music seldom asks for. A unit whose draw can't be told counts
    as nothing and stands on the list of what was not checked.

    Source: a car-audio guide's page, seen 2026: a fuse carries 80 % of its rating for long, so 1.25 times the current
    is what is offered; only more than the rating is told.
    """
    solved = supply(wiring)
    if solved is None or solved.collapsed:
        return
    for fuse in fuses(wiring).values():
        flowing = abs(solved.current_a.get((fuse.a, fuse.b), 0.0))
        if fuse.rating_a is None or flowing <= fuse.rating_a * (1 + 1e-9):
            continue
        limit_a = least_limit_behind(wiring, fuse)
        choice = fuse_for(flowing, limit_a)
        behind = [each for each in solved.fed if {fuse.a, fuse.b} <= set(way_from_source(wiring, each.feed))]
        if choice.fits:
            do = f"Fit {choice.rating_a:g} A; the cable behind it carries {limit_a:.3g} A."
        else:
            wanted_a = fuse_for(flowing, math.inf).rating_a
            do = f"Lay cable for a fuse of {wanted_a:g} A behind it (now {limit_a:.3g} A), and fit that fuse."
        yield Fault(
            at=Spot(fuse.place, wiring.words(fuse.b) if wiring.contact(fuse.b).kind != "run" else "fuse"),
            message=f"The fuse of {fuse.rating_a:g} A before {_words(behind)} carries {flowing:.3g} A at full "
            "power: it opens in a loud passage.",
            do=do,
            about=(fuse.a, fuse.b),
            path=max((way_from_source(wiring, each.feed) for each in behind), key=len, default=()),
        )


def _words(behind: list[Fed]) -> str:
    return " and ".join(each.unit for each in behind) or "its load"
