"""F12."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.fused_ground import fused_grounds
from harness.graph.wiring import Wiring


@check(
    "F12",
    Severity.FIX,
    "Fuse in a ground lead",
    source="FCS 1362:2010 4.6, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="runs",
)
def ground_lead_fused(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a fuse between a unit's ground and the body.

    Why it matters: when it blows, the unit stays live and finds another way to ground: by the signal's shield and
    the radio. A short of the feed to the body does not go through it at all.

    Example: `amp.GND > fuse 30 A > 18 in 8 AWG > gnd.G1`.

    What to do: take the fuse out of the ground; the fuse belongs into the feed.

    Known limits: for cars whose − is on the body. A fuse by which a feed meets ground is told as a short.

    Source: FCS 1362:2010 section 4.6, as quoted in the trade, seen 2026: the positive only, the negative not fused.
    """
    if not wiring.job.has_runs:
        return
    for fused in fused_grounds(wiring):
        fuse = fused.fuse
        rating = f"A {fuse.rating_a:g} A fuse" if fuse.rating_a else "A fuse"
        terminal = wiring.words(fused.terminal)
        yield Fault(
            at=Spot(fuse.place, terminal),
            message=f"{rating} stands between {terminal} and the body: when it blows, the ground goes by the signal's "
            "shield, and the feed is still live.",
            do=f"Take the fuse out of the ground of {terminal}; fuse the feed.",
            about=tuple(dict.fromkeys((fuse.a, fuse.b, fused.terminal))),
            path=fused.path,
        )
