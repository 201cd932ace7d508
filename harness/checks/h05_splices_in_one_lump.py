"""H05."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.lumps import APART_WORDS, FEW, lumps
from harness.graph.wiring import Wiring
from harness.units import length_like


@check("H05", Severity.NOTE, "Splices in one lump", source="common practice, no source", by_joints=False)
def splices_in_one_lump(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: more than four wires joined by hand at one place, each written as less than 40 mm from the
    joint beside it (`stagger`).

    Why it matters: the covered joints lie on each other and make a lump that doesn't go back behind the radio, or
    goes back by force.

    Example: four pairs crimped behind the radio, each 10 mm from the next.

    What to do: stagger the joints, so that no two lie side by side, and write how far (`stagger: 40 mm`).

    Known limits: a pair counts as two. Joints are at one place where the same words are written; joints without a
    place aren't looked at. Where more than eight share a place and no `stagger` is written, that is listed as not
    checked.

    Source: common practice, no source.
    """
    for lump in lumps(wiring)[0]:
        most_m = max(joint.stagger_m or 0.0 for joint in lump.joints)
        least_m = min(joint.stagger_m or 0.0 for joint in lump.joints)
        how = length_like(most_m, APART_WORDS)
        if least_m < most_m:
            how = f"{length_like(least_m, APART_WORDS)} to {how}"
        spots = {joint.place: Spot(joint.place, joint.name) for joint in lump.joints}
        first, *also = spots.values()
        yield Fault(
            at=first,
            message=f"{lump.at}: {lump.splices} splices lie {how} apart, and more than {FEW} want {APART_WORDS}: "
            "the lump doesn't go back.",
            do=f"Stagger them by {APART_WORDS} or more, and write it as `stagger`.",
            about=tuple(dict.fromkeys(end for joint in lump.joints for link in joint.links for end in link)),
            also=tuple(also),
        )
