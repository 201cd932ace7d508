"""Speakers whose two leads are turned in this car, as a record says: a fact of the car, and not of its chart."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from harness.model.contact import Contact
from harness.model.evidence import TURNED, Record
from harness.model.job import Segment


def turned_here(records: Iterable[Record], contacts: Mapping[str, Contact]) -> dict[str, Record]:
    """The record that says so, for each speaker terminal (`spk.FL+`) with the lead on it that belongs on the other.

    The last record about a speaker counts: `found: turned` turns it, any other word puts it right.
    """
    made: dict[str, Record] = {}
    for record in records:
        if record.verb == "polarity" and not record.stale and about_speaker(record, contacts):
            for contact in record.contacts:
                made.pop(contact, None)
                if record.word("found").lower() == TURNED:
                    made[contact] = record
    return made


def about_speaker(record: Record, contacts: Mapping[str, Contact]) -> bool:
    """Whether a record is about the two terminals of a speaker, or of one of its coils."""
    known = [contacts[name] for name in record.contacts if name in contacts]
    return len(known) == 2 and all(each.kind == "speaker" for each in known)


def as_turned(segments: Sequence[Segment], turned: Mapping[str, Record]) -> tuple[Segment, ...]:
    """The wires as they are: the car's own to a speaker that is turned end at its other terminal. A run of ours beside
    them is laid by the plan and stays; to a speaker that has no other wire it is the one that lies turned.
    """
    if not turned:
        return tuple(segments)
    made = []
    of_car = {end for each in segments if not each.laid for end in (each.a, each.b)}
    for each in segments:
        ends = [end for end in (each.a, each.b) if end in turned and not (each.laid and end in of_car)]
        for end in ends:
            other = other_terminal(end)
            each = each._replace(a=other) if end == each.a else each._replace(b=other)
            each = each._replace(turned=not each.turned)
        made.append(each)
    return tuple(made)


def other_terminal(contact: str) -> str:
    """`spk.FL-` for `spk.FL+`, and back."""
    return contact[:-1] + ("-" if contact.endswith("+") else "+")
