"""What answered when an output was played alone, against what must answer as planned."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.drivers import CAPACITOR_FROM_HZ, Span, named, played
from harness.graph.kept import kept
from harness.graph.signal import Driver, Way
from harness.graph.volume import taken_fixed
from harness.graph.wiring import Wiring
from harness.model.evidence import Record

_WITHOUT_VOLUME = ("cluster", "control unit")


class Answer(NamedTuple):
    """The last `plays` record of an output: the speakers that must answer, those that did, and how they differ.

    `odd` are words of the record that name no speaker. `loud` says that the record found a level that doesn't follow
    the volume, where the plan makes one. `way` is a planned way to a speaker that differs, else to the first.
    """

    record: Record
    driver: Driver
    planned: tuple[str, ...]
    heard: tuple[str, ...]
    silent: tuple[str, ...]
    astray: tuple[str, ...]
    odd: tuple[str, ...]
    loud: bool
    way: Way | None

    @property
    def differs(self) -> bool:
        return bool(self.silent or self.astray or self.loud)

    @property
    def as_planned(self) -> bool:
        """Whether the record says what was heard, all of it is understood, and it is what the plan says."""
        return not self.differs and not self.odd and bool(self.record.word("heard"))


@kept
def answers(wiring: Wiring) -> tuple[Answer, ...]:
    """One answer an output of which a record says what it played, in the order of the outputs."""
    last: dict[str, Record] = {}
    drivers = {each.name.lower(): each for each in wiring.signals.drivers} if wiring.job.records else {}
    by_contacts: dict[tuple[str, ...], str] = {(each.plus, each.minus): each.name.lower() for each in drivers.values()}
    for record in wiring.job.records:
        if record.verb == "plays" and not record.stale and not at_an_end(record):
            last[by_contacts.get(record.contacts, record.what.lower())] = record
    if not last:
        return ()
    ways: dict[str, dict[str, list[Way]]] = {}
    for receiver in wiring.signals.speaker_receivers:
        for way in wiring.signals.ways(receiver):
            for hop in way.hops:
                ways.setdefault(hop.feed.driver.name, {}).setdefault(receiver.speaker, []).append(way)
    return tuple(
        _answer(wiring, last[name], driver, ways.get(driver.name, {}))
        for name, driver in drivers.items()
        if name in last
    )


def no_outputs(wiring: Wiring) -> list[Record]:
    """Records of what was played of which the job knows no output; none of fader and balance at their ends."""
    played = [each for each in wiring.job.records if each.verb == "plays" and not each.stale and not at_an_end(each)]
    return [each for each in played if not is_of_output(wiring, each)] if played else []


def at_an_end(record: Record) -> bool:
    """Whether a record says what was heard with fader or balance at an end, and not of one output alone."""
    return bool(record.word("faded") or record.word("balanced"))


def is_of_output(wiring: Wiring, record: Record) -> bool:
    """Whether what a record is about is an output of the job, by its name or by its two contacts."""
    return any(
        record.what.lower() == each.name.lower() or record.contacts == (each.plus, each.minus)
        for each in wiring.signals.drivers
    )


def _answer(wiring: Wiring, record: Record, driver: Driver, ways: dict[str, list[Way]]) -> Answer:
    heard, odd = heard_speakers(wiring, record)
    span = played(record.word("signal"))
    must = tuple(name for name in ways if span is None or carries(wiring, name, ways[name], span))
    silent = tuple(name for name in must if name not in heard) if record.word("heard") and not odd else ()
    astray = tuple(name for name in heard if name not in ways)
    turned = wiring.job.parts.units[driver.port.unit].kind not in _WITHOUT_VOLUME and bool(ways)
    loud = record.word("follows") in ("nothing", "fader") and turned and not _taken_fixed(wiring, driver)
    first = next(iter((*silent, *ways)), "")
    return Answer(
        record, driver, must, heard, silent, astray, odd, loud, ways[first][0] if first in ways else None
    )  # fmt: skip


def heard_speakers(wiring: Wiring, record: Record) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The speakers that a record names, a channel meaning all of its speakers where none is called so; odd words."""
    said = named(wiring.job.parts.speakers, record.word("heard"))
    return said.speakers, (*said.odd, *said.elsewhere)


def carries(wiring: Wiring, speaker: str, ways: list[Way], span: Span) -> bool:
    """Whether some of what is played comes by one of the ways to a speaker, and through its capacitor."""
    if wiring.job.parts.speakers[speaker].capacitor and span.high_hz < CAPACITOR_FROM_HZ:
        return False
    return any(_passes(way, span) for way in ways)


def _passes(way: Way, span: Span) -> bool:
    for hop in way.hops:
        own = hop.feed.driver.port.signal
        for signal in (own, hop.route.signal) if hop.route else (own,):
            if (signal.low_hz or 0.0) > span.high_hz or (signal.high_hz or span.low_hz) < span.low_hz:
                return False
    return True


def _taken_fixed(wiring: Wiring, driver: Driver) -> bool:
    """Whether the plan takes this output before its volume is made: then that is told (C12), and not this."""
    return any(taken.feed.driver == driver for taken in taken_fixed(wiring))
