"""F11."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.side_by_side import side_by_side
from harness.graph.wiring import Wiring


@check(
    "F11",
    Severity.STOP,
    "Fuses side by side",
    source="FCS 1362:2010 4.6.2, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="runs",
)
def parallel_fuses(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: two fuses by which current goes from the same place to the same place.

    Why it matters: they never share evenly. One carries most of it and goes, then the other; and what both let
    through together is more than the cable of either takes.

    Example: an amplifier's B+ hangs on two 50 A ways of a fuse block, because there was no 100 A fuse.

    What to do: one fuse of the right size, with a cable for it.

    Known limits: two fuses one behind the other on a cable count as one. Two batteries with a fuse each are no
    fault. Fuses in a unit's own case are not looked at.

    Source: FCS 1362:2010 section 4.6.2, as quoted in the trade, seen 2026: no parallel fuses.
    """
    if not wiring.job.has_runs:
        return
    for group in side_by_side(wiring):
        first, *others = sorted(group.fuses, key=lambda fuse: fuse.rating_a or 0.0)
        ratings = " and ".join(f"{fuse.rating_a:g} A" if fuse.rating_a else "a fuse" for fuse in group.fuses)
        ends = (wiring.words(group.near), wiring.words(group.far))
        yield Fault(
            at=Spot(first.place, ends[1]),
            message=f"{ratings} stand side by side between {ends[0]} and {ends[1]}: one goes, then the other, and "
            "together they let too much through.",
            do="Fit one fuse of the right size, and one cable that it protects.",
            about=tuple(dict.fromkeys(end for fuse in group.fuses for end in (fuse.a, fuse.b))),
            also=tuple(Spot(fuse.place, ends[1]) for fuse in others),
            path=group.path,
        )
