"""The runs that we lay, each as one line: from, to, and the pieces between."""

from __future__ import annotations

from typing import NamedTuple

from harness.model.job import Job, Segment


class Run(NamedTuple):
    """One conductor from contact to contact, with its pieces in order."""

    start: str
    end: str
    segments: tuple[Segment, ...]

    def same_make(self, other: Run) -> bool:
        """Whether both are written on one line of the job with the same pieces: the two wires of a pair."""
        return [_make(each) for each in self.segments] == [_make(each) for each in other.segments]


def laid_runs(job: Job) -> tuple[Run, ...]:
    """Every laid wire, the points between its pieces left out; a pair gives two."""
    after = {segment.a: segment for segment in job.segments if segment.a.startswith("run.")}
    made = []
    for segment in job.segments:
        if not segment.laid or segment.a.startswith("run."):
            continue
        pieces = [segment]
        while pieces[-1].b in after:
            pieces.append(after[pieces[-1].b])
        made.append(Run(segment.a, pieces[-1].b, tuple(pieces)))
    return tuple(made)


def _make(segment: Segment) -> Segment:
    return segment._replace(a="", b="", colour=None)


class Cable(NamedTuple):
    """A run as it is laid and ticked off: one wire, or the two wires of a pair, + first, as one cable.

    `number` counts from 1 in the order written; every sheet calls it by the same name.
    """

    number: int
    wires: tuple[Run, ...]

    @property
    def name(self) -> str:
        """`RUN 3`."""
        return f"RUN {self.number}"

    @property
    def segments(self) -> tuple[Segment, ...]:
        """The pieces in order, of the + wire where there are two: both are of the same make."""
        return self.wires[0].segments


def cables(job: Job) -> tuple[Cable, ...]:
    """The runs of a job, numbered; what is written as a pair is one."""
    runs = list(laid_runs(job))
    made: list[Cable] = []
    while runs:
        run = runs.pop(0)
        twin = next((other for other in runs if _is_pair(job, run, other)), None)
        if twin is not None:
            runs.remove(twin)
        made.append(Cable(len(made) + 1, (run, twin) if twin is not None else (run,)))
    return tuple(made)


def cables_at(job: Job) -> dict[str, tuple[Cable, ...]]:
    """Contact -> the runs that end there, in their order."""
    made: dict[str, tuple[Cable, ...]] = {}
    for cable in cables(job):
        for run in cable.wires:
            for end in (run.start, run.end):
                made[end] = (*made.get(end, ()), cable)
    return made


def _is_pair(job: Job, run: Run, other: Run) -> bool:
    """Whether two runs are the + and the − of one line of the job, and so of the same make."""
    if not run.same_make(other):
        return False
    signs = []
    for name, there in ((run.start, other.start), (run.end, other.end)):
        here, far = job.contacts[name], job.contacts[there]
        if (here.owner, here.half, here.function.base) != (far.owner, far.half, far.function.base):
            return False
        signs.append((here.function.sign, far.function.sign))
    return signs[0] == ("+", "-") and signs[1] in (("+", "-"), ("-", "+"))


class RunEnds:
    """Where the far end of a run is, for a point between its pieces."""

    def __init__(self, job: Job) -> None:
        self._forward = {segment.a: segment.b for segment in job.segments if segment.laid}
        self._back = {segment.b: segment.a for segment in job.segments if segment.laid}

    def far(self, point: str, near: str) -> str:
        """The end of the run through `point` that lies away from the contact `near`; any other contact as it is."""
        for onward in (self._forward, self._back):
            here, before = point, near
            while here.startswith("run.") and here in onward and onward[here] != before:
                here, before = onward[here], here
            if not here.startswith("run."):
                return here
        return point
