"""Pairs that answered as charted by an earlier tone, and at which nothing was heard since."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.answering import branches_between, halves_apart
from harness.graph.kept import kept
from harness.graph.pairs import on_car_side, pairs_of
from harness.graph.parted import wires_of
from harness.graph.readings import apart
from harness.graph.wiring import Wiring
from harness.model.evidence import NOTHING, Record
from harness.model.function import bases_in
from harness.model.parts import Plug, Row


class FellSilent(NamedTuple):
    """A pair, + first as charted, with the last tone that it answered and the last one that it didn't."""

    plug: str
    plus: Row
    minus: Row
    heard: Record
    silent: Record

    @property
    def contacts(self) -> tuple[str, str]:
        """On the car's half, + first."""
        return f"{self.plug}.car.{self.plus.cavity}", f"{self.plug}.car.{self.minus.cavity}"


@kept
def fell_silent(wiring: Wiring) -> tuple[FellSilent, ...]:
    """Every one, plug by plug, in use or only passed on. The last tone of a pair counts; those that no longer hold,
    were struck or are another car's say nothing. None is told where what was unplugged for the last tone took its
    speakers off the pair.
    """
    tones: dict[frozenset[str], list[Record]] = {}
    for record in wiring.job.records:
        if record.verb == "tone" and not record.stale and len(record.contacts) == 2 and record.word("heard"):
            tones.setdefault(on_car_side(record.contacts), []).append(record)
    silent = {contacts for contacts, taken in tones.items() if _is_silent(taken[-1])}
    made = []
    for plug in wiring.job.parts.plugs.values() if silent else ():
        for plus, minus in () if plug.inline else pairs_of(wiring, plug.name):
            contacts = frozenset(f"{plug.name}.car.{row.cavity}" for row in (plus, minus))
            if contacts not in silent:
                continue
            taken = tones[contacts]
            answered = [each for each in taken if plus.function.base in bases_in(each.word("heard"))]
            if answered and not _taken_off(wiring, plug, (plus, minus), taken[-1]):
                made.append(FellSilent(plug.name, plus, minus, answered[-1], taken[-1]))
    return tuple(made)


def _is_silent(record: Record) -> bool:
    return record.word("heard").strip().lower() in NOTHING


def _taken_off(wiring: Wiring, plug: Plug, rows: tuple[Row, Row], record: Record) -> bool:
    """Whether the pair has speakers, and none once what the record names as unplugged is apart."""
    wires, (plus, minus) = wires_of(wiring, wiring.found), (f"{plug.name}.car.{row.cavity}" for row in rows)
    pulled, then = halves_apart(wiring, plug), apart(wiring, record, wiring.found)
    there, left = (
        branches_between(wiring, wires.reach(plus, cut), wires.reach(minus, cut), cut, without)[0]
        for cut, without in ((pulled, frozenset[str]()), (then.conductors, then.speakers))
    )
    return bool(there) and not left
