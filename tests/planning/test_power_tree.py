"""The power tree and the choice of cables, against hand sums.

Ohm per metre at 20 °C: 4 AWG 0.81515e-3, 8 AWG 2.0609e-3 (ASTM B258 diameters, IACS copper); two gauges are
a factor of 92^(4/39) = 1.590 in area (ASTM B258: 39 equal steps from 0.0050 to 0.4600 in).
"""

from __future__ import annotations

import pytest

from harness.planning.cable_choice import cable_choices
from harness.planning.power_tree import power_tree
from tests.conftest import Wired

FT = 0.3048
AWG4, AWG8 = 0.81515e-3, 2.0609e-3
TWO_GAUGES = 92 ** (4 / 39)

TWO = """
grounds: {G1: {place: floor, metal: bare}}
units:
  dsp: {kind: processor amplifier, draws: 27 A, wakes: signal}
  bass: {kind: amplifier, draws: 29 A, wakes: signal}
  block: {kind: fuse block, ways: 2}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 100 A > 15 ft 4 AWG > block.in
  - block.1 > fuse 40 A > 3 ft 8 AWG > dsp.B+
  - block.2 > fuse 50 A > 9 ft 8 AWG > bass.B+
  - dsp.GND > 18 in 8 AWG > gnd.G1
  - bass.GND > 18 in 8 AWG > gnd.G1
"""


def test_the_tree_runs_from_the_battery_over_fuses_and_blocks_to_units_and_ground(wired: Wired) -> None:
    tree = power_tree(wired(TWO))
    name = {node.key: f"{node.name} {node.rating_a:g}" if node.kind == "fuse" else node.name for node in tree.nodes}
    assert [(name[line.tail], name[line.head]) for line in tree.lines] == [
        ("battery +", "fuse 100"), ("fuse 100", "block"), ("block", "fuse 40"), ("fuse 40", "dsp"),
        ("block", "fuse 50"), ("fuse 50", "bass"), ("dsp", "G1"), ("bass", "G1"),
    ]  # fmt: skip
    lines = {(name[line.tail], name[line.head]): line for line in tree.lines}
    # what both units share carries 27 + 29 A: over 15 ft of 4 AWG 56 * 4.572 * 0.81515e-3 = 0.2087 V
    shared = lines["fuse 100", "block"]
    assert shared.units == ("dsp", "bass")
    assert (shared.current_a, shared.drop_v) == (pytest.approx(56), pytest.approx(56 * 15 * FT * AWG4, rel=1e-3))
    own = lines["bass", "G1"]
    assert (own.ground, own.units) == (True, ("bass",))
    assert (own.current_a, own.drop_v) == (pytest.approx(29), pytest.approx(29 * 1.5 * FT * AWG8, rel=1e-3))
    # 13.8 V less the shared 16 ft, its own 9 ft and the 18 in of ground
    bass = next(node for node in tree.nodes if node.name == "bass")
    left = 13.8 - 56 * 16 * FT * AWG4 - 29 * 10.5 * FT * AWG8
    assert (bass.current_a, bass.volts) == (pytest.approx(29), pytest.approx(left, abs=1e-3))


def test_runs_may_be_written_from_either_end(wired: Wired) -> None:
    turned = """
grounds: {G1: {place: floor, metal: bare}}
units: {amp: {kind: amplifier, draws: 20 A, wakes: signal}}
runs:
  - amp.B+ > 9 ft 8 AWG > fuse 40 A > 1 ft 8 AWG > battery.+
  - gnd.G1 > 1 ft 8 AWG > amp.GND
"""
    tree = power_tree(wired(turned))
    name = {node.key: node.name for node in tree.nodes}
    ways = {(name[line.tail], name[line.head]) for line in tree.lines}
    assert ways == {("battery +", "fuse"), ("fuse", "amp"), ("amp", "G1")}


def test_ways_of_a_block_with_fuses_in_it_are_fuses_of_the_tree(wired: Wired) -> None:
    text = TWO.replace("ways: 2}", "ways: 2, fuses: {1: 40 A, 2: 50 A}}").replace("fuse 40 A > ", "")
    tree = power_tree(wired(text.replace("fuse 50 A > ", "")))
    assert [node.rating_a for node in tree.nodes if node.kind == "fuse"] == [40.0, 50.0, 100.0]
    fed = [line for line in tree.lines if line.units == ("bass",) and not line.ground]
    assert [len(line.pieces) for line in fed] == [0, 1], "block to its fuse, fuse over its cable to bass"


def test_a_unit_that_nobody_counts_has_no_figures(wired: Wired) -> None:
    tree = power_tree(wired(TWO.replace("draws: 27 A, ", "")))
    dsp = next(node for node in tree.nodes if node.name == "dsp")
    assert (dsp.current_a, dsp.volts) == (None, None)
    own = next(line for line in tree.lines if line.units == ("dsp",) and line.pieces)
    assert (own.current_a, own.drop_v) == (None, None)


def test_no_feed_laid_no_tree(wired: Wired) -> None:
    text = "units: {amp: {kind: amplifier, draws: 30 A}}\n"
    assert power_tree(wired(text)).lines == ()
    signal = """
units:
  one: {kind: processor, outputs: {out1: 4 V grounded}}
  two: {kind: amplifier, inputs: {in1: 0.2..4 V grounded}}
runs: [one.out1 > 5 m rca > two.in1]
"""
    assert power_tree(wired(signal)).lines == ()


