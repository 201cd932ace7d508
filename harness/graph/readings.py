"""What was read in ohms, between two contacts or to the car's body, as the records that still hold say it."""

from __future__ import annotations

import math
from typing import NamedTuple

from harness.graph.answering import branches_between, halves_apart, lacked_by_name
from harness.graph.conductor import MATED, PLUGGED, Conductor
from harness.graph.kept import kept
from harness.graph.loads import part_of
from harness.graph.parted import wires_of
from harness.graph.resistance import Expected, expected_dc, expected_of, fits
from harness.graph.state import State
from harness.graph.whole_wire import along, far_end, to_nearest
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.evidence import OPEN, Record
from harness.model.function import Function
from harness.model.parts import Plug, Speaker
from harness.units import measured

# Least that any speaker reads: one of 1 ohm, 0.5 to 1.0 ohm (two retailers' guides, seen 2026).
LEAST_SPEAKER_OHM = 0.5
# Wires that meet somewhere in the car read less than this: 15 ft of No. 24 each way is 2 x 15 x 25.67/1000 = 0.77 ohm
# (wire table credited to Floyd, Electric Circuit Fundamentals, 2nd ed.), and a meter's own leads 0.2 ohm (common
# practice, no source).
TOUCHING_OHM = 1.0


class Reading(NamedTuple):
    """One reading: its record, the contacts that it is about, ohms (infinite where open) and its words.

    Between two contacts, or of each contact to the body.
    """

    record: Record
    contacts: tuple[str, ...]
    ohm: float
    words: str


def ohms_of(text: str) -> float | None:
    """`3.5 ohm` as 3.5, `open` and `over` as infinite; None where it is no reading in ohms."""
    if text in (OPEN, "over"):
        return math.inf
    return measured(text, "resistance")


def volts_of(text: str) -> float | None:
    """`-0.2 V` as 0.2, as a meter's leads may be turned round; None where it is no reading in volts."""
    volts = measured(text, "voltage")
    return None if volts is None else abs(volts)


@kept
def pair_readings(wiring: Wiring) -> list[Reading]:
    """The last reading between each two contacts. Tones may hold one too."""
    last: dict[frozenset[str], Reading] = {}
    for record in _records(wiring):
        ohm = ohms_of(record.word("reads"))
        if ohm is not None and len(record.contacts) == 2:
            last[frozenset(record.contacts)] = Reading(record, record.contacts, ohm, record.word("reads"))
    return list(last.values())


@kept
def body_readings(wiring: Wiring) -> list[Reading]:
    """The last reading of each contact to the body, those of one record together.

    `body` behind a pair speaks of both its wires; an `ohm` of one contact alone is taken to the body.
    """
    last: dict[str, Reading] = {}
    for record in _records(wiring):
        words = record.word("body")
        if not words and record.verb == "ohm" and len(record.contacts) == 1:
            words = record.word("reads")
        ohm = ohms_of(words)
        if ohm is not None:
            for name in record.contacts:
                last[name] = Reading(record, record.contacts, ohm, words)
    together: dict[int, list[str]] = {}
    records = {id(reading.record): reading for reading in last.values()}
    for name, reading in last.items():
        together.setdefault(id(reading.record), []).append(name)
    return [records[number]._replace(contacts=tuple(names)) for number, names in together.items()]


def _records(wiring: Wiring) -> list[Record]:
    return [r for r in wiring.job.records if r.verb in ("tone", "ohm") and not r.stale]


def state_of(wiring: Wiring, *contacts: str) -> State:
    """The car as found for what is the car's own; as planned for looms and units, which are there only then."""
    own = all(name == CHASSIS or wiring.contact(name).kind == "plug" for name in contacts)
    return wiring.found if own else wiring.planned


def of_wires(wiring: Wiring, reading: Reading, name: str) -> bool:
    """Whether a reading at a contact speaks of wires, all of which are drawn, and not of what a unit has inside.

    At a unit's terminal it does where `unplugged` names the unit: its leads were off.
    """
    contact = wiring.contact(name)
    if contact.kind == "unit":
        return contact.owner.lower() in _said(reading.record)
    return contact.kind in ("loom", "speaker") or is_car_side(wiring, name)


def is_car_side(wiring: Wiring, name: str) -> bool:
    """Whether a contact is a cavity of a plug toward the car's wires."""
    contact = wiring.contact(name)
    return contact.kind == "plug" and contact.half == "car"


def function_of(wiring: Wiring, name: str) -> Function:
    """What a contact is for: its own function, or, of a pin of a loom, that of the cavity that it sits in."""
    contact = wiring.contact(name)
    if contact.kind != "loom" or contact.function.kind not in ("unknown", "empty"):
        return contact.function
    at = wiring.planned.nearest(name, lambda other: wiring.contact(other).kind == "plug")
    return wiring.contact(at).function if at else contact.function


_PULLED = (PLUGGED, MATED)


class Apart(NamedTuple):
    """What didn't conduct, and which speakers weren't there, while a reading was taken."""

    conductors: frozenset[Conductor]
    speakers: frozenset[str]
    units: frozenset[str]


