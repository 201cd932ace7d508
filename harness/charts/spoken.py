"""What a chart calls a wire's function, as one of the job file's functions; nothing is guessed."""

from __future__ import annotations

import re
from collections.abc import Iterable

from harness.model.function import CHANNELS, EMPTY, UNKNOWN, Function, comes_in_pairs, read_function

# Whole texts, in small letters with single blanks (common practice, no source). What has two readings, such as
# "12 V", "remote" or "dimmer", is not here.
_WHOLE = {
    "B+": ("battery", "battery +", "bat", "batt", "bat+", "batt+", "constant 12v", "constant 12 v", "12v constant",
           "permanent 12v", "permanent live", "constant power", "battery positive", "bat constant"),
    "ACC": ("accessory", "acc 12v"),
    "IGN": ("ignition", "ignition 12v", "ign 12v"),
    "GND": ("ground", "earth", "chassis ground", "power ground", "main ground", "radio ground"),
    "ILL": ("illum", "illumination", "illumination +"),
    "AMP-ON": ("amp on", "amp turn on", "amp turn-on", "amplifier turn on", "amplifier turn-on", "amplifier on",
               "amp remote", "remote turn on", "remote turn-on", "rem", "amp rem", "amp-on"),
    "AERIAL": ("antenna", "ant", "power ant", "aerial remote", "antenna remote", "power antenna", "power aerial",
               "antenna power", "aerial supply", "aerial power", "antenna supply"),
    "MUTE": ("telephone mute", "phone mute"),
    "SWC": ("steering wheel control", "steering wheel controls", "steering wheel remote", "steering control"),
    "SHIELD": ("screen", "drain", "drain wire"),
    "MIC": ("microphone",),
    "CAN-H": ("can h", "can high", "can-high", "can hi", "canh", "can_h"),
    "CAN-L": ("can l", "can low", "can-low", "can lo", "canl", "can_l"),
    "SRS": ("airbag",),
    "unknown": ("?", "??", "???", "not known"),
    "empty": ("-", "--", "---", "—", "–", "not used", "unused", "n/u", "n/c", "nc", "nu", "no connection",
              "not connected", "vacant", "spare", "blank", "none", "no wire"),
}  # fmt: skip
_BY_TEXT = {text: name for name, texts in _WHOLE.items() for text in texts}

_SIDES = dict.fromkeys(("left", "lh", "lhs"), "L") | dict.fromkeys(("right", "rh", "rhs"), "R")
_ENDS = dict.fromkeys(("front", "frt"), "F") | dict.fromkeys(("rear", "back"), "R")
_ALONE = dict.fromkeys(("centre", "center", "ctr"), "C") | dict.fromkeys(("subwoofer", "sub", "sw"), "SUB")
_DRIVERS = {
    **dict.fromkeys(("tweeter", "tweet", "tw"), "TW"),
    **dict.fromkeys(("mid", "midrange"), "MID"),
    **dict.fromkeys(("woofer", "wf"), "WF"),
}
_SEATS = ("driver", "passenger")
_PADDING = frozenset("speaker speakers spk spkr audio output out channel ch door signal side".split())  # noqa: SIM905
_SIGNS = dict.fromkeys(("+", "plus", "positive", "pos"), "+") | dict.fromkeys(("-", "minus", "negative", "neg"), "-")
# A sign behind its word, in brackets, or at the end; a hyphen inside a word is none.
_SIGN = re.compile(r"(?:(?<=[a-z0-9])|[(\[]|\s(?=[+-]\s*$))([+-])(?=[\s)\],;]|$)")
_DASH = re.compile(r"\s-\s")
_DIN = re.compile(r"(?:terminal|term|kl|din)\.? ?([0-9]{2}[a-z]?)")


def function_of(texts: Iterable[str], sign: str = "") -> Function | None:
    """The function that the texts of a row say together; None where they say none, or two.

    `sign` is the sign column's: `+`, `-`, a word for it, or empty. `30` alone is no function: it is a terminal number,
    a circuit's number or amperes; `terminal 30` is one.
    """
    said = [text for text in texts if text]
    if not said:
        return None
    mark = _SIGNS.get(sign.lower().strip("() "), "") if sign else ""
    if sign.strip("- ") and not mark:
        return None
    together = _one(" ".join(said))
    found = [together] if together is not None else [one for text in said if (one := _one(text)) is not None]
    if together is None and len(found) != len(said):
        return None
    if len({(one.base, one.sign) for one in found}) != 1:
        return None
    (first, *_) = found
    if not mark or first.sign == mark:
        return first
    if not comes_in_pairs(first):
        return first  # a + beside a battery wire, a dash or - beside a ground: it says nothing more
    return read_function(first.base + mark) if not first.sign else None


def _one(text: str) -> Function | None:
    low = " ".join(text.lower().split())
    if low in _BY_TEXT:
        return read_function(_BY_TEXT[low])
    if low in ("empty", "unknown"):
        return EMPTY if low == "empty" else UNKNOWN
    numbered = _DIN.fullmatch(low)
    if numbered:
        return read_function(numbered[1])
    if not re.fullmatch(r"[0-9]+[a-z]?", low):
        for close in ("", "-"):
            found = read_function(low.replace(" ", close))
            if found is not None:
                return found
    return _words(low)


def _words(low: str) -> Function | None:
    """A function said in words, such as `left front tweeter +` or `mic positive`."""
    marks = set(_SIGN.findall(low))
    low = _SIGN.sub(" ", low)
    words = re.findall(r"[^\s,.;/()_-]+", low)
    marks |= {_SIGNS[word] for word in words if word in _SIGNS}
    words = [word for word in words if word not in _SIGNS]
    if len(marks) > 1 or (_DASH.search(low) and not marks):
        return None  # `FL - door`: a minus or a dash
    sign = marks.pop() if marks else ""
    plain = " ".join(words)
    if sign and plain in _BY_TEXT:
        base = read_function(_BY_TEXT[plain])
        # "ground +" and "battery -" say two things; only what comes in pairs takes a sign
        return read_function(base.name + sign) if base is not None else None
    named = _place([word for word in words if word not in _PADDING])
    return read_function(named + sign) if named else None


def _place(words: list[str]) -> str:
    """`left front tweeter` as FL-TW; empty where a word is left over or two say different things."""
    sides = {_SIDES[word] for word in words if word in _SIDES}
    ends = {_ENDS[word] for word in words if word in _ENDS}
    seats = {word for word in words if word in _SEATS}
    drivers = {_DRIVERS[word] for word in words if word in _DRIVERS}
    alone = {_ALONE[word] for word in words if word in _ALONE}
    coded: set[str] = set()
    for word in words:
        if word in _SIDES or word in _ENDS or word in _SEATS or word in _DRIVERS or word in _ALONE:
            continue
        found = read_function(word)
        if found is None or found.channel not in CHANNELS or found.sign or len(word) < 2:
            return ""
        coded.add(found.channel)
        drivers |= {found.driver} if found.driver else set()
    places = set(coded) | alone
    if len(sides) == 1 and len(ends) == 1:
        places.add(ends.copy().pop() + sides.copy().pop())
    elif len(seats) == 1 and len(ends) == 1 and not sides:
        places.add(f"{seats.pop()}-{'front' if ends == {'F'} else 'rear'}".upper())
    elif sides or ends or seats:
        return ""
    if len(places) != 1 or len(drivers) > 1:
        return ""
    (place,) = places
    return f"{place}-{drivers.pop()}" if drivers else place
