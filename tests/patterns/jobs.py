"""Jobs and evidence files written from a plug of `geometry`, and charts read back with YAML alone."""

from __future__ import annotations

import random
from pathlib import Path

import yaml

from tests.patterns.geometry import Places, Plug, heard_at

COLOURS = ("WH", "GY", "GN", "VT", "BU", "BN", "OG", "PK", "RD", "YE")


def rows_of(plug: Plug, dice: random.Random) -> list[tuple[str, str]]:
    """Key and value of each row; a pair is one row or two, with its colours."""
    made = []
    for k, (name, (plus, minus)) in enumerate(plug.chart.items()):
        colour = COLOURS[k % len(COLOURS)]
        if dice.random() < 0.6:
            made.append((f"{plus}/{minus}", f"{name} {colour} {colour}/BK 0.5 mm2"))
        else:
            made += [(plus, f"{name}+ {colour} 0.5 mm2"), (minus, f"{name}- {colour}/BK 0.5 mm2")]
    made += [(cavity, what) for cavity, what in plug.held.items()]
    dice.shuffle(made)
    return made


def face_lines(plug: Plug) -> list[str]:
    return [" ".join(each or "." for each in row) for row in plug.grid]


def plug_text(plug: Plug, dice: random.Random, flow: bool) -> str:
    """The plug `dash` under `plugs:`, its rows in lines or in braces."""
    rows = rows_of(plug, dice)
    lines = ["plugs:", "  dash:", "    unit: radio", "    face:", "      rows: |"]
    lines += [f"        {line}" for line in face_lines(plug)]
    lines += ["      view: wire", "      latch: top"]
    if flow:
        half = len(rows) // 2
        lines.append("    cavities: {" + ", ".join(f"{key}: {value}" for key, value in rows[:half]) + ",")
        lines.append("      " + ", ".join(f"{key}: {value}" for key, value in rows[half:]) + "}   # as on the page")
    else:
        lines.append("    cavities:")
        lines += [f"      {key}: {value}   # row {k}" for k, (key, value) in enumerate(rows)]
    return "\n".join(lines) + "\n"


def job_text(plug: Plug) -> str:
    """What a job needs beside its plug."""
    names = " ".join(sorted({*plug.chart, "FL", "FR", "RL", "RR", "RL-TW", "RR-TW", "FL-TW", "FR-TW"}))
    return f"units:\n  radio: {{kind: radio}}\nspeakers:\n  {names}: {{nominal: 4 ohm}}\n"


def evidence_text(real: Places, places: list[tuple[str, str]]) -> str:
    """A record for each two cavities, with what the car answers."""
    lines = []
    for k, (a, b) in enumerate(places):
        name, plus = heard_at(real, a, b)
        said = f"heard: {name}, plus: {plus}" if name else "heard: none"
        when = f"2026-03-02 {9 + k // 60:02d}:{k % 60:02d}"
        lines.append(f"- {{when: {when}, by: JM, tone: dash.car.{a}/{b}, {said}, unplugged: dash}}")
    return "\n".join(lines) + "\n"


def chart_in(path: Path) -> tuple[Places, dict[str, str]]:
    """The pairs, and each cavity's colour, of the plug `dash` in a file, by its words and nothing else."""
    rows = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)["plugs"]["dash"]["cavities"]
    ends: dict[str, dict[str, str]] = {}
    colours: dict[str, str] = {}
    for key, value in rows.items():
        cavities, (function, *words) = key.split("/"), value.split()
        names = [function] if len(cavities) == 1 else [f"{function}+", f"{function}-"]
        for cavity, name in zip(cavities, names, strict=True):
            if name[-1] in "+-" and name != "B+":
                ends.setdefault(name[:-1], {})[name[-1]] = cavity
        seen = [word for word in words if word.partition("/")[0] in COLOURS]
        colours |= dict(zip(cavities, seen, strict=False))
    return {name: (two["+"], two["-"]) for name, two in ends.items() if len(two) == 2 and name != "unknown"}, colours
