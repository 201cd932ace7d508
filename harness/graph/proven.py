"""What the car itself has confirmed of a plan, and what keeps it from being verified."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from harness.graph.answers import Answer, answers
from harness.graph.heard import lost_features
from harness.graph.kept import kept
from harness.graph.outdated import foreign
from harness.graph.pairs import UsedPair, used_pairs
from harness.graph.signal import Driver
from harness.graph.wiring import Wiring
from harness.model.evidence import CLOSED, FAILS, LOST, NOTHING, RELEASED, WORKS, Record
from harness.model.job import Feature, kind_by_name

if TYPE_CHECKING:
    from harness.graph.contrary import Contrary

# Nobody can sign these away: somebody relies on them.
UNSIGNABLE = ("warning", "emergency")


class Open(NamedTuple):
    """What evidence doesn't cover yet: pairs never toned, outputs not heard as planned, functions not working again.

    `before` are functions of the car that nobody tried before the work, so that nothing can be said of them.
    `unlisted` are functions that worked before and don't yet again, and that the job doesn't list. `contrary` are the
    records that speak against the plan.
    """

    pairs: tuple[UsedPair, ...]
    outputs: tuple[Driver, ...]
    after: tuple[Feature, ...]
    before: tuple[Feature, ...]
    unlisted: tuple[str, ...] = ()
    proved: bool = False  # whether the car has said anything of the plan: a pair toned, an output heard, or a trial
    contrary: tuple[Contrary, ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether all of it is proved; a function never tried before can't be missed."""
        return not (self.pairs or self.outputs or self.after or self.unlisted or self.contrary)

    @property
    def untried(self) -> tuple[str, ...]:
        """The functions that worked before and don't yet again, by name, those of the job first."""
        return (*(each.name for each in self.after), *self.unlisted)


class Tried(NamedTuple):
    """A function of the car and the last trial of it before and after the work; `feature` None: not in the job."""

    name: str
    feature: Feature | None
    before: Record | None
    after: Record | None
    signed: bool  # somebody signed for its loss, and it is one that can be signed for

    @property
    def kind(self) -> str:
        return self.feature.kind if self.feature is not None else kind_by_name(self.name)

    @property
    def never_tried(self) -> bool:
        """Whether it worked before and nobody tried it since, signed for or not."""
        return worked(self.before) and (self.after is None or self.after.word("result") not in (WORKS, *FAILS))

    @property
    def missing(self) -> bool:
        """Whether it worked before, doesn't yet again, and nobody signed for that."""
        return worked(self.before) and not worked(self.after) and not self.signed


@kept
def tried(wiring: Wiring) -> tuple[Tried, ...]:
    """Every function of the job in its order, then those that only records name."""
    listed: dict[str, Feature | None] = {each.name.lower(): each for each in wiring.job.features}
    last = {verb: last_of(wiring, verb) for verb in ("before", "after")}
    for verb in ("before", "after"):
        for name in last[verb]:
            listed.setdefault(name, None)
    signed = lost(wiring)
    made = []
    for key, feature in listed.items():
        before, after = last["before"].get(key), last["after"].get(key)
        record = before or after
        name = feature.name if feature is not None else record.what if record is not None else key
        each = Tried(name, feature, before, after, False)
        made.append(each._replace(signed=key in signed and each.kind not in UNSIGNABLE))
    return tuple(made)


@kept
def open_evidence(wiring: Wiring) -> Open:
    """What no record covers that still holds, and what a record says against the plan."""
    from harness.graph.contrary import contrary  # few jobs have records

    signals = wiring.signals
    heard = {answer.driver.name for answer in answers(wiring) if answer.as_planned}
    playing = {way.source.name for receiver in signals.speaker_receivers for way in signals.ways(receiver)}
    missing = [each for each in tried(wiring) if each.missing or each.never_tried]
    return Open(
        tuple(pair for pair in used_pairs(wiring) if pair.state != "toned"),
        tuple(each for each in signals.drivers if each.name in playing and each.name not in heard),
        tuple(each.feature for each in missing if each.feature is not None),
        tuple(each.feature for each in tried(wiring) if each.feature is not None and not _known_before(each)),
        tuple(each.name for each in missing if each.feature is None),
        bool(heard) or any(pair.state == "toned" for pair in used_pairs(wiring)) or any(map(_again, tried(wiring))),
        contrary(wiring),
    )


def _known_before(each: Tried) -> bool:
    """Whether a trial before the work says how it was; `not tried` says nothing."""
    return each.before is not None and each.before.word("result") in (WORKS, *FAILS)


def _again(each: Tried) -> bool:
    return worked(each.after)


@kept
def planned_away(wiring: Wiring) -> frozenset[str]:
    """Functions that the plan itself loses, by name in small letters: that they fail is told of the plan."""
    kinds = frozenset({"warning", "voice", "other"})
    gone = (*lost_features(wiring, kinds), *lost_features(wiring, frozenset({"emergency"}), untouched=True))
    return frozenset(each.feature.name.lower() for each in gone)


