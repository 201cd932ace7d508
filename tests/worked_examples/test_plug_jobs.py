"""Published pin tables written as jobs: looms that keep to them, looms that don't, and both faces of the plug.

No table here was made by the program.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from harness.finding import Severity
from harness.prove import prove, prove_text
from render.documents import packet

# 9. Two encyclopaedias' copies of the car-radio connectors, seen 2026. ISO 10487 fixes the shape only, the pins are
# common practice: cable side of the female, 1 3 5 7 over 2 4 6 8, the clip at the left.
BLOCK_A = {"2": "MUTE", "4": "B+", "5": "AERIAL", "6": "ILL", "7": "ACC", "8": "GND"}
BLOCK_B = {"1/2": "RR", "3/4": "FR", "5/6": "FL", "7/8": "RL"}
ISO_WIRE, ISO_MATING = ("1 3 5 7", "2 4 6 8"), ("7 5 3 1", "8 6 4 2")
# SAE J1962: two public tables that agree, seen 2026; 1 to 8 over 9 to 16. They don't say the view; taken here as
# looking into the car's socket.
J1962 = {"4": "GND", "5": "GND", "6/14": "CAN", "16": "B+"}
J1962_MATING = ("1 2 3 4 5 6 7 8", "9 10 11 12 13 14 15 16")
J1962_WIRE = ("8 7 6 5 4 3 2 1", "16 15 14 13 12 11 10 9")


def job(pins: dict[str, str], rows: tuple[str, str], view: str, latch: str, loom: str = "") -> str:
    """A plug with its face, its pins, and a loom in it where one is written."""
    cavities = "\n".join(f"      {cavity}: {function}" for cavity, function in pins.items())
    channels = " ".join(function for function in pins.values() if re.fullmatch("[FR][LR]", function))
    speakers = f"speakers:\n  {channels}: {{nominal: 4 ohm}}\n" if channels else ""
    outputs = f", outputs: {{{channels}: btl 8.5 V clean step 31}}" if channels else ""
    looms = f"looms:\n  T: {{ends: {{unit: u, car: u}}, {loom}}}\njoints: {{mate: {{T: p}}}}\n" if loom else ""
    return (
        "ringout: 1\ntitle: A published table\ncar: {name: Bench car, steering: left}\nplugs:\n  p:\n"
        f"    place: bench\n    unit: radio\n    face:\n      rows: |\n        {rows[0]}\n        {rows[1]}\n"
        f"      view: {view}\n      latch: {latch}\n"
        "    source: {chart: published table, date: 2026-03-02, by: JM}\n"
        f"    cavities:\n{cavities}\nunits:\n  radio: {{kind: radio{outputs}}}\n{speakers}{looms}"
    )


def told(text: str) -> dict[str, str]:
    """Code -> message, of what must be mended."""
    findings = prove_text(text, "job.yaml", mends=False).report.findings
    return {each.code: each.message for each in findings if each.severity <= Severity.FIX}


def iso(pins: dict[str, str], loom: str) -> str:
    return job(pins, ISO_WIRE, "wire", "left", loom)


@pytest.mark.parametrize("pins", [BLOCK_A, BLOCK_B], ids=["block A", "block B"])
def test_a_loom_pinned_as_the_tables_fits(pins: dict[str, str]) -> None:
    stated = ", ".join(f"{cavity}: {function}" for cavity, function in pins.items())
    assert not told(iso(pins, f"through: 1..8, pins: {{{stated}}}"))


def test_a_loom_for_a_car_with_4_and_7_exchanged() -> None:
    """The tables' own warning: on some cars constant and switched are exchanged. Told, with both cavities."""
    exchanged = {**BLOCK_A, "4": "ACC", "7": "B+"}
    stated = ", ".join(f"{cavity}: {function}" for cavity, function in exchanged.items())
    found = told(iso(BLOCK_A, f"through: 1..8, pins: {{{stated}}}"))
    assert set(found) == {"H07"}
    assert re.search(r"\b4\b.*B\+", found["H07"])
    assert re.search(r"\b7\b.*ACC", found["H07"])


@pytest.mark.parametrize(
    ("a", "b", "channels"),
    [
        # B3/4 is right front and B5/6 left front; B1/2 is right rear and B7/8 left rear
        ("3 4", "5 6", ("FR", "FL")),
        ("1 2", "7 8", ("RR", "RL")),
    ],
)
def test_a_loom_that_crosses_the_sides_of_block_b(a: str, b: str, channels: tuple[str, str]) -> None:
    ends = [*zip(a.split(), b.split(), strict=True), *zip(b.split(), a.split(), strict=True)]
    crossed = dict(ends)
    through = ", ".join(f"{cavity}: {crossed.get(cavity, cavity)}" for cavity in "12345678")
    found = told(iso(BLOCK_B, f"through: {{{through}}}"))
    assert set(found) == {"H07"}
    assert all(f"{channel}{sign}" in found["H07"] for channel in channels for sign in "+−")


def test_can_crossed_at_the_diagnostic_plug() -> None:
    """6 is CAN high and 14 CAN low: a loom that brings 6 to 14 crosses the bus, one that passes them does not."""
    straight = job(J1962, J1962_MATING, "mating", "top", "through: 4..6 14 16")
    crossed = job(J1962, J1962_MATING, "mating", "top", "through: {4: 4, 5: 5, 6: 14, 14: 6, 16: 16}")
    assert not told(straight)
    found = told(crossed)
    assert set(found) == {"G11"}
    assert re.search(r"\b6 \(CAN-H\).*\b14 \(CAN-L\)", found["G11"])


FACES = {
    "ISO 10487 from the wires": (BLOCK_A, ISO_WIRE, "wire", "left", ISO_WIRE, ISO_MATING),
    # the same plug, written as one looks at its contacts: mirrored left to right, the clip at the right then
    "ISO 10487 from the contacts": (BLOCK_A, ISO_MATING, "mating", "right", ISO_WIRE, ISO_MATING),
    "SAE J1962 from the contacts": (J1962, J1962_MATING, "mating", "top", J1962_WIRE, J1962_MATING),
    "SAE J1962 from the wires": (J1962, J1962_WIRE, "wire", "top", J1962_WIRE, J1962_MATING),
}


@pytest.mark.parametrize("name", FACES)
def test_both_faces_are_mirrored(name: str, tmp_path: Path) -> None:
    """An engine maker's shop manual, seen 2026: column c of C in one view is C - 1 - c in the other, same row."""
    pins, rows, view, latch, wire, mating = FACES[name]
    path = tmp_path / "job.yaml"
    path.write_text(job(pins, rows, view, latch), encoding="utf-8")
    packet(prove(path), tmp_path, ["plug-sheet"])
    text = (tmp_path / "packet.txt").read_text(encoding="utf-8")
    drawn = {}
    for heading in ("WIRE SIDE", "MATING SIDE"):
        below = text.partition(f"\n{heading}")[2].splitlines()
        lines = [line for line in below if "|" in line][:2]
        drawn[heading] = tuple(" ".join(re.findall(r"\d+", line)) for line in lines)
    assert drawn == {"WIRE SIDE": wire, "MATING SIDE": mating}
    assert all(row.split() == other.split()[::-1] for row, other in zip(wire, mating, strict=True))
