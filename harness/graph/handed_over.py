"""Where a job was paused, what its handover doesn't say, and who went on without having read it."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.outdated import foreign
from harness.graph.wiring import Wiring
from harness.model.evidence import CLOSED, PAUSED, STRUCK, TAKEN, Record

NEEDED = ("done", "left", "parts", "odd")
_NO_WORK = ("printed", "signed", STRUCK)  # reading a print is how a handover is read


class Handover(NamedTuple):
    """The last pause; which of NEEDED it lacks; the first record of somebody else after it, if nobody took over."""

    paused: Record
    missing: tuple[str, ...]
    went_on: Record | None


def handed_over(wiring: Wiring) -> Handover | None:
    """The last pause that is still open: not taken over by somebody, and the job not closed. None where there is none.

    A pause that somebody took over is past, whatever it didn't say.
    """
    paused: Record | None = None
    went_on: Record | None = None
    for record in wiring.job.records:
        if foreign(wiring, record):
            continue
        if record.verb == "handover":
            if record.what == PAUSED:
                paused, went_on = record, None
                continue
            if record.what in (CLOSED, TAKEN):
                paused, went_on = None, None
                continue
        if paused is None or went_on is not None or record.verb in _NO_WORK or not record.by or not paused.by:
            continue
        if record.by.strip().lower() != paused.by.strip().lower():
            went_on = record
    if paused is None:
        return None
    return Handover(paused, tuple(key for key in NEEDED if not paused.word(key).strip()), went_on)
