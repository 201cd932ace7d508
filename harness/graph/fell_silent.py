"""Pairs that answered as charted by an earlier tone, and at which nothing was heard since, or a strange speaker too."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from harness.graph.answering import branches_between, halves_apart
from harness.graph.drivers import is_silence, takes_over
from harness.graph.kept import kept
from harness.graph.pairs import pairs_of
from harness.graph.parted import wires_of
from harness.graph.readings import apart
from harness.graph.toned import on_car_side, strangers, told
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.model.function import bases_in
from harness.model.parts import Plug, Row


class FellSilent(NamedTuple):
    """A pair, + first as charted, with the last tone that it answered alone and the last one of all, which it didn't.

    `strangers` are the speakers that answer beside its own since; none where it is silent.
    """

    plug: str
    plus: Row
    minus: Row
    heard: Record
    since: Record
    strangers: tuple[str, ...] = ()

    @property
    def contacts(self) -> tuple[str, str]:
        """On the car's half, + first."""
        return f"{self.plug}.car.{self.plus.cavity}", f"{self.plug}.car.{self.minus.cavity}"


@kept
def fell_silent(wiring: Wiring) -> tuple[FellSilent, ...]:
    """Every one that is silent, plug by plug, in use or only passed on. The last tone of each part of the range counts;
    those that no longer hold, were struck or are another car's say nothing, nor does silence at a tone that nothing on
    the pair must answer. None is told where what was unplugged for the last tone took its speakers off the pair.
    """
    pairs = frozenset(at for at, taken in _tones(wiring).items() if any(_is_silent(each) for each in taken))
    return tuple(
        each
        for each in _otherwise_since(wiring, pairs, _is_silent)
        if not _taken_off(wiring, wiring.job.parts.plugs[each.plug], (each.plus, each.minus), each.since)
    )


@kept
def joined_since(wiring: Wiring) -> tuple[FellSilent, ...]:
    """Every one that another pair's speaker answers too, which it didn't before."""
    pairs = frozenset(at for at, taken in _tones(wiring).items() if any(_names_many(each) for each in taken))
    made = []
    for each in _otherwise_since(wiring, pairs, _names_many):
        plug, rows = wiring.job.parts.plugs[each.plug], (each.plus, each.minus)
        others = strangers(wiring, plug, rows, each.since.word("heard"))
        if others and each.plus.function.base in bases_in(each.since.word("heard")):
            made.append(each._replace(strangers=others))
    return tuple(made)


@kept
def _tones(wiring: Wiring) -> dict[frozenset[str], list[Record]]:
    """The tones of each pair that say what was heard, in the order taken."""
    tones: dict[frozenset[str], list[Record]] = {}
    for record in wiring.job.records:
        if record.verb == "tone" and not record.stale and len(record.contacts) == 2 and record.word("heard"):
            tones.setdefault(on_car_side(record.contacts), []).append(record)
    return tones


def went_silent(wiring: Wiring, record: Record) -> bool:
    """Whether a tone heard nothing at a pair that an earlier one like it was heard at, whatever a later one says."""
    taken = _tones(wiring).get(on_car_side(record.contacts), []) if record.verb == "tone" else []
    return _is_silent(record) and any(not _is_silent(each) for each in _like(record, taken))


def _otherwise_since(
    wiring: Wiring, pairs: frozenset[frozenset[str]], is_otherwise: Callable[[Record], bool]
) -> Iterator[FellSilent]:
    """Of these pairs, those that an earlier tone proved: its own speakers answered, and no strange one."""
    for plug in wiring.job.parts.plugs.values() if pairs else ():
        for plus, minus in () if plug.inline else pairs_of(wiring, plug.name):
            contacts = frozenset(f"{plug.name}.car.{row.cavity}" for row in (plus, minus))
            if contacts not in pairs:
                continue
            taken = _tones(wiring)[contacts]
            counted = {tone.place for tone in told(wiring, plug, plus, minus).counted}
            since = [each for each in taken if each.place in counted and is_otherwise(each)]
            for last in since[-1:]:
                proved = [
                    each for each in _like(last, taken) if plus.function.base in _channels(each)
                    and not strangers(wiring, plug, (plus, minus), each.word("heard"))
                ]  # fmt: skip
                if proved:
                    yield FellSilent(plug.name, plus, minus, proved[-1], last)


def _like(record: Record, taken: list[Record]) -> list[Record]:
    """The earlier tones of these that it takes the place of: of the same part of the range."""
    return [
        each for each in taken
        if each.place.line < record.place.line and takes_over(record.word("signal"), each.word("signal"))
    ]  # fmt: skip


def _channels(record: Record) -> set[str]:
    """The channels that answered, and the channels of the drivers that did."""
    bases = bases_in(record.word("heard"))
    return {*bases, *(base.partition("-")[0] for base in bases)}


def _is_silent(record: Record) -> bool:
    return is_silence(record.word("heard"))


def _names_many(record: Record) -> bool:
    return len(bases_in(record.word("heard"))) > 1


def _taken_off(wiring: Wiring, plug: Plug, rows: tuple[Row, Row], record: Record) -> bool:
    """Whether the pair has speakers, and none once what the record names as unplugged is apart."""
    wires, (plus, minus) = wires_of(wiring, wiring.found), (f"{plug.name}.car.{row.cavity}" for row in rows)
    pulled, then = halves_apart(wiring, plug), apart(wiring, record, wiring.found)
    there, left = (
        branches_between(wiring, wires.reach(plus, cut), wires.reach(minus, cut), cut, without)[0]
        for cut, without in ((pulled, frozenset[str]()), (then.conductors, then.speakers))
    )
    return bool(there) and not left
