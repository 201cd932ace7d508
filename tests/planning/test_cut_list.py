"""What is cut from the reels, by hand: measured, a fifth more, 2 x 100 mm of slack; inch = 25.4 mm exactly.

FAA AC 43.13-1B, before 11-236: slack for a drip loop and for one re-termination; a workshop text, maker withheld:
100 mm or more for a second splice. The fifth: a retailer's guide, seen 2026.
"""

from __future__ import annotations

import pytest

from harness.planning.cut_list import CutPiece, MadeUp, cut_list
from tests.graph.test_supply import wiring_of

PLAIN = """
units:
  amp: {kind: amplifier, inputs: {in1..2: 0.2..4 V}, outputs: {out1: 75 W @ 4 ohm}, wakes: rem 20 mA}
  dsp: {kind: processor, outputs: {rca1: 4 V grounded}, gives: {rem-out: 100 mA}}
  second: {kind: battery}
speakers: {SUB: {nominal: 4 ohm}}
runs:
  - battery.+ > 12 in 4 AWG > fuse 100 A > 15 ft 4 AWG via bulkhead grommet > amp.B+
  - second.+ > 20 cm 4 AWG > fuse 60 A > 1 m 4 AWG > dsp.B+
  - amp.GND > 18 in 4 AWG > gnd.G1
  - dsp.rca1 > 5 m rca > amp.in1
  - dsp.rem-out > 2 m 18 AWG > amp.rem
  - amp.out1 > 4 ft 12 AWG > spk.SUB
"""
INCH, FT = 0.0254, 0.3048


def test_each_piece_once_with_what_is_added() -> None:
    found = cut_list(wiring_of(PLAIN))
    told = [(p.run, p.start, p.start_a, p.end, p.end_a, p.wires, p.as_measured) for p in found.pieces]
    assert told == [
        ("RUN 1", "battery.+", None, "", 100, 1, "before its fuse"),
        ("RUN 1", "", 100, "amp.B+", None, 1, ""),
        ("RUN 2", "second.+", None, "", 60, 1, "before its fuse"),
        ("RUN 2", "", 60, "dsp.B+", None, 1, ""),
        ("RUN 3", "amp.GND", None, "gnd.G1", None, 1, "ground"),
        ("RUN 5", "dsp.rem-out", None, "amp.rem", None, 1, ""),
        ("RUN 6", "amp.out1+", None, "spk.SUB+", None, 2, ""),
    ]
    # a fifth and 0.2 m of slack, but before a fuse and on a ground cable
    by_hand = [12 * INCH, 18 * FT + 0.2, 0.2, 1.4, 18 * INCH, 2.6, 4.8 * FT + 0.2]
    assert [p.cut_m for p in found.pieces] == pytest.approx(by_hand, abs=1e-12)
    assert found.made_up == (MadeUp("RUN 4", "dsp.rca1+", "amp.in1+", "rca", 5.0),)


def test_the_shops_own_slack_holds() -> None:
    pieces = cut_list(wiring_of("limits: {slack: 2 in}\n" + PLAIN)).pieces
    assert pieces[0].cut_m == pytest.approx(12 * INCH, abs=1e-12)
    assert pieces[1].cut_m == pytest.approx(18 * FT + 4 * INCH, abs=1e-12)


def test_what_nobody_measured_is_not_cut() -> None:
    pieces = cut_list(
        wiring_of("""
units: {amp: {kind: amplifier, wakes: signal}}
runs:
  - battery.+ > fuse unknown > amp.B+
  - amp.GND > gnd.G1
""")
    ).pieces
    # a fuse alone is no cable; a step without anything between its contacts is a wire of unknown length
    assert [(each.start, each.end, each.cut_m) for each in pieces] == [("amp.GND", "gnd.G1", None)]


def test_nothing_laid_is_an_empty_list() -> None:
    assert cut_list(wiring_of("units: {amp: {kind: amplifier, wakes: signal}}\n")).pieces == ()


def test_a_piece_adds_up() -> None:
    piece = CutPiece("RUN 1", "a.b", None, "c.d", None, None, "", 1, 1.0, 0.05, 0.15, "")
    assert piece.cut_m == pytest.approx(1.2)
    assert piece._replace(measured_m=None).cut_m is None


def test_the_minus_of_a_second_battery_is_ground() -> None:
    (piece,) = cut_list(
        wiring_of("""
units: {second: {kind: battery}}
runs:
  - second.- > 20 cm 4 AWG > gnd.G1
""")
    ).pieces
    assert (piece.as_measured, piece.cut_m) == ("ground", pytest.approx(0.2))
    (piece,) = cut_list(
        wiring_of("""
units: {second: {kind: battery}}
runs:
  - battery.- > 20 cm 4 AWG > second.-
""")
    ).pieces
    assert (piece.as_measured, piece.cut_m) == ("ground", pytest.approx(0.2))
