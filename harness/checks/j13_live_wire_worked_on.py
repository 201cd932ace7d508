"""J13."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.checks.stepping import live_from, spot
from harness.finding import Severity
from harness.graph.wiring import Wiring
from harness.work.replay import Moment, replay
from harness.work.situation import wiring_at
from harness.work.telling import power_words


@check(
    "J13",
    Severity.STOP,
    "Live wire worked on",
    source="workshop manuals, makers withheld: battery negative off before supply work",
    by_joints=False,
    needs="steps",
)
def live_wire_worked_on(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a step that cuts, joins, caps, pulls or lays a wire which is live while it is made. With the
    battery on, that is what the battery feeds; with the key on, also switched feeds, turn-on wires and outputs.

    Why it matters: the bare end or the tool finds metal. A short ahead of the first fuse welds and burns.

    Example: the cable is laid to the battery with its fuse in, and only then the battery is taken off.

    What to do: take the battery off first, and bring it back last.

    Known limits: what is live is known from the chart's functions and from the post of the battery; a second battery
    counts as off with the first. What the steps' words leave open is listed as not checked.

    Source: workshop manuals, makers withheld, and common practice: battery negative off before supply work, on last.
    """
    for moment in replay(wiring).moments:
        power = moment.during.power
        if not power.battery:
            continue
        touched = _touched(wiring, moment)
        if not touched:
            continue
        states = [wiring_at(wiring, there.work) for there in (moment.before, moment.during)]
        for name in touched:
            found = next(((state, live) for state in states if (live := live_from(state, name, key=power.key))), None)
            if found is None:
                continue
            laid, source = found
            fed = "live by itself" if source == name else f"live from {wiring.words(source)}"
            yield Fault(
                at=spot(moment),
                message=f"{moment.words.capitalize()} works on {wiring.words(name)}, {fed}, with "
                f"{power_words(moment.during)}: the bare end or the tool finds metal.",
                do="Take the battery's negative off before this step, and put it back when all is made.",
                about=(name,),
                path=laid.way_in_words(source, laid.planned.path(source, name)),
            )
            break


def _touched(wiring: Wiring, moment: Moment) -> list[str]:
    """The contacts that a step works on by hand, in the order of the job."""
    job, deeds = wiring.job, moment.deeds
    names = [
        name
        for joint in job.joints
        if joint.name in deeds.joints - moment.before.work.joints
        for link in joint.links
        for name in link
    ]
    for at in sorted(deeds.pieces - moment.before.work.pieces):
        names += job.segments[at].a, job.segments[at].b
    for table in (deeds.cut, deeds.depinned, deeds.capped):
        names += sorted(table)
    return list(dict.fromkeys(names))
