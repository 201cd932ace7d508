"""Records that still hold, as checks ask for them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.contact import Contact
from harness.model.evidence import OPEN, Record
from harness.model.parts import Row
from harness.units import quantity

JOINED_OHM = 1.0  # two wires that read less are one; common practice, no source
FREE_OHM = 100_000.0  # what reads more is no contact but damp or a suppressor; common practice, no source


class PairRead(NamedTuple):
    """A reading across the two wires of a speaker pair of a plug, by its rows."""

    record: Record
    plug: str
    plus: Row
    minus: Row
    ohm: float | None  # None: open


def holding(wiring: Wiring, *verbs: str) -> Iterator[Record]:
    """Records of these verbs that still hold, in the order taken."""
    return (record for record in wiring.job.records if record.verb in verbs and not record.stale)


def ohm_of(text: str) -> float | None:
    """`3.5 ohm` in ohms; None for `open` and for what is no reading in ohms."""
    try:
        return quantity(text, "resistance")
    except ValueError:
        return None


def read_as_one(wiring: Wiring) -> Iterator[tuple[Record, Contact, Contact]]:
    """Each two contacts that read as one wire when they were read last, in the order taken first."""
    last: dict[frozenset[str], Record] = {}
    for record in holding(wiring, "ohm"):
        if len(record.contacts) == 2:
            last[frozenset(record.contacts)] = record
    for record in last.values():
        ohm = ohm_of(record.word("reads"))
        if ohm is not None and ohm <= JOINED_OHM:
            one, other = (wiring.contact(name) for name in record.contacts)
            yield record, one, other


@kept
def pair_readings(wiring: Wiring) -> list[PairRead]:
    """The last reading across each speaker pair of a plug, with its tone or alone."""
    rows = {
        f"{plug.name}.{half}.{row.cavity}": (plug.name, row)
        for plug in wiring.job.parts.plugs.values()
        for row in plug.rows
        for half in ("unit", "car")
    }
    last: dict[tuple[str, str, str], PairRead] = {}
    for record in holding(wiring, "ohm", "tone"):
        if len(record.contacts) != 2 or not record.word("reads") or not all(name in rows for name in record.contacts):
            continue
        (plug, one), (_, other) = (rows[name] for name in record.contacts)
        if one.function.base != other.function.base or {one.function.sign, other.function.sign} != {"+", "-"}:
            continue
        plus, minus = (one, other) if one.function.sign == "+" else (other, one)
        ohm = ohm_of(record.word("reads"))
        if ohm is None and record.word("reads") != OPEN:
            continue
        last.pop((plug, plus.cavity, minus.cavity), None)
        last[plug, plus.cavity, minus.cavity] = PairRead(record, plug, plus, minus, ohm)
    return list(last.values())
