"""The runs that we lay, each as one line: from, to, and the pieces between."""

from __future__ import annotations

from typing import NamedTuple

from harness.model.job import Job
from harness.planning.routes import piece_words


class Run(NamedTuple):
    """One conductor from contact to contact: its pieces in words, in order."""

    start: str
    end: str
    pieces: tuple[str, ...]


def laid_runs(job: Job) -> tuple[Run, ...]:
    """Every laid wire, the points between its pieces left out; a pair gives two."""
    after = {segment.a: segment for segment in job.segments if segment.laid and segment.a.startswith("run.")}
    made = []
    for segment in job.segments:
        if not segment.laid or segment.a.startswith("run."):
            continue
        pieces, here = [piece_words(segment)], segment
        while here.b in after:
            here = after[here.b]
            pieces.append(piece_words(here))
        made.append(Run(segment.a, here.b, tuple(piece for piece in pieces if piece)))
    return tuple(made)
