"""The sentences for values and keys that aren't understood: which word, what was meant, what to type.

Imported only once something is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import lru_cache
from typing import NamedTuple

from harness.model.colour import IEC, OWN
from harness.model.function import (
    CHANNEL_SPELLINGS, CHANNELS, DIN, DRIVERS, KINDS, comes_in_pairs, read_function,
)  # fmt: skip
from harness.read import patterns as p
from harness.read.fields import Fields, Word
from harness.units import UNITS


class Said(NamedTuple):
    """`offset` is where in the value the wrong word begins, `name` that word."""

    offset: int
    name: str
    message: str
    do: str


@lru_cache(maxsize=2048)
def nearest(word: str, known: tuple[str, ...]) -> str:
    """The known word most like `word`, or empty."""
    import difflib

    by_lower = {each.lower(): each for each in reversed(known)}
    if word.lower() in by_lower:
        return by_lower[word.lower()]
    close = difflib.get_close_matches(word.lower()[:60], list(by_lower), n=1, cutoff=0.6)
    return by_lower[close[0]] if close else ""


# units as people write them, and the one that is meant
_UNITS_MEANT = {
    '"': "in", "inch": "in", "inches": "in", "in.": "in", "'": "ft", "foot": "ft", "feet": "ft", "meter": "m",
    "metre": "m", "meters": "m", "metres": "m", "volt": "V", "volts": "V", "v": "V", "mv": "mV", "amp": "A",
    "amps": "A", "a": "A", "ma": "mA", "ohms": "ohm", "Ohm": "ohm", "OHM": "ohm", "R": "ohm", "watt": "W",
    "watts": "W", "w": "W", "hz": "Hz", "HZ": "Hz", "khz": "kHz", "KHz": "kHz", "uf": "uF", "mfd": "uF", "nf": "nF",
    "db": "dB", "DB": "dB", "sec": "s", "percent": "%", "ga": "AWG", "gauge": "AWG", "awg": "AWG", "Awg": "AWG",
    "g": "AWG", "mm": "mm2", "sqmm": "mm2", "mm^2": "mm2", "qmm": "mm2", "sae": "SAE", "MM": "mm", "CM": "cm",
}  # fmt: skip
_SIZE_UNITS = ("AWG", "SAE", "mm2")
_FUNCTIONS = tuple(
    dict.fromkeys(
        (
            *(f"{c}{sign}" for c in CHANNELS for sign in ("+", "-", "")), *KINDS, "CAN-H", "CAN-L", "CAN", "MIC", "SRS",
            "DIGITAL", *(f"{c}-{d}" for c in CHANNELS for d in DRIVERS), *CHANNEL_SPELLINGS, *DIN, "empty", "unknown",
            "driver-front", "driver-rear", "passenger-front", "passenger-rear",
        )  # fmt: skip
    )
)
_COLOUR_WORDS = tuple(dict.fromkeys((*IEC, *IEC.values(), *OWN, *OWN.values())))


def _fits(pattern: str, text: str) -> bool:
    return re.fullmatch(pattern, text, re.ASCII) is not None


def _words(text: str) -> list[tuple[int, str]]:
    return [(match.start(), match[0]) for match in re.finditer(r"\S+", text)]


def wrong_text(word: Word, text: str, key: str) -> Said:
    """What to say about a value that doesn't fit."""
    kind, _, about = word.kind.partition(" ") if word.kind.startswith("quantity") else (word.kind, "", "")
    say = _SAYERS.get(kind)
    said = say(text, about) if say else None
    if said:
        return said
    message = f"“{text[:60]}” is not {word.what}."
    if word.words:
        near = nearest(text, (*word.words, *word.other))
        meant = word.other.get(near, near)
        do = f"Is “{meant}” meant?" if meant else f"Write one of: {', '.join(word.words)}."
        return Said(0, text[:60], f"{message} It can be {', '.join(word.words)}." if meant else message, do)
    if re.search(r"[0-9],[0-9]", text):
        message += " A decimal is written with a point."
    elif "," in text:
        message += " Words are parted by spaces, never by commas."
    return Said(0, text[:60], message, f"Write it like this: {key + ': ' if key else ''}{word.example}")


