"""On which wire of a pair + must be found: where the speaker is turned, on the charted −; and what the radio has."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.pairs import pairs_of, plus_found, speaker_turned, speakers_on
from harness.graph.toned import on_car_side, told
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.model.parts import Row


class OtherPlus(NamedTuple):
    """A pair that answers as charted and has its + found on the other wire than the car's wiring as written has it.

    `awaited` and `found` are cavities. `radio` is where a record found + on the half toward the unit, empty where none
    did: on the charted one the chart is right and the speaker is turned behind it; on the other one the chart is wrong.
    """

    plug: str
    plus: Row
    minus: Row
    awaited: str
    found: str
    radio: str
    record: Record
    speakers: tuple[str, ...]
    moved: tuple[str, ...]  # those of the speakers that a pulse moves, or all where it moves none

    @property
    def contacts(self) -> tuple[str, str]:
        """On the car's half, + first as charted."""
        return f"{self.plug}.car.{self.plus.cavity}", f"{self.plug}.car.{self.minus.cavity}"

    @property
    def chart_wrong(self) -> bool:
        """Whether a reading at the radio's side says that the chart has the two wires exchanged."""
        return bool(self.radio) and not same(self.radio, self.plus.cavity)

    @property
    def name(self) -> str:
        """`dash 1/9`."""
        return f"{self.plug} {self.plus.cavity}/{self.minus.cavity}"


@kept
def radio_plus(wiring: Wiring) -> dict[frozenset[str], Record]:
    """The last look for + on the half of a plug toward its unit, by the pair's contacts on the car side."""
    made = {}
    for record in wiring.job.records:
        if record.verb == "polarity" and record.word("plus") and not record.stale and toward_unit(record.contacts):
            made[on_car_side(record.contacts)] = record
    return made


def toward_unit(contacts: tuple[str, ...]) -> bool:
    """Whether a pair's contacts are those of the half toward the unit."""
    return len(contacts) == 2 and all(".unit." in name for name in contacts)


@kept
def other_plus(wiring: Wiring) -> tuple[OtherPlus, ...]:
    """Every charted pair, plug by plug, whose + was found on the other wire, where its own speakers answered."""
    found, radio = plus_found(wiring), radio_plus(wiring)
    made = []
    for plug in wiring.job.parts.plugs.values() if found else ():
        for plus, minus in pairs_of(wiring, plug.name):
            contacts = frozenset(f"{plug.name}.car.{row.cavity}" for row in (plus, minus))
            looked = found.get(contacts)
            if looked is None or looked.record is None or not looked.plus:
                continue
            contact = f"{plug.name}.car.{plus.cavity}"
            awaited, other = (plus, minus) if not speaker_turned(wiring, contact) else (minus, plus)
            if not told(wiring, plug, plus, minus).answered or not same(looked.plus, other.cavity):
                continue
            record, on_it = radio.get(contacts), speakers_on(wiring, contact)
            bare = [each for each in on_it if not wiring.job.parts.speakers[each].capacitor]
            made.append(
                OtherPlus(
                    plug.name, plus, minus, awaited.cavity, other.cavity,
                    record.word("plus") if record else "", looked.record,
                    on_it, tuple(bare) or on_it,
                )
            )  # fmt: skip
    return tuple(made)


@kept
def radio_turned(wiring: Wiring) -> tuple[tuple[Row, Row, Record], ...]:
    """Charted pairs, + first, that the radio has its + on the other wire of by a look at its side, although the + of
    what they play was found as awaited; with the record. Where neither is, `other_plus` says that the chart is wrong.
    """
    radio, found = radio_plus(wiring), plus_found(wiring)
    otherwise = {frozenset(each.contacts) for each in other_plus(wiring)} if radio else set()
    made = []
    for plug in wiring.job.parts.plugs.values() if radio else ():
        for plus, minus in () if plug.inline else pairs_of(wiring, plug.name):
            contacts = frozenset(f"{plug.name}.car.{row.cavity}" for row in (plus, minus))
            looked = found.get(contacts)
            record = radio.get(contacts)
            if record is None or looked is None or contacts in otherwise:
                continue
            awaited = minus if speaker_turned(wiring, f"{plug.name}.car.{plus.cavity}") else plus
            if same(looked.plus, awaited.cavity) and same(record.word("plus"), minus.cavity):
                made.append((plus, minus, record))
    return tuple(made)


def same(one: str, other: str) -> bool:
    """Whether two words name one cavity, in capitals or not."""
    return one.lower() == other.lower()
