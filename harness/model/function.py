"""What a contact is for: a channel's + or −, a supply, data, a trigger, or a DIN 72552 number."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import NamedTuple

CHANNELS = ("FL", "FR", "RL", "RR", "C", "SUB")
DRIVERS = ("TW", "MID", "WF")

# Spellings understood on input; paper prints the first word of each (common practice, no source).
CHANNEL_SPELLINGS = {
    "LF": "FL", "RF": "FR", "LR": "RL", "LHF": "FL", "RHF": "FR", "LHR": "RL", "RHR": "RR",
    "FLH": "FL", "FRH": "FR", "RLH": "RL", "RRH": "RR", "SW": "SUB", "CENTRE": "C",
}  # fmt: skip

CHANNEL_WORDS = {
    "FL": "left front", "FR": "right front", "RL": "left rear", "RR": "right rear", "C": "centre", "SUB": "subwoofer",
}  # fmt: skip
DRIVER_WORDS = {"TW": "tweeter", "MID": "midrange", "WF": "woofer"}

# function -> kind. A kind is what the checks ask for.
KINDS = {
    "B+": "battery", "ACC": "switched", "IGN": "switched", "GND": "ground", "ILL": "light", "AMP-ON": "trigger",
    "AERIAL": "aerial", "MUTE": "mute", "SWC": "control", "SHIELD": "shield", "SRS": "restraint", "HV": "high voltage",
    "OPTICAL-IN": "optical", "OPTICAL-OUT": "optical",
}  # fmt: skip

# DIN 72552 numbers met at a radio: list of the standard as quoted by public terminal tables, seen 2026.
DIN = {
    "30": "battery", "30A": "battery", "15": "switched", "15A": "switched", "75": "switched", "31": "ground",
    "31B": "ground", "58": "light", "58L": "light", "58R": "light", "61": "other", "54": "other", "50": "other",
    "85": "other", "86": "other", "87": "other", "87A": "other",
}  # fmt: skip

_PORT = re.compile(r"(IN|OUT|RCA|LINE|AUX)([0-9]{1,2})")
_SIGNED = re.compile(r"(.+?)([+-])")


class Function(NamedTuple):
    """One contact's function. `sign` is +, −(as '-'), H, L or empty; `pair` says whether it comes in twos."""

    name: str  # as printed: FL+, CAN-H, B+, in1-
    base: str  # without the sign: FL, CAN, B+, in1
    sign: str
    kind: str
    channel: str = ""  # FL … SUB, or empty
    driver: str = ""  # TW, MID, WF or empty
    seat: str = ""  # driver-front … passenger-rear where the side was named by a seat

    @property
    def words(self) -> str:
        """`left front tweeter +`."""
        if self.channel:
            driver = f" {DRIVER_WORDS[self.driver]}" if self.driver else ""
            sign = {"+": " +", "-": " −"}.get(self.sign, "")
            return f"{CHANNEL_WORDS[self.channel]}{driver}{sign}"
        return self.name


EMPTY = Function("empty", "empty", "", "empty")
UNKNOWN = Function("unknown", "unknown", "", "unknown")
_SEATS = re.compile(r"(DRIVER|PASSENGER)-(FRONT|REAR)")


@lru_cache(maxsize=4096)
def read_function(text: str) -> Function | None:
    """`LF+` as channel FL, sign +; `CAN-H` as data; `30` as battery; None where it is no function.

    A text without sign for something that comes in pairs (`FL`, `CAN`, `in1`) has an empty sign.
    """
    upper = text.upper()
    if upper == "EMPTY":
        return EMPTY
    if upper == "UNKNOWN":
        return UNKNOWN
    if upper in KINDS:
        return Function(upper, upper, "", KINDS[upper])
    if upper in DIN:
        return Function(text.lower(), text.lower(), "", DIN[upper])
    if upper in ("CAN", "CAN-H", "CAN-L"):
        return Function(upper, "CAN", upper[4:], "data")
    signed = _SIGNED.fullmatch(upper)
    base, sign = (signed[1], signed[2]) if signed else (upper, "")
    if base == "MIC":
        return Function(f"MIC{sign}", "MIC", sign, "mic")
    if base == "DIGITAL":
        return Function(f"DIGITAL{sign}", "DIGITAL", sign, "digital")
    if base == "SRS":
        return Function(f"SRS{sign}", "SRS", sign, "restraint")
    port = _PORT.fullmatch(base)
    if port:
        name = f"{port[1].lower()}{port[2]}"
        return Function(name + sign, name, sign, "port")
    seat = _SEATS.fullmatch(base)
    if seat:
        return Function(base.lower() + sign, base.lower(), sign, "audio", seat=base.lower())
    channel, _, driver = base.partition("-")
    channel = CHANNEL_SPELLINGS.get(channel, channel)
    if channel in CHANNELS and (not driver or driver in DRIVERS):
        name = f"{channel}-{driver}" if driver else channel
        return Function(name + sign, name, sign, "audio", channel, driver)
    return None


def comes_in_pairs(function: Function) -> bool:
    """Whether one row of two cavities can carry it."""
    return function.kind in ("audio", "port", "mic", "digital", "restraint") or function.base == "CAN"


@lru_cache(maxsize=1024)
def pair_of(function: Function) -> tuple[Function, Function] | None:
    """The two contacts of a pair named without sign: `FL` gives FL+ and FL−, `CAN` gives H and L."""
    if function.sign or not comes_in_pairs(function):
        return None
    if function.base == "CAN":
        return (function._replace(name="CAN-H", sign="H"), function._replace(name="CAN-L", sign="L"))
    return (
        function._replace(name=function.base + "+", sign="+"),
        function._replace(name=function.base + "-", sign="-"),
    )


def words_in(text: str) -> list[str]:
    """The words of what was heard, commas or spaces between them: `LF+` and `SUB` of `LF+, SUB`."""
    return text.replace(",", " ").split()


def bases_in(text: str) -> frozenset[str]:
    """What the words of a text name, without their signs: FL and SUB of `LF+, SUB`."""
    return frozenset(function.base for word in words_in(text) if (function := read_function(word)) is not None)