def wrong_key(spec: Fields, text: str) -> tuple[str, Said]:
    """The code and what to say about a key that a table doesn't have."""
    if spec.keys:
        near = nearest(text, tuple(spec.keys) + tuple(spec.other))
        known = ", ".join(spec.keys)
        do = f"Is “{near}” meant?" if near else f"The keys here are: {known}."
        return "R07", Said(0, text[:60], f"{spec.what[:1].upper()}{spec.what[1:]} has no key “{text[:60]}”.", do)
    word = spec.rows[0][0]
    if word.kind == "method":
        from harness.read.spec import METHODS

        first = text.split(" ", 1)[0]
        near = nearest(first, METHODS)
        do = f"Is “{near}” meant?" if near and near != first else "Write METHOD, or METHOD at PLACE with COVER."
        return "R07", Said(0, first, f"“{text[:60]}” is not a way to join: {', '.join(METHODS)}.", do)
    what = " or ".join(dict.fromkeys(each.what for each, _ in spec.rows))
    say = _SAYERS.get(word.kind)
    said = say(text, "key") if say else None
    if said:
        return "R09", said
    return "R09", Said(0, text[:60], f"“{text[:60]}” is not {what}.", f"Write it like this: {spec.example}")


# -- one kind of word each ------------------------------------------------------------------------------------


def _function(text: str, about: str) -> Said:
    near = nearest(text, _FUNCTIONS)
    do = f"Is {near} meant?" if near else "Write a channel (FL+ … SUB-), B+, ACC, GND, AMP-ON …, or unknown."
    return Said(0, text[:40], f"“{text[:40]}” is not a function.", do)


def _pair_function(text: str, about: str) -> Said:
    function = read_function(text)
    if function is None:
        return _function(text, about)
    return Said(
        0, text[:40], f"{function.name} is one contact, and two cavities stand in front.",
        f"Write {function.base} without a sign." if function.sign and function.base else "Write one row for each cavity.",
    )  # fmt: skip


def _colour(text: str, about: str) -> Said:
    base = text.split("/")[0]
    near = nearest(base, _COLOUR_WORDS)
    if text.count("/") > 1:
        return Said(0, text[:40], f"“{text[:40]}” has more than a base and a stripe.", "Write BASE/STRIPE, for instance WH/BK.")
    bad = next((part for part in text.split("/") if not _fits(p.COLOUR, part)), base)
    near = nearest(bad, _COLOUR_WORDS)
    do = f"Is {near.replace(' ', '-')} meant?" if near else "Write letters such as WH/BK, base first, or a word such as tan."
    return Said(text.find(bad), text[:40], f"“{text[:40]}” is not a colour.", do)


def _colour_word(text: str, about: str) -> Said:
    near = nearest(text, tuple(_COLOUR_WORDS))
    do = f"Is “{near}” meant?" if near else f"Write one of: {', '.join((*IEC.values(), *OWN.values()))}."
    return Said(0, text[:40], f"“{text[:40]}” is not a colour word.", do)


def _row_of(pair: bool, lead: bool) -> Callable[[str, str], Said | None]:
    def say(text: str, about: str) -> Said | None:
        words = _words(text)
        if not words:
            return None
        comma = text.find(",")
        if comma >= 0:
            return Said(comma, text[:60], "Words are parted by spaces, never by commas.", "Take the comma away; a decimal has a point.")
        if lead and _fits(rf"{p.HALF}\.{p.CAVITY}", words[0][1]) and len(words) > 1:
            words = words[1:]
        offset, first = words[0]
        if not _fits(f"{p.FUNCTION}|{p.EMPTY}|{p.UNKNOWN}", first):
            return _function(first, "")._replace(offset=offset)
        if pair and not _fits(f"{p.PAIR_FUNCTION}|{p.EMPTY}|{p.UNKNOWN}", first):
            return _pair_function(first, "")._replace(offset=offset)
        if first.lower() == "empty":
            return Said(*words[1], "Nothing follows `empty`.", "Write only empty, or the function.")
        return _row_tail(text, words[1:], pair)

    return say


