"""J23."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.wiring import Wiring


@check(
    "J23",
    Severity.STOP,
    "Live where nothing may feed it",
    source="common practice, no source",
    by_joints=False,
    needs="records",
)
def live_where_nothing_feeds(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: 1 V or more at a ground terminal of a unit of ours; more than 0.1 V DC between the two wires
    of a speaker pair on the car's side, or more than 9 V from one of its wires to the body (1 V where `unplugged` says
    that its plug was apart).

    Why it matters: a ground that is live is open or joined to a feed. The unit's current goes home by signal shields
    and burns them. DC on a pair burns the voice coil, and whatever tone source or meter is put there.

    Example: 12.6 V at the processor's ground; 11 V between the wires of the left front door.

    What to do: key out, the fuse at the battery out. Find what feeds it before anything is joined, toned or powered;
    then read again and add a record.

    Known limits: the last reading counts, of a pair also the `dc` of a tone. Less at a ground is told as J22. Volts of
    a signal (`signal` or `step` written) aren't DC, nor is what stands on an output or a plug's unit side judged: a
    radio may put half its supply on both wires.

    Source: common practice, no source; DC first on every pair, as on the toning checklist.
    """
    from harness.graph.contrary import DC, LIVE, LIVE_GROUND, contrary  # few jobs have records

    for each in contrary(wiring):
        if each.kind not in (DC, LIVE, LIVE_GROUND):
            continue
        at_ground = each.kind == LIVE_GROUND
        yield Fault(
            at=Spot(each.record.place, each.where),
            message=f"{each.words}. "
            + (
                "The ground is open or joined to a feed: current goes home by signal shields and burns them."
                if at_ground
                else "Something still feeds it: a voice coil burns, and so does what is put there to tone it."
            ),
            do="Key out, fuse at the battery out. "
            + (
                "Read the ground wire to bare metal and mend it, then read the volts again and add a record."
                if at_ground
                else "Part the plug from its unit, no lead of yours on a unit; find what feeds the pair, read it again "
                "and add a record."
            ),
            about=each.contacts,
        )
