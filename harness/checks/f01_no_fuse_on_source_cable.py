"""F01."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.first_fuse import Bare, bare_ways, sizes_words
from harness.graph.shop import figure
from harness.graph.wiring import Wiring
from harness.place import Place


@check(
    "F01",
    Severity.STOP,
    "No fuse on the cable from the battery",
    source="FCS 1362:2010 4.6.3, as quoted in the trade, seen 2026",
    by_joints=False,
    needs="runs",
)
def no_fuse_on_source_cable(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a cable that we lay from a battery's + to a unit with no fuse before the unit.

    Why it matters: nothing but the cable itself limits the current. Where it rubs through or is crushed in a crash,
    it glows along its whole length.

    Example: `battery.+ > 15 ft 4 AWG > amp.B+`.

    What to do: fit a fuse near the source, as big as the load needs and no bigger than the thinnest cable takes.

    Known limits: a fuse counts wherever it stands before the unit; how far off it may stand is F02. Fuses in a unit's
    own case protect the unit and not the cable. A fuse of the car counts where the `found` chain writes it.

    Source: FCS 1362:2010 section 4.6.3, as quoted in the trade, seen 2026: protection as close to the source as can be.
    """
    if not wiring.job.has_runs:
        return
    by_line: dict[Place, list[Bare]] = {}
    for way in bare_ways(wiring):
        by_line.setdefault(way.cables[0].place, []).append(way)
    limit = figure(wiring, "fuse distance")
    for place, ways in by_line.items():
        first = ways[0]
        source = wiring.words(first.source)
        loads = " and ".join(dict.fromkeys(wiring.words(way.load) for way in ways))
        sizes = f"{sizes_words(first.cables)} cable".lstrip()
        lines = dict.fromkeys(cable.place for way in ways for cable in way.cables)
        yield Fault(
            at=Spot(place, loads),
            message=f"The {sizes} from {source} to {loads} has no fuse: one rub and it burns along its whole length.",
            do=f"Fit a fuse within {limit.words} of {source}, no bigger than the thinnest cable behind it takes.",
            about=tuple(dict.fromkeys(name for way in ways for name in way.path if name != way.source)),
            also=tuple(Spot(line, loads) for line in lines),
            path=first.path,
        )
