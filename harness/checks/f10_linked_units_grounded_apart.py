"""F10."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.grounded_apart import Apart, grounded_apart
from harness.graph.wiring import Wiring


@check(
    "F10",
    Severity.NOTE,
    "Units that share a signal are grounded apart",
    source="common practice, no source",
    needs="runs",
)
def linked_units_grounded_apart(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: an output of one unit on a grounded input of another, with their grounds at two points.

    Why it matters: the body between the two points carries everyone's current, and the difference in volts goes
    through the signal's shield: whine that follows the engine.

    Example: the processor is grounded at the dash and the amplifier in the boot, and RCA cables join the two.

    What to do: nothing, if it is quiet. If it whines, bring both grounds to one point, or use differential inputs.

    Known limits: points are those named under `grounds` and the battery's −; a unit that the car's plug grounds is
    left out. An input whose kind isn't written counts as grounded, unless a bridged or differential output feeds it.

    Source: common practice, no source.
    """
    if not wiring.job.has_runs:
        return
    for each in grounded_apart(wiring):
        yield Fault(
            at=Spot(each.place, wiring.words(each.taking_ground)),
            message=f"{each.giver} is grounded at {_at(wiring, each.giver_points)} and {each.taker}, which takes its "
            f"signal, at {_at(wiring, each.taker_points)}: first suspect if it whines.",
            do=f"If it whines, ground {each.giver} and {each.taker} at one point.",
            about=(each.giving_ground, each.taking_ground),
            path=_path(wiring, each),
        )


def _at(wiring: Wiring, points: tuple[str, ...]) -> str:
    made = []
    for name in points:
        ground = wiring.job.parts.grounds.get(wiring.contact(name).last)
        where = f" ({ground.where})" if ground is not None and ground.where else ""
        made.append(wiring.words(name) + where)
    return " and ".join(made)


def _path(wiring: Wiring, each: Apart) -> tuple[str, ...]:
    return wiring.way_in_words(each.start, wiring.planned.path(each.start, each.end))
