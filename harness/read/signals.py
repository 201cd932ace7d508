"""The words of an input, an output and a route: band, level, power, load, form."""

from __future__ import annotations

import re
from functools import lru_cache

from harness.model.parts import Signal
from harness.units import NUMBER, UNITS

FORMS = ("btl", "differential", "grounded", "transformer", "digital")
# Words that stand alone and what each of them says.
_SAID: dict[str, dict[str, str | bool]] = {
    "clean": {"clean": True},
    "fixed": {"volume": "fixed"},
    "volume": {"volume": "here"},
}

_UNIT_OF = {unit: (dimension, factor) for dimension, table in UNITS.items() for unit, factor in table.items()}
_SPAN = re.compile(rf"({NUMBER})?\.\.({NUMBER})?")


@lru_cache(maxsize=1024)
def read_signal(text: str) -> Signal:
    """`2..20 V differential`, `75 W @ 4 ohm least 2 ohm`, `80..20000 Hz -3 dB 0.9 ms`, `8.5 V clean step 31 of 40`, in
    any order.

    Raises ValueError naming the word that is not understood.
    """
    got: dict[str, float | str | bool] = {}
    words = text.split()
    at = 0
    role = ""
    while at < len(words):
        word = words[at].rstrip(",")
        if word == "step":
            at = _put_step(got, words, at)
            continue
        if word in _SAID:
            got.update(_SAID[word])
            at += 1
            continue
        if word.lower() in FORMS:
            got["form"] = word.lower()
            at += 1
            continue
        if word == "@" or word.lower() == "least":
            role = word.lower()
            at += 1
            continue
        if at + 1 >= len(words):
            raise ValueError(f"“{word}” is not a word of a signal, or its unit is missing")
        unit = words[at + 1].rstrip(",")
        if unit not in _UNIT_OF:
            raise ValueError(f"“{word} {unit}”: {unit} is not a unit known here")
        dimension, factor = _UNIT_OF[unit]
        _put(got, word, dimension, factor, role)
        role = ""
        at += 2
    return Signal(text=text, **got)  # type: ignore[arg-type]


def _put_step(got: dict[str, float | str | bool], words: list[str], at: int) -> int:
    """Reads `step 31` or `step 31 of 40` from the place of its first word; gives the place behind it."""
    step = got["step"] = int(words[at + 1])
    if words[at + 2 : at + 3] != ["of"]:
        return at + 2
    steps = got["steps"] = int(words[at + 3])
    if step > steps:
        raise ValueError(f"“step {step} of {steps}”: there are not so many steps")
    return at + 4


def _put(got: dict[str, float | str | bool], word: str, dimension: str, factor: float, role: str) -> None:
    span = _SPAN.fullmatch(word)
    if span and (span[1] or span[3]):
        names = {"voltage": ("least_v", "most_v"), "frequency": ("low_hz", "high_hz")}.get(dimension)
        if not names:
            raise ValueError(f"“{word}” is a range, and only volts and hertz take one here")
        for name, value in zip(names, (span[1], span[3]), strict=True):
            if value:
                got[name] = float(value) * factor
        return
    field = {
        "voltage": "level_v", "power": "power_w", "gain": "gain_db", "time": "delay_s",
        "resistance": "least_ohm" if role == "least" else "load_ohm",
    }.get(dimension)  # fmt: skip
    if not field or not re.fullmatch(rf"-?{NUMBER}", word):
        raise ValueError(f"“{word}” is not a number with a unit that a signal has")
    got[field] = float(word) * factor
