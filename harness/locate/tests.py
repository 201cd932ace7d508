"""A test as plain data: what is done where, and what it costs. What it may answer stands in `simulate`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

# kinds of test
SIGNAL = "signal"  # the channel plays: what arrives at two contacts
HOLD = "hold"  # the pair taken off, a known-good speaker held on
OHMS = "ohms"  # power off, parted there: ohms toward the speakers
CLEAR = "clear"  # the same, from each wire to the body and to the other wires
SWAP_IN = "swap in"  # two inputs of one unit exchanged
SWAP_OUT = "swap out"  # the speaker leads of two outputs of one unit exchanged
CLIP = "clip"  # two clip leads past one piece
DC = "dc"  # volts of a feed or turn-on at one contact
DROP = "drop"  # volts between a ground contact and the battery's minus, under load
FUSE = "fuse"  # a fuse taken out and measured
WIGGLE = "wiggle"  # one piece moved while it plays
MUTE = "mute"  # the signal leads taken off an input
FEED = "feed"  # the signal leads taken off an output, a player on its own battery on them
ONE = "one ground"  # a unit grounded for a try where the one that it takes its signal from is
ENGINE = "engine"  # the engine off, the key on
OFF = "off"  # a turn-on wire taken off at one contact
ALL_OFF = "all leads off"  # of a unit's outputs: does it still protect?
LOOK = "look"  # at a unit: does it show protect, or cut out?
COOL = "cool"  # left off for a while: does it play at first?
OFFSET = "offset"  # DC of a unit's outputs with their leads off
MORE_ON = "DC on "  # then the output
SAG = "sag"  # volts of a feed at one contact, just as the unit cuts out
STILL = "still"  # volts of a turn-on at one contact with the key off

# The order in which answers stand, and so their number keys: first what should be (sound, volts, quiet, whole), then
# nothing of it or the fault itself, then something between or something else.
_ORDER = {
    "signal": 1, "as expected": 1, "moves": 1, "plays": 1, "12 V": 1, "under 0.1 V": 1, "whole": 1, "goes": 1,
    "goes off": 1, "over 11 V": 1, "under 1 V": 1, "clear": 1,
    "nothing": 2, "open": 2, "stays": 2, "no change": 2, "0 V": 2, "more": 2, "stays on": 2, "over 1 V": 2, "noise": 2,
    "at once": 1, "plays on": 1,
    "reversed": 2, "drops out": 2, "to the body": 2, "under 11 V": 2, "plays at first": 2, "shows it": 2,
    "low": 3, "too high": 3, "other": 3, "to a pair": 3, "thinned": 4, "short": 4, "too low": 3,
}  # fmt: skip
_LAST = 5  # another channel's name


def _place(kind: str, result: str) -> int:
    return 1 if (kind, result) == (WIGGLE, "no change") else _ORDER.get(result, _LAST)  # it plays on, as it should


def as_it_should(kind: str, result: str) -> bool:
    """Whether an answer is what a test gives where nothing is wrong."""
    return _place(kind, result) == 1


def keyed(kind: str, results: Iterable[str]) -> dict[str, int]:
    """The number key of each answer that a test may give, 1 to n in the order of the keys."""
    ordered = sorted(results, key=lambda each: (_place(kind, each), each))
    return {result: key for key, result in enumerate(ordered, 1)}


# what tells of a unit's own parts, supply and ground: among what protects it tells those that sound the same apart
OF_ITSELF = frozenset((LOOK, ALL_OFF, COOL, OFFSET, SAG, DROP))
KEY_OFF = frozenset((OHMS, CLEAR, FUSE))  # nothing is switched on for these


class Test(NamedTuple):
    """One thing to do. Which fields hold depends on `kind`: a point is `leg` and `at`, or `line` and `at`.

    `plus` and `minus` are the contacts, `where` is the place to get at; `reach_min` is the time to get there, once,
    `minutes` that of the test itself, `risk` what is added for its danger, in minutes too.
    """

    kind: str
    leg: int = -1
    at: int = -1
    plus: str = ""
    minus: str = ""
    piece: int = -1
    line: int = -1
    partner: int = -1  # the other leg of a swap
    speaker: str = ""  # whose sound is the answer, of a swap and of clips
    where: str = ""
    reach_min: float = 0.0
    minutes: float = 1.0
    risk: float = 0.0


class Answer(NamedTuple):
    """What a test answered: one of the words that were asked for."""

    test: Test
    result: str
