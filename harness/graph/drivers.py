"""Which speakers a tone can move, and who is meant by the words of what was heard."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from harness.model.evidence import ELSEWHERE, NOTHING
from harness.model.function import Function, read_function, words_in
from harness.model.parts import Speaker

# Below this a speaker behind a capacitor may stay silent: common practice, no source.
CAPACITOR_FROM_HZ = 1000.0

WOOFER_TONE, MIDRANGE_TONE, TWEETER_TONE, ALL_TONES = "50 Hz", "500 Hz", "8.5 to 9.5 kHz", "noise or music"
_DOWN = 0.0  # however low the tone
# The hertz that each kind of driver must answer and the tone to play for it. The tones are a workshop's, quoted in the
# trade, seen 2026; how far round them a driver must answer is common practice, no source.
_TWEETER = (5000.0, 20_000.0, TWEETER_TONE)
_MUST = {
    "SUB": (_DOWN, 150.0, WOOFER_TONE), "WF": (_DOWN, 1000.0, MIDRANGE_TONE), "MID": (200.0, 3000.0, MIDRANGE_TONE),
    "TW": _TWEETER, "": (_DOWN, 3000.0, MIDRANGE_TONE),
}  # fmt: skip
_EVERYTHING = frozenset(("noise", "music", "full", "sweep"))
_HERTZ = re.compile(
    r"([0-9]+(?:\.[0-9]+)?)(?:\s*(k)?(?:Hz)?\s*(?:to|-|\.\.)\s*([0-9]+(?:\.[0-9]+)?))?\s*-?(k?)Hz", re.I
)
_LOW_HZ, _HIGH_HZ = 200.0, 4000.0  # below and above: the tones for woofers and for tweeters


class Span(NamedTuple):
    """From which to which frequency a signal plays."""

    low_hz: float
    high_hz: float

    @property
    def all_drivers(self) -> bool:
        """Whether woofers and tweeters must answer it alike."""
        return self.low_hz < _HIGH_HZ < self.high_hz and self.low_hz <= 1000.0

    @property
    def part(self) -> str:
        """`low`, `middle`, `high` or `all`: two tones of one part are one tone taken twice."""
        if self.all_drivers:
            return "all"
        return "low" if self.high_hz < _LOW_HZ else "high" if self.high_hz > _HIGH_HZ else "middle"


FULL_RANGE = Span(20.0, 20_000.0)


@lru_cache(maxsize=256)
def played(signal: str) -> Span | None:
    """`500 Hz warble`, `8.5 to 9.5 kHz`, `pink noise`; None where the words name no tone."""
    found = []
    for low, low_k, high, k in _HERTZ.findall(signal):
        found.append(float(high or low) * (1000.0 if k else 1.0))
        if high:  # `8.5 to 9.5 kHz`: the k is meant for both, unless it makes the lower one the higher
            first = float(low) * (1000.0 if low_k or k else 1.0)
            found.append(first if first <= found[-1] else float(low))
    if found:
        return Span(min(found), max(found))
    words = set(words_in(signal.lower().replace("-", " ")))
    return FULL_RANGE if words & _EVERYTHING else None


def takes_over(new: str, old: str) -> bool:
    """Whether a tone says anew what an earlier one of the same pair said: the same part of the range, all of it, or one
    of the two doesn't say which it was.
    """
    one, other = played(new), played(old)
    return one is None or other is None or one.part in ("all", other.part)


def _range(function: Function, capacitor: bool) -> tuple[float, float, str]:
    kind = function.driver or ("SUB" if function.channel == "SUB" else "")
    low, high, tone = _MUST[kind]
    if capacitor and kind in ("", "TW"):
        return _TWEETER
    return (max(low, CAPACITOR_FROM_HZ), high, ALL_TONES) if capacitor else (low, high, tone)


def must_answer(speaker: Speaker, span: Span | None) -> bool:
    """Whether a speaker that is whole answers a signal; one that doesn't say what it is counts as all of them.

    A woofer may answer a tweeter's tone faintly, and a tweeter one of 500 Hz: neither must.
    """
    if span is None:
        return True
    low, high, _ = _range(speaker.function, bool(speaker.capacitor))
    return span.low_hz <= high and low <= span.high_hz


def tone_for(speaker: Speaker) -> str:
    """The tone that proves a speaker: `8.5 to 9.5 kHz`."""
    return _range(speaker.function, bool(speaker.capacitor))[2]


def is_tweeter(speaker: Speaker) -> bool:
    """Whether only a tweeter's tone proves it."""
    return tone_for(speaker) == TWEETER_TONE


def plays_it(function: Function, span: Span | None) -> bool:
    """As `must_answer`, of what a chart says alone."""
    if span is None:
        return True
    low, high, _ = _range(function, False)
    return span.low_hz <= high and low <= span.high_hz


class Named(NamedTuple):
    """Who answered by the words of a record. `vague` are those that only their channel's word names; `odd` words name
    no speaker and no place; `elsewhere` are words for a place that isn't in the job.
    """

    speakers: tuple[str, ...]
    vague: frozenset[str] = frozenset()
    odd: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()


def is_silence(heard: str) -> bool:
    """Whether the words of `heard` say that nothing answered; none at all say nothing of it."""
    return heard.strip().lower() in NOTHING


def named(speakers: Mapping[str, Speaker], heard: str, span: Span | None = None) -> Named:
    """The speakers that the words of `heard` name: by name, else all of a channel, of which a tone leaves those that
    must answer it where there are any.
    """
    by_name = {name.lower(): name for name in speakers}
    found: dict[str, None] = {}
    exact: set[str] = set()
    odd, elsewhere = [], []
    for word in words_in(heard):
        function = read_function(word)
        name = by_name.get(word.lower()) or (by_name.get(function.base.lower()) if function is not None else None)
        if name is not None:
            found[name] = None
            exact.add(name)
            continue
        if word.lower() in ELSEWHERE:
            elsewhere.append(word)
            continue
        if word.lower() in NOTHING:
            continue
        channel = function.base if function is not None else ""
        meant = [each for each in speakers.values() if channel in (each.function.base, each.function.channel)]
        if not channel or not meant:
            odd.append(word)
            continue
        meant = [each for each in meant if must_answer(each, span)] or meant
        found.update(dict.fromkeys(each.name for each in meant))
    return Named(tuple(found), frozenset(found.keys() - exact), tuple(odd), tuple(elsewhere))
