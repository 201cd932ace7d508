"""What was written at the car, looked up by what it is about: for sheets that print it in the place of a blank."""

from __future__ import annotations

import math
from collections.abc import Collection, Hashable, Iterator
from typing import NamedTuple

from harness.graph.answers import at_an_end
from harness.graph.drivers import takes_over
from harness.graph.pairs import Polarity, plus_found
from harness.graph.readings import ohms_of
from harness.graph.toned import on_car_side
from harness.graph.wiring import Wiring
from harness.model.evidence import Record

Subject = tuple[Hashable, ...]


class Said(NamedTuple):
    """One thing that a record says: what it is about (for look-ups), in which key of the record, and the words."""

    subject: Subject
    key: str
    words: str


class Written:
    """The last word on each thing, of the records that still hold. One that says nothing of a thing takes none back."""

    def __init__(self, wiring: Wiring) -> None:
        self._wiring = wiring
        self._last: dict[Subject, tuple[Record, str]] = {}
        self._by_contacts: dict[tuple[str, frozenset[str]], Record] = {}
        self._by_name: dict[tuple[str, str, str], Record] = {}
        self._tones: dict[frozenset[str], list[Record]] = {}
        for record in wiring.job.records:
            if record.stale:
                continue
            for each in said(record):
                self._last[each.subject] = (record, each.words)
            if record.verb == "tone":
                pair, signal = on_car_side(record.contacts), record.word("signal")
                kept = [each for each in self._tones.get(pair, ()) if not takes_over(signal, each.word("signal"))]
                self._tones[pair] = [*kept, record]
            if record.contacts:
                self._by_contacts[record.verb, on_car_side(record.contacts)] = record
            self._by_name[record.verb, record.what.lower(), record.word("key")] = record
            self._by_name[record.verb, record.what.lower(), ""] = record

    def last(self, subject: Subject) -> Record | None:
        """The record that has the last word on a thing, as `said` names it."""
        found = self._last.get(subject)
        return found[0] if found is not None else None

    def about(self, verb: str, *contacts: str) -> Record | None:
        """The last record of a verb about exactly these contacts; a plug's are named by its car side."""
        return self._by_contacts.get((verb, frozenset(contacts)))

    def tones(self, *contacts: str) -> tuple[Record, ...]:
        """The tones of a pair that stand, each the last one of its part of the range."""
        return tuple(self._tones.get(frozenset(contacts), ()))

    def of(self, verb: str, what: str, key: str = "") -> Record | None:
        """The last record of a verb about a thing by its name, in a state of the key or in any."""
        return self._by_name.get((verb, what.lower(), key))

    def reads(self, *contacts: str) -> str:
        """The ohms last read across a pair, with its tone or alone; empty where nobody read them."""
        return self._last.get(("reads", frozenset(contacts)), (None, ""))[1]

    def read_by(self, *contacts: str, but: Collection[Record] = ()) -> str:
        """Who read the ohms across a pair and to the body, and when; without those of records that stand beside."""
        subjects: list[Subject] = [("reads", frozenset(contacts)), *(("body", name) for name in contacts)]
        aside = {id(each) for each in but}
        records = [found for each in subjects if (found := self.last(each)) is not None and id(found) not in aside]
        return ", ".join(dict.fromkeys(each.signed for each in records))

    def body(self, *contacts: str) -> str:
        """What the pair's wires read to the body: open, or each wire by its last reading; empty where nobody read it.

        Of one wire alone that reads open nothing is said: the other one isn't known by it.
        """
        read = {name: self._last[("body", name)][1] for name in contacts if ("body", name) in self._last}
        words = set(read.values())
        if not read or (len(read) < len(contacts) and all(body_fits(each) for each in words)):
            return ""
        if len(read) == len(contacts) and len(words) == 1:
            return words.pop()
        return ", ".join(f"{name.rsplit('.', 1)[1]}: {said}" for name, said in read.items())

    def plus(self, *contacts: str) -> Polarity:
        """Which wire of a pair was found to be + and by which record, as the checks take it."""
        return plus_found(self._wiring).get(frozenset(contacts), Polarity())


def body_fits(reads: str) -> bool | None:
    """Whether what `Written.body` gives is open at every wire; None where it says no ohms."""
    ohms = [ohms_of(each.rpartition(": ")[2]) for each in reads.split(", ")]
    if any(ohm is not None and not math.isinf(ohm) for ohm in ohms):
        return False
    return None if None in ohms else True


def said(record: Record) -> Iterator[Said]:
    """What a record says, thing by thing: of each the last record counts. Nothing of handovers, signatures and prints.

    A tone is of the pair, whichever half of its plug it is named by; a reading is of the half that was read.
    """
    contacts = frozenset(record.contacts)
    about: Hashable = contacts or record.what.lower()
    pair: Hashable = on_car_side(record.contacts) or record.what.lower()
    if at_an_end(record):
        about = (about, record.word("faded"), record.word("balanced"))
    if record.verb in ("tone", "ohm"):
        yield from _read(record, about)
    if record.verb == "tone":
        yield Said(("heard", pair), "heard", record.word("heard"))
    if record.verb in ("tone", "polarity") and record.word("plus"):
        yield Said(("plus", pair), "plus", record.word("plus"))
    if record.verb == "volts":
        yield _volts(record, contacts)
    elif record.verb == "seen":
        keys = [key for key in ("colour", "shows") if record.word(key)]
        yield from (Said(("seen", about, key), key, record.word(key)) for key in keys or [""])
    elif record.verb in _KEY and record.joint:
        yield Said((record.verb, record.joint), _KEY[record.verb], record.word(_KEY[record.verb]))
    elif record.verb in _KEY:
        for thing in record.contacts if record.verb in ("built", "checked") and contacts else (about,):
            yield Said((record.verb, thing), _KEY[record.verb], record.word(_KEY[record.verb]))


# The key behind which such a record says what was found.
_KEY = {
    "plays": "heard",
    "before": "result",
    "after": "result",
    "response": "levels",
    "built": "is",
    "checked": "found",
}


def volts_at(contact: str, key: str) -> Subject:
    """The volts of a terminal in a state of the key, no level of a signal."""
    return ("volts", frozenset((contact,)), key, "", "", "")


def _volts(record: Record, contacts: frozenset[str]) -> Said:
    level = tuple(record.word(key) for key in ("signal", "step", "clean"))
    if len(contacts) == 2 and not any(level) and all(".car." in name for name in contacts):
        return Said(("dc", contacts), "reads", record.word("reads"))
    return Said(("volts", contacts or record.what.lower(), record.word("key"), *level), "reads", record.word("reads"))


def _read(record: Record, about: Hashable) -> Iterator[Said]:
    """Ohms across two contacts and to the body, and the volts DC that were read first."""
    reads, body = record.word("reads"), record.word("body")
    if record.verb == "ohm" and len(record.contacts) == 1:
        body = reads
    elif reads:
        yield Said(("reads", about), "reads", reads)
    if body:
        key = "body" if record.word("body") else "reads"
        yield from (Said(("body", name), key, body) for name in record.contacts)
    if record.word("dc"):
        yield Said(("dc", about), "dc", record.word("dc"))
