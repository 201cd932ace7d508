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
    after = {segment.a: segment for segment in job.segments if segment.laid and segment.a.startswith("run.")}
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
