"""A state of the car between two steps in words, as reports and paper tell it."""

from __future__ import annotations

from collections.abc import Iterable

from harness.finding import Finding
from harness.graph.loose import loose_ends
from harness.graph.runs import cables
from harness.graph.wiring import Wiring
from harness.work.order import WorkStep
from harness.work.replay import Moment
from harness.work.situation import Situation, Work, wiring_at


def step_words(step: WorkStep) -> str:
    """What a step says, for a screen or a script: without the spaces that only paper must not break at."""
    return step.what.replace("\N{NO-BREAK SPACE}", " ")


def found_at(moment: Moment, findings: Iterable[Finding]) -> list[Finding]:
    """The findings whose first place is this step."""
    return [each for each in findings if each.places[0].name == moment.words]


def power_words(situation: Situation) -> str:
    """`battery off` or `battery on, key off`."""
    power = situation.power
    return f"battery on, key {'on' if power.key else 'off'}" if power.battery else "battery off"


def plug_words(wiring: Wiring, work: Work) -> list[str]:
    """`dash apart`, `T1 car end in dash`: every plug that isn't as the car came."""
    job = wiring.job
    made = []
    for plug in sorted(work.apart):
        made.append(f"{plug} apart")
    by_loom: dict[tuple[str, str], list[str]] = {}
    for at in sorted(work.mates):
        mate = job.mates[at]
        by_loom.setdefault((mate.loom, mate.plug), []).append(mate.end)
    for (loom, plug), ends in by_loom.items():
        whole = len(ends) > 1
        made.append(f"{loom} in {plug}" if whole else f"{loom} {ends[0]} end in {plug}, its other end open")
    return made


def bare_ends(wiring: Wiring, work: Work) -> tuple[str, ...]:
    """Leads, cut ends and open ends of runs that are joined to nothing, capped by nobody, in the order of the job.

    While a loom isn't in any plug its leads are on the bench.
    """
    hanging = tuple(open_run_ends(wiring, work))
    if work.insulated:
        return hanging
    laid = wiring_at(wiring, work)
    looms = {wiring.job.mates[at].loom for at in work.mates}
    loose = tuple(
        name
        for end in loose_ends(laid)
        if end.owner in looms or end.owner in wiring.job.parts.plugs
        for name in end.contacts
    )
    return (*loose, *hanging)


def open_run_ends(wiring: Wiring, work: Work) -> list[str]:
    """`RUN 1 at amp.B+`: the open ends of runs, in their order."""
    segments = wiring.job.segments
    open_at = {(id(segments[number]), held) for number, held in work.hanging}
    made = []
    for cable in cables(wiring.job) if open_at else ():
        for run in cable.wires:
            first, last = run.segments[0], run.segments[-1]
            made += [f"{cable.name} at {run.start}"] if (id(first), first.b) in open_at else []
            made += [f"{cable.name} at {run.end}"] if (id(last), last.a) in open_at else []
    return made
