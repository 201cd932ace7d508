"""Records that no blank of the checklists shows: they would be lost if no sheet printed them."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.answers import answers, at_an_end
from harness.graph.as_built import last_built
from harness.graph.faded import faded
from harness.graph.joints_made import joints_made
from harness.graph.output_ohms import at_outputs
from harness.graph.photos import photos
from harness.graph.proven import released, signatures, tried
from harness.graph.ticked import ticked
from harness.graph.toned import on_car_side
from harness.graph.turn_on_test import RECORDED_KEYS, turn_on_test
from harness.graph.wiring import Wiring
from harness.model.evidence import CLOSED, PAUSED, RELEASED, TAKEN, Record
from harness.planning.output_test import output_test
from harness.planning.toning import toning_plan
from harness.planning.written import Said, Subject, Written, said, volts_at


class Earlier(NamedTuple):
    """What a record said before a later one of the same thing: the words that don't stand any more, by their keys.

    `words` is empty where the record as a whole gave way and says nothing behind a key.
    """

    record: Record
    words: tuple[tuple[str, str], ...]
    later: Record


def also_recorded(wiring: Wiring) -> tuple[Record, ...]:
    """The last record about each thing that is asked for on no checklist, and each that no longer holds.

    In the order written. One with a photo is left to the sheet of the photos.
    """
    if not wiring.job.records:
        return ()
    shown = {id(each.record) for each in photos(wiring)}
    shown |= {id(record) for record in wiring.job.turned_here.values()}  # on the sheet of what was built
    shown |= {id(box.record) for box in ticked(wiring).values()}  # on the splice list
    written = Written(wiring)
    asked = _asked(wiring, written)
    sources = {each.source for each in output_test(wiring).channels}
    answered = {id(each.record) for each in answers(wiring) if each.driver.name in sources}
    answered |= {id(each.record) for each in faded(wiring)}
    told = {id(record) for each in tried(wiring) if each.signed for record in signatures(wiring)[each.name.lower()]}

    def beside(record: Record) -> bool:
        if record.stale:
            return True
        if record.verb == "signed" and record.what == RELEASED:
            return record is not released(wiring) and _passed_on(wiring, record) is None
        if record.verb in ("printed", "signed"):
            return id(record) not in told
        if record.joint or record.verb in ("built", "before", "after"):
            return False
        if record.verb == "plays":
            return id(record) not in answered and not _given_way(wiring, written, record)
        stands = [each for each in said(record) if _later(wiring, written, record, each) is None]
        return any(each.subject not in asked for each in stands)

    return tuple(each for each in wiring.job.records if id(each) not in shown and beside(each))


def earlier_words(wiring: Wiring) -> tuple[Earlier, ...]:
    """What was recorded and then recorded again, in the order written. Struck records are not among them."""
    if len(wiring.job.records) < 2:
        return ()
    written = Written(wiring)
    made = []
    for record in wiring.job.records:
        if record.stale:
            continue
        later = _passed_on(wiring, record)
        if later is not None:
            made.append(Earlier(record, (), later))
            continue
        gone = _given_way(wiring, written, record)
        if len(gone) < len(list(said(record))):
            # the record stands on a sheet with the rest: the same word said once more takes nothing from it
            gone = [(each, later) for each, later in gone if each.words != later.word(each.key)]
        if gone:
            # the two wires of a pair say the same word; what is said of one alone needs no key
            words = tuple(dict.fromkeys((each.key, each.words) for each, _ in gone if each.words))
            made.append(Earlier(record, words, gone[-1][1]))
    return tuple(made)


def _given_way(wiring: Wiring, written: Written, record: Record) -> list[tuple[Said, Record]]:
    """What a record says that a later one says anew."""
    found = [(each, _later(wiring, written, record, each)) for each in said(record)]
    return [(each, later) for each, later in found if later is not None]


def _later(wiring: Wiring, written: Written, record: Record, each: Said) -> Record | None:
    """The record that stands for what another one says; None where that one still does."""
    if record.joint:
        return _of_joint(wiring, record)
    last = written.last(each.subject)
    if each.subject[0] == "plus" and isinstance(pair := each.subject[1], frozenset):
        found = written.plus(*pair)
        if record is found.idle:
            return None
        last = found.record or written.last(("heard", pair)) or last
    if each.subject[0] == "heard" and any(record is tone for tone in written.tones(*on_car_side(record.contacts))):
        return None  # of two tones of a pair each says its own drivers
    if record.verb == "plays" and not at_an_end(record):
        by_driver = {a.driver.name.lower(): a.record for a in answers(wiring)}
        last = by_driver.get(record.what.lower(), last)
    if record.verb == "built" and (joint := _joint_since(wiring, record, each.subject)) is not None:
        last = joint
    return None if last is None or last is record else last


def _joint_since(wiring: Wiring, record: Record, subject: Subject) -> Record | None:
    """The record that a contact was built by last, where that is one of a whole joint."""
    last = last_built(wiring).get(str(subject[1]))
    return last if last is not None and last is not record else None


def _of_joint(wiring: Wiring, record: Record) -> Record | None:
    """What stands for a record of a joint: a later one of it, or of an end that was built otherwise since."""
    made = joints_made(wiring)[record.joint]
    if record in (made.built, made.looked):
        return None
    later = made.built if record.verb == "built" or made.looked is None else made.looked
    ends = wiring.joints[record.joint].ends
    found = [last for name in ends if (last := last_built(wiring).get(name)) is not None and last is not record]
    return later or (max(found, key=lambda each: each.place.line) if found else None)


def _passed_on(wiring: Wiring, record: Record) -> Record | None:
    """The later handover, or the later signature of the same kind, that stands for a record."""
    if record.verb == "signed" and record.what == RELEASED:
        stands = released(wiring)
        return stands if stands is not None and stands.place.line > record.place.line else None
    if record.verb != "handover":
        return None
    since = [r for r in wiring.job.records if r.verb == "handover" and r.place.line > record.place.line and not r.stale]
    gives_way = {PAUSED: (PAUSED,), TAKEN: (PAUSED, TAKEN), CLOSED: (PAUSED, CLOSED)}.get(record.what, ())
    return next((each for each in reversed(since) if each.what in gives_way), None)


def _asked(wiring: Wiring, written: Written) -> frozenset[Subject]:
    """What the checklists have a blank for."""
    asked: set[Subject] = set()
    pairs = [
        frozenset(f"{pair.plug}.car.{row.cavity}" for row in (pair.plus, pair.minus)) for pair in toning_plan(wiring)
    ]
    outputs = [frozenset((each.driver.plus, each.driver.minus)) for each in at_outputs(wiring)]
    asked |= {(key, pair) for pair in pairs for key in ("heard", "plus", "reads", "dc")}
    asked |= {("reads", output) for output in outputs}
    asked |= {("body", name) for both in (*pairs, *outputs) if written.body(*both) for name in both}
    for reading in turn_on_test(wiring).readings:
        asked |= {volts_at(f"{reading.unit}.{reading.terminal}", key) for key in RECORDED_KEYS}
    return frozenset(asked)
