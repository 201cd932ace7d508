"""Text with units to SI numbers, and wire sizes to copper area. The only place that converts.

Sources: AWG diameter law, ASTM B258 (No. 36 = 0.0050 in, No. 0000 = 0.4600 in, 39 steps between);
inch 25.4 mm and foot 0.3048 m exactly (international yard and pound agreement, 1959).
"""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import NamedTuple

# dimension -> unit as written -> factor to SI
UNITS: dict[str, dict[str, float]] = {
    "length": {"in": 0.0254, "ft": 0.3048, "mm": 1e-3, "cm": 1e-2, "m": 1.0},
    "voltage": {"V": 1.0, "mV": 1e-3},
    "current": {"A": 1.0, "mA": 1e-3},
    "resistance": {"ohm": 1.0, "kohm": 1e3, "mohm": 1e-3},
    "power": {"W": 1.0, "kW": 1e3},
    "frequency": {"Hz": 1.0, "kHz": 1e3},
    "capacitance": {"uF": 1e-6, "nF": 1e-9},
    "gain": {"dB": 1.0},
    "time": {"ms": 1e-3, "s": 1.0, "min": 60.0},
    "share": {"%": 0.01},
    "temperature": {"C": 1.0},
}

NUMBER = r"[0-9]+(\.[0-9]+)?"
SIZE_PATTERN = rf"([1-4]/0 (AWG|SAE)|[0-9]{{1,2}} (AWG|SAE)|{NUMBER} mm2)"


@lru_cache(maxsize=4096)
def quantity(text: str, dimension: str) -> float:
    """`8.5 V` as voltage gives 8.5; `35 mA` as current gives 0.035.

    Raises ValueError where the number or the unit is not understood.
    """
    match = re.fullmatch(r"(-?[0-9]+(?:\.[0-9]+)?) ?(\S+)", text)
    if not match or match[2] not in UNITS[dimension]:
        known = ", ".join(UNITS[dimension])
        raise ValueError(f"{text!r} is not a {dimension}: a number, a space and one of {known}")
    return float(match[1]) * UNITS[dimension][match[2]]


def measured(text: str, dimension: str) -> float | None:
    """As `quantity`; None where the text is none of that dimension, as a reading may be written in any words."""
    try:
        return quantity(text, dimension)
    except ValueError:
        return None


def length_like(length_m: float, words: str) -> str:
    """A length in the unit of another one, as it is written: 0.14 m like `100 mm` is `140 mm`.

    Raises ValueError where the other one is no length.
    """
    unit = words.rsplit(" ", 1)[-1]
    if unit not in UNITS["length"]:
        raise ValueError(f"{words!r} is no length")
    return f"{length_m / UNITS['length'][unit]:.4g} {unit}"


class WireSize(NamedTuple):
    """A wire size as written and its copper area in mm²."""

    text: str
    area_mm2: float


# SAE conductor areas in circular mils, minimum; wire maker's appendix quoted in the trade, seen 2026.
_SAE_CIRCULAR_MILS = {
    "18": 1537, "16": 2336, "14": 3702, "12": 5833, "10": 9343, "8": 14810, "6": 24538, "4": 37360,
    "2": 62450, "1": 77790, "1/0": 98980, "2/0": 125100, "3/0": 158600, "4/0": 205500,
}  # fmt: skip


@lru_cache(maxsize=1024)
def wire_size(text: str) -> WireSize:
    """`18 AWG`, `1/0 AWG`, `8 SAE` or `0.5 mm2` with its copper area.

    Raises ValueError for a size that is none of these.
    """
    match = re.fullmatch(r"(\S+) ?(AWG|SAE|mm2)", text)
    if not match:
        raise ValueError(f"{text!r} is not a wire size such as 18 AWG, 1/0 AWG or 0.5 mm2")
    number, system = match[1], match[2]
    if system == "mm2":
        if not re.fullmatch(NUMBER, number) or float(number) <= 0:
            raise ValueError(f"{text!r} is not a wire size: the area must be a number above 0")
        return WireSize(text, float(number))
    if system == "SAE":
        if number not in _SAE_CIRCULAR_MILS:
            raise ValueError(f"{text!r}: SAE sizes are {', '.join(_SAE_CIRCULAR_MILS)}")
        # one circular mil is the area of a circle of 1 mil (0.0254 mm) diameter
        return WireSize(text, _SAE_CIRCULAR_MILS[number] * math.pi / 4 * 0.0254**2)
    aught = re.fullmatch(r"([1-4])/0", number)
    if aught:
        gauge = 1 - int(aught[1])
    elif number.isdigit() and int(number) <= 40:
        gauge = int(number)
    else:
        raise ValueError(f"{text!r}: AWG sizes run from 4/0 to 40")
    diameter_mm = 0.127 * 92 ** ((36 - gauge) / 39)
    return WireSize(text, math.pi / 4 * diameter_mm**2)
