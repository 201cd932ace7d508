"""What is fine stands first, and what isn't is told all the same: cables, data wires and open ends, by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, told
from tests.checks.test_alone_supply import UNITS
from tests.graph import test_joined_rules as joined
from tests.graph.test_supply import wiring_of as supplied

AMP, TWO = "battery.+ > fuse 50 A > 1 m 4 AWG > amp.B+", "battery.+ > fuse 50 A > 1 m 4 AWG > two.B+"
THIN = "two is fed by 4 AWG (21.2 mm²) and grounded by 8 AWG (8.37 mm²)"
BARE = "The 4 AWG cable goes through bulkhead bare"


@pytest.mark.parametrize(
    ("code", "runs", "parts"),
    [
        # a tenth less counts as the same size: 9 of 10 mm², and no less
        ("F08", f"{AMP.replace('4 AWG', '10 mm2')}; amp.GND > 1 m 9 mm2 > gnd.G1", []),
        ("F08", f"{AMP.replace('4 AWG', '10 mm2')}; amp.GND > 1 m 8.9 mm2 > gnd.G1", ["10 mm² and grounded by 8.9"]),
        # ASTM B258: 4 AWG is 21.2 mm², 8 AWG 8.37
        ("F08", f"{AMP}; amp.GND > 1 m 4 AWG > gnd.G1", []),
        ("F08", f"{AMP}; amp.GND > 1 m 8 AWG > gnd.G1", ["amp is fed by 4 AWG"]),
        # before it one that has no ground, one whose ground is as thick, and one that nothing feeds
        ("F08", f"{AMP}; {TWO}; two.GND > 1 m 8 AWG > gnd.G1", [THIN]),
        ("F08", f"{AMP}; amp.GND > 1 m 4 AWG > gnd.G1; {TWO}; two.GND > 1 m 8 AWG > gnd.G1", [THIN]),
        ("F08", f"amp.GND > 1 m 8 AWG > gnd.G1; {TWO}; two.GND > 1 m 8 AWG > gnd.G1", [THIN]),
        ("F08", f"{AMP}; amp.GND > 1 m 8 AWG > gnd.G1; {TWO}; two.GND > 1 m 8 AWG > gnd.G1", ["amp is fed", THIN]),
        # through metal: a grommet, or nothing said, before a bare edge; one run twice through one place, and two places
        ("F15", AMP.replace("AWG", "AWG via bulkhead grommet"), []),
        ("F15", f"{AMP}; {TWO.replace('AWG', 'AWG via bulkhead bare')}", [BARE]),
        ("F15", f"{AMP.replace('AWG', 'AWG via bulkhead grommet')}; {TWO.replace('AWG', 'AWG via bulkhead bare')}",
         [BARE]),
        ("F15", "battery.+ > 1 m 4 AWG via bulkhead bare > fuse 50 A > 1 m 4 AWG via bulkhead bare > amp.B+", [BARE]),
        ("F15", "battery.+ > 1 m 4 AWG via bulkhead bare > fuse 50 A > 1 m 4 AWG via floor bare > amp.B+",
         [BARE, "The 4 AWG cable goes through floor bare"]),
        ("F15", f"{AMP.replace('AWG', 'AWG via bulkhead bare')}; {TWO.replace('AWG', 'AWG via bulkhead bare')}",
         [BARE, BARE]),
    ],
)  # fmt: skip
def test_cables(code: str, runs: str, parts: list[str]) -> None:
    alike(told(code, supplied(UNITS + "".join(f"  - {run}\n" for run in runs.split("; ")))), parts)


@pytest.mark.parametrize(
    ("code", "key", "most", "too_much", "words"),
    [
        # the shop's figures (common practice, no source): 100 mm untwisted, a branch of 0.5 m
        ("G02", "untwist", "100 mm", "101 mm", "is untwisted over"),
        ("G04", "stub", "500 mm", "501 mm", "gets a branch of"),
    ],
)  # fmt: skip
def test_data_wires_at_a_joint(code: str, key: str, most: str, too_much: str, words: str) -> None:
    high, low = "dash.3: {to: eye.CAN-H, %s: %s}", "dash.4: {to: eye.CAN-L, %s: %s}"
    told_of = {name: f"dash cavity {name}" for name in "34"}
    for rows, wires in (
        (high % (key, most), ""), (high % (key, too_much), "3"),
        # one that says nothing, and one that is short enough, before the one that is too long; both
        (f"dash.3: eye.CAN-H; {low % (key, too_much)}", "4"),
        (f"{high % (key, most)}; {low % (key, too_much)}", "4"),
        (f"{high % (key, too_much)}; {low % (key, too_much)}", "34"),
        # no data
        (f"dash.5: {{to: amp.rem, {key}: 3 m}}", ""),
    ):  # fmt: skip
        messages = told(code, joined.wiring_of(rows))
        alike(messages, [told_of[wire] for wire in wires])
        assert all(words in each for each in messages)


@pytest.mark.parametrize(
    ("joints", "more", "mate", "parts"),
    [
        ("", "", "", []), ("", "cut: [dash.2]\n", "", []),
        ("", "cut: [dash.1]\n", "", ["dash cavity 1 (yellow, B+), car side"]),
        # the dead end of a ground wire before a live one; capped; joined on
        ("", "cut: [dash.2, dash.1]\n", "", ["dash cavity 1 (yellow, B+), car side"]),
        ("", "cut: [dash.1]\ncapped: [dash.car.1]\n", "", []), ("dash.car.1: amp.B+", "cut: [dash.1]\n", "", []),
        ("", "cut: [dash.1, dash.8]\n", "", ["dash cavity 1", "dash cavity 8"]),
        # an output's pair is live on the radio's side
        ("", "cut: [dash.6, dash.7]\n", "", ["dash cavity 6 (white, FL+), unit side", "dash cavity 7"]),
        # leads of a loom: of data wires nothing is live
        ("", "", "T1: dash", []),
    ],
)  # fmt: skip
def test_ends_that_are_live(joints: str, more: str, mate: str, parts: list[str]) -> None:
    alike(told("H01", joined.wiring_of(joints, more, mate)), parts)


GIVERS = """\
units:
  one: {kind: interface, gives: {rem-out: 100 mA}}
  two: {kind: interface, gives: {rem-out: 100 mA}}
  a: {kind: amplifier, outputs: {out1: 50 W}, wakes: rem 60 mA}
  b: {kind: amplifier, outputs: {out1: 50 W}, wakes: rem 60 mA}
  c: {kind: amplifier, outputs: {out1: 50 W}, wakes: rem 100 mA}
joints:
  screw:
"""


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # 100 mA of 100; 60 + 60 mA
        ("one.rem-out: c.rem", []),
        ("one.rem-out: [a.rem, b.rem]", ["one rem-out gives 100 mA and 120 mA hangs on it (a 60 mA, b 60 mA)"]),
        ("one.rem-out: c.rem; two.rem-out: [a.rem, b.rem]", ["two rem-out gives 100 mA and 120 mA hangs on it"]),
    ],
)
def test_what_hangs_on_a_turn_on(joints: str, parts: list[str]) -> None:
    alike(told("E05", supplied(GIVERS + "".join(f"    {row}\n" for row in joints.split("; ")))), parts)
