"""F22."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.meeting import feeds, grounded_nets, is_feed, is_ground, meeting, place_of, reach
from harness.graph.wiring import Wiring


@check("F22", Severity.STOP, "Battery feed and ground in one net", source="common practice, no source")
def battery_meets_ground(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a feed (B+, 30, the post, ACC, IGN) that conducts to ground as planned.

    Why it matters: it is a short across the battery. It burns, before the fuse if the joint is upstream of it.

    Example: a loom's yellow lead and its black lead are twisted into one splice.

    What to do: undo the joint named.

    Known limits: current through a unit is not a short here; only what is joined counts. A relay's 30 may
    switch ground and counts as no feed by itself.

    Source: common practice, no source.
    """
    told: set[str] = set()
    grounded = grounded_nets(wiring)
    for name in feeds(wiring):
        if name in told or wiring.planned.net_number(name) not in grounded:
            continue
        fed, ground = reach(wiring, name, lambda other: is_ground(wiring, other))
        told.update(fed)
        if not ground:
            continue
        feeding = [each for each in fed if is_feed(wiring, wiring.contact(each))]
        live = [each for each in feeding if wiring.contact(each).kind in ("plug", "battery")]
        start = (live or feeding)[0]
        met = meeting(wiring, start, ground, lambda other: is_feed(wiring, wiring.contact(other)))
        joined = met.at
        through = f" through {wiring.words(joined)}" if joined != met.near else ""
        burns = "a short across the battery, it burns" if live else "a short as soon as it is fed, it burns"
        yield Fault(
            at=Spot(place_of(wiring, met.conductor, met.near), wiring.words(joined)),
            message=f"{wiring.words(met.near)} reaches {wiring.words(ground)}{through}: {burns}.",
            do=f"Part {wiring.words(joined)} from {wiring.words(ground)} before anything is powered.",
            about=tuple(fed),
            path=wiring.way_in_words(start, met.hops),
        )
