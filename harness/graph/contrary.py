"""Readings and looks that speak against the plan: what the paper prints as OTHER, each the last word on its subject."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from harness.electrical.turn_on import LIVE_V, MOST_WITHOUT_FEED_V
from harness.graph.as_built import as_built
from harness.graph.joints_made import joints_made
from harness.graph.kept import kept
from harness.graph.looks import light_is_right, lights, looks
from harness.graph.output_ohms import at_outputs
from harness.graph.pairs import (
    Polarity,
    contradicted,
    looks_for_plus,
    pairs_of,
    plus_found,
    speaker_turned,
    speakers_on,
    used_pairs,
)
from harness.graph.plus_side import radio_turned
from harness.graph.readings import between, body_readings, of_wires, ohms_of, pair_readings, volts_of
from harness.graph.resistance import Expected, in_band
from harness.graph.speaker_readings import pair_words, speaker_readings
from harness.graph.ticked import not_laid
from harness.graph.toned import OTHER, SILENT, STRANGER, Told, on_car_side, told, tones_of
from harness.graph.turn_on_test import GROUND, OFF, RECORDED_KEYS, REST, fits_band, turn_on_test
from harness.graph.volts_against import MOST_IN_CAR_V, below_the_body, grounded, odd_volts
from harness.graph.waking import wakes
from harness.graph.wiring import Wiring
from harness.model.contact import CHASSIS
from harness.model.evidence import OPEN, TAKEN, Record
from harness.model.good_and_bad import NOTHING_ODD
from harness.model.parts import Row

# The kinds of what speaks against the plan.
VOLTS, ASLEEP, LIVE_GROUND, DC, OHMS, BODY, LIGHT, SENSE = (
    "volts", "asleep", "live ground", "dc", "ohms", "body", "light", "sense"
)  # fmt: skip
RETAINED, DAMP, HEARD, PLUS, BUILT, LOOSE, UNLAID = "retained", "damp", "heard", "plus", "built", "loose", "unlaid"
LIVE, CHARTED, GROUNDING, LOOK, LEFT_ODD = "live", "charted", "grounding", "look", "left odd"
RADIO_PLUS = "radio plus"
_OF_READINGS = frozenset((DC, OHMS, BODY))
# What reads more to the body is damp or a capacitor and no contact: common practice, no source.
_DAMP_OHM = 100e3
# A ground wire with its ring on bare metal reads less, a meter's own leads with it: common practice, no source.
_MOST_GROUND_OHM = 1.0
# A battery that is charged: up to 15 V, a trade guide's page, seen 2026; at rest 12 V are still right.
_CHARGING = "12 to 15 V"


class Contrary(NamedTuple):
    """One record that speaks against the plan: the contacts it is about and their words, what it says, and what the
    plan says there.
    """

    kind: str
    record: Record
    contacts: tuple[str, ...]
    where: str
    reads: str
    planned: str

    @property
    def words(self) -> str:
        """`dsp GND, key out: 12.6 V, planned 0 V`."""
        if self.kind == LEFT_ODD:
            return f"{self.where}: {self.reads} (until a later one says `odd: nothing`)"
        return f"{self.where}: {self.reads}, planned {self.planned}"


@kept
def contrary(wiring: Wiring) -> tuple[Contrary, ...]:
    """All of them, in the order of their records; none where the job has no records that hold."""
    if not any(not record.stale for record in wiring.job.records):
        return ()
    made = [
        *_volts(wiring), *_dc(wiring), *_ohms(wiring), *_body(wiring), *_lights(wiring), *_sense(wiring),
        *_tones(wiring), *_built(wiring), *_loose(wiring), *_unlaid(wiring), *_grounding(wiring), *_looks(wiring),
        *_left_odd(wiring), *_radio_plus(wiring),
    ]  # fmt: skip
    return tuple(sorted(made, key=lambda each: each.record.place.line))


@kept
def pairs_against(wiring: Wiring) -> dict[str, str]:
    """The pairs in use that aren't toned and that a tone, a look for + or a reading speaks against: `contradicted: 0.2
    ohm read` by pair, `dash.1/9`.
    """
    read = [each for each in contrary(wiring) if each.kind in _OF_READINGS]
    made = {}
    for pair in used_pairs(wiring):
        if pair.state == "toned":
            continue
        found = [each.reads for each in read if set(each.contacts) <= set(pair.on_the_car)]
        said = contradicted(pair) or (f"contradicted: {found[-1]} read" if found else "")
        if said:
            made[pair.name] = said
    return made


def _direct(wiring: Wiring) -> Iterator[Record]:
    """Readings in volts that hold and are no level of a signal."""
    for record in wiring.job.records:
        level = record.word("signal") or record.word("step") or record.word("clean")
        if record.verb == "volts" and not record.stale and not level:
            yield record


def _volts(wiring: Wiring) -> Iterator[Contrary]:
    """Supply, ground and turn-on against the turn-on test; key out and locked are one state."""
    last: dict[tuple[str, str], Record] = {}
    for record in _direct(wiring):
        if len(record.contacts) == 1:
            key = record.word("key")
            last[record.contacts[0], "out" if key == "locked" else key] = record
    if not last:
        return
    for odd in odd_volts(wiring, last):
        where = f"{wiring.words(odd.contact)}, key {odd.record.word('key') or 'not written'}"
        kind = LIVE if odd.live else CHARTED
        yield Contrary(kind, odd.record, odd.record.contacts, where, odd.record.word("reads"), odd.planned)
    for reading in turn_on_test(wiring).readings:
        name = f"{reading.unit}.{reading.terminal}"
        engine = {REST: _CHARGING, GROUND: GROUND}.get(reading.expected[2], "")
        for key, expected in zip((*RECORDED_KEYS, "engine"), (*reading.expected, engine), strict=True):
            said = last.get((name, key))
            volts = volts_of(said.word("reads")) if said is not None else None
            if said is None or volts is None or volts > MOST_IN_CAR_V or fits_band(volts, expected) is not False:
                continue
            kind = VOLTS
            if expected == OFF:
                kind = RETAINED if said.word("waited") else ASLEEP  # after a long wait E11 tells it
            if expected == GROUND and volts >= LIVE_V:
                kind = LIVE_GROUND
            where = f"{wiring.words(name)}, key {said.word('key')}"
            yield Contrary(kind, said, said.contacts, where, said.word("reads"), expected)


def _dc(wiring: Wiring) -> Iterator[Contrary]:
    """Volts between the two wires of a speaker pair on the car's side, where nothing may feed it."""
    for record, reads in dc_read(wiring).values():
        volts = volts_of(reads)
        if volts is None or not MOST_WITHOUT_FEED_V < volts <= MOST_IN_CAR_V:
            continue
        a, b = (wiring.contact(name) for name in record.contacts)
        if a.function.kind == b.function.kind == "audio":
            yield Contrary(DC, record, record.contacts, pair_words(wiring, record.contacts), f"{reads} DC", "0 V")


@kept
def dc_read(wiring: Wiring) -> dict[frozenset[str], tuple[Record, str]]:
    """The last DC read of each two contacts on the car's side, by itself or with a tone or ohms, with its record."""
    last: dict[frozenset[str], tuple[Record, str]] = {}
    direct = {id(record) for record in _direct(wiring)}
    for record in wiring.job.records:
        if len(record.contacts) != 2 or record.stale:
            continue
        reads = record.word("reads") if id(record) in direct else record.word("dc")
        if reads and all(wiring.contact(name).half == "car" for name in record.contacts):
            last[frozenset(record.contacts)] = (record, reads)
    return last


def _ohms(wiring: Wiring) -> Iterator[Contrary]:
    """Across pairs and at outputs, where a meter doesn't read what the drawing has there."""
    told = set()
    for reading, met in speaker_readings(wiring):
        if in_band(met.expected, reading.words) is False:
            told.add(frozenset(reading.contacts))
            where, planned = pair_words(wiring, reading.contacts), _band(met.expected)
            yield Contrary(OHMS, reading.record, reading.contacts, where, reading.words, planned)
    last = {}
    for record in wiring.job.records:
        if record.verb == "ohm" and not record.stale and record.word("reads"):
            last[frozenset(record.contacts)] = record
    for each in at_outputs(wiring) if last else ():
        ends = (each.driver.plus, each.driver.minus)
        found = last.get(frozenset(ends))
        if found is None or frozenset(ends) in told or in_band(each.expected, found.word("reads")) is not False:
            continue
        ohm, high_ohm = ohms_of(found.word("reads")), each.expected.high_ohm
        if each.driver.port.unit.lower() not in found.word("unplugged").lower().replace(",", " ").split() and (
            ohm is None or high_ohm is None or ohm < high_ohm
        ):
            continue  # with its leads on the output itself is read beside them, which only lowers the reading
        where, planned = f"the leads at {each.driver.name.replace('.', ' ')}", _band(each.expected)
        yield Contrary(OHMS, found, ends, where, found.word("reads"), planned)


def _band(expected: Expected) -> str:
    if expected.low_ohm is None or expected.high_ohm is None:
        return "open, behind a capacitor"
    return f"{expected.low_ohm:.1f} to {expected.high_ohm:.1f} ohm"


def _body(wiring: Wiring) -> Iterator[Contrary]:
    """Wires of speaker pairs and outputs' leads that aren't open to the body."""
    found = [each for each in body_readings(wiring) if not math.isinf(each.ohm)]
    outputs = {name for each in at_outputs(wiring) for name in (each.driver.plus, each.driver.minus)} if found else ()
    for reading in found:
        names = tuple(
            name
            for name in reading.contacts
            if (name in outputs or _of_a_pair(wiring, name))
            and of_wires(wiring, reading, name)
            and not (wiring.found.joined(name, CHASSIS) or wiring.planned.joined(name, CHASSIS))
            and between(wiring, reading, name, CHASSIS).expected.low_ohm is None
        )
        if names:
            where = f"{' and '.join(wiring.words(name) for name in names)} to the body"
            kind = BODY if reading.ohm < _DAMP_OHM else DAMP
            yield Contrary(kind, reading.record, names, where, reading.words, "open")


def _of_a_pair(wiring: Wiring, name: str) -> bool:
    """Whether a contact is a speaker's cavity, on either half."""
    contact = wiring.contact(name)
    return contact.kind == "plug" and contact.function.kind == "audio"


def _lights(wiring: Wiring) -> Iterator[Contrary]:
    for name, record in lights(wiring).items():
        if light_is_right(record.word("shows")) is False:
            names = tuple(f"{name}.{terminal}" for terminal in wiring.job.parts.units[name].terminals)
            yield Contrary(LIGHT, record, names, f"the light of {name}", record.word("shows"), "steady, green or blue")


def _sense(wiring: Wiring) -> Iterator[Contrary]:
    """Readings that no meter in this car can have shown: more volts than a car has, ohms under volts."""
    last = {}
    for record in wiring.job.records:
        if record.verb in ("volts", "ohm") and not record.stale and record.contacts and record.word("reads"):
            last[record.verb, frozenset(record.contacts), record.word("key"), record.word("step")] = record
    direct = {id(record) for record in _direct(wiring)}
    for record in last.values():
        reads = record.word("reads")
        volts = volts_of(reads)
        if record.verb == "volts":
            ohms = volts is None and (reads == OPEN or reads[:1].isdigit())
            below = id(record) in direct and below_the_body(record)
            odd = ohms or below or (id(record) in direct and volts is not None and volts > MOST_IN_CAR_V)
            planned = "volts" if ohms else f"at most {MOST_IN_CAR_V:g} V in a 12 V car"
            planned = "nothing below the body, which is minus" if below else planned
        else:
            odd, planned = volts is not None, "ohms"
        if odd:
            where = " and ".join(wiring.words(name) for name in record.contacts)
            yield Contrary(SENSE, record, record.contacts, where, reads, planned)


def _tones(wiring: Wiring) -> Iterator[Contrary]:
    """Pairs of the chart that another speaker answers, or of which + is the other wire; also those not in use."""
    plus = plus_found(wiring)
    if not tones_of(wiring) and not plus:
        return
    used = {pair.name: pair for pair in used_pairs(wiring)}
    for plug in wiring.job.parts.plugs.values():
        for rows in pairs_of(wiring, plug.name):
            ends = tuple(f"{plug.name}.car.{row.cavity}" for row in rows)
            contacts = frozenset(ends)
            tones, polarity = told(wiring, plug, *rows), plus.get(contacts, Polarity())
            name = f"{plug.name}.{rows[0].cavity}/{rows[1].cavity}"
            pair = used.get(name)
            turned = bool(polarity.plus) and speaker_turned(wiring, ends[0])
            awaited = rows[1 if turned else 0].cavity
            said = _against(wiring, ends[0], rows[0], awaited, tones, polarity.plus)
            said = pair.contrary if pair is not None else said
            kind = PLUS if "found +" in said else HEARD
            record = _last(wiring, contacts, tones if kind == HEARD else None) if said else None
            if record is not None:
                found = said.partition(", ")[2] or said
                planned = f"+ on {awaited}" if kind == PLUS else rows[0].function.base
                yield Contrary(kind, record, ends, pair_words(wiring, ends), found, planned)


def _against(wiring: Wiring, contact: str, plus: Row, awaited: str, tones: Told, found: str) -> str:
    """What a tone or a look for + says against the chart of a pair that is only passed on; `awaited` is where + is."""
    heard = f"charted {plus.function.base}, heard {tones.tone.heard}" if tones.tone else ""
    if tones.kind == OTHER or (tones.kind == SILENT and speakers_on(wiring, contact)):
        return heard
    if found and found.rsplit(".", 1)[-1].lower() != awaited.lower():
        return f"charted + {awaited}, found + {found}"
    return heard if tones.kind == STRANGER else ""


def _last(wiring: Wiring, contacts: frozenset[str], tones: Told | None) -> Record | None:
    """The record of the tone that the chart is held against, else the last tone or look for + of a pair."""
    tone = tones.tone if tones is not None else None
    found = [
        record
        for record in wiring.job.records
        if looks_for_plus(record) and not record.stale and on_car_side(record.contacts) == contacts
        and (tone is None or record.verb != "tone" or record.place == tone.place)
    ]  # fmt: skip
    return found[-1] if found else None


def _built(wiring: Wiring) -> Iterator[Contrary]:
    for each in as_built(wiring)[0]:
        where = " and ".join(wiring.words(name) for name in each.contacts)
        yield Contrary(BUILT, each.record, each.contacts, where, f"built {each.record.word('is')}", each.planned)


def _loose(wiring: Wiring) -> Iterator[Contrary]:
    """Joints that somebody looked at, by their name, and found otherwise than holding."""
    for name, each in joints_made(wiring).items():
        if each.looked is not None and not each.holds:
            found = each.looked.word("found") or each.looked.word("result")
            yield Contrary(
                LOOSE, each.looked, wiring.joints[name].ends, f"joint {name}", f"found {found}", "holding when tugged"
            )


def _unlaid(wiring: Wiring) -> Iterator[Contrary]:
    """Runs that somebody says aren't laid."""
    for each in not_laid(wiring):
        yield Contrary(UNLAID, each.record, each.ends, each.name, "not laid", each.way)


def _grounding(wiring: Wiring) -> Iterator[Contrary]:
    """Ground wires that don't read as one with the body, and supply and turn-on wires that do."""
    found = body_readings(wiring)
    waking = {wake.contact for wake in wakes(wiring) if not wake.coil} if found else ()  # whatever it is called
    for reading in found:
        for name in reading.contacts:
            if grounded(wiring, name) and reading.ohm >= _MOST_GROUND_OHM:
                where = f"{wiring.words(name)} to the body"
                yield Contrary(GROUNDING, reading.record, (name,), where, reading.words, "below 1 ohm")
            contact = wiring.contact(name)
            fed = contact.kind == "unit" and contact.function.kind in ("battery", "switched", "trigger")
            fed = fed or (name in waking and not _has_lamps(wiring, name))
            if fed and reading.ohm < _MOST_GROUND_OHM and not wiring.planned.joined(name, CHASSIS):
                where = f"{wiring.words(name)} to the body"
                yield Contrary(BODY, reading.record, (name,), where, reading.words, "no contact")
    for reading in pair_readings(wiring):
        kinds = {wiring.contact(name).function.kind for name in reading.contacts}
        units = all(wiring.contact(name).kind == "unit" for name in reading.contacts)
        if units and kinds == {"battery", "ground"} and reading.ohm < _MOST_GROUND_OHM:
            where = " to ".join(map(wiring.words, reading.contacts))
            yield Contrary(BODY, reading.record, reading.contacts, where, reading.words, "no contact")


def _has_lamps(wiring: Wiring, name: str) -> bool:
    """Whether a wire of the car's lights hangs on it as planned: cold filaments side by side read next to nothing."""
    return any(wiring.contact(other).function.kind == "light" for other in wiring.planned.net(name))


def _radio_plus(wiring: Wiring) -> Iterator[Contrary]:
    """Pairs of which the radio has its + on the wire charted −, and the speakers theirs where it is awaited."""
    for plus, minus, record in radio_turned(wiring):
        where = f"{pair_words(wiring, record.contacts)}, at the radio's side"
        yield Contrary(RADIO_PLUS, record, record.contacts, where, f"+ on {minus.cavity}", f"+ on {plus.cavity}")


def _looks(wiring: Wiring) -> Iterator[Contrary]:
    for look in looks(wiring):
        if look.right is False:
            where = " and ".join(map(wiring.words, look.record.contacts)) or look.record.what
            yield Contrary(LOOK, look.record, look.record.contacts, where, f"found {look.said}", "nothing wrong there")


def _left_odd(wiring: Wiring) -> Iterator[Contrary]:
    """What the last one to hand over the job found odd; it keeps the job from being verified."""
    handed = [each for each in wiring.job.records if each.verb == "handover" and each.what != TAKEN and not each.stale]
    if handed and (odd := handed[-1].word("odd").strip()) and odd.lower().rstrip(".") not in NOTHING_ODD:
        yield Contrary(LEFT_ODD, handed[-1], (), "the handover", odd, "nothing odd")
