"""The supply of small jobs against hand sums. Ohm per metre at 20 °C: 4 AWG 0.81515e-3, 8 AWG 2.0609e-3 (the table of
the American sizes in tests/electrical); amplifier current = power / efficiency / 13.8 V.
"""

from __future__ import annotations

import pytest

from harness.graph.supply import Supply, feed_terminals, supply
from harness.graph.wiring import Wiring
from harness.planning.supply_table import supply_table
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

FT = 0.3048
AWG4, AWG8 = 0.81515e-3, 2.0609e-3

HEAD = """
ringout: 1
title: Supply
car: {name: Hazel van, steering: left}
"""
GROUNDS = "grounds: {G1: {place: floor, metal: bare}}\n"


def wiring_of(text: str, grounds: str = GROUNDS) -> Wiring:
    troubles = Troubles()
    job = read_job_text(HEAD.lstrip() + grounds + text, "supply.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def solved(text: str) -> Supply:
    made = supply(wiring_of(text))
    assert made is not None
    return made


TWO = """
units:
  dsp: {kind: processor amplifier, outputs: {out1..4: 75 W @ 4 ohm}, class: D, efficiency: 80 %, wakes: signal}
  bass: {kind: amplifier, outputs: {out1: 300 W @ 4 ohm}, class: D, wakes: signal}
  block: {kind: fuse block, ways: 2}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 100 A > 15 ft 4 AWG > block.in
  - block.1 > fuse 40 A > 3 ft 8 AWG > dsp.B+
  - block.2 > fuse 50 A > 9 ft 8 AWG > bass.B+
  - dsp.GND > 18 in 8 AWG > gnd.G1
  - bass.GND > 18 in 8 AWG > gnd.G1
"""


def test_two_amplifiers_share_the_main_cable() -> None:
    """300/0.8/13.8 = 27.17 A and 300/0.75/13.8 = 28.99 A; the shared 16 ft carry both."""
    fed = {each.unit: each for each in solved(TWO).fed}
    dsp, bass = 300 / 0.8 / 13.8, 300 / 0.75 / 13.8
    assert fed["dsp"].current_a == pytest.approx(dsp, rel=1e-12)
    assert fed["bass"].current_a == pytest.approx(bass, rel=1e-12)
    shared = (dsp + bass) * 16 * FT * AWG4
    assert fed["dsp"].feed_drop_v == pytest.approx(shared + dsp * 3 * FT * AWG8, rel=1e-3)
    assert fed["bass"].feed_drop_v == pytest.approx(shared + bass * 9 * FT * AWG8, rel=1e-3)
    assert fed["bass"].ground_drop_v == pytest.approx(bass * 1.5 * FT * AWG8, rel=1e-3)


# 500 W at 85 % from 12 V are 49 A (a trade page's worked example, seen 2026).
def test_the_worked_example_of_500_watts() -> None:
    made = solved(
        "limits: {supply: 12 V}\nunits: {amp: {kind: amplifier, outputs: {out1: 500 W @ 4 ohm}, efficiency: 85 %}}\n"
        "runs: [battery.+ > 1 ft 4 AWG > fuse 80 A > 3 ft 4 AWG > amp.B+, amp.GND > 1 ft 4 AWG > gnd.G1]\n"
    )
    assert made.fed[0].current_a == pytest.approx(49.0, abs=0.05)


def test_a_power_that_stays_draws_more_where_volts_are_lost() -> None:
    """P = V I with V = 13.8 - I R: for 400 W over 20 ft of 8 AWG there (R = 12.563 mohm), I = 29.78 A."""
    made = solved(
        "units: {amp: {kind: amplifier, draws: 400 W}}\n"
        "runs: [battery.+ > 1 ft 8 AWG > fuse 40 A > 19 ft 8 AWG > amp.B+, amp.GND > 0.01 mm 4/0 AWG > gnd.G1]\n"
    )
    ohm = 20 * FT * AWG8
    root = (13.8 - (13.8**2 - 4 * 400 * ohm) ** 0.5) / (2 * ohm)
    assert made.fed[0].current_a == pytest.approx(root, rel=1e-3)


def test_warm_copper_and_copper_clad() -> None:
    """At 60 °C 1 + 40 x 0.00393 = 1.1572 times; copper-clad 16.06/10.37 times."""
    text = (
        "limits: {{temperature: {} C}}\nunits: {{amp: {{kind: amplifier, draws: 30 A}}}}\n"
        "runs: [battery.+ > 1 ft 8 AWG{m} > fuse 40 A > 9 ft 8 AWG{m} > amp.B+, amp.GND > 1 ft 8 AWG > gnd.G1]\n"
    )
    cold = solved(text.format(20, m="")).fed[0].feed_drop_v
    assert cold == pytest.approx(30 * 10 * FT * AWG8, rel=1e-3)
    assert solved(text.format(60, m="")).fed[0].feed_drop_v == pytest.approx(cold * 1.1572, rel=1e-4)
    assert solved(text.format(20, m=" CCA")).fed[0].feed_drop_v == pytest.approx(cold * 16.06 / 10.37, rel=1e-4)


def test_a_shield_is_no_ground_cable() -> None:
    """The two units' signal grounds meet over an RCA: each ground cable still carries its own unit's current."""
    text = """
units:
  dsp: {kind: processor, outputs: {rca1: 4 V grounded}, draws: 5 A}
  bass: {kind: amplifier, inputs: {in1: 0.2..4 V grounded}, draws: 30 A}
  block: {kind: fuse block, ways: 2, fuses: {1: 10 A, 2: 40 A}}
runs:
  - battery.+ > 1 ft 8 AWG > fuse 50 A > 3 ft 8 AWG > block.in
  - block.1 > 1 ft 8 AWG > dsp.B+
  - block.2 > 1 ft 8 AWG > bass.B+
  - dsp.GND > 18 in 8 AWG > gnd.G1
  - bass.GND > 18 in 8 AWG > gnd.G1
  - dsp.rca1 > 5 m rca > bass.in1
"""
    current = solved(text).current_a
    assert current["dsp.GND", "gnd.G1"] == pytest.approx(5.0, rel=1e-4)
    assert current["bass.GND", "gnd.G1"] == pytest.approx(30.0, rel=1e-4)


def test_nothing_laid_is_nothing_to_solve() -> None:
    assert supply(wiring_of("units: {amp: {kind: amplifier, draws: 30 A}}\n")) is None


def test_the_table_has_each_fuse_with_what_its_cable_takes() -> None:
    """8 AWG takes 50 A and 4 AWG 125 A (a car-audio guide's page, seen 2026)."""
    table = supply_table(wiring_of(TWO))
    assert {(line.rating_a, line.limit_a) for line in table.fuses} == {(100.0, 125.0), (40.0, 50.0), (50.0, 50.0)}


@pytest.mark.parametrize(
    ("grounds", "terminal"),
    [
        # its first ground that is on ground; where none is the first; a unit that has none is read against the body
        (("amp.GND > 1 ft 8 AWG > gnd.G1",), "amp.GND"),
        (("amp.31 > 1 ft 8 AWG > gnd.G1",), "amp.31"),
        (("amp.GND > 1 ft 8 AWG > gnd.G1", "amp.31 > 1 ft 8 AWG > gnd.G1"), "amp.GND"),
        ((), "amp.GND"),
    ],
)
def test_by_which_ground_a_unit_draws(grounds: tuple[str, ...], terminal: str) -> None:
    rows = "".join(f"  - {each}\n" for each in ("battery.+ > fuse 40 A > 1 ft 8 AWG > amp.B+", *grounds))
    wiring = wiring_of(
        "units:\n  two: {kind: amplifier, draws: 2 A}\n"
        f"  amp: {{kind: amplifier, draws: 20 A, terminals: [GND, 31]}}\nruns:\n{rows}"
    )
    assert feed_terminals(wiring) == {"amp": ("amp.B+", terminal)}, "two hangs on no laid feed"