def _row_tail(text: str, words: list[tuple[int, str]], pair: bool) -> Said | None:
    """Colours, size and `twisted` behind a function that is right."""
    colours = []
    while words and _fits(p.COLOUR, words[0][1]) and words[0][1] not in _SIZE_UNITS:
        colours.append(words[0])
        words = words[1:]
    rest = " ".join(word for _, word in words)
    size = re.match(rf"{p.SIZE}(?= |$)", rest, re.ASCII)
    if words and not size and words[0][1] != "twisted":
        offset, word = words[0]
        if re.match(r"[0-9.]", word):
            return _size(" ".join(w for _, w in words[:2]), "")._replace(offset=offset)
        return _colour(word, "")._replace(offset=offset)
    wanted = (0, 2) if pair else (0, 1)
    if len(colours) not in wanted:
        at = colours[-1]
        if pair:
            return Said(at[0], at[1], "Two cavities stand in front, and one colour here." if len(colours) == 1 else
                        f"Two cavities stand in front, and {len(colours)} colours here.",
                        "Write two colours, + first; a stripe goes behind a slash (WH WH/BK).")  # fmt: skip
        return Said(at[0], at[1], f"One contact stands in front, and {len(colours)} colours here.",
                    "A stripe goes behind a slash: WH/BK. For a pair write both cavities: 1/11.")  # fmt: skip
    if size:
        words = words[2:]
    if words and words[0][1] == "twisted":
        words = words[1:]
    if words:
        return Said(words[0][0], words[0][1], f"“{words[0][1][:40]}” stands behind the row's last word.",
                    "Write FUNCTION COLOUR SIZE twisted, in this order; a remark goes behind # or into note.")  # fmt: skip
    return None


def _size(text: str, about: str) -> Said:
    match = re.fullmatch(r"(-?[0-9./,]+) ?(\S*)", text)
    unit = match[2] if match else ""
    meant = _UNITS_MEANT.get(unit, unit)
    if match and "," in match[1]:
        return Said(0, text[:40], f"“{text[:40]}” is not a wire size: a decimal has a point.", f"Write {match[1].replace(',', '.')} {meant or 'mm2'}.")
    if match and meant in _SIZE_UNITS and _fits(p.SIZE, f"{match[1]} {meant}"):
        return Said(0, text[:40], f"“{text[:40]}” is not a wire size.", f"Write {match[1]} {meant}.")
    return Said(
        0, text[:40], f"“{text[:40]}” is not a wire size.", "Write 18 AWG, 1/0 AWG, 8 SAE or 0.5 mm2: a number, a space, the unit."
    )


def _quantity(text: str, dimension: str) -> Said:
    units = UNITS[dimension]
    base = f"a {dimension}" if dimension[0] not in "aeiou" else f"an {dimension}"
    match = re.fullmatch(r"([+-]?)([0-9]*[.,]?[0-9]*) ?(\S*)", text)
    first = next(iter(units)) if dimension != "resistance" else "ohm"
    if match and match[2]:
        number = match[2].replace(",", ".")
        number = f"0{number}" if number.startswith(".") else number.rstrip(".")
        unit = match[3]
        if not unit:
            return Said(0, text, f"“{text}” is not {base}: the unit is missing.", f"Write {number} {first}, or the unit that is meant: {', '.join(units)}.")
        meant = unit if unit in units else _UNITS_MEANT.get(unit, "")
        if meant in units and not match[1]:
            why = "a decimal has a point" if "," in match[2] else "a space stands before the unit" if unit in units else f"the unit is written {meant}"
            return Said(0, text, f"“{text}” is not {base}: {why}.", f"Write {number} {meant}.")
        return Said(len(text) - len(unit), unit, f"“{unit[:20]}” is not a unit of {dimension}.", f"The units are {', '.join(units)}: {number} {first}.")
    return Said(0, text[:40], f"“{text[:40]}” is not {base}.", f"Write a number, a space and one of {', '.join(units)}.")


