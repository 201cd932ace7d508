"""Loads against handbook values, hand sums, dense sweeps written here, networkx and ngspice."""

from __future__ import annotations

import math
import os
import random
import shutil
import subprocess
from itertools import pairwise
from pathlib import Path
from typing import Any

import networkx as nx
import pytest
import yaml

from harness.electrical.impedance import (
    Branch,
    bridge_least_ohm,
    bridge_power_w,
    delivered,
    each_half_ohm,
    impedance,
    least_modulus,
    standard_least_ohm,
    volts,
)

CASES = yaml.safe_load((Path(__file__).parents[1] / "worked_examples" / "loads.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_published_networks(case: dict[str, Any]) -> None:
    branches = [Branch(a, b, float(ohm)) for a, b, ohm in case["branches"]]
    for hz in (0.0, 1000.0):
        made = impedance(branches, *case["between"], hz)
        assert made.real == pytest.approx(case["ohm"], rel=case["share"])
        assert made.imag == 0


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_foster_sums_to_the_nodes_less_one(case: dict[str, Any]) -> None:
    """Foster 1949: the sum over all branches of effective resistance over own resistance is the nodes less one."""
    branches = [Branch(a, b, float(ohm)) for a, b, ohm in case["branches"]]
    nodes = {end for branch in branches for end in branch[:2]}
    total = sum(impedance(branches, branch.a, branch.b, 50.0).real / branch.ohm for branch in branches)
    assert total == pytest.approx(len(nodes) - 1, rel=1e-12)


@pytest.mark.parametrize("many", range(2, 7))
def test_complete_networks(many: int) -> None:
    """Any pair of a complete network of n nodes and unit resistors: 2/n (graph theory)."""
    branches = [Branch(f"n{a}", f"n{b}", 1.0) for a in range(many) for b in range(a)]
    assert impedance(branches, "n0", "n1", 100.0).real == pytest.approx(2 / many, rel=1e-12)


def test_currents_of_a_teaching_sheet() -> None:
    """8 ohm before (5 and 15 in line, beside 30), 120 V: 6 A, 48 V on the 8 ohm, 3.6 A and so 18 V on the 5 ohm."""
    branches = [Branch("top", "x", 8.0), Branch("x", "y", 5.0), Branch("y", "0", 15.0), Branch("x", "0", 30.0)]
    here = {node: 120 * value.real for node, value in volts(branches, "top", "0", 100.0).items()}
    assert here["top"] - here["x"] == pytest.approx(48)
    assert here["x"] - here["y"] == pytest.approx(18)
    assert (here["top"] - here["x"]) / 8 == pytest.approx(6)


def drawn(number: int, *, capacitors: float = 0.0, coils: float = 0.0) -> tuple[list[Branch], str, str]:
    """A connected random network and two of its nodes."""
    draw = random.Random(number)
    nodes = [f"n{at}" for at in range(draw.randint(2, 8))]
    ends = [(draw.choice(nodes[:at]), nodes[at]) for at in range(1, len(nodes))]
    ends += [(one, other) for one, other in (draw.sample(nodes, 2) for _ in range(draw.randint(0, 6)))]
    branches = []
    for a, b in ends:
        farad = 10 ** draw.uniform(-6, -3.5) if draw.random() < capacitors else None
        henry = 10 ** draw.uniform(-4, -2.5) if draw.random() < coils else None
        branches.append(Branch(a, b, draw.uniform(0.1, 16), farad, henry))
    a, b = draw.sample(nodes, 2)
    return branches, a, b


@pytest.mark.parametrize("number", range(60))
def test_resistances_against_networkx(number: int) -> None:
    branches, a, b = drawn(number)
    graph = nx.MultiGraph()
    graph.add_edges_from((each.a, each.b, {"ohm": each.ohm}) for each in branches)
    expected = nx.resistance_distance(graph, a, b, weight="ohm")
    assert impedance(branches, a, b, 100.0).real == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("coils", [0.0, 0.4], ids=["RC", "RLC"])
def test_against_ngspice(coils: float, tmp_path: Path) -> None:
    """50 networks at ten frequencies from 20 Hz to 20 kHz: 1 A into one node, the volts there are the impedance."""
    program = shutil.which("ngspice")
    if program is None and not os.environ.get("CI"):
        pytest.skip("ngspice is not installed; CI installs it")
    assert program is not None, "CI must install ngspice: apt-get install ngspice"
    nets = [drawn(1000 + number, capacitors=0.5, coils=coils) for number in range(50)]
    lines = ["networks of tests/electrical"]
    for number, (branches, a, b) in enumerate(nets):
        for at, each in enumerate(branches):
            ends = ["0" if end == b else f"m{number}{end}" for end in (each.a, each.b)]
            inner = [f"m{number}r{at}", f"m{number}l{at}"]
            lines += [
                f"R{number}_{at} {ends[0]} {inner[0]} {each.ohm:.17g}",
                f"C{number}_{at} {inner[0]} {inner[1]} {each.farad:.17g}" if each.farad is not None
                else f"V{number}_{at} {inner[0]} {inner[1]} 0",
                f"L{number}_{at} {inner[1]} {ends[1]} {each.henry:.17g}" if each.henry is not None
                else f"VL{number}_{at} {inner[1]} {ends[1]} 0",
            ]  # fmt: skip
        lines.append(f"I{number} 0 m{number}{a} DC 0 AC 1")
    told = tmp_path / "told.txt"
    wanted = " ".join(f"v(m{number}{a})" for number, (_, a, _) in enumerate(nets))
    # rshunt: a node behind capacitors only has no place at 0 Hz, which ngspice visits first
    lines += [".options rshunt=1e12 noacct", ".control", "set numdgt=12", "set wr_singlescale", "ac dec 3 20 20k"]
    lines += [f"wrdata {told} {wanted}", "quit", ".endc", ".end"]
    deck = tmp_path / "deck.cir"
    deck.write_text("\n".join(lines) + "\n", encoding="utf-8")
    run = subprocess.run([program, "-b", str(deck)], capture_output=True, text=True, check=False, timeout=120)
    assert told.exists(), run.stderr[-500:]
    rows = [[float(word) for word in line.split()] for line in told.read_text(encoding="utf-8").splitlines()]
    assert len(rows) == 10
    for row in rows:
        assert len(row) == 1 + 2 * len(nets)
        for number, (branches, a, b) in enumerate(nets):
            expected = complex(row[1 + 2 * number], row[2 + 2 * number])
            made = impedance(branches, a, b, row[0])
            assert abs(made - expected) <= 1e-6 * abs(expected), (number, row[0])


def test_a_tweeter_behind_its_capacitor() -> None:
    """10 uF at 4 kHz: 1 / (2 pi x 4000 x 10e-6) = 3.979 ohm; with 4 ohm in line |Z| = sqrt(16 + 15.83) = 5.642."""
    made = impedance([Branch("+", "-", 4.0, 10e-6)], "+", "-", 4000.0)
    assert made.real == pytest.approx(4.0)
    assert made.imag == pytest.approx(-3.97887, rel=1e-5)
    assert abs(made) == pytest.approx(5.6420, rel=1e-4)


def test_a_woofer_behind_its_coil() -> None:
    """1 mH at 1 kHz: 2 pi = 6.2832 ohm; with 4 ohm in line |Z| = sqrt(16 + 39.478) = 7.4484."""
    made = impedance([Branch("+", "-", 4.0, None, 1e-3)], "+", "-", 1000.0)
    assert made == pytest.approx(complex(4, 6.283185), rel=1e-6)
    assert abs(made) == pytest.approx(7.4484, rel=1e-4)


def test_woofer_and_tweeter_together() -> None:
    """At 20 kHz 4 ohm beside 4 - j0.7958: 4 x 4.0784 / 8.0395 = 2.0292; at 20 Hz the woofer is alone."""
    pair = [Branch("+", "-", 4.0), Branch("+", "-", 4.0, 10e-6)]
    assert abs(impedance(pair, "+", "-", 20.0)) == pytest.approx(4.0, rel=1e-3)
    least = least_modulus(pair, "+", "-", 20.0, 20000.0)
    assert least.hz == 20000.0
    assert least.ohm == pytest.approx(2.0292, rel=1e-4)


@pytest.mark.parametrize("number", range(30))
@pytest.mark.parametrize(("capacitors", "coils"), [(0.6, 0.0), (0.0, 0.6), (0.5, 0.5)], ids=["RC", "RL", "RLC"])
def test_the_least_against_a_dense_sweep(number: int, capacitors: float, coils: float) -> None:
    """No one of 700 points of the band is lower than what is told, and the network really is so low there. Without
    resonances the sweep, ends and all, comes within a thousandth.
    """
    branches, a, b = drawn(number, capacitors=capacitors, coils=coils)
    low, high = 30.0, 15_000.0
    sweep = min(abs(impedance(branches, a, b, low * (high / low) ** (at / 699))) for at in range(700))
    made = least_modulus(branches, a, b, low, high)
    assert made.ohm <= sweep * (1 + 1e-9)
    assert abs(impedance(branches, a, b, made.hz)) == pytest.approx(made.ohm, rel=1e-12)
    assert low * (1 - 1e-12) <= made.hz <= high * (1 + 1e-12)
    if not (capacitors and coils):
        assert made.ohm == pytest.approx(sweep, rel=1e-3)


@pytest.mark.parametrize("number", range(20))
def test_resistances_and_capacitors_only_fall(number: int) -> None:
    """What `least_modulus` builds on: the modulus never rises with frequency; with coils it never falls."""
    for kinds, sign in (({"capacitors": 0.6}, 1), ({"coils": 0.6}, -1)):
        branches, a, b = drawn(500 + number, **kinds)
        moduli = [abs(impedance(branches, a, b, 10 * 1.1**at)) for at in range(90)]
        assert all(sign * (one - other) >= -1e-9 * one for one, other in pairwise(moduli))


def test_a_series_resonance_is_found_to_its_bottom() -> None:
    """1 mH, 10 uF and 0.01 ohm beside 8 ohm: 1/(2 pi sqrt(1e-8)) = 1591.549 Hz, 8 x 0.01/8.01 = 9.9875 mohm."""
    trap = [Branch("+", "-", 8.0), Branch("+", "-", 0.01, 10e-6, 1e-3)]
    made = least_modulus(trap, "+", "-", 20.0, 20000.0)
    assert made.hz == pytest.approx(1591.549, rel=1e-5)
    assert made.ohm == pytest.approx(0.0099875, rel=1e-4)


def test_a_band_of_one_frequency_and_resistances_alone() -> None:
    """4 ohm beside 4 ohm are 2, told at the middle of the band: sqrt(20 x 20000) = 632.5 Hz."""
    pair = [Branch("+", "-", 4.0), Branch("+", "-", 4.0)]
    made = least_modulus(pair, "+", "-", 20.0, 20000.0)
    assert (made.ohm, made.hz) == (pytest.approx(2.0), pytest.approx(632.456, rel=1e-5))
    assert least_modulus([Branch("+", "-", 4.0, 10e-6)], "+", "-", 4000.0, 4000.0).ohm == pytest.approx(5.642, rel=1e-4)


# 22 AWG, 16.14 ohm per 1000 ft (ASTM B258), 15 ft there and back: 0.4842 ohm, 19.49 % before 2 ohm, printed as 19.5 %.
# 0.48 ohm is 19.35 % of the volts; the power falls by 1 - (2/2.48)² = 34.96 %; 0.48/2.48 of the output's watts is heat.
@pytest.mark.parametrize(
    ("wire", "of_volts", "of_power"), [(0.48, 0.1935, 0.3496), (0.4842, 0.1949, 0.3518), (2.0, 0.5, 0.75)]
)
def test_what_a_thin_wire_takes(wire: float, of_volts: float, of_power: float) -> None:
    wires = [Branch("+", "a", wire / 2), Branch("b", "-", wire / 2)]
    made = delivered({"SUB": Branch("a", "b", 2.0)}, wires, "+", "-", 1000.0, math.sqrt(100 * 2))
    (sub,) = made.speakers
    assert sub.volts_lost == pytest.approx(of_volts, abs=6e-5)
    assert sub.power_lost == pytest.approx(of_power, abs=6e-5)
    # 100 W at 2 ohm are 14.142 V; P = (V x 2/(2 + wire))²/2
    assert sub.power_w == pytest.approx(100 * (2 / (2 + wire)) ** 2)
    assert sub.volts_v == pytest.approx(math.sqrt(200) * 2 / (2 + wire))
    assert made.wire_w / made.given_w == pytest.approx(wire / (2 + wire))


def test_a_shared_wire_and_a_tweeter() -> None:
    """10 V on 1 ohm of wire, then 4 ohm beside 4 ohm: 2 of 3 ohm, 6.667 V and 11.11 W each, a third of the volts
    lost. With 10 uF in the way of one at 3978.87 Hz (4 ohm): 4 beside 4 - j4 is 2.4 - j0.8 (hand sum), so that
    |2.4 - j0.8|/|3.4 - j0.8| = 0.72429 of the volts arrive, 13.115 W and, half of the square of volts on 4 of
    |4 - j4|, 6.557 W.
    """
    wires = [Branch("+", "x", 0.6), Branch("y", "-", 0.4)]
    woofer = Branch("x", "y", 4.0)
    plain = delivered({"WF": woofer, "TW": Branch("x", "y", 4.0)}, wires, "+", "-", 1000.0, 10.0)
    for each in plain.speakers:
        assert (each.volts_v, each.power_w, each.volts_lost) == pytest.approx((20 / 3, 100 / 9, 1 / 3))
    made = delivered({"WF": woofer, "TW": Branch("x", "y", 4.0, 10e-6)}, wires, "+", "-", 3978.873577, 10.0)
    assert [each.name for each in made.speakers] == ["WF", "TW"]
    assert [each.volts_lost for each in made.speakers] == pytest.approx([1 - 0.72429] * 2, rel=1e-4)
    assert [each.power_w for each in made.speakers] == pytest.approx([13.115, 6.557], rel=1e-4)


@pytest.mark.parametrize("number", range(30))
def test_watts_given_are_watts_taken(number: int) -> None:
    """A balance: the real part of V²/Z, conjugate, is what all resistances take. Z by hand: 0.3 + 0.2 ohm of wire
    before the network.
    """
    branches, a, b = drawn(number, capacitors=0.4, coils=0.3)
    wires = [Branch("+", a, 0.3), Branch(b, "-", 0.2)]
    speakers = {f"S{at}": branch for at, branch in enumerate(branches[::2])}
    made = delivered(speakers, wires, "+", "-", 700.0, 10.0, branches[1::2])
    current = 10 / (0.5 + impedance(branches, a, b, 700.0))
    assert made.given_w == pytest.approx((10 * current.conjugate()).real, rel=1e-9)
    assert made.wire_w == pytest.approx(abs(current) ** 2 * 0.5, rel=1e-9)
    assert made.wire_w + sum(each.power_w for each in made.speakers) <= made.given_w * (1 + 1e-9)
    # without the wire the network has all 10 V, so that every speaker loses the same share
    left = abs(current * impedance(branches, a, b, 700.0)) / 10
    for each in made.speakers:
        silent = each.volts_v < 1e-9  # it hangs by one wire
        assert each.volts_lost == pytest.approx(0 if silent else 1 - left, abs=1e-9)
        assert each.power_lost == pytest.approx(0 if silent else 1 - left**2, abs=1e-9)


def test_wire_of_no_resistance_joins() -> None:
    """0 ohm in line changes nothing; 0 ohm across leaves 0 ohm. A speaker out of reach gets nothing and loses none."""
    line = [Branch("+", "x", 0.0), Branch("x", "y", 4.0), Branch("y", "z", 0.0), Branch("z", "-", 0.0)]
    assert impedance(line, "+", "-", 100.0) == 4
    assert volts(line, "+", "-", 100.0)["x"] == 1
    assert volts(line, "+", "-", 100.0)["y"] == 0
    assert impedance([*line, Branch("+", "z", 0.0)], "+", "-", 100.0) == 0
    with pytest.raises(ValueError, match="are one"):
        volts([*line, Branch("+", "z", 0.0)], "+", "-", 100.0)
    made = delivered({"far": Branch("p", "q", 4.0)}, line[:1], "+", "-", 100.0, 10.0, line[1:])
    assert made.speakers[0] == ("far", 0, 0, 0, 0)
    assert made.given_w == pytest.approx(25)


def test_a_coil_or_a_capacitor_without_resistance_is_something() -> None:
    """10 uF at 1 kHz: 15.915 ohm; 1 mH: 6.2832 ohm; at 0.5 Hz 10 uF are 31.831 kohm. 0 H is no coil."""
    assert impedance([Branch("+", "-", 0.0, 10e-6)], "+", "-", 1000.0) == pytest.approx(-15.9155j, rel=1e-4)
    assert impedance([Branch("+", "-", 0.0, None, 1e-3)], "+", "-", 1000.0) == pytest.approx(6.28319j, rel=1e-4)
    assert impedance([Branch("+", "-", 0.0, 10e-6)], "+", "-", 0.5) == pytest.approx(-31831j, rel=1e-4)
    assert impedance([Branch("+", "-", 0.0, None, 0.0)], "+", "-", 1000.0) == 0


def test_what_is_out_of_the_way_does_not_matter() -> None:
    """A coil and a capacitor of 1 H and 1 F resonate at 1/(2 pi) Hz: a short there, so without resistance no answer
    (as `volts` says), unless both its ends are one or nothing reaches it. 2 ohm and 4 ohm in line give 6.
    """
    hz = 1 / (2 * math.pi)
    line = [Branch("+", "x", 2.0), Branch("x", "-", 4.0)]
    trap = {"ohm": 0.0, "farad": 1.0, "henry": 1.0}
    for ends in (("x", "x"), ("u", "v")):
        assert impedance([Branch(*ends, **trap), *line], "+", "-", hz) == pytest.approx(6)
    with pytest.raises(ZeroDivisionError):
        impedance([Branch("+", "x", **trap), *line], "+", "-", hz)


def test_what_hangs_on_minus_alone_takes_no_watts() -> None:
    """Plus is open: nobody gets anything, whichever way round a speaker is written. 10 V on 4 ohm take 25 W."""
    far = {"one": Branch("-", "u", 4.0), "other": Branch("v", "-", 4.0)}
    made = delivered(far, [], "+", "-", 100.0, 10.0, [Branch("+", "x", 1.0)])
    assert [each[1:3] for each in made.speakers] == [(0, 0), (0, 0)]
    beside = delivered(far, [], "+", "-", 100.0, 10.0, [Branch("+", "-", 4.0)])
    assert beside.given_w == pytest.approx(25)


# 1 mH and 10 uF resonate at 1591.549 Hz (1/(2 pi sqrt(1e-8))): less than a step of 1.5 % inside either end of a band.
@pytest.mark.parametrize(("low", "high"), [(1580.0, 20_000.0), (20.0, 1603.0), (1580.0, 1603.0), (1590.0, 1592.0)])
def test_a_resonance_at_the_very_end_of_a_band(low: float, high: float) -> None:
    trap = [Branch("+", "-", 8.0), Branch("+", "-", 0.01, 10e-6, 1e-3)]
    made = least_modulus(trap, "+", "-", low, high)
    assert made.hz == pytest.approx(1591.549, rel=1e-5)
    assert made.ohm == pytest.approx(0.0099875, rel=1e-4)


def test_a_node_between_two_blocked_capacitors() -> None:
    """At 0 Hz: 1 V falls on 4 ohm alone, and what only capacitors hold counts as 0 V; the rest goes on being solved."""
    branches = [
        Branch("+", "a", 1.0, 10e-6), Branch("a", "-", 1.0, 10e-6), Branch("+", "b", 3.0), Branch("b", "-", 1.0),
    ]  # fmt: skip
    assert volts(branches, "+", "-", 0.0) == {"+": 1, "-": 0, "a": 0, "b": pytest.approx(0.25)}
    assert impedance(branches, "+", "-", 0.0) == pytest.approx(4)


def test_a_node_behind_a_blocked_capacitor_hides_no_other() -> None:
    """At 0 Hz nothing flows to a; over 1 + 1 + 2 ohm in line lie 3/4 and 2/4 of the volts."""
    line = [Branch("p", "b", 1.0), Branch("b", "c", 1.0), Branch("c", "m", 2.0), Branch("b", "a", 0.0, farad=1e-5)]
    here = volts(line, "p", "m", 0.0)
    assert (here["a"], here["b"], here["c"]) == pytest.approx((0.0, 0.75, 0.5))


def test_what_begins_and_ends_at_one_node_changes_nothing() -> None:
    """3 ohm beside 6 ohm are 2 ohm, whatever hangs from a node to itself, also by a wire of nothing beside it."""
    pair = [Branch("p", "x", 0.0), Branch("x", "m", 3.0), Branch("x", "m", 6.0)]
    for loop in (Branch("p", "x", 5.0), Branch("x", "x", 5.0), Branch("m", "m", 5.0)):
        assert impedance([*pair, loop], "p", "m", 100.0) == pytest.approx(2.0)
    assert impedance([*pair[1:], Branch("x", "x", 5.0)], "x", "m", 100.0) == pytest.approx(2.0)


def test_nothing_between_is_infinite() -> None:
    assert math.isinf(abs(impedance([Branch("+", "x", 4.0)], "+", "-", 100.0)))
    assert math.isinf(abs(impedance([Branch("+", "-", 4.0, 10e-6)], "+", "-", 0.0))), "a capacitor blocks 0 Hz"


def test_the_standard_s_80_per_cent() -> None:
    """IEC 60268-5: 8 ohm may fall to 6.4, 4 ohm to 3.2."""
    assert standard_least_ohm(8) == pytest.approx(6.4)
    assert standard_least_ohm(4) == pytest.approx(3.2)


def test_bridges() -> None:
    """Each half sees half of the load. 2 ohm least an output make 4 bridged; 180 W at 2 ohm make 360 W at 4."""
    assert each_half_ohm(4) == 2
    assert each_half_ohm(2) == 1
    assert bridge_least_ohm(2) == 4
    ratings_w = {4.0: 110, 2.0: 180}
    assert bridge_power_w(ratings_w[each_half_ohm(4.0)]) == 360
