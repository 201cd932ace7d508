"""From the end of a conversation to a record: who and when first, then what was done, and what it rests on in words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from harness.finding import Severity
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.read.evidence import GONE
from harness.read.facts import facts_of, joint_facts
from harness.read.job import read_record
from harness.read.troubles import Troubles
from harness.records.flow import flow_line
from harness.session.talk import Outcome

Fields = list[tuple[str, str | Sequence[str]]]


def record_of(wiring: Wiring, outcome: Outcome, contacts: Sequence[str], when: str, by: str) -> Fields:
    """The fields of a record in the order in which they are written."""
    rests_on = contacts if outcome.rests_on is None else outcome.rests_on
    return record_fields(wiring, outcome.fields, rests_on, when, by)


def record_fields(
    wiring: Wiring,
    said: Sequence[tuple[str, str | Sequence[str]]],
    contacts: Sequence[str],
    when: str,
    by: str,
    joint: str = "",
    printed: tuple[str, ...] = (),
) -> Fields:  # fmt: skip
    """As `record_of`, from fields with the verb first. The car's name goes in, so that a copy can be told.

    A record about a joint, by its name, rests on what that joins; `printed` is what one of a run or plug end rests on.
    """
    job = wiring.job
    if printed:
        facts = printed
    elif joint:
        facts = joint_facts(wiring.joints[joint].links)
    else:
        facts = facts_of([job.contacts[name] for name in contacts if name in job.contacts], job.parts.plugs)
    rests: Fields = [("fact", facts if len(facts) > 1 else facts[0])] if facts else []
    car = " ".join(filter(None, (job.car.name, job.car.year))) if job.car else ""
    return [("when", when), ("by", by), said[0], *rests, *said[1:], *([("car", car)] if car else [])]


class Held(NamedTuple):
    """A record as the reader understands it, None where it can't be read; and what is wrong, a code and words each."""

    record: Record | None
    wrong: tuple[tuple[str, str], ...] = ()


def held(job: str, fields: Fields) -> Held:
    """A record's fields held against the reader, before they are written beside the job in that file."""
    troubles = Troubles()
    try:
        record = read_record(job, flow_line(fields), troubles)
    except ValueError as wrong:
        return Held(None, (("", f"{wrong}."),))
    told = [each for each in troubles.findings if each.severity <= Severity.FIX]
    made = [(each.code, f"{each.message} {each.do}") for each in told]
    if record is not None and record.stale == GONE:
        made.append(("R20", f"There is no “{record.what}” in this job. Write it as the job file names it."))
    if record is None and not made:
        made.append(("", "This is no record."))
    return Held(record, tuple(made))


def unreadable(job: str, fields: Fields) -> str:
    """Why a record could not be read again beside the job in that file, or empty: a file that only grows would stay
    unreadable for good. No fields make no record.
    """
    return "; ".join(words for _, words in held(job, fields).wrong) if fields else ""