def _date(text: str, about: str) -> Said | None:
    match = re.fullmatch(r"([0-9]{1,2})[./-]([0-9]{1,2})[./-]([0-9]{2}|[0-9]{4})", text)
    if match:
        a, b, year = int(match[1]), int(match[2]), match[3] if len(match[3]) == 4 else f"20{match[3]}"
        both = [f"{year}-{m:02d}-{d:02d}" for m, d in dict.fromkeys(((b, a), (a, b))) if 1 <= m <= 12 and 1 <= d <= 31]
        if len(both) == 2:
            return Said(0, text, f"“{text}” could be {both[0]} or {both[1]}.", "Write the one that is meant: year-month-day.")
        if both:
            return Said(0, text, f"“{text}” is not a date as it is written here.", f"Write {both[0]}: year-month-day.")
    return Said(0, text[:40], f"“{text[:40]}” is not a date.", "Write year-month-day, for instance 2026-03-02.")


def _name(text: str, about: str) -> Said:
    advice = "Write letters, digits, - and _, beginning with a letter or digit."
    if text[-1:] in "+-":
        return Said(0, text[:60], f"“{text[:60]}” is not a name: it ends in {text[-1:]}, which means a wire of a pair.", f"Write {text.rstrip('+-') or 'a name'}.")
    bad = re.search(r"[^A-Za-z0-9_. -]", text)
    at = bad.start() if bad else 0
    why = f": {bad[0]} can't be in one" if bad else ": a space parts two names" if " " in text else ""
    return Said(at, text[:60], f"“{text[:60]}” is not a name{why}.", advice)


def _cavity(text: str, about: str) -> Said:
    if re.fullmatch(r"[A-Za-z0-9]+(-|\.\.)[A-Za-z0-9]+", text):
        return Said(0, text[:60], f"“{text}” is not a cavity; a row is for one cavity, or for a pair with + first.", "Write one row for each, or 1/11 for a pair.")
    return Said(0, text[:60], f"“{text[:60]}” is not a cavity.", "Write its number or letters, for instance 12 or A5; for a pair 1/11, + first.")


def _contact(text: str, about: str) -> Said:
    single = p.TURNED
    for offset, word in _words(text):
        if word in ("reversed", ">"):
            continue
        if not _fits(p.CONTACT, word):
            if word.endswith(","):
                return Said(offset, word[:60], "Contacts are parted by spaces, or stand in [ ].", f"Write {word.rstrip(',')} without the comma, or [a, b].")
            if "." not in word:
                return Said(offset, word[:60], f"“{word[:60]}” is not a contact: its cavity or terminal is missing.", f"Write {word[:40]}.1, {word[:40]}.FL+ or the like.")
            return Said(offset, word[:60], f"“{word[:60]}” is not a contact.", "Write PLUG.unit.n, PLUG.car.n, LOOM.END.n, UNIT.terminal, spk.NAME+ or gnd.NAME.")
    if len(text.split()) > 1 and not _fits(single, text):
        return Said(0, text[:60], "One contact belongs here, and several stand there.", f"For one joint of several wires write [{', '.join(text.split())}].")
    return Said(0, text[:60], f"“{text[:60]}” is not a contact.", "Write for instance dash.car.FL+ or dsp.in1.")


def _each(words: Iterable[tuple[int, str]], pattern: str) -> tuple[int, str] | None:
    return next(((offset, word) for offset, word in words if not _fits(pattern, word)), None)


def _signal(text: str, about: str) -> Said | None:
    comma = text.find(",")
    if comma >= 0:
        return Said(comma, text[:60], "Words are parted by spaces, never by commas.", "Take the comma away; a decimal has a point.")
    words = _words(text)
    units = {unit for table in UNITS.values() for unit in table}
    forms = ("btl", "differential", "grounded", "transformer", "digital", "inverted", "least", "@")
    for at, (offset, word) in enumerate(words):
        if re.match(r"-?[0-9.]", word):
            following = words[at + 1][1] if at + 1 < len(words) else ""
            if following not in units:
                meant = _UNITS_MEANT.get(following, "")
                do = f"Write {word} {meant}." if meant else "Write the unit behind it: V, Hz, W, ohm, dB or ms."
                return Said(offset, word, f"“{word}” has no unit known here.", do)
        elif word not in units and word.lower() not in forms and not (about and _fits(rf"{p.NAME}|{p.RANGE}|\+", word)):
            near = nearest(word, forms[:6])
            do = f"Is {near} meant?" if near else "Write it like this: 2..20 V differential, or 75 W @ 4 ohm least 2 ohm."
            return Said(offset, word[:40], f"“{word[:40]}” is not a word of a signal.", do)
    return None


