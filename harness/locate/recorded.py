"""What the job's records say of the suspects of a search, as answers already given.

A record counts while it holds, of each two contacts the last one. It says how a point was when it was taken, so one
from before the symptom says nothing, and of what comes and goes only what it found wrong says anything.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

from harness.graph.answers import answers, heard_speakers
from harness.graph.outdated import foreign
from harness.graph.wiring import Wiring
from harness.locate.points import points_of
from harness.locate.readings import Verdict, verdicts
from harness.locate.simulate import Faults, Simulator
from harness.locate.symptoms import INTERMITTENT, PROTECTS, SILENT, WRONG, Symptom
from harness.model.evidence import Record

# How many times likelier a suspect becomes by a reading that is wrong there and tells no more. Common practice, no
# source.
SUSPICION = 4.0


class Used(NamedTuple):
    """A record that was used: what it says, the suspects that fit it (one bit each), and whether it found fault.

    Of one that only raises suspicion `fits` are all suspects, and `raised` are those that it makes likelier.
    """

    record: Record
    says: str
    fits: int
    bad: bool
    raised: int = 0


class Aside(NamedTuple):
    """A record that speaks of the suspects and was left aside, and why."""

    record: Record
    why: str


class Recorded(NamedTuple):
    """What the records gave."""

    used: tuple[Used, ...] = ()
    aside: tuple[Aside, ...] = ()

    @property
    def fitting(self) -> int:
        """The suspects that fit all of them: -1, every bit, where there is none."""
        made = -1
        for each in self.used:
            made &= each.fits
        return made

    def weighed(self, odds: list[float]) -> list[float]:
        """The odds of the suspects, those raised by a reading that is wrong."""
        made = list(odds)
        for each in self.used:
            for at in range(len(made)):
                if each.raised >> at & 1:
                    made[at] *= SUSPICION
        return made


class _Asked(NamedTuple):
    """What a search asks of its records."""

    wiring: Wiring
    simulator: Simulator
    suspects: list[Faults]
    symptoms: tuple[Symptom, ...]
    since: str


def recorded(
    wiring: Wiring,
    simulator: Simulator,
    suspects: list[Faults],
    symptoms: tuple[Symptom, ...],
    since: str = "",
) -> Recorded:
    """What the records say of some suspects. `since` is when the symptom was first there, `2026-03-02` or with a time
    behind it; earlier records are left aside.
    """
    if not suspects or not any(not record.stale for record in wiring.job.records):
        return Recorded()
    return _Reading(_Asked(wiring, simulator, suspects, symptoms, since)).all()


class _Reading:
    def __init__(self, asked: _Asked) -> None:
        self.asked = asked
        self.words = {each.word for each in asked.symptoms}
        self.pieces = frozenset(
            number for faults in asked.suspects for fault in faults for number in (fault.piece, fault.other)
        ) - {-1}

    def all(self) -> Recorded:
        """The newest first, so that where two can't both be so the newer one is used."""
        used: list[Used] = []
        aside: list[Aside] = []
        left = (1 << len(self.asked.suspects)) - 1
        for record, verdict in self._last():
            told = self._used(record, verdict)
            if told is None:
                continue
            why = self._outdated(record, told)
            if not why and not told.fits & left:
                why = "it speaks against what is heard, or against a later record"
            if why:
                aside.append(Aside(record, why))
                continue
            left &= told.fits
            used.append(told)
        return Recorded(tuple(sorted(used, key=_line)), tuple(sorted(aside, key=_line)))

    def _last(self) -> Iterator[tuple[Record, Verdict]]:
        """Of each thing that was read at each contacts the last record, newest first."""
        points = points_of(self.asked.simulator.circuit)
        seen: set[object] = set()
        for record in reversed(self.asked.wiring.job.records):
            if record.stale or foreign(self.asked.wiring, record) or not record.contacts:
                continue
            for verdict in verdicts(self.asked.wiring, self.asked.simulator, points, record, self.words):
                key = (verdict.kind, frozenset(record.contacts), verdict.state)
                if key not in seen:
                    seen.add(key)
                    yield record, verdict
        yield from self._heard()

    def _heard(self) -> Iterator[tuple[Record, Verdict]]:
        """Outputs that another speaker answered: of two that are exchanged it says which two."""
        if WRONG not in self.words:
            return
        simulator = self.asked.simulator
        for answer in answers(self.asked.wiring):
            named = [each.subject for each in self.asked.symptoms if each.subject in answer.astray]
            if answer.odd or not named or foreign(self.asked.wiring, answer.record):
                continue
            channel = simulator.channel_of(answer.driver.name)

            def fits(faults: Faults, named: list[str] = named, channel: str = channel) -> bool | None:
                return all(simulator.plays_at(faults, speaker) in (channel, "") for speaker in named)

            says = f"{answer.driver.name.replace('.', ' ')} is heard from {' '.join(answer.heard)}"
            yield answer.record, Verdict("heard", says, fits, bad=True)

    def _used(self, record: Record, verdict: Verdict) -> Used | None:
        """The record as an answer; None where it says nothing of these suspects."""
        every = (1 << len(self.asked.suspects)) - 1
        if verdict.bad is False and INTERMITTENT in self.words:
            return None
        fits = raised = 0
        for at, faults in enumerate(self.asked.suspects):
            if verdict.fits(faults) is not False:
                fits |= 1 << at
            if any(number in verdict.behind for fault in faults for number in (fault.piece, fault.other)):
                raised |= 1 << at
        if verdict.bad and verdict.behind and not verdict.behind & self.pieces:
            return None  # of another channel
        if verdict.bad and not fits:  # wrong there, and in a way that no suspect gives: it may be any of those there
            return Used(record, f"{verdict.says}: likelier there", every, bad=True, raised=raised)
        return Used(record, verdict.says, fits, verdict.bad) if fits != every else None

    # -- records from before the symptom -----------------------------------------------------------------

    def _outdated(self, record: Record, told: Used) -> str:
        """Why a record says nothing of what is wrong now; empty where it may be believed."""
        if self.asked.since and not _from(record.when, self.asked.since):
            return f"it is from before {self.asked.since}"
        onset = self.onset
        if onset is not None and record.place.line <= onset.place.line and told.record is not onset:
            return f"it is older than the symptom: {onset.named} on line {onset.place.line} still heard it"
        return ""

    @cached_property
    def onset(self) -> Record | None:
        """The last record by which a speaker named still played: what is wrong began after it."""
        silent = {each.subject for each in self.asked.symptoms if each.word in (SILENT, PROTECTS)}
        found = None
        for record in self.asked.wiring.job.records:
            if record.verb != "plays" or record.stale or foreign(self.asked.wiring, record):
                continue
            heard, odd = heard_speakers(self.asked.wiring, record)
            if not odd and silent & set(heard):
                found = record
        return found


def _line(each: Used | Aside) -> int:
    return each.record.place.line


def _from(when: str, since: str) -> bool:
    """Whether a record was surely taken at a time or later; one with the day only not on the day itself."""
    if len(since) > len(when):
        return when[:10] > since[:10] if len(when) < 11 else when >= since[: len(when)]
    return when[: len(since)] >= since
