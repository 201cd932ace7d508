"""`ringout record`: one record into the evidence file, in the job file's own words."""

from __future__ import annotations

import os
from datetime import datetime
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, complain, say
from harness.finding import Severity

if TYPE_CHECKING:
    from harness.cli.record_doubts import Doubt


@click.command("record", no_args_is_help=True)
@click.argument("job")
@click.argument("words", nargs=-1, required=True, metavar="'VERB: WHAT' ['KEY: VALUE'] ...")
@click.option("--by", required=True, metavar="NAME", help="Who says it.")
@click.option("--when", metavar="TIME", help="Date and time, if it was not now: 2026-03-02 09:40.")
@click.option("--photo", "photos", multiple=True, metavar="FILE", help="A picture (JPEG or PNG); may be given again.")
def command(job: str, words: tuple[str, ...], by: str, when: str | None, photos: tuple[str, ...]) -> int:
    """Write one record into the evidence file: read, seen, built or signed.

    The first words say what was done and to what; the others are the record's keys. What the record rests on is
    added by itself. Once the line is shown as recorded, it is on disk.

    \b
    Example:
      ringout record larch.yaml --by JM "seen: dash.car.7" "colour: GN/YE" --photo 7.jpg
      ringout record larch.yaml --by JM "handover: paused" "done: front" "left: rear" "parts: none" "odd: no"
      ringout record larch.yaml --by JM "signed: released" "reason: customer waits, rear toned tomorrow"
      ringout record larch.yaml --by JM "built: T1.car.7" "is: capped"
    """
    from harness.cli import report_text
    from harness.cli.record_doubts import doubts, new_name, two_in_one
    from harness.prove import prove
    from harness.read.evidence import GONE, evidence_path
    from harness.read.job import read_record
    from harness.read.spec_evidence import RECORD
    from harness.read.troubles import Troubles
    from harness.records.append import NotRecorded, append
    from harness.records.flow import flow_line
    from harness.session.recording import Fields, record_fields

    proof = prove(job, mends=False)
    if proof.wiring is None:
        say("\n".join(report_text.lines(proof)))
        return 2
    now = datetime.now()
    moment = when or now.strftime("%Y-%m-%d %H:%M")
    said = _said(words)
    if _refused(two_in_one(said, tuple(RECORD.keys))):
        return 2
    fields: Fields = [("when", moment), ("by", by), *said]
    try:
        line = flow_line(fields)
    except ValueError as wrong:
        raise Refused(f"{wrong}.") from None
    troubles = Troubles()
    tried = read_record(proof.job_path, line, troubles)
    wrongs = [f"{each.code} {each.message} {each.do}" for each in troubles.findings if each.severity <= Severity.FIX]
    if tried is not None and tried.stale == GONE:
        wrongs.append(f"R20 There is no “{tried.what}” in this job. Write it as the job file names it.")
    wrongs += _photos_by_hand(said, os.path.dirname(os.fspath(job)))
    if tried is None or wrongs:
        complain("; ".join(wrongs) or "this is no record")
        complain("nothing was recorded")
        return 2
    if _refused(doubts(proof.wiring, tried, said, moment, now)):
        return 2
    # as it was understood: `ok` is written as `works`
    meant = [(key, value if isinstance(value, tuple) else tried.word(key) or value) for key, value in said]
    whole = record_fields(proof.wiring, meant, tried.contacts, moment, by)
    try:
        made = append(evidence_path(os.fspath(job)), whole, photos)
    except (NotRecorded, ValueError) as wrong:
        raise Refused(f"not recorded: {wrong}") from None
    if made.torn:
        say(f"Half a record was found at the end and set aside: {made.torn[:60]}")
    say(f"{evidence_path(os.fspath(job))}:{made.number}: {made.line}")
    if new_name(proof.wiring, tried):
        say(f"“{tried.what}” is a new name: it is not under `features` and was not recorded before")
    say("recorded")
    return 0


def _photos_by_hand(said: list[tuple[str, str | tuple[str, ...]]], folder: str) -> list[str]:
    """What is wrong with photos named by `photo: NAME`: a bundle couldn't take them along."""
    names = [
        name for key, value in said if key.lower() == "photo" for name in ([value] if isinstance(value, str) else value)
    ]
    if not names:
        return []
    from harness.bundles.gathering import photo_fault

    faults = ((name, photo_fault(name, folder)) for name in names)
    return [
        f"photo {name}: {fault}. Give the picture with --photo FILE, which copies it."
        for name, fault in faults
        if fault
    ]


def _refused(found: list[Doubt]) -> bool:
    for each in found:
        complain(each.lines())
    if found:
        complain("nothing was recorded")
    return bool(found)


def _said(words: tuple[str, ...]) -> list[tuple[str, str | tuple[str, ...]]]:
    """Keys and values, the verb first. Raises Refused for a word without a colon."""
    made: list[tuple[str, str | tuple[str, ...]]] = []
    for word in words:
        key, colon, value = word.partition(":")
        if not colon or not value.strip():
            raise Refused(f"{word!r} has no value; write it as 'KEY: VALUE', for instance 'seen: dash.car.7'")
        text = " ".join(value.split())
        listed = text.startswith("[") and text.endswith("]")
        made.append((key.strip(), tuple(each.strip() for each in text[1:-1].split(",")) if listed else text))
    return made
