"""The output test: which speakers must answer each channel, by the signal graph as planned."""

from __future__ import annotations

from typing import NamedTuple

from harness.graph.faded import ENDS
from harness.graph.wiring import Wiring
from harness.model.function import read_function


class Heard(NamedTuple):
    """A speaker that must answer. `turned`: its polarity is reversed as planned; `wished`: as the job wishes."""

    speaker: str
    turned: bool
    wished: bool


class ChannelTest(NamedTuple):
    """One output of a source: what must answer when only it plays."""

    source: str  # radio.FL
    unit: str
    channel: str  # FL, or the port's own name where it is no channel
    heard: tuple[Heard, ...]


class OutputTest(NamedTuple):
    """All channels; who must answer with fader and balance at their ends; who never gets a signal.

    `ends` has front, rear, left, right with the speakers heard then, only for sources with such channels; `may` are
    those that play at any of them perhaps: fed by a centre or subwoofer channel.
    """

    channels: tuple[ChannelTest, ...]
    ends: dict[str, tuple[str, ...]]
    subs: tuple[str, ...]
    unfed: tuple[str, ...]
    may: tuple[str, ...] = ()


def output_test(wiring: Wiring) -> OutputTest:
    """The test of every source channel, in the order that the units and outputs are written."""
    signals = wiring.signals
    heard: dict[str, dict[str, Heard]] = {}
    fed: set[str] = set()
    for receiver in signals.speaker_receivers:
        for way in signals.ways(receiver):
            speaker = wiring.job.parts.speakers[receiver.speaker]
            fed.add(receiver.speaker)
            heard.setdefault(way.source.name, {}).setdefault(
                receiver.speaker,
                Heard(receiver.speaker, way.turned, way.turned == bool(speaker.inverted)),
            )
    channels = []
    for driver in signals.drivers:
        unit = wiring.job.parts.units[driver.port.unit]
        if not unit.is_source or driver.name != f"{unit.name}.{driver.port.name}":
            continue
        function = read_function(driver.port.name)
        channel = function.base if function and function.channel else driver.port.name
        channels.append(ChannelTest(driver.name, unit.name, channel, tuple(heard.get(driver.name, {}).values())))
    ends: dict[str, dict[str, None]] = {}
    for test in channels:
        for end in ENDS.get(test.channel.partition("-")[0], ()):
            ends.setdefault(end, {}).update((each.speaker, None) for each in test.heard)
    speakers = wiring.job.parts.speakers
    anywhere = [each.speaker for test in channels if test.channel.partition("-")[0] not in ENDS for each in test.heard]
    return OutputTest(
        tuple(channels),
        {end: tuple(ends[end]) for end in ("front", "rear", "left", "right") if end in ends},
        tuple(name for name, speaker in speakers.items() if speaker.function.channel == "SUB"),
        tuple(name for name in speakers if name not in fed),
        tuple(dict.fromkeys(anywhere)),
    )
