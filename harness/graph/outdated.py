"""Records that no longer hold, and which later ones stand in for them."""

from __future__ import annotations

from collections.abc import Hashable

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.evidence import PAIR_VERBS, Record, of_another_car


@kept
def outdated(wiring: Wiring) -> tuple[Record, ...]:
    """Records of this car that no longer hold, in the order taken, each thing once and only the last one of it.

    A later record of the same kind about the same contacts that holds stands in for it, and so does one that says
    that it replaces it.
    """
    last: dict[Hashable, Record] = {}
    for record in wiring.job.records:
        if record.word("replaces"):
            named = record.word("replaces").lower()
            last = {key: each for key, each in last.items() if each.what.lower() != named}
        if not foreign(wiring, record):
            key = _about(record)
            last.pop(key, None)  # so that the order is that of what is left
            last[key] = record
    return tuple(record for record in last.values() if record.stale)


@kept
def toned_before(wiring: Wiring) -> frozenset[frozenset[str]]:
    """Pairs of which a tone is outdated, by their contacts on the car side: those are asked for by that."""
    return frozenset(
        frozenset(_car_side(each.contacts)) for each in outdated(wiring) if each.verb == "tone" and each.contacts
    )


def foreign(wiring: Wiring, record: Record) -> bool:
    """Whether a record says that it was taken on another car."""
    car = wiring.job.car
    return car is not None and of_another_car(record.word("car"), car.name, car.year)


def _about(record: Record) -> Hashable:
    if not record.contacts:
        return record.verb, record.what.lower()
    if record.verb in PAIR_VERBS:  # either half, either way round
        return record.verb, frozenset(_car_side(record.contacts))
    return record.verb, record.contacts, record.word("key"), record.word("signal")


def _car_side(contacts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(name.replace(".unit.", ".car.") for name in contacts)
