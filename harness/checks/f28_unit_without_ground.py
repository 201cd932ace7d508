"""F28."""

from collections.abc import Iterator

from harness.checks.registry import Fault, check
from harness.finding import Severity, Spot
from harness.graph.grounding import by_signal, ungrounded, way_to_body
from harness.graph.wiring import Wiring


@check("F28", Severity.FIX, "Unit without a ground", source="common practice, no source", by_joints=False, needs="runs")
def unit_without_ground(wiring: Wiring) -> Iterator[Fault]:
    """What it looks for: a unit of ours, in a job that writes its runs, whose GND reaches no ground at all.

    Why it matters: it stays dead, or finds its ground by the first signal cable that is plugged in.

    Example: the amplifier's black cable goes to a black wire of the car that ends at an open plug.

    What to do: lay a ground, short, to bare metal of the body, and write the run and the ground point.

    Known limits: a unit that is grounded by its case has to be written with a run or a joint. One that reaches ground
    by a signal only is told as that. Units that the car brings, or that sit on a plug, are grounded there.

    Source: common practice, no source.
    """
    if not wiring.job.has_runs:
        return
    units = wiring.job.parts.units
    for ground in ungrounded(wiring):
        terminal = ground.terminals[0]
        if by_signal(wiring, terminal):
            continue
        names = list(dict.fromkeys(wiring.contact(name).owner for name in ground.terminals))
        path = way_to_body(wiring, terminal)
        end = _arrives_at(wiring, path)
        end = end if wiring.contact(end).kind != "run" else terminal
        ends = f"ends at {wiring.words(end)} and reaches no ground" if end != terminal else "has no ground"
        more = f" (nor has {' nor '.join(names[1:])})" if names[1:] else ""
        yield Fault(
            at=Spot(units[names[0]].place, wiring.words(terminal)),
            message=f"{wiring.words(terminal)} {ends}{more}: it stays dead, or takes the signal's shield for ground.",
            do=f"Lay a ground from {wiring.words(terminal)} to bare metal of the body and write the run.",
            about=ground.terminals,
            also=tuple(Spot(units[name].place, name) for name in names[1:]),
            path=path,
        )


def _arrives_at(wiring: Wiring, path: tuple[str, ...]) -> str:
    """Where the wire ends, without what the unit there joins inside."""
    last = wiring.contact(path[-1])
    if last.kind != "unit":
        return path[-1]
    return next(name for name in path if wiring.contact(name).owner == last.owner)
