"""F02."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.cable import Stretch
from harness.graph.first_fuse import far_fuses
from harness.graph.shop import figure
from harness.graph.wiring import Wiring
from harness.place import Place
from harness.units import length_like


@check(
    "F02",
    Severity.STOP,
    "First fuse too far from the battery",
    source="contest rule as retold by retailers, seen 2026, origin unknown",
    by_joints=False,
    needs="runs",
)
def fuse_too_far(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: more cable between a battery's + and the first fuse than the shop's figure `fuse distance`.

    Why it matters: no fuse protects what lies before it. A foot under the bonnet can be held clear of metal; a yard
    goes through the bulkhead.

    Example: the fuse holder sits behind the dash, 30 in from the post, and the shop's limit is 18 in.

    What to do: move the fuse towards the post, or fit one there.

    Known limits: lengths are as written, along the cable. A piece without a length is counted as nothing; where that
    decides, the stretch is on the list of what was not checked. The car's own wires and joints count as nothing.

    Source: contest rule as retold by retailers, seen 2026, origin unknown: 18 in; others say 12 in.
    """
    if not wiring.job.has_runs:
        return
    by_line: dict[Place, list[tuple[Stretch, float]]] = {}
    for stretch, length_m in far_fuses(wiring):
        by_line.setdefault(stretch.cables[0].place, []).append((stretch, length_m))
    limit = figure(wiring, "fuse distance")
    for place, far in by_line.items():
        stretch, length_m = max(far, key=lambda each: each[1])
        source = wiring.words(stretch.source)
        lines = dict.fromkeys(cable.place for each, _ in far for cable in each.cables)
        here = length_like(length_m, limit.words)
        yield Fault(
            at=Spot(place, source),
            message=f"The first fuse is {here} of cable from {source}, limit {limit.words}: "
            "nothing stops that stretch from burning.",
            do=f"Move the fuse to within {limit.words} of {source}.",
            about=tuple(dict.fromkeys(name for each, _ in far for name in each.path if name != each.source)),
            also=tuple(Spot(line, source) for line in lines),
            path=stretch.path,
        )
