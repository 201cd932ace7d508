"""The sentences for rows that aren't understood: functions, colours, sizes, quantities."""

from __future__ import annotations

import re
from collections.abc import Callable

from harness.model.colour import IEC, OWN
from harness.model.function import CHANNEL_SPELLINGS, CHANNELS, DIN, DRIVERS, KINDS, read_function
from harness.read import patterns as p
from harness.read.said import Said, fits, nearest, words_of
from harness.units import UNITS

# units as people write them, and the one that is meant
UNITS_MEANT = {
    '"': "in", "inch": "in", "inches": "in", "in.": "in", "'": "ft", "foot": "ft", "feet": "ft", "meter": "m",
    "metre": "m", "meters": "m", "metres": "m", "volt": "V", "volts": "V", "v": "V", "mv": "mV", "amp": "A",
    "amps": "A", "a": "A", "ma": "mA", "ohms": "ohm", "Ohm": "ohm", "OHM": "ohm", "R": "ohm", "watt": "W",
    "watts": "W", "w": "W", "hz": "Hz", "HZ": "Hz", "khz": "kHz", "KHz": "kHz", "uf": "uF", "mfd": "uF",
    "nf": "nF", "db": "dB", "DB": "dB", "sec": "s", "percent": "%", "ga": "AWG", "gauge": "AWG", "awg": "AWG",
    "Awg": "AWG", "g": "AWG", "mm": "mm2", "sqmm": "mm2", "mm^2": "mm2", "qmm": "mm2",
    "sae": "SAE", "MM": "mm", "CM": "cm",
}  # fmt: skip
SIZE_UNITS = ("AWG", "SAE", "mm2")
_FUNCTIONS = tuple(
    dict.fromkeys(
        (
            *(f"{c}{sign}" for c in CHANNELS for sign in ("+", "-", "")),
            *KINDS,
            "CAN-H",
            "CAN-L",
            "CAN",
            "MIC",
            "SRS",
            "DIGITAL",
            *(f"{c}-{d}" for c in CHANNELS for d in DRIVERS),
            *CHANNEL_SPELLINGS,
            *DIN,
            "empty",
            "unknown",
            "driver-front",
            "driver-rear",
            "passenger-front",
            "passenger-rear",
        )
    )
)
_COLOUR_WORDS = tuple(dict.fromkeys((*IEC, *IEC.values(), *OWN, *OWN.values())))


def say_function(text: str, about: str) -> Said:
    """What is said about a word that is no function."""
    near = nearest(text, _FUNCTIONS)
    do = f"Is {near} meant?" if near else "Write a channel (FL+ … SUB-), B+, ACC, GND, AMP-ON …, or unknown."
    return Said(0, text[:40], f"“{text[:40]}” is not a function.", do)


def say_pair_function(text: str, about: str) -> Said:
    """What is said where a pair needs a function that comes in twos."""
    function = read_function(text)
    if function is None:
        return say_function(text, about)
    return Said(
        0,
        text[:40],
        f"{function.name} is one contact, and two cavities stand in front.",
        f"Write {function.base} without a sign."
        if function.sign and function.base
        else "Write one row for each cavity.",
    )


def say_colour(text: str, about: str) -> Said:
    """What is said about a word that is no colour."""
    base = text.split("/")[0]
    near = nearest(base, _COLOUR_WORDS)
    if text.count("/") > 1:
        return Said(
            0,
            text[:40],
            f"“{text[:40]}” has more than a base and a stripe.",
            "Write BASE/STRIPE, for instance WH/BK.",
        )
    bad = next((part for part in text.split("/") if not fits(p.COLOUR, part)), base)
    near = nearest(bad, _COLOUR_WORDS)
    do = (
        f"Is {near.replace(' ', '-')} meant?"
        if near
        else "Write letters such as WH/BK, base first, or a word such as tan."
    )
    return Said(text.find(bad), text[:40], f"“{text[:40]}” is not a colour.", do)


def say_colour_word(text: str, about: str) -> Said:
    """What is said about a legend's word that is no colour."""
    near = nearest(text, tuple(_COLOUR_WORDS))
    do = f"Is “{near}” meant?" if near else f"Write one of: {', '.join((*IEC.values(), *OWN.values()))}."
    return Said(0, text[:40], f"“{text[:40]}” is not a colour word.", do)


def row_sayer(pair: bool, lead: bool) -> Callable[[str, str], Said | None]:
    """The one who says what is wrong with a row: of a pair, or of a lead that may name its end."""

    def say(text: str, about: str) -> Said | None:
        words = words_of(text)
        if not words:
            return None
        comma = text.find(",")
        if comma >= 0:
            return Said(
                comma,
                text[:60],
                "Words are parted by spaces, never by commas.",
                "Take the comma away; a decimal has a point.",
            )
        if lead and fits(rf"{p.HALF}\.{p.CAVITY}", words[0][1]) and len(words) > 1:
            words = words[1:]
        offset, first = words[0]
        if not fits(f"{p.FUNCTION}|{p.EMPTY}|{p.UNKNOWN}", first):
            return say_function(first, "")._replace(offset=offset)
        if pair and not fits(f"{p.PAIR_FUNCTION}|{p.EMPTY}|{p.UNKNOWN}", first):
            return say_pair_function(first, "")._replace(offset=offset)
        if first.lower() == "empty":
            if len(words) == 1:  # something stands around it that isn't seen as a word
                return Said(offset, first, "Only the word empty can stand here.", "Write empty, and nothing beside it.")
            return Said(*words[1], "Nothing follows `empty`.", "Write only empty, or the function.")
        return _row_tail(text, words[1:], pair)

    return say


