"""A second reading of a chart: the csv module and a table written by hand. Imports nothing of the project.

It knows only what `make_chart` writes: one spelling of each word, picked at random from its lists.
"""

from __future__ import annotations

import csv
import io
import random
from typing import NamedTuple

# what a chart may write, and what that is in the job file (IEC 60757 letters; the trade's words)
FUNCTIONS = {
    "FL+": ["FL+", "LF +", "Front left speaker (+)", "LH front plus", "left front speaker +"],
    "FL-": ["FL-", "LF −", "Front left speaker (-)", "LH front minus", "left front speaker negative"],
    "FR+": ["FR+", "RF+", "Right front speaker positive", "RH front (+)"],
    "FR-": ["FR-", "RF-", "Right front speaker neg", "RH front (-)"],
    "RL+": ["RL+", "LR+", "Left rear +", "rear left out +"],
    "RL-": ["RL-", "LR-", "Left rear -", "rear left out –"],
    "RR-TW+": ["RR-TW+", "Right rear tweeter +"],
    "RR-TW-": ["RR-TW-", "Right rear tweeter -"],
    "B+": ["B+", "Battery", "Constant 12V"],
    "ACC": ["ACC", "Accessory"],
    "GND": ["GND", "Ground", "EARTH"],
    "AMP-ON": ["AMP-ON", "Amp turn-on", "amp remote"],
    "AERIAL": ["Antenna", "Power antenna", "aerial", "Power ant", "ANT", "Aerial remote"],
    "ILL": ["Illumination", "ILL"],
    "CAN-H": ["CAN-H", "CAN high"],
    "CAN-L": ["CAN-L", "CAN low"],
    "MIC+": ["MIC+", "Microphone +"],
    "MIC-": ["MIC-", "Microphone -"],
    "empty": ["n/u", "not used", "-", "empty"],
}
COLOURS = {
    "": ["", "-"],
    "WH": ["WH", "white", "Wht"],
    "WH/BK": ["WH/BK", "White/Black", "white with black stripe", "WHT-BLK", "WH-BK"],
    "GY": ["GY", "grey"],
    "GN/YE": ["GN/YE", "green/yellow", "GRN-YEL"],
    "LIGHT-BLUE": ["light blue", "Light-blue"],
    "VT/BN": ["VT/BN", "violet/brown"],
}
SIZES = {
    "": ["", "-"],
    "0.5 mm2": ["0.5 mm2", "0,5 mm²", "0.5", "0.5mm2"],
    "0.75 mm2": ["0.75 mm2", "0,75"],
    "18 AWG": ["18 AWG", "18 ga", "#18", "18AWG"],
}
NOTES = ["", "", 'it\'s a "note"', "# 3; behind, the plug", "a: b", "two\nlines", "Müller’s “own”", "yes", "12"]
HEADINGS = {
    "cavity": ["Pin", "Cavity", "No.", "PIN NO", "Terminal #"],
    "function": ["Function", "Signal", "Channel", "Circuit", "signal name"],
    "colour": ["Colour", "Color", "Wire colour", "WIRE COLOR"],
    "size": ["Size", "Wire size", "Gauge", "Cross-section"],
    "note": ["Notes", "Remark", "Comments:"],
}


class Fact(NamedTuple):
    function: str
    colour: str
    size: str
    note: str


def make_chart(seed: int) -> tuple[bytes, dict[str, str]]:
    """A chart's bytes, and how it is written: encoding and separator."""
    draw = random.Random(seed)
    functions = [name for name in FUNCTIONS if name != "empty"]
    draw.shuffle(functions)
    functions = functions[: draw.randrange(3, len(functions))] + ["empty"] * draw.randrange(3)
    cavities = [str(n) for n in range(1, len(functions) + 1)] if draw.random() < 0.7 else [
        f"A{n}" for n in range(1, len(functions) + 1)
    ]  # fmt: skip
    draw.shuffle(cavities)
    columns = list(HEADINGS)
    draw.shuffle(columns)
    table = [[draw.choice(HEADINGS[column]) for column in columns]]
    for cavity, function in zip(cavities, functions, strict=True):
        bare = function == "empty"
        row = {
            "cavity": cavity,
            "function": draw.choice(FUNCTIONS[function]),
            "colour": draw.choice(COLOURS[""]) if bare else draw.choice(COLOURS[draw.choice(list(COLOURS))]),
            "size": draw.choice(SIZES[""]) if bare else draw.choice(SIZES[draw.choice(list(SIZES))]),
            "note": draw.choice(NOTES),
        }
        table.append([row[column] for column in columns])
        if draw.random() < 0.1:
            table.append([""] * len(columns))
    separator = draw.choice([",", ";", "\t"])
    end = draw.choice(["\n", "\r\n"])
    held = io.StringIO(newline="")
    quoting = draw.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL])
    csv.writer(held, delimiter=separator, lineterminator=end, quoting=quoting).writerows(table)
    text = held.getvalue()
    encoding = draw.choice(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"])
    if encoding == "cp1252":  # it has no true minus
        text = text.replace("−", "-")
    if encoding == "utf-16-le" and any(ord(sign) > 255 for sign in text[:200]):
        encoding = "utf-16"
    return text.encode(encoding), {"encoding": encoding, "separator": separator}


def facts(raw: bytes, encoding: str, separator: str) -> dict[str, Fact]:
    """What the chart says, cavity by cavity, by the csv module and the tables above."""
    rows = list(csv.reader(io.StringIO(raw.decode(encoding), newline=""), delimiter=separator))
    field = {}
    for at, heading in enumerate(rows[0]):
        (field[at],) = [name for name, spellings in HEADINGS.items() if heading in spellings]
    made = {}
    for row in rows[1:]:
        if not any(row):
            continue
        said = {field[at]: text for at, text in enumerate(row)}
        made[said["cavity"]] = Fact(
            _meant(FUNCTIONS, said["function"].replace("−", "-")),
            _meant(COLOURS, said["colour"]),
            _meant(SIZES, said["size"]),
            _plain(said["note"]),
        )
    return made


def _meant(table: dict[str, list[str]], text: str) -> str:
    (name,) = [name for name, spellings in table.items() if text in [s.replace("−", "-") for s in spellings]]
    return name


def _plain(note: str) -> str:
    """Curly quotes straight, one line: what the job file can hold (README, rules of writing)."""
    for curly, straight in (("“", '"'), ("”", '"'), ("’", "'")):
        note = note.replace(curly, straight)
    return " ".join(note.split())
