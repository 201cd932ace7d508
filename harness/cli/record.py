"""`ringout record`: one record into the evidence file, in the job file's own words."""

from __future__ import annotations

import os
from datetime import datetime
from typing import TYPE_CHECKING

import click

from harness.cli.screen import Refused, complain, harmless, say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from harness.cli.record_doubts import Doubt
    from harness.cli.record_words import Said
    from harness.graph.wiring import Wiring
    from harness.model.evidence import Record
    from harness.session.recording import Held


# Options that are none are let through, as a value may be `-0.2 V`; `record_words` refuses the others.
@click.command("record", no_args_is_help=True, context_settings={"ignore_unknown_options": True})
@click.argument("job")
@click.argument("words", nargs=-1, metavar='"VERB: WHAT" ["KEY: VALUE"] ...')
@click.option("--by", metavar="NAME", help="Who says it; asked for at a terminal.")
@click.option("--when", metavar="TIME", help="Date and time, if it was not now: 2026-03-02 09:40.")
@click.option("--photo", "photos", multiple=True, metavar="FILE", help="A picture (JPEG or PNG); may be given again.")
@click.option("--yes", is_flag=True, help="Strike without asking.")
def command(
    job: str, words: tuple[str, ...], by: str | None, when: str | None, photos: tuple[str, ...], yes: bool
) -> int:
    """Write one record into the evidence file: read, seen, built or signed.

    The first words say what was done and to what; the others are the record's keys. What the record rests on is
    added by itself. Once the line is shown as recorded, it is on disk. At a terminal what is missing is asked for.
    A wrong record is taken back with strike and its line, or the last one: it stays in the file and no longer counts.

    \b
    Example:
      ringout record larch.yaml --by JM "seen: dash.car.7" "colour: GN/YE" --photo 7.jpg
      ringout record larch.yaml --by JM "handover: paused" "done: front" "left: rear" "parts: none" "odd: no"
      ringout record larch.yaml --by JM "signed: released" "reason: customer waits, rear toned tomorrow"
      ringout record larch.yaml --by JM "built: T1.car.7" "is: capped"
      ringout record larch.yaml --by JM strike 3 "reason: probe was on 8"
      ringout record larch.yaml --by JM strike last "reason: other car"
    """
    from harness.cli import report_text
    from harness.cli.asking import somebody_there
    from harness.cli.record_asking import ask_missing, ask_who, ask_words
    from harness.cli.record_doubts import (
        doubts,
        nearest_names,
        needed,
        new_name,
        no_verb,
        of_a_whole,
        own_words,
        two_in_one,
        unit_missing,
    )
    from harness.cli.record_words import said as said_in
    from harness.graph.ticked import printed_name, rests_on
    from harness.model.evidence import JOINT_VERBS, STRUCK
    from harness.prove import prove
    from harness.read.evidence import GONE, evidence_path
    from harness.records.append import NotRecorded, append, unfit
    from harness.session.recording import Fields, held, record_fields

    proof = prove(job, mends=False)
    if proof.wiring is None:
        say("\n".join(report_text.lines(proof)))
        return 2
    now = datetime.now()
    moment = when or now.strftime("%Y-%m-%d %H:%M")
    asks = somebody_there()
    said = said_in(words) or (ask_words() if asks else [])
    if not said:
        raise Refused('what was done is missing: add "VERB: WHAT", for instance "seen: dash.car.7"')
    if _refused(no_verb(said) or two_in_one(said) or unit_missing(said)):
        return 2
    if said[0][0] == STRUCK:
        said = _of_struck(proof.wiring, said, os.fspath(job))
    if by is None and asks:
        by = ask_who(_name)
    if not by:
        raise Refused("who says it is missing: add --by NAME, for instance --by RK; nothing was recorded")
    fields: Fields = [("when", moment), ("by", by), *said]
    tried = held(proof.job_path, fields)
    wrongs = _words_of(tried)
    if tried.record is not None and tried.record.stale == GONE:
        of_whole = of_a_whole(proof.wiring, tried.record)
        wrongs[-1] = of_whole or f"{wrongs[-1]} {nearest_names(proof.wiring, tried.record.what)}".strip()
    if when:  # where something else is wrong too, the reader doesn't come to it
        wrongs += [each for each in _words_of(held(proof.job_path, [*fields[:2], _PLAINEST])) if each not in wrongs]
    wrongs += _photos_by_hand(said, os.path.dirname(os.fspath(job)))
    wrongs += unfit(photos, evidence_path(os.fspath(job)))
    if tried.record is None or wrongs:
        for each in wrongs:
            complain(each)
        complain("nothing was recorded")
        return 2
    record = tried.record
    if asks and (missing := needed(record, said)):
        said += ask_missing(proof.job_path, fields, missing)
        tried = held(proof.job_path, [("when", moment), ("by", by), *said])
        record = tried.record or record
    if _refused(doubts(proof.wiring, record, said, moment, now)):
        return 2
    if record.verb == STRUCK and not _agreed(yes, asks):
        complain("nothing was recorded")
        return 2
    # as it was understood: `ok` is written as `works`
    meant = [(key, value if isinstance(value, tuple) else record.word(key) or value) for key, value in said]
    printed = printed_name(proof.wiring, record.what) if record.verb in JOINT_VERBS else ""
    if printed:
        meant[0] = (record.verb, printed)
    if record.verb == "tone" and (charted := _charted(proof.wiring, record, said)):
        meant.insert(1, ("charted", charted))
    facts = (rests_on(proof.wiring)[printed],) if printed else ()
    whole = record_fields(proof.wiring, meant, record.contacts, moment, by, record.joint, facts)
    try:
        made = append(evidence_path(os.fspath(job)), whole, photos)
    except (NotRecorded, ValueError) as wrong:
        raise Refused(f"not recorded: {wrong}") from None
    if made.torn:
        say(f"Half a record was found at the end and set aside: {made.torn[:60]}")
    say(f"{evidence_path(os.fspath(job))}:{made.number}: {made.line}")
    if new_name(proof.wiring, record):
        say(f"“{record.what}” is a new name: it is not under `features` and was not recorded before")
    if words_of_own := own_words(proof.wiring, record):
        say(f"“{words_of_own}” is in words of its own: it is not held against the plan")
    say("recorded")
    return 0


