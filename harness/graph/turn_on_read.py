"""What a meter read on turn-on wires: volts lost on the way to a unit, and volts that stay when the car sleeps."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from harness.electrical.turn_on import LEAST_AWAKE_V, MOST_ASLEEP_V, MOST_LOST_V, RETAINED_S
from harness.graph.kept import kept
from harness.graph.waking import givers, wakes
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.units import measured

# States of the key in which a turn-on wire is up and steady; while cranking it dips.
_STEADY = ("accessory", "run", "engine")
_UP = ("run", "engine")
_ASLEEP = ("out", "locked")


class Read(NamedTuple):
    """A reading in volts, without its sign: a meter's leads may be turned round. `number` is its record's."""

    number: int
    record: Record
    contact: str
    reads_v: float


class Low(NamedTuple):
    """A turn-on wire that reads too low at `end`. `start` is the reading before it on the way, if there is one.

    `path` are the contacts from the one to the other, or from what gives the 12 V where there is no `start`.
    """

    end: Read
    start: Read | None
    path: tuple[str, ...]
    woken: tuple[str, ...]

    @property
    def lost_v(self) -> float:
        return self.start.reads_v - self.end.reads_v if self.start is not None else 0.0


class Awake(NamedTuple):
    """A turn-on wire that still reads volts when the car should sleep; `path` leads there from what gives it."""

    read: Read
    path: tuple[str, ...]
    about: tuple[str, ...]
    woken: tuple[str, ...]


@kept
def readings(wiring: Wiring) -> dict[tuple[str, str], Read]:
    """The last reading in volts of each contact in each state of the key; levels of a signal are none."""
    made = {}
    for number, record in enumerate(wiring.job.records):
        if record.verb != "volts" or record.stale or record.word("signal") or record.word("step"):
            continue
        reads_v = measured(record.word("reads"), "voltage")
        if reads_v is not None and len(record.contacts) == 1:
            made[record.contacts[0], record.word("key")] = Read(number, record, record.contacts[0], abs(reads_v))
    return made


def low_at_the_end(wiring: Wiring) -> list[Low]:
    """Each turn-on terminal of which readings, in one state of the key, show too little; each stretch once."""
    read = readings(wiring)
    nets = {wiring.planned.net_number(contact) for contact, _ in read}
    made: dict[tuple[str, str], Low] = {}
    for wake in wakes(wiring):
        if wiring.planned.net_number(wake.contact) not in nets:
            continue
        ways = [
            wiring.way_in_words(giver.contact, wiring.planned.path(giver.contact, wake.contact))
            for giver in givers(wiring, wake.contact)
        ]
        for key in _STEADY:
            low = _low(read, ways, key)
            if low is not None:
                spot = (low.start.contact if low.start else "", low.end.contact)
                woken = (*made[spot].woken, wake.unit) if spot in made else (wake.unit,)
                made[spot] = low._replace(woken=tuple(dict.fromkeys(woken)))
    return list(made.values())


def _low(read: dict[tuple[str, str], Read], ways: list[tuple[str, ...]], key: str) -> Low | None:
    """Of the way with most readings the stretch that loses most, where all of it loses too much; else its end, where
    that is too low.
    """
    taken: list[tuple[int, Read]] = []
    way: tuple[str, ...] = ()
    for each in ways:
        here = [(at, read[name, key]) for at, name in enumerate(each) if (name, key) in read]
        if len(here) > len(taken):
            taken, way = here, each
    if len(taken) > 1 and taken[0][1].reads_v - taken[-1][1].reads_v > MOST_LOST_V + 1e-9:
        (first, start), (last, end) = max(pairwise(taken), key=lambda two: two[0][1].reads_v - two[1][1].reads_v)
        return Low(end, start, way[first : last + 1], ())
    if taken and key in _UP and taken[-1][1].reads_v < LEAST_AWAKE_V - 1e-9:
        at, end = taken[-1]
        return Low(end, None, way[: at + 1], ())
    return None


def awake_when_asleep(wiring: Wiring) -> list[Awake]:
    """Turn-on wires that read volts when retained power no longer explains them, one entry a wire."""
    made = []
    for number, read in _asleep(wiring).items():
        if read.reads_v < MOST_ASLEEP_V or not _long_enough(read):
            continue
        ends = [wake for wake in wakes(wiring) if wiring.planned.net_number(wake.contact) == number]
        given = givers(wiring, ends[0].contact)
        start = given[-1].contact if given else ends[0].contact  # the one furthest off
        path = wiring.way_in_words(start, wiring.planned.path(start, read.contact))
        about = tuple(dict.fromkeys((read.contact, start, *(wake.contact for wake in ends))))
        woken = tuple(dict.fromkeys(wake.unit for wake in ends))
        made.append(Awake(read, path if len(path) > 1 else (), about, woken))
    return made


def not_waited(wiring: Wiring) -> list[Read]:
    """Readings of turn-on wires with volts on them and the key out, of which nobody wrote how long it was out."""
    return [read for read in _asleep(wiring).values() if read.reads_v >= MOST_ASLEEP_V and _waited_s(read) is None]


def _asleep(wiring: Wiring) -> dict[int, Read]:
    """By net the last reading of each turn-on wire with the key out that says something, else the last of all.

    One with hardly any volts says that it sleeps, one after a long wait that it does or doesn't.
    """
    found: dict[int, Read] = {}
    read_asleep = [read for (_, key), read in readings(wiring).items() if key in _ASLEEP]
    for read in sorted(read_asleep, key=lambda read: (_says(read), read.number)):
        found[wiring.planned.net_number(read.contact)] = read
    wanted = {wiring.planned.net_number(wake.contact) for wake in wakes(wiring)}
    return {number: read for number, read in found.items() if number in wanted}


def _says(read: Read) -> bool:
    return read.reads_v < MOST_ASLEEP_V or _long_enough(read)


def _long_enough(read: Read) -> bool:
    waited_s = _waited_s(read)
    return waited_s is not None and waited_s > RETAINED_S


def _waited_s(read: Read) -> float | None:
    return measured(read.record.word("waited"), "time")
