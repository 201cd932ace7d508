"""Turn-on outputs that are tied to another source, so that each feeds the other backwards."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.conductor import INSIDE
from harness.graph.meeting import Meeting, meeting
from harness.graph.turn_on_load import outputs
from harness.graph.waking import Giver, givers_of_net
from harness.graph.wiring import Wiring
from harness.model.contact import Contact


class Tied(NamedTuple):
    """A unit's turn-on output and the other source in its net, with what joins them."""

    output: Giver
    other: Giver
    met: Meeting


def tied(wiring: Wiring) -> Iterator[Tied]:
    """Each net in which a unit's output and another source meet that did not as found.

    Of several sources the car's own is named first. Two cavities of different functions are ties of feeds, and told
    as such.
    """
    seen: set[int] = set()
    for output in outputs(wiring):
        number = wiring.planned.net_number(output.contact)
        if number in seen:
            continue
        seen.add(number)
        there = givers_of_net(wiring, output.contact)
        pairs = [
            (own, other)
            for own in there
            if own.unit
            for other in sorted(there, key=lambda each: bool(each.unit))
            if other.unit != own.unit and not _told_as_feeds(wiring, own, other)
        ]
        made = next((pair for pair in pairs if not wiring.found.joined(pair[0].contact, pair[1].contact)), None)
        if made is not None:
            yield Tied(*made, meeting(wiring, made[0].contact, made[1].contact, lambda _: False))


def _told_as_feeds(wiring: Wiring, a: Giver, b: Giver) -> bool:
    first, second = _cavity(wiring, a.contact), _cavity(wiring, b.contact)
    return first is not None and second is not None and first.function.name != second.function.name


def _cavity(wiring: Wiring, name: str) -> Contact | None:
    """The cavity that a source is, or that its unit's terminal sits in."""
    seats = (each.other(name) for each in wiring.planned.conductors(name) if each.kind == INSIDE)
    contacts = map(wiring.contact, (name, *seats))
    return next((contact for contact in contacts if contact.kind == "plug"), None)
