"""F08."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.fitted import terminals_for
from harness.graph.grounding import feed_cable, ground_cables, grounds, way_to_body
from harness.graph.wiring import Wiring

# One step of either row of sizes is a fifth or more: 8 AWG and 8 mm² are the same cable here.
_SAME = 0.9


@check(
    "F08",
    Severity.FIX,
    "Ground cable thinner than the feed",
    source="common practice, no source",
    by_joints=False,
    needs="runs",
)
def ground_thinner_than_power(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit whose ground cable has less copper than the cable at its B+.

    Why it matters: what comes in by the feed goes back by the ground. The thin one drops the volts and gets hot,
    and the signal shield takes what it does not carry.

    Example: `4 AWG` to the amplifier's B+, and `10 AWG` from its GND to the seat bolt.

    What to do: lay the ground in the same size and metal as the feed, short.

    Known limits: sizes are compared as written, copper-clad aluminium by its resistance (16.06 / 10.37); a tenth less
    counts as the same size, so that gauges and mm² can be mixed. The thinnest wire up to the body counts, and cables
    side by side are added. What the unit draws is not looked at.

    Source: common practice, no source.
    """
    if not wiring.job.has_runs:
        return
    known = grounds(wiring)
    for unit in wiring.job.parts.units.values():
        terminals = [name for name in terminals_for(wiring, unit.name, "ground") if name in known]
        cables = [cable for name in terminals for cable in ground_cables(wiring, name)]
        if not cables:
            continue
        feed = feed_cable(wiring, terminals_for(wiring, unit.name, "battery"))
        if feed is None or sum(cable.area_mm2 for cable in cables) >= feed.area_mm2 * _SAME:
            continue
        thinnest = min(cables, key=lambda cable: cable.area_mm2)
        words = " and ".join(cable.words for cable in cables)
        yield Fault(
            at=Spot(thinnest.place, wiring.words(terminals[0])),
            message=f"{unit.name} is fed by {feed.words} and grounded by {words}: the same current, "
            "so the ground drops the volts and gets hot.",
            do=f"Lay the ground of {unit.name} in the size of its feed, {feed.words}.",
            about=tuple(terminals),
            path=way_to_body(wiring, terminals[0]),
        )
