"""Records that no blank of the checklists asks for: read or seen all the same, and lost if no sheet printed them."""

from __future__ import annotations

from collections.abc import Hashable

from harness.graph.output_ohms import at_outputs
from harness.graph.pairs import on_car_side
from harness.graph.photos import photos
from harness.graph.turn_on_test import RECORDED_KEYS, turn_on_test
from harness.graph.wiring import Wiring
from harness.model.evidence import OPEN, Record
from harness.planning.output_test import output_test
from harness.planning.toning import toning_plan
from harness.work.ticked import ticked

# What may be printed here. What was built, tried before and after, handed over, signed or printed has a sheet that
# lists every record of it.
_LISTED = ("tone", "polarity", "ohm", "volts", "response", "seen", "plays", "checked")


def also_recorded(wiring: Wiring) -> tuple[Record, ...]:
    """The last record about each thing that is asked for on no checklist, and each that no longer holds.

    In the order written. A record with a photo is left to the sheet of the photos, one of a joint to the splice list.
    """
    shown = {id(each.record) for each in photos(wiring)}
    listed = [r for r in wiring.job.records if r.verb in _LISTED and not r.joint and id(r) not in shown]
    here = {id(record) for record in wiring.job.turned_here.values()}  # on the sheet of what was built
    here |= {id(box.record) for box in ticked(wiring).values()}  # on the splice list
    listed = [record for record in listed if id(record) not in here]
    if not listed:
        return ()
    asked = _asked(wiring)
    left = [each for each in listed if each.stale or _blanks_for(each).isdisjoint(asked)]
    last = {_subject(each): each for each in left}
    return tuple(each for each in left if last[_subject(each)] is each)


def _asked(wiring: Wiring) -> frozenset[Hashable]:
    """Each blank of the checklists, by its verb and what it is about."""
    pairs = [
        frozenset(f"{pair.plug}.car.{row.cavity}" for row in (pair.plus, pair.minus)) for pair in toning_plan(wiring)
    ]
    outputs = [frozenset((each.driver.plus, each.driver.minus)) for each in at_outputs(wiring)]
    asked: set[Hashable] = {(verb, pair) for pair in pairs for verb in ("tone", "polarity", "ohm")}
    asked |= {("ohm", output) for output in outputs}
    asked |= {("touching", frozenset((name,))) for both in (*pairs, *outputs) for name in both}
    asked |= {("plays", channel.source.lower()) for channel in output_test(wiring).channels}
    for reading in turn_on_test(wiring).readings:
        asked |= {("volts", f"{reading.unit}.{reading.terminal}".lower(), key) for key in RECORDED_KEYS}
    return frozenset(asked)


def _blanks_for(record: Record) -> frozenset[Hashable]:
    """The blanks that such a record would be written into."""
    verb, contacts, what = record.verb, on_car_side(record.contacts), record.what.lower()
    if verb == "volts":
        return frozenset({(verb, what, record.word("key"))})
    # of one wire only what touches the body is written beside its pair
    if verb == "ohm" and len(contacts) == 1:
        return frozenset() if record.word("reads") == OPEN else frozenset({("touching", contacts)})
    return frozenset({(verb, contacts), (verb, what)})


def _subject(record: Record) -> Hashable:
    """What a later record must be about to stand for this one."""
    keys = frozenset(key for key in ("shows", "colour", "step") if record.word(key))
    return record.verb, on_car_side(record.contacts) or record.what.lower(), record.word("key"), keys