def _charted(wiring: Wiring, record: Record, said: Sequence[tuple[str, object]]) -> str:
    """What the chart says of a pair that was toned, where that isn't typed; empty where it has no such pair."""
    bases = {wiring.contact(name).function.base for name in record.contacts if name in wiring.job.contacts}
    sound = all(wiring.contact(name).function.kind in ("audio", "port") for name in record.contacts) if bases else False
    return bases.pop() if sound and len(bases) == 1 and all(key != "charted" for key, _ in said) else ""


_PLAINEST = ("handover", "taken")


def _words_of(tried: Held) -> list[str]:
    return [f"{code} {words}".strip() for code, words in tried.wrong]


def _name(text: str) -> None:
    """Raises ValueError for a name that a record can't hold."""
    from harness.read.fields import Word
    from harness.read.spec_evidence import RECORD

    shape = RECORD.keys["by"]
    if isinstance(shape, Word) and not shape.fits(text):
        raise ValueError("a name or initials, for instance RK")


def _of_struck(wiring: Wiring, said: Said, job: str) -> Said:
    """The record that strikes another one, which is shown. Raises Refused where there is none to strike."""
    from harness.cli.record_strike import follows, shown, to_strike
    from harness.model.evidence import STRUCK

    what = said[0][1]
    target = to_strike(wiring, what if isinstance(what, str) else ", ".join(what), job)
    was = next((value for key, value in said if key == "was"), target.named)
    if was != target.named:
        raise Refused(f"line {target.place.line} says {target.named}, and not {was}; nothing was recorded")
    say(f"To be struck: {harmless(shown(target))}")
    say(f"Then {follows(wiring, target)}.")
    rest = [(key, value) for key, value in said[1:] if key != "was"]
    return [(STRUCK, str(target.place.line)), ("was", target.named), *rest]


def _agreed(yes: bool, asks: bool) -> bool:
    from harness.cli.asking import ask

    if yes:
        return True
    if not asks:
        complain("add --yes to strike it")
        return False
    return ask("Strike it? yes or no", _yes_or_no).lower() in _YES


_YES, _NO = ("y", "yes"), ("n", "no")


def _yes_or_no(text: str) -> None:
    if text.lower() not in (*_YES, *_NO):
        raise ValueError("yes or no; Enter alone is no")


def _photos_by_hand(said: Said, folder: str) -> list[str]:
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
