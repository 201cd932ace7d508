"""J19."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.runs import cables
from harness.graph.wiring import Wiring
from harness.work.order import leaving_plugs
from harness.work.replay import replay
from harness.work.situation import Work, planned_work


@check(
    "J19", Severity.FIX, "Plan not reached by its steps", source="common practice, no source", by_joints=False,
    needs="steps",
)  # fmt: skip
def plan_not_reached(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: work that the plan holds and that none of the job's own steps does: joints never made, a loom
    never plugged in, a cut, a cap, a run or a fuse left out, a plug pulled and never put together again, the battery
    taken off and never back on.

    Why it matters: who follows the steps closes the dash on work that isn't done. And what no step brings back under
    power was not looked at under power.

    Example: a loom is mated for a trial, pulled again for toning, and no step mates it for good.

    What to do: write the step that does it.

    Known limits: a step whose words name nothing counts for all that its verb can mean, and that is listed as not
    checked.

    Source: common practice, no source.
    """
    played = replay(wiring)
    missing = _missing(wiring, planned_work(wiring.job), played.last.work)
    if not played.last.power.battery:
        missing.insert(0, "the battery not back on")
    if not missing or played.order.proposed:
        return
    last = played.moments[-1]
    more = f" and {len(missing) - 3} more" if len(missing) > 3 else ""
    yield Fault(
        at=Spot(last.place, last.words),
        message=f"After the last step the plan isn't reached: {', '.join(missing[:3])}{more}. Who follows the steps "
        "closes the dash on it.",
        do="Write the steps that do it, in their place in the order.",
    )


def _missing(wiring: Wiring, planned: Work, done: Work) -> list[str]:
    job = wiring.job
    made = [f"{name} not joined" for name in sorted(planned.joints - done.joints)]
    mates = [job.mates[at] for at in sorted(planned.mates - done.mates)]
    made += [f"{mate.loom} {mate.end} end not in {mate.plug}" for mate in mates]
    opened = {mate.plug for mate in job.mates}.union(leaving_plugs(wiring))
    made += [f"{name} not plugged together again" for name in sorted(done.apart - opened)]
    left = {job.segments[at] for at in planned.pieces - done.pieces}
    for cable in cables(job):
        pieces = [segment for segment in cable.segments if segment in left]
        if pieces:
            fuse = all(segment.kind == "fuse" for segment in pieces)
            part = "not laid" if len(pieces) == len(cable.segments) else "with an end open"
            made.append(f"{cable.name} {'without its fuse' if fuse else part}")
    for words, names in (
        ("not cut", planned.cut - done.cut),
        ("not capped", planned.capped - done.capped),
        ("not depinned", planned.depinned - done.depinned),
    ):
        made += [f"{name} {words}" for name in sorted(names)]
    return made
