"""`ringout record JOB strike …`: which record is meant, and whether it can be taken back."""

from __future__ import annotations

import os

from harness.cli.screen import Refused, as_argument
from harness.graph.speaker_readings import pair_words
from harness.graph.wiring import Wiring
from harness.model.contact import listed
from harness.model.evidence import STRUCK, Record

LAST = "last"
_SHOWN = 5  # records that are offered where the one named isn't there


def to_strike(wiring: Wiring, what: str, job: str) -> Record:
    """The record on the line `what`, or the `last` one that counts and strikes none itself. Raises Refused."""
    records = wiring.job.records
    if what.lower() == LAST:
        found = [each for each in records if each.verb != STRUCK]
        if not found:
            raise Refused("there is no record that could be struck")
        return found[-1]
    for each in records:
        if str(each.place.line) == what:
            return each
    for gone in wiring.job.struck:
        if str(gone.record.place.line) == what:
            back = f"; to have it back: ringout record {as_argument(job)} strike {gone.by.place.line}"
            raise Refused(f"line {what} ({gone.record.named}) is struck already, by {gone.by.signed}{back}")
    raise Refused(f"there is no record {what!r}; name it by its line, or the last one: strike {LAST}.{_offer(records)}")


def shown(record: Record) -> str:
    """The record's own line, as it stands in its file, with its number."""
    try:
        with open(record.place.file, encoding="utf-8", errors="replace") as stream:
            line = next(text for number, text in enumerate(stream, 1) if number == record.place.line)
    except (OSError, StopIteration):
        line = f"{record.named} ({record.signed})"
    return f"{os.path.basename(record.place.file)}:{record.place.line}: {line.strip()}"


def _offer(records: tuple[Record, ...]) -> str:
    last = "; ".join(f"{each.place.line} {each.named} ({each.signed})" for each in records[-_SHOWN:])
    return f" The last ones: {last}" if last else " There is none yet."


def follows(wiring: Wiring, record: Record) -> str:
    """What striking it means for the job, in words; of a reading which wire, and what it read."""
    if record.verb == STRUCK:
        return f"the record on line {record.what} counts again"
    said = _FOLLOWS.get(record.verb, "what it says no longer counts")
    if record.verb not in ("tone", "ohm", "volts") or record.stale:
        return said
    read = _readings(wiring, record)
    if record.verb != "tone":
        return read or said
    return f"{said}; {read}" if read else said


def _readings(wiring: Wiring, record: Record) -> str:
    """What was read, of which wire or wires, and that it no longer counts; empty where nothing was read."""
    if not record.contacts:
        return ""
    one = len(record.contacts) == 1
    where = wiring.words(record.contacts[0]) if one else pair_words(wiring, record.contacts)
    key = f", key {record.word('key')}" if record.verb == "volts" and record.word("key") else ""
    places = {
        "reads": " to the body" if one else " across",
        "dc": " DC",
        "body": f" from {'it' if one else 'each'} to the body",
    }
    parts = [f"{record.word(word)}{place}{key}" for word, place in places.items() if record.word(word)]
    if not parts:
        return ""
    return f"{where}: {listed(parts)} count{'s' if len(parts) == 1 else ''} as not read, unless an older reading holds"


_FOLLOWS = {
    "tone": "the pair is charted again, unless an older tone of it holds",
    "polarity": "which wire is + is open again, unless an older record says it",
    "ohm": "it counts as not read, unless an older reading holds",
    "volts": "it counts as not read, unless an older reading holds",
    "plays": "what answers there is open again, unless an older record says it",
    "before": "whether it worked before is open again",
    "after": "whether it works again is open",
    "printed": "the paper that hangs at the car counts as not printed: put it away or record it",
    "handover": "the job stands as before that handover",
    "signed": "the signature has no effect any more",
}
