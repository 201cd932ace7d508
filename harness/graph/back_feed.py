"""Turn-on outputs that are tied to another source, so that each feeds the other backwards."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.meeting import Meeting, meeting
from harness.graph.turn_on_load import outputs
from harness.graph.waking import Giver, givers_of_net
from harness.graph.wiring import Wiring


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
    first, second = wiring.contact(a.contact), wiring.contact(b.contact)
    return first.kind == second.kind == "plug" and first.function.name != second.function.name
