"""The car between two steps: what is done so far, as a job of its own that any question can be asked about."""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.model.job import Job
from harness.work.deeds import NO_WAIT, Deeds, Hanging


class Power(NamedTuple):
    """Battery and key; `calm_s` is how long was waited since the battery went off."""

    battery: bool = True
    key: bool = False
    calm_s: float = NO_WAIT

    @property
    def on(self) -> bool:
        """Whether the key has woken what wakes with it."""
        return self.battery and self.key


class Work(NamedTuple):
    """What is done so far, by name or by number in the job."""

    apart: frozenset[str] = frozenset()
    mates: frozenset[int] = frozenset()
    joints: frozenset[str] = frozenset()
    pieces: frozenset[int] = frozenset()
    cut: frozenset[str] = frozenset()
    capped: frozenset[str] = frozenset()
    depinned: frozenset[str] = frozenset()
    insulated: bool = False
    hanging: frozenset[Hanging] = frozenset()  # wires of runs with an open end


class Situation(NamedTuple):
    """The car at one time."""

    power: Power = Power()
    work: Work = Work()


def planned_work(job: Job) -> Work:
    """All of it done."""
    return Work(
        frozenset(),
        frozenset(range(len(job.mates))),
        frozenset(joint.name for joint in job.joints),
        frozenset(at for at, segment in enumerate(job.segments) if segment.laid),
        frozenset(job.cut),
        frozenset(job.capped),
        frozenset(job.depinned),
    )


def after(situation: Situation, deeds: Deeds, job: Job) -> tuple[Situation, Situation]:
    """The car while a step is at its fullest, and when it is left."""
    power, work = situation
    battery = power.battery if deeds.battery is None else deeds.battery
    key = power.key if deeds.key is None else deeds.key
    calm_s = NO_WAIT if battery else power.calm_s + (deeds.waits_s or 0.0)
    mates = (work.mates - deeds.unmates) | deeds.mates
    mates -= frozenset(at for at in mates if job.mates[at].plug in deeds.apart | deeds.whole)
    between = {job.mates[at].plug for at in mates}  # a loom is between its halves
    left = {job.mates[at].plug for at in work.mates - mates}
    apart = (work.apart | deeds.apart | left) - deeds.whole - between
    done = Work(
        apart,
        mates,
        work.joints | deeds.joints,
        work.pieces | deeds.pieces,
        work.cut | deeds.cut,
        work.capped | deeds.capped,
        work.depinned | deeds.depinned,
        work.insulated if deeds.insulated is None else deeds.insulated,
        (work.hanging | deeds.hangs) - deeds.held,
    )
    if deeds.joints:
        done = done._replace(insulated=False)
    here = Situation(Power(battery, key, calm_s), done)
    staying = done.mates - deeds.leaves
    pulled = {job.mates[at].plug for at in done.mates - staying} - {job.mates[at].plug for at in staying}
    left_at = Power(battery and "battery" not in deeds.ends_off, key and "key" not in deeds.ends_off, calm_s)
    return here, Situation(left_at, done._replace(mates=staying, apart=done.apart | pulled))


def job_at(job: Job, work: Work) -> Job:
    """The job as if no more than this were planned.

    A plug that is apart without a loom is open; a unit that comes out is out once all its plugs are apart.
    """
    capped = {name: place for name, place in job.capped.items() if name in work.capped}
    if work.insulated:
        capped |= {lead.name: lead.place for loom in job.parts.looms.values() for lead in loom.leads}
    return replace(
        job,
        mates=tuple(mate for at, mate in enumerate(job.mates) if at in work.mates),
        joints=tuple(joint for joint in job.joints if joint.name in work.joints),
        segments=tuple(
            segment for at, segment in enumerate(job.segments) if not segment.laid or at in work.pieces
        ),
        cut={name: place for name, place in job.cut.items() if name in work.cut},
        capped=capped,
        depinned={name: place for name, place in job.depinned.items() if name in work.depinned},
        removed={name: place for name, place in job.removed.items() if _is_out(job, name, work)},
        apart=work.apart,
    )  # fmt: skip


def _is_out(job: Job, unit: str, work: Work) -> bool:
    plugs = [plug.name for plug in job.parts.plugs.values() if unit in (plug.unit, plug.car)]
    opened = work.apart.union(job.mates[at].plug for at in work.mates)
    return all(name in opened for name in plugs)


def wiring_at(wiring: Wiring, work: Work) -> Wiring:
    """The wiring of the car with this done, made once for each."""
    known = states_of(wiring)
    made = known.get(work)
    if made is None:
        made = known[work] = Wiring(job_at(wiring.job, work))
    return made


def states_of(wiring: Wiring) -> dict[Work, Wiring]:
    """The wirings made so far; trials of other orders share them."""
    made = wiring.answers.setdefault(states_of, {})
    assert isinstance(made, dict)
    return made
