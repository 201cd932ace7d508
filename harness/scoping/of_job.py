"""A job as a scope: what its plan opens, adds and lays are the wishes, its plugs a map of their own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from harness.graph.pairs import used_pairs
from harness.graph.runs import cables
from harness.graph.wiring import Wiring
from harness.model.job import Job
from harness.model.scope import Laid, Record, Scope, Wish
from harness.planning.parts_list import parts_list
from harness.read.lines import shown_line
from harness.read.maps import Map


def of_job(scope: Scope, wiring: Wiring) -> tuple[Scope, tuple[Map, ...]]:
    """The scope with the wishes and runs of a job, and the job's own maps."""
    job = wiring.job
    laid = tuple(_laid(job)) if job.has_runs else None
    units = {name.lower(): unit for name, unit in job.parts.units.items()}
    own = tuple(Map(job.file, job.title, plug, units) for plug in job.parts.plugs.values() if not plug.inline)
    return replace(scope, wishes=tuple(_wishes(wiring)), laid=laid), own


def _wishes(wiring: Wiring) -> Iterator[Wish]:
    job = wiring.job
    for pair in used_pairs(wiring):
        if pair.plus.function.kind == "audio":
            base = pair.plus.function.base
            yield Wish("amplify", base, "", Record(base, pair.plus.place))
    lacks = job.car.lacks if job.car else ()
    for name, speaker in job.parts.speakers.items():
        if speaker.new:
            yield Wish("add" if name in lacks else "replace", name, speaker.where, Record(name, speaker.place))
    for unit in parts_list(wiring).units:
        yield Wish("unit", unit.name, unit.where, Record(unit.name, unit.place))


def _laid(job: Job) -> Iterator[Laid]:
    """The runs of a job as records: the words are the run's first as they stand there."""
    for cable in cables(job):
        place = cable.segments[0].place
        shown = shown_line(place)
        words = shown[0].strip(" -").partition(" > ")[0] if shown else cable.name
        ends = [job.contacts[name] for name in (cable.wires[0].start, cable.wires[0].end)]
        posts = [each.kind == "battery" or (each.kind == "unit" and _is_battery(job, each.owner)) for each in ends]
        yield Laid(any(posts), Record(words, place))


def _is_battery(job: Job, unit: str) -> bool:
    return job.parts.units[unit].kind == "battery"