def _route(text: str, about: str) -> Said | None:
    return _signal(text, "route")


def _chain(text: str, about: str) -> Said | None:
    if ">" not in text:
        return Said(0, text[:60], "A chain has at least two contacts with > between them.", "Write dash.FL > spk.FL.")
    offset = 0
    steps = text.split(">")
    for number, raw in enumerate(steps):
        step = raw.strip()
        here = offset + len(raw) - len(raw.lstrip())
        offset += len(raw) + 1
        at_end = number in (0, len(steps) - 1)
        ends = rf"{p.CONTACTS}(?: reversed)?"
        if not step:
            return Said(max(here - 1, 0), ">", "A step of the chain is missing beside >.", "Write the contact or the wire there, or take the > away.")
        if _fits(ends if at_end else p.STEP, step):
            if raw.strip(" ") and number and not raw.startswith(" "):
                return Said(here, step[:40], "A space stands on both sides of >.", f"Write … > {step[:40]}")
            continue
        if at_end and _fits(p.STEP, step):
            return Said(here, step[:60], f"The chain {'begins' if not number else 'ends'} with “{step[:40]}”, and must with a contact.", "Write the contact there.")
        return _step(step)._replace(offset=here)
    return None


def _step(step: str) -> Said:
    if step.startswith("fuse"):
        return Said(0, step[:60], f"“{step[:60]}” is not a fuse.", "Write fuse 40 A, or fuse unknown.")
    if re.match(r"[0-9.,-]", step) and not _fits(p.CONTACT, step.split(" ")[0]):
        words = step.split(" ")
        length = " ".join(words[:2])
        if not _fits(p.quantity("length"), length):
            return _quantity(length if len(words) > 1 else words[0], "length")
        rest = " ".join(words[2:4])
        if rest and rest != "rca" and not re.match(rf"(?:{p.SIZE}|rca)(?: |$)", " ".join(words[2:])):
            return _size(rest, "")
        if not rest:
            return Said(0, step, f"“{step}” has a length and no size.", "Write LENGTH SIZE, for instance 12 in 4 AWG, or 5 m rca.")
        return Said(0, step[:60], f"“{step[:60]}” is not a wire.", "Write LENGTH SIZE, then copper or CCA, then via PLACE grommet.")
    words = step.split(" ")
    if _fits(p.CONTACT, words[0]) and len(words) in (2, 3) and not any("." in word for word in words[1:]):
        bad = next((word for word in words[1:] if not _fits(p.COLOUR, word)), words[1])
        return _colour(bad, "")
    return _contact(step, "")


def _feature(text: str, about: str) -> Said:
    return Said(0, text[:60], f"“{text[:60]}” is not UNIT > CONTACT.", "Write the unit it comes from, > and where it is heard: radio > spk.RL spk.RR.")


def _version(text: str, about: str) -> Said:
    return Said(0, text[:20], f"“{text[:20]}” is not a version of the job file known here.", "Write ringout: 1.")


_SAYERS: dict[str, Callable[[str, str], Said | None]] = {
    "function": _function, "pair function": _pair_function, "colour": _colour, "colour word": _colour_word,
    "row": _row_of(False, False), "pair row": _row_of(True, False), "lead row": _row_of(False, True), "size": _size,
    "quantity": _quantity, "date": _date, "name": _name, "cavity": _cavity, "contact": _contact, "signal": _signal,
    "route": _route, "chain": _chain, "feature": _feature, "version": _version,
}  # fmt: skip