def put_back(wiring: Wiring) -> bool:
    """Whether the trials after the work have begun: something was tried or played again, or the car handed back."""
    return any(
        each.verb in ("after", "plays") or (each.verb == "handover" and each.what == CLOSED)
        for each in wiring.job.records
        if not foreign(wiring, each)
    )


def last_of(wiring: Wiring, verb: str) -> dict[str, Record]:
    """The last record of that verb about each thing, by the thing's name in small letters."""
    return {record.what.lower(): record for record in wiring.job.records if record.verb == verb and not record.stale}


def worked(record: Record | None) -> bool:
    """Whether a trial of a function found that it works."""
    return record is not None and record.word("result") == WORKS


@kept
def signatures(wiring: Wiring) -> dict[str, tuple[Record, ...]]:
    """The signatures for the loss of each function, by its name in small letters."""
    made: dict[str, tuple[Record, ...]] = {}
    for record in wiring.job.records:
        if record.verb == "signed" and record.what == LOST and not record.stale:
            for name in record.word("lost").split(","):
                if name.strip():
                    made[name.strip().lower()] = (*made.get(name.strip().lower(), ()), record)
    return made


def lost(wiring: Wiring) -> frozenset[str]:
    """Functions of the car whose loss somebody signed for, in small letters."""
    return frozenset(signatures(wiring))


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
    """The last signature that lets a job go although pairs weren't toned, with a reason; None where none stands, or
    where a record written since speaks against what was signed for.
    """
    return None if voided(wiring) is not None else _signature(wiring)


class Voided(NamedTuple):
    """A signature that let the job go, and the first record since that speaks against it, with what it says."""

    signature: Record
    by: Record
    words: str


@kept
def voided(wiring: Wiring) -> Voided | None:
    """The last release where something was found wrong after it: from then on it no longer stands, mended or not."""
    signature = _signature(wiring)
    if signature is None:
        return None
    since = [each for each in wiring.job.records[_at(wiring, signature) + 1 :] if not each.stale]
    if not since:
        return None
    from harness.graph.contrary import contrary

    against = {id(each.record): each.words for each in contrary(wiring)}
    against |= {id(each.record): f"{each.record.what}: {_heard(each)}" for each in answers(wiring) if each.differs}
    for each in since:
        if words := against.get(id(each)) or _by_itself(wiring, each):
            return Voided(signature, each, words)
    return None


def _by_itself(wiring: Wiring, record: Record) -> str:
    """What a record says against the plan in itself, though a later one may answer it; empty where it says no such
    thing. Of readings only the last is known to be wrong.
    """
    from harness.graph.as_built import not_made
    from harness.graph.fell_silent import went_silent
    from harness.graph.joints_made import holds
    from harness.graph.looks import found_wrong
    from harness.graph.ticked import says_not_laid

    said = record.word("found") or record.word("shows") or record.word("result")
    if record.verb == "built" and not_made(wiring, record):
        return f"{record.what} {record.word('is') or 'not made'}"
    if says_not_laid(wiring, record):
        return f"{record.what} not laid"
    if record.verb == "checked" and record.joint and not holds(record):
        return f"joint {record.joint} found {said}"
    if found_wrong(wiring, record):
        return f"{record.what} found {said or record.word('is')}"
    if went_silent(wiring, record) or _stayed_silent(wiring, record):
        return f"{record.what}: nothing heard"
    return f"{record.what} {record.word('result')}" if record.verb == "after" and record.word("result") in FAILS else ""


def _stayed_silent(wiring: Wiring, record: Record) -> bool:
    """Whether an output that must be heard was not; at one frequency a speaker may be right to be silent."""
    if record.verb != "plays" or record.word("heard").lower() not in NOTHING or "hz" in record.word("signal").lower():
        return False
    return any(each.planned and each.driver.name.lower() == record.what.lower() for each in answers(wiring))


def _heard(answer: Answer) -> str:
    """What was heard of an output that isn't as planned."""
    loud = ", doesn't follow the volume" if answer.loud else ""
    return f"{' and '.join(answer.heard) or 'nothing'} heard, planned {' and '.join(answer.planned) or 'nothing'}{loud}"


def _at(wiring: Wiring, record: Record) -> int:
    return next(at for at, each in enumerate(wiring.job.records) if each is record)


def _signature(wiring: Wiring) -> Record | None:
    found = [
        r
        for r in wiring.job.records
        if r.verb == "signed" and r.what == RELEASED and r.word("reason") and r.by and not r.stale
    ]
    return found[-1] if found else None


def release_words(wiring: Wiring) -> str:
    """Who signed for letting the job go, when and why, for a report; empty where nobody did."""
    record = released(wiring)
    if record is None:
        return ""
    name, who = record.word("name") or record.by, record.word("who")
    return (
        f"{name}{f' ({who})' if who else ''}{f', {record.when[:10]}' if record.when else ''}: {record.word('reason')}"
    )
