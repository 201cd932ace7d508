"""From lost features to faults: one cause is told once, with every feature that it takes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from harness.checks.registry import Fault
from harness.finding import Spot
from harness.graph.heard import Lost
from harness.graph.wiring import Wiring
from harness.model.contact import printed
from harness.place import Place


def faults_of_lost(wiring: Wiring, lost: Iterable[Lost], outcome: str, do: str) -> Iterator[Fault]:
    """One fault a cause, at what a person must reconsider; the features stand as further places."""
    groups: dict[tuple[Place, str], list[Lost]] = {}
    for each in lost:
        place = each.cause.place if each.cause else each.feature.place
        groups.setdefault((place, each.cause.unit if each.cause else ""), []).append(each)
    for (place, _), group in groups.items():
        yield _fault(wiring, place, group, outcome, do)


def _fault(wiring: Wiring, place: Place, group: list[Lost], outcome: str, do: str) -> Fault:
    first = group[0]
    cause = first.cause
    names = " and ".join(each.feature.name for each in group)
    contacts = tuple(dict.fromkeys(c for each in group for c in each.contacts))
    if cause is not None and cause.unit:
        at = cause.unit
        message = f"{at} is taken out, and with it goes what came by way of it ({names}): {outcome}."
    else:
        at = wiring.words(cause.contact) if cause else first.feature.name
        missing = heard_at(wiring, first.contacts)
        message = f"{names} from {first.feature.unit} no longer reaches {missing}, broken at {at}: {outcome}."
    also = tuple(Spot(each.feature.place, each.feature.name) for each in group)
    about = tuple(dict.fromkeys((*contacts, *(c for each in group if each.cause for c in each.cause.about))))
    return Fault(Spot(place, at), message, do, about, also, path=next((each.way for each in group if each.way), ()))


def heard_at(wiring: Wiring, contacts: tuple[str, ...]) -> str:
    """The speakers or contacts in words, a pair once."""
    names = []
    for name in contacts:
        contact = wiring.contact(name)
        names.append(f"speaker {printed(contact.owner)}" if contact.kind == "speaker" else contact.words)
    return " and ".join(dict.fromkeys(names))