def test_each_cable_gets_the_thinnest_size_that_is_enough_and_the_next(wired: Wired) -> None:
    """Main: 0.5 V less 29 A over 10.5 ft of 8 AWG (0.191 V) leaves 0.309; 6 AWG would lose 0.354, 4 AWG 0.223."""
    made = {line.end: line for line in cable_choices(wired(TWO)) if line.fuse is not None}
    main, dsp, bass = made.values()
    allowed = 0.5 - 29 * 10.5 * FT * AWG8
    lost = 56 * 16 * FT * AWG4
    assert main.allowed_v == pytest.approx(allowed, rel=1e-3)
    assert main.lay is not None
    assert main.thinner is not None
    assert main.thicker is not None
    assert [each.size.text for each in (main.thinner, main.lay, main.thicker)] == ["6 AWG", "4 AWG", "2 AWG"]
    sums = [lost * TWO_GAUGES, lost, lost / TWO_GAUGES]
    assert [each.drop_v for each in (main.thinner, main.lay, main.thicker)] == pytest.approx(sums, rel=2e-3)
    assert main.why == "loses too much"
    # 1.25 * 56 = 70 A, next 80 A; 1.25 * 27 = 33.75: 35 A, next 40 A; 1.25 * 29 = 36.25: 40 A, next 50 A
    fuses = [(each.fuse.rating_a, each.fuse.runner_up_a) for each in (main, dsp, bass) if each.fuse]
    assert fuses == [(70.0, 80.0), (35.0, 40.0), (40.0, 50.0)]
    # 10 AWG takes 30 A at most by the same guide: too little for 35 A, though it would lose only 0.08 V
    assert dsp.why == "fuse too big for it"


def test_a_ground_cable_is_no_thinner_than_its_feed(wired: Wired) -> None:
    """Common practice, no source: the ground in the size of the feed."""
    grounds = [line for line in cable_choices(wired(TWO)) if line.fuse is None]
    assert [(line.lay.size.text if line.lay else "", line.why) for line in grounds] == [
        ("8 AWG", "thinner than its feed")
    ] * 2


def test_where_the_rest_of_the_way_loses_all_no_size_is_enough(wired: Wired) -> None:
    """29 A over 30 ft of 8 AWG lose 0.55 V on their own: no main cable makes up for that."""
    made = cable_choices(wired(TWO.replace("9 ft 8 AWG > bass.B+", "30 ft 8 AWG > bass.B+")))
    assert made[0].lay is None
    assert made[0].allowed_v < 0


def test_metric_jobs_get_metric_sizes(wired: Wired) -> None:
    text = TWO.replace("4 AWG", "25 mm2").replace("8 AWG", "10 mm2")
    assert {line.lay.size.text[-3:] for line in cable_choices(wired(text)) if line.lay} == {"mm2"}


def _names(wired: Wired, text: str) -> list[tuple[str, str]]:
    tree = power_tree(wired(text))
    name = {node.key: f"{node.name} {node.rating_a:g}" if node.kind == "fuse" else node.name for node in tree.nodes}
    return [(name[line.tail], name[line.head]) for line in tree.lines]


def test_a_plug_on_the_way_is_no_box_of_its_own(wired: Wired) -> None:
    """Two ways side by side, each through its own cavity of the sill plug."""
    text = """
inline: {C204: sill}
grounds: {G1: {place: floor, metal: bare}}
units: {amp: {kind: amplifier, draws: 20 A, wakes: signal}}
runs:
  - battery.+ > 1 ft 8 AWG > fuse 50 A > 9 ft 8 AWG > C204.1 > 1 ft 8 AWG > amp.B+
  - battery.+ > 1 ft 8 AWG > fuse 40 A > 9 ft 8 AWG > C204.2 > 1 ft 8 AWG > amp.B+
  - amp.GND > 1 ft 8 AWG > gnd.G1
"""
    assert _names(wired, text) == [
        ("battery +", "fuse 50"), ("fuse 50", "amp"), ("battery +", "fuse 40"), ("fuse 40", "amp"), ("amp", "G1"),
    ]  # fmt: skip


def test_a_second_battery_hangs_on_the_first_with_a_fuse_at_both_ends(wired: Wired) -> None:
    text = """
grounds: {G1: {place: floor, metal: bare}}
units:
  rear: {kind: battery}
  amp: {kind: amplifier, draws: 20 A, wakes: signal}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 100 A > 15 ft 4 AWG > fuse 80 A > 1 ft 4 AWG > rear.+
  - rear.- > 18 in 4 AWG > gnd.G1
  - rear.+ > 1 ft 8 AWG > fuse 50 A > 3 ft 8 AWG > amp.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
"""
    assert _names(wired, text) == [
        ("battery +", "fuse 100"), ("fuse 100", "fuse 80"), ("fuse 80", "rear"), ("rear", "fuse 50"),
        ("fuse 50", "amp"), ("rear", "G1"), ("amp", "G1"),
    ]  # fmt: skip
