"""What the car itself has confirmed of a plan, and what keeps it from being verified."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.pairs import UsedPair, used_pairs
from harness.graph.signal import Driver
from harness.graph.wiring import Wiring
from harness.model.evidence import CLOSED, LOST, RELEASED, WORKS, Record
from harness.model.job import Feature


class Open(NamedTuple):
    """What evidence doesn't cover yet: pairs never toned, outputs never heard, functions not tried again.

    `before` are functions of the car that nobody tried before the work, so that nothing can be said of them.
    """

    pairs: tuple[UsedPair, ...]
    outputs: tuple[Driver, ...]
    after: tuple[Feature, ...]
    before: tuple[Feature, ...]

    @property
    def nothing(self) -> bool:
        """Whether all of it is proved; a function never tried before can't be missed."""
        return not (self.pairs or self.outputs or self.after)


@kept
def open_evidence(wiring: Wiring) -> Open:
    """What no record covers that still holds."""
    job = wiring.job
    tried = {verb: last_of(wiring, verb) for verb in ("before", "after")}
    signals = wiring.signals
    heard = {record.what.lower() for record in job.records if record.verb == "plays" and not record.stale}
    playing = {way.source.name for receiver in signals.speaker_receivers for way in signals.ways(receiver)}
    signed = lost(wiring)
    return Open(
        tuple(pair for pair in used_pairs(wiring) if pair.state != "toned"),
        tuple(each for each in signals.drivers if each.name in playing and each.name.lower() not in heard),
        tuple(
            each
            for each in job.features
            if worked(tried["before"].get(each.name.lower()))
            and not worked(tried["after"].get(each.name.lower()))
            and each.name.lower() not in signed
        ),
        tuple(each for each in job.features if each.name.lower() not in tried["before"]),
    )


def last_of(wiring: Wiring, verb: str) -> dict[str, Record]:
    """The last record of that verb about each thing, by the thing's name in small letters."""
    return {record.what.lower(): record for record in wiring.job.records if record.verb == verb and not record.stale}


def worked(record: Record | None) -> bool:
    """Whether a trial of a function found that it works."""
    return record is not None and record.word("result") == WORKS


def lost(wiring: Wiring) -> frozenset[str]:
    """Functions of the car whose loss somebody signed for, in small letters."""
    return frozenset(
        name.strip().lower()
        for record in wiring.job.records
        if record.verb == "signed" and record.what == LOST
        for name in record.word("lost").split(",")
    )


def built(wiring: Wiring) -> bool:
    """Whether the records say that the plan has been carried out: something built, tried or heard after the work, the
    handover closed, or the job released. Until then a plan isn't asked for what comes after the work.
    """
    return any(
        record.verb in ("built", "plays", "after", "response")
        or (record.verb == "handover" and record.what == CLOSED)
        or (record.verb == "signed" and record.what == RELEASED)
        for record in wiring.job.records
        if not record.stale
    )


def released(wiring: Wiring) -> Record | None:
    """The last signature that lets a job go although pairs weren't toned, with a reason; None where none stands."""
    found = [r for r in wiring.job.records if r.verb == "signed" and r.what == RELEASED and r.word("reason") and r.by]
    return found[-1] if found else None