def apart(wiring: Wiring, record: Record, state: State) -> Apart:
    """The plug that was read at, what `unplugged` names, and what the car never had.

    `unplugged` names plugs, looms, units, speakers (`spk.FL`, `FL`), or `speakers`: all of them.
    """
    at = {wiring.contact(name).owner.lower() for name in record.contacts}
    return _apart(wiring, state, _said(record), frozenset(at))


def _said(record: Record) -> frozenset[str]:
    return frozenset(word.strip(",").lower().removeprefix("spk.") for word in record.words("unplugged"))


def _apart(wiring: Wiring, state: State, said: frozenset[str], at: frozenset[str]) -> Apart:
    """Most records of a job were taken with the same things apart: found once for each such set."""
    known, things = _known(wiring)
    key = (state is wiring.found, said, at)
    if key not in known:
        speakers, units = wiring.job.parts.speakers, wiring.job.parts.units
        gone = {name for name in speakers if "speakers" in said or name.lower() in said} | lacked_by_name(wiring)
        parted: set[Conductor] = set()
        for name in at:
            if name in things.plugs:
                parted |= halves_apart(wiring, things.plugs[name])
        for name in said:
            parted |= {c for end in things.ends.get(name, ()) for c in state.conductors(end) if c.kind in _PULLED}
        off = frozenset(name for name in units if name.lower() in said)
        known[key] = Apart(frozenset(parted), frozenset(gone), off)
    return known[key]


class _Things(NamedTuple):
    """Plugs by their names in small letters, and what has ends that part: the contacts of plugs and looms."""

    plugs: dict[str, Plug]
    ends: dict[str, list[str]]


_Key = tuple[bool, frozenset[str], frozenset[str]]


@kept
def _known(wiring: Wiring) -> tuple[dict[_Key, Apart], _Things]:
    ends: dict[str, list[str]] = {}
    for name, contact in wiring.job.contacts.items():
        if contact.half:
            ends.setdefault(contact.owner.lower(), []).append(name)
    return {}, _Things({plug.name.lower(): plug for plug in wiring.job.parts.plugs.values()}, ends)


class Between(NamedTuple):
    """What lies between two contacts by the drawing: one wire, or speakers, or neither; and whether a unit is on
    either wire.
    """

    one_wire: bool
    branches: tuple[tuple[Speaker, ...], ...]
    expected: Expected
    has_unit: bool
    terminals: tuple[str, ...]  # spk.FL, of the speakers


def between(wiring: Wiring, reading: Reading, a: str, b: str) -> Between:
    """What a reading between two contacts should have met, with what was unplugged then."""
    state = state_of(wiring, a, b)
    parted = apart(wiring, reading.record, state)
    at_a, at_b = (wires_of(wiring, state).reach(end, parted.conductors) for end in (a, b))
    branches, answers = branches_between(wiring, at_a, at_b, parted.conductors, parted.speakers)
    owners = (wiring.contact(name).owner for at in (at_a, at_b) for name in at.units)
    return Between(
        at_a.meets(at_b), tuple(map(tuple, branches)), _expected(wiring, state, branches, reading.ohm),
        any(owner not in parted.units for owner in owners),
        tuple(each.terminals for each in answers),
    )  # fmt: skip


def less_than_drawn(
    wiring: Wiring, reading: Reading, a: str, b: str, most_ohm: float, through_ohm: float | None = None
) -> bool:
    """Whether two contacts read as one wire where the drawing has them on two: below `most_ohm`, or where speakers lie
    between below the least that they can read, `through_ohm` at most (empty: `most_ohm`). Not where it isn't drawn what
    lies between.
    """
    if reading.ohm >= most_ohm or wiring.planned.joined(a, b) or wiring.found.joined(a, b):
        return False
    expected = between(wiring, reading, a, b).expected
    if expected.unknown:
        return False
    if expected.low_ohm is None:
        return True
    return reading.ohm < min(most_ohm if through_ohm is None else through_ohm, expected.low_ohm)


def _expected(wiring: Wiring, state: State, branches: list[list[Speaker]], reads_ohm: float) -> Expected:
    """Of the speakers that are there: the new ones in what is planned. At the car's own wires both may have been read,
    before the work and after it; there the old ones count unless the reading is that of the new ones.
    """
    as_found = expected_dc(branches)
    if not any(speaker.successor for branch in branches for speaker in branch):
        return as_found
    planned = expected_of([[part_of(speaker) for speaker in branch] for branch in branches])
    low, high = planned.low_ohm, planned.high_ohm
    new = planned.open_to_dc and math.isinf(reads_ohm)
    if state is wiring.planned or new or (low is not None and high is not None and fits(low, high, reads_ohm)):
        return planned
    return as_found


def wire_of(wiring: Wiring, contact: str) -> tuple[str, ...]:
    """The wire that a contact is on, from it to the nearest speaker or else its end, on the car's side: where a fault
    may lie.
    """
    state = state_of(wiring, contact)
    other = contact.replace(".car.", ".unit.", 1) if is_car_side(wiring, contact) else ""
    ends = ("speaker", "chassis")
    way = to_nearest(state, contact, lambda name: wiring.contact(name).kind in ends, other)
    return way or along(wiring, state, contact, far_end(state, contact, not_by=other))
