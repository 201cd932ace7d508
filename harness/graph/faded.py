"""What answers with fader and balance of a source at their ends, against what must as planned."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.answers import carries
from harness.graph.drivers import named, played
from harness.graph.kept import kept
from harness.graph.signal import Driver, Way
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.model.function import read_function

FADED, BALANCED = "faded", "balanced"
# The ends of fader and balance at which a channel still plays; a centre and a subwoofer may play at any of them.
ENDS = {"FL": ("front", "left"), "FR": ("front", "right"), "RL": ("rear", "left"), "RR": ("rear", "right")}
KEYS = {"front": FADED, "rear": FADED, "left": BALANCED, "right": BALANCED}


class Setting(NamedTuple):
    """Fader and balance of a source, each at an end or in the middle (empty)."""

    unit: str
    faded: str = ""
    balanced: str = ""

    @property
    def words(self) -> str:
        """`fader full front, balance full left`."""
        said = ((self.faded, "fader"), (self.balanced, "balance"))
        return ", ".join(f"{control} full {end}" for end, control in said if end)

    @property
    def ends(self) -> tuple[str, ...]:
        return tuple(filter(None, (self.faded, self.balanced)))


class Play(NamedTuple):
    """The speakers that must answer at a setting, and those that may: fed by no channel of the four. `ways` are those
    by which each that must is reached.
    """

    must: tuple[str, ...]
    may: tuple[str, ...]
    ways: dict[str, list[Way]]


class Faded(NamedTuple):
    """The last record of a setting: the speakers that must answer, those that did, and how they differ. `odd` are words
    that name no speaker. `way` is the planned way to one that stays silent.
    """

    record: Record
    setting: Setting
    must: tuple[str, ...]
    heard: tuple[str, ...]
    silent: tuple[str, ...]
    astray: tuple[str, ...]
    odd: tuple[str, ...]
    way: Way | None

    @property
    def differs(self) -> bool:
        return bool(self.silent or self.astray)


def channel_of(driver: Driver) -> str:
    """`FL` of radio.FL or radio.FL-TW; empty where an output is none of a channel."""
    function = read_function(driver.port.name)
    return function.channel if function is not None else ""


def settings(wiring: Wiring) -> tuple[Setting, ...]:
    """One end at a time, of each source that has channels on both sides of it."""
    made = []
    for unit in wiring.job.parts.units.values():
        if not unit.is_source or unit.name in wiring.gone:
            continue
        channels = {channel_of(each) for each in wiring.signals.drivers if each.port.unit == unit.name}
        ends = {end for channel in channels for end in ENDS.get(channel, ())}
        for pair in (("front", "rear"), ("left", "right")):
            if ends.issuperset(pair):
                made += [Setting(unit.name, **{KEYS[end]: end}) for end in pair]
    return tuple(made)


def unturned(wiring: Wiring) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """The ends that no record says what answers at, by their source, once an output of the job was heard."""
    if not any(each.verb == "plays" and not each.stale for each in wiring.job.records):
        return ()
    known = {each.setting for each in faded(wiring)}
    left: dict[str, tuple[str, ...]] = {}
    for each in settings(wiring):
        if each not in known:
            left[each.unit] = (*left.get(each.unit, ()), each.words)
    return tuple(left.items())


def play(wiring: Wiring, setting: Setting) -> Play:
    """What must and what may answer at a setting."""
    must: dict[str, list[Way]] = {}
    may: dict[str, None] = {}
    for receiver in wiring.signals.speaker_receivers:
        for way in wiring.signals.ways(receiver):
            if way.source.port.unit != setting.unit:
                continue
            ends = ENDS.get(channel_of(way.source))
            if ends is None:
                may[receiver.speaker] = None
            elif set(setting.ends) <= set(ends):
                must.setdefault(receiver.speaker, []).append(way)
    return Play(tuple(must), tuple(name for name in may if name not in must), must)


def setting_of(wiring: Wiring, record: Record) -> Setting | None:
    """The setting that a record is about, of a source of the job; None where it says none, or of what isn't one."""
    faded, balanced = record.word(FADED), record.word(BALANCED)
    if record.verb != "plays" or not (faded or balanced):
        return None
    units = {name.lower(): name for name, unit in wiring.job.parts.units.items() if unit.is_source}
    unit = units.get(record.what.lower())
    return Setting(unit, faded, balanced) if unit is not None else None


@kept
def faded(wiring: Wiring) -> tuple[Faded, ...]:
    """The last record of each setting, in the order of the records."""
    last: dict[Setting, Record] = {}
    for record in wiring.job.records:
        if not record.stale and (setting := setting_of(wiring, record)) is not None:
            last.pop(setting, None)
            last[setting] = record
    return tuple(_faded(wiring, setting, record) for setting, record in last.items())


def _faded(wiring: Wiring, setting: Setting, record: Record) -> Faded:
    planned = play(wiring, setting)
    said = named(wiring.job.parts.speakers, record.word("heard"))
    span = played(record.word("signal"))
    must = tuple(
        name for name in planned.must if span is None or carries(wiring, name, planned.ways[name], span)
    )  # fmt: skip
    odd = (*said.odd, *said.elsewhere)
    silent = tuple(name for name in must if name not in said.speakers) if record.word("heard") and not odd else ()
    astray = tuple(name for name in said.speakers if name not in (*planned.must, *planned.may))
    first = next(iter((*silent, *planned.must)), "")
    way = planned.ways[first][0] if first else None
    return Faded(record, setting, must, said.speakers, silent, astray, odd, way)
