"""Cables behind too great a fuse, and what is offered for each: jobs of a few lines, read off by hand.

What a size carries is a car-audio guide's chart (tests/electrical): 12, 10, 8, 6 and 4 AWG 20, 30, 50, 80 and
125 A. A fuse that is offered is the next value above 1.25 times what flows (the same guide, seen 2026).
"""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, found
from tests.graph.test_supply import wiring_of as supplied

JOB = """\
units:
  amp: {kind: amplifier, draws: AMPERES A}
  two: {kind: amplifier, draws: 5 A}
runs:
  - amp.GND > 1 ft 4/0 AWG > gnd.G1
  - two.GND > 1 ft 4 AWG > gnd.G1
"""
BURNS = "the cable burns before the fuse opens."


@pytest.mark.parametrize(
    ("code", "amperes", "runs", "parts", "do"),
    [
        # 20 A flow: 25 A, and 80 A are for 6 AWG; 60 A flow, for which 50 A are too little
        ("F03", 20, "battery.+ > fuse 80 A > 1 m 8 AWG > amp.B+",
         [f"The 8 AWG cable to amp B+ lies behind a fuse of 80 A and carries at most 50 A: {BURNS}"],
         "Fit a fuse of 25 A where it begins or lay 6 AWG."),
        ("F03", 60, "battery.+ > fuse 80 A > 1 m 8 AWG > amp.B+", [BURNS], "Lay 6 AWG."),
        ("F03", 20, "battery.+ > fuse 50 A > 1 m 8 AWG > amp.B+", [], ""),
        # no cable carries 800 A, and no fuse that this one takes carries 600 A
        ("F03", 600, "battery.+ > fuse 800 A > 1 m 4/0 AWG > amp.B+", [BURNS],
         "Split the load over cables of their own."),
        # copper-clad: as copper it would do, so it is told as that; as copper it wouldn't either
        ("F07", 20, "battery.+ > fuse 50 A > 1 m 8 AWG CCA > amp.B+",
         ["The 8 AWG copper-clad cable to amp B+ lies behind a fuse of 50 A and carries at most 30.9 A: copper-clad"],
         "Fit a fuse of 25 A where it begins or lay 6 AWG in CCA."),
        ("F03", 20, "battery.+ > fuse 50 A > 1 m 8 AWG CCA > amp.B+", [], ""),
        ("F03", 20, "battery.+ > fuse 60 A > 1 m 8 AWG CCA > amp.B+", ["The 8 AWG copper-clad cable to amp B+"],
         "Fit a fuse of 25 A where it begins or lay 4 AWG in CCA."),
        ("F07", 20, "battery.+ > fuse 60 A > 1 m 8 AWG CCA > amp.B+", [], ""),
        # a thin cable behind a thick one without a fuse between them: 5 A flow, 6.25 A, the next fuse is 7.5 A
        ("F05", 20, "battery.+ > fuse 100 A > 1 m 4 AWG > amp.B+; amp.B+ > 1 m 12 AWG > two.B+",
         ["The 12 AWG cable to two B+ lies behind a fuse of 100 A and carries at most 20 A: it burns at a current"],
         "Fit a fuse of 7.5 A where it begins or lay 4 AWG."),
        ("F05", 20, "battery.+ > fuse 100 A > 1 m 4 AWG > amp.B+; amp.B+ > fuse 10 A > 1 m 12 AWG > two.B+", [], ""),
        ("F05", 20, "battery.+ > fuse 100 A > 1 m 4 AWG > 1 m 10 AWG > amp.B+", ["The 10 AWG cable to amp B+"],
         "Fit a fuse of 25 A where it begins or lay 4 AWG."),
        ("F03", 20, "battery.+ > fuse 100 A > 1 m 4 AWG > 1 m 10 AWG > amp.B+", [], ""),
    ],
)  # fmt: skip
def test_a_cable_behind_too_great_a_fuse(code: str, amperes: int, runs: str, parts: list[str], do: str) -> None:
    job = JOB.replace("AMPERES", str(amperes)) + "".join(f"  - {run}\n" for run in runs.split("; "))
    findings = found(code, supplied(job))
    alike([each.message for each in findings], parts)
    assert all(each.do == do for each in findings)


LINKED = """\
units:
  amp: {kind: amplifier, draws: 50 A, inputs: {in1: 1..4 V grounded}}
  dsp: {kind: processor, draws: 2 A, outputs: {out1: 4 V grounded}}
runs:
"""
SIGNAL, BOOT = "dsp.out1 > 2 m rca > amp.in1", "dsp.GND > 1 m 8 AWG > gnd.G2"
APART = "dsp is grounded at ground point G2 (boot) and amp, which takes its signal, at {}: first suspect".format


@pytest.mark.parametrize(
    ("code", "place", "runs", "parts"),
    [
        # a cable of signals between two grounds, of which one may have no place; one ground; no cable of signals
        ("F10", "place: floor, ", f"{SIGNAL}; amp.GND > 1 m 8 AWG > gnd.G1; {BOOT}",
         [APART("ground point G1 (floor)")]),
        ("F10", "", f"{SIGNAL}; amp.GND > 1 m 8 AWG > gnd.G1; {BOOT}", [APART("ground point G1")]),
        ("F10", "", f"{SIGNAL}; amp.GND > 1 m 8 AWG > battery.-; {BOOT}", [APART("battery −")]),
        ("F10", "", f"{SIGNAL}; amp.GND > 1 m 8 AWG > gnd.G2; {BOOT}", []),
        ("F10", "", f"amp.GND > 1 m 8 AWG > gnd.G1; {BOOT}", []),
        # a fuse in the ground, with its value or without; none there; in the feed it belongs
        ("F12", "", "amp.GND > fuse 30 A > 1 m 8 AWG > gnd.G1", ["A 30 A fuse stands between amp GND and the body"]),
        ("F12", "", "amp.GND > fuse unknown > 1 m 8 AWG > gnd.G1", ["A fuse stands between amp GND and the body"]),
        ("F12", "", f"amp.GND > 1 m 8 AWG > gnd.G1; {BOOT}", []), ("F12", "", "battery.+ > fuse 30 A > amp.B+", []),
        ("F12", "", f"amp.GND > 1 m 8 AWG > gnd.G1; {BOOT.replace('1 m', 'fuse 3 A > 1 m')}", ["A 3 A fuse stands"]),
    ],
)  # fmt: skip
def test_grounds_of_units_that_are_linked(code: str, place: str, runs: str, parts: list[str]) -> None:
    grounds = f"grounds: {{G1: {{{place}metal: bare}}, G2: {{place: boot, metal: bare}}}}\n"
    findings = found(code, supplied(LINKED + "".join(f"  - {run}\n" for run in runs.split("; ")), grounds=grounds))
    alike([each.message for each in findings], parts)


@pytest.mark.parametrize(
    ("bend", "parts"),
    [
        # 25 mm at least (a workshop manual, maker withheld)
        ("bend 25 mm", []), ("bend 24 mm", ["is bent to 24 mm, at least 25 mm: light is lost"]),
        ("", []), ("bend 1 in", []),
    ],
)  # fmt: skip
def test_how_a_fibre_is_bent(bend: str, parts: list[str]) -> None:
    text = f"inline: {{C1: sill, C2: boot}}\nruns:\n  - C1.1 > 2 m fibre {bend} > C2.1\n"
    alike([each.message for each in found("G06", supplied(text))], parts)
