"""Where every number on paper comes from: one entry a figure, and what kind of source it has.

The shop's own figures stand in `harness.presets`; a sheet names the entries of both that its numbers rest on.
"""

from __future__ import annotations

from typing import NamedTuple

STANDARD, HANDBOOK, GUIDE = "standard", "handbook", "retailer's guide"
MANUAL, MEMORY, PRACTICE = "workshop manual, maker withheld", "from memory", "common practice, no source"


class Basis(NamedTuple):
    """One entry: its key in the code, what it says, who says so, and of which kind that is."""

    key: str
    says: str
    source: str
    kind: str


SEARCH = "fault search"  # of the odds and minutes of `locate`

_GUIDE_PAGE = "a car-audio guide's page, seen 2026"
_GUIDES = "two retailers' guides, seen 2026"
_ENTRIES = (
    Basis("awg", "No. 36 is 0.0050 in, No. 0000 is 0.4600 in, 39 equal steps between", "ASTM B258-02", STANDARD),
    Basis("copper", "0.017241 ohm mm²/m at 20 °C", "IACS; NBS Handbook 100 (1966)", HANDBOOK),
    Basis("copper, warm", "0.00393 per °C, from 20 °C", "NBS Handbook 100 (1966)", HANDBOOK),
    Basis("metric", "greatest resistance at 20 °C, class 5, plain copper", "IEC 60228:2004, table 3", STANDARD),
    Basis("SAE sizes", "least area in circular mils", "a wire maker's appendix, seen 2026; SAE J1128", GUIDE),
    Basis("CCA", "16.06 for 10.37 ohm circular mil per foot: as if it were aluminium only", _GUIDE_PAGE, GUIDE),
    Basis("CCA fuse", "counts as its area by 10.37 / 16.06, about two AWG sizes thinner", _GUIDE_PAGE, GUIDE),
    Basis("fuse chart A", "greatest fuse: 8 AWG 50 A, 4 AWG 125 A, 1/0 AWG 325 A", _GUIDE_PAGE, GUIDE),
    Basis("fuse chart B", "greatest fuse: 8 AWG 55 A, 4 AWG 135 A, 1/0 AWG 345 A", _GUIDE_PAGE, GUIDE),
    Basis("fuse values", "blade 1 to 40 A and 20 to 100 A, bolted 30 to 500 A", "ISO 8820-3 and -5", MEMORY),
    Basis("fuse margin", "carries 80 % of its rating for long: 1.25 times the current", _GUIDE_PAGE, GUIDE),
    Basis("ground size", "a ground cable no thinner than its feed", "no source", PRACTICE),
    Basis("efficiency", "class AB 60 %, class D 75 %", _GUIDE_PAGE, GUIDE),
    Basis("watts and volts", "V = √(P R), RMS", "Ohm's and Joule's laws", HANDBOOK),
    Basis(
        "least load",
        "a speaker stays above 80 % of its rated ohms",
        "IEC 60268-5; a reference page, seen 2026",
        STANDARD,
    ),
    Basis("bridge", "each half gives half of the volts and drives half of the load", "any amplifier text", HANDBOOK),
    Basis("series, parallel", "ohms add in series, siemens side by side", "any circuits text", HANDBOOK),
    Basis("decibels", "20 log10 of a ratio of volts; a pad in whole decibels, upwards", "any audio text", HANDBOOK),
    Basis("coil by meter", "a voice coil reads 0.62 to 1.0 of its rated ohms", _GUIDES, GUIDE),
    Basis("battery", "12.4 to 12.7 V at rest, 13.7 to 14.7 V charging", "a fault-finding guide, seen 2026", GUIDE),
    Basis("switched wires", "ACC 10 to 14 V, amplifier-on 10 to 12 V", "makers' reference values", MANUAL),
    Basis("off", "a turn-on wire is below 1 V when off", "no source", PRACTICE),
    Basis("diode", "a silicon diode takes 0.6 to 0.7 V", "any electronics text", HANDBOOK),
    Basis("cable allowance", "20 % on top of a measured length", _GUIDE_PAGE, GUIDE),
    Basis("test tone", "sine of 1 kHz, or 50, 500, 5000 Hz inside the band, at 0 dBFS", "no source", PRACTICE),
    Basis("turn-on awake", "11 to 15 V on a turn-on wire are good", "a trade guide's page, seen 2026", GUIDE),
    Basis(
        "turn-on low",
        "below 10 V on a turn-on wire, or more than 1 V lost on the way, is too little",
        "no source",
        PRACTICE,
    ),
    Basis(
        "retained power",
        "5 to 10 min with the key out, and half a minute that is allowed more",
        "a trade guide's page, seen 2026",
        GUIDE,
    ),
    Basis(
        "speaker by meter", "0.5 ohm at least (of 1 ohm), 16 ohm at most, two of those in line 32 ohm", _GUIDES, GUIDE
    ),
    Basis(
        "wires by meter",
        "15 ft of No. 24 each way are 0.77 ohm: a speaker reads 0.8 ohm more at most, wires that touch less than 1 ohm",
        "a wire table credited to an electronics textbook",
        HANDBOOK,
    ),
    Basis("body by meter", "less than 1 kohm to the body is contact", "no source", PRACTICE),
    Basis(
        SEARCH,
        "how often a tap, joint, plug or unit fails beside the others, and the minutes of a test",
        "no source",
        PRACTICE,
    ),
)
_BY_KEY = {entry.key: entry for entry in _ENTRIES}


def basis(key: str) -> Basis:
    """The entry of that key. Raises KeyError where there is none."""
    return _BY_KEY[key]


def entries() -> tuple[Basis, ...]:
    """Every entry, in the order in which they are printed."""
    return _ENTRIES