def _row_tail(text: str, words: list[tuple[int, str]], pair: bool) -> Said | None:
    """Colours, size and `twisted` behind a function that is right."""
    colours = []
    while words and fits(p.COLOUR, words[0][1]) and words[0][1] not in SIZE_UNITS:
        colours.append(words[0])
        words = words[1:]
    rest = " ".join(word for _, word in words)
    size = re.match(rf"{p.SIZE}(?= |$)", rest, re.ASCII)
    if words and not size and words[0][1] != "twisted":
        offset, word = words[0]
        if re.match(r"[0-9.]", word):
            return say_size(" ".join(w for _, w in words[:2]), "")._replace(offset=offset)
        return say_colour(word, "")._replace(offset=offset)
    wanted = (0, 2) if pair else (0, 1)
    if len(colours) not in wanted:
        at = colours[-1]
        if pair:
            return Said(
                at[0],
                at[1],
                "Two cavities stand in front, and one colour here."
                if len(colours) == 1
                else f"Two cavities stand in front, and {len(colours)} colours here.",
                "Write two colours, + first; a stripe goes behind a slash (WH WH/BK).",
            )
        return Said(
            at[0],
            at[1],
            f"One contact stands in front, and {len(colours)} colours here.",
            "A stripe goes behind a slash: WH/BK. For a pair write both cavities: 1/11.",
        )
    if size:
        words = words[2:]
    if words and words[0][1] == "twisted":
        words = words[1:]
    if words:
        return Said(
            words[0][0],
            words[0][1],
            f"“{words[0][1][:40]}” stands behind the row's last word.",
            "Write FUNCTION COLOUR SIZE twisted, in this order; a remark goes behind # or into note.",
        )
    return None


def say_size(text: str, about: str) -> Said:
    """What is said about a wire size."""
    match = re.fullmatch(r"(-?[0-9./,]+) ?(\S*)", text)
    unit = match[2] if match else ""
    meant = UNITS_MEANT.get(unit, unit)
    if match and "," in match[1]:
        return Said(
            0,
            text[:40],
            f"“{text[:40]}” is not a wire size: a decimal has a point.",
            f"Write {match[1].replace(',', '.')} {meant or 'mm2'}.",
        )
    if match and meant in SIZE_UNITS and fits(p.SIZE, f"{match[1]} {meant}"):
        return Said(0, text[:40], f"“{text[:40]}” is not a wire size.", f"Write {match[1]} {meant}.")
    return Said(
        0,
        text[:40],
        f"“{text[:40]}” is not a wire size.",
        "Write 18 AWG, 1/0 AWG, 8 SAE or 0.5 mm2: a number, a space, the unit.",
    )


_SIGNED = ("gain", "temperature", "voltage")  # dimensions of which some values may be below zero


def say_quantity(text: str, dimension: str) -> Said:
    """What is said about a number with a unit of `dimension`."""
    units = UNITS[dimension]
    base = f"a {dimension}" if dimension[0] not in "aeiou" else f"an {dimension}"
    match = re.fullmatch(r"([+-]?)([0-9]*[.,]?[0-9]*) ?(\S*)", text)
    first = next(iter(units)) if dimension != "resistance" else "ohm"
    if match and match[2]:
        number = match[2].replace(",", ".")
        number = f"0{number}" if number.startswith(".") else number.rstrip(".")
        unit = match[3]
        if not unit:
            return Said(
                0,
                text,
                f"“{text}” is not {base}: the unit is missing.",
                f"Write {number} {first}, or the unit that is meant: {', '.join(units)}.",
            )
        meant = unit if unit in units else UNITS_MEANT.get(unit, "")
        if meant in units and not match[1]:
            why = (
                "a decimal has a point"
                if "," in match[2]
                else "a space stands before the unit"
                if unit in units
                else f"the unit is written {meant}"
            )
            return Said(0, text, f"“{text}” is not {base}: {why}.", f"Write {number} {meant}.")
        if meant in units and (match[1] == "+" or dimension not in _SIGNED):
            why = "no plus sign is written" if match[1] == "+" else "it can't be below zero"
            return Said(0, text, f"“{text}” is not {base}: {why}.", f"Write {number} {meant}, without a sign.")
        return Said(
            len(text) - len(unit),
            unit,
            f"“{unit[:20]}” is not a unit of {dimension}.",
            f"The units are {', '.join(units)}: {number} {first}.",
        )
    return Said(
        0,
        text[:40],
        f"“{text[:40]}” is not {base}.",
        f"Write a number, a space and one of {', '.join(units)}.",
    )
