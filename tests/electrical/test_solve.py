"""The DC solve: hand sums, closed forms, balances, and two referees written by others."""

from __future__ import annotations

import math
import os
import random
import re
import shutil
import subprocess
from pathlib import Path

import networkx as nx
import pytest

from harness.electrical.solve import RESIDUAL, Load, Resistor, Solution, Source, solve
from tests.electrical.networks import Net, network

COUNT = 500


def solved(net: Net) -> Solution:
    return solve(
        [Resistor(*wire) for wire in net.wires],
        [Source(*source) for source in net.sources],
        [Load(a, b, amperes) for a, b, amperes in net.loads],
    )


def test_two_wires_and_a_load() -> None:
    """10 A over 0.1 ohm there and 0.1 ohm back from 12 V: 11 V and 1 V."""
    made = solve([Resistor("p", "x", 0.1), Resistor("y", "m", 0.1)], [Source("p", "m", 12.0)], [Load("x", "y", 10.0)])
    assert made.volts["x"] == pytest.approx(11.0, rel=1e-14)
    assert made.volts["y"] == pytest.approx(1.0, rel=1e-14)
    assert made.sources_a == pytest.approx([10.0])


def test_shared_return() -> None:
    """Two loads of 20 A and 30 A share 2 mohm of return: 50 A x 2 mohm = 0.1 V; alone behind it 1 mohm each."""
    wires = [Resistor("p", "a", 1e-3), Resistor("p", "b", 1e-3), Resistor("g", "m", 2e-3)]
    wires += [Resistor("ga", "g", 1e-3), Resistor("gb", "g", 1e-3)]
    made = solve(wires, [Source("p", "m", 13.8)], [Load("a", "ga", 20.0), Load("b", "gb", 30.0)])
    assert made.volts["g"] == pytest.approx(0.1, rel=1e-12)
    assert made.volts["ga"] == pytest.approx(0.12, rel=1e-12)
    assert made.volts["gb"] == pytest.approx(0.13, rel=1e-12)


def test_two_batteries_share_a_load_by_their_ways() -> None:
    """13 V over 10 mohm and 12 V over 20 mohm meet at 30 A: (13/10 + 12/20 - 0.03) / (1/10 + 1/20) V in mohm."""
    wires = [Resistor("p", "x", 0.010), Resistor("q", "x", 0.020)]
    made = solve(wires, [Source("p", "m", 13.0), Source("q", "m", 12.0)], [Load("x", "m", 30.0)])
    assert made.volts["x"] == pytest.approx((1300 + 600 - 30) / 150, rel=1e-12)


def test_two_like_resistors_between_two_posts() -> None:
    """A divider of 2 ohm and 2 ohm: half of 12 V, over 1 S in all at its node; 12 V / 4 ohm = 3 A in both."""
    made = solve([Resistor("p", "x", 2.0), Resistor("x", "m", 2.0)], [Source("p", "m", 12.0)])
    assert made.volts["x"] == pytest.approx(6.0, rel=1e-14)
    assert made.resistors_a == pytest.approx([3.0, 3.0])


def test_constant_power_below_a_volt() -> None:
    """(E + sqrt(E² - 4 P R)) / 2 with 0.8 V, 1 W and 0.1 ohm: (0.8 + sqrt(0.24)) / 2 = 0.6449 V."""
    made = solve([Resistor("p", "x", 0.1)], [Source("p", "m", 0.8)], [Load("x", "m", power_w=1.0)])
    assert made.volts["x"] == pytest.approx((0.8 + math.sqrt(0.24)) / 2, rel=1e-12)
    assert not made.collapsed


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9, 0.999, 0.999999])
def test_constant_power_against_its_closed_form(share: float) -> None:
    """V = (E + sqrt(E² - 4 P R)) / 2 with E 12 V and R 0.2 ohm; the greatest power is E²/4R = 180 W."""
    watts = 180 * share
    made = solve(
        [Resistor("p", "x", 0.1), Resistor("y", "m", 0.1)], [Source("p", "m", 12.0)], [Load("x", "y", power_w=watts)]
    )
    assert not made.collapsed
    expected = (12 + math.sqrt(144 - 0.8 * watts)) / 2
    assert made.volts["x"] - made.volts["y"] == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("watts", [180.001, 181.0, 250.0, 2000.0])
def test_more_power_than_can_arrive_is_a_collapse_and_no_answer(watts: float) -> None:
    made = solve(
        [Resistor("p", "x", 0.1), Resistor("y", "m", 0.1)], [Source("p", "m", 12.0)], [Load("x", "y", power_w=watts)]
    )
    assert made.collapsed == (0,)


def test_a_constant_current_that_would_need_less_than_nothing() -> None:
    """150 A over 0.1 ohm lose 15 of 12 V."""
    made = solve([Resistor("p", "x", 0.1)], [Source("p", "m", 12.0)], [Load("x", "m", 150.0)])
    assert made.collapsed == (0,)


def test_a_load_on_nothing_draws_nothing() -> None:
    made = solve([Resistor("p", "x", 0.1)], [Source("p", "m", 12.0)], [Load("x", "m", 5.0), Load("lost", "m", 7.0)])
    assert made.floating == (1,)
    assert made.loads_a == (5.0, 0.0)
    assert made.volts["x"] == pytest.approx(11.5)


@pytest.mark.parametrize("number", range(COUNT))
def test_what_flows_in_flows_out(number: int) -> None:
    """Kirchhoff at every node within 1e-9 of the total, and power in = power out + heat in the wires."""
    net = network(number)
    made = solved(net)
    total = sum(amperes for _, _, amperes in net.loads)
    assert made.residual_a <= RESIDUAL * total
    given = sum(
        amperes * source[2] - amperes**2 * source[3]
        for amperes, source in zip(made.sources_a, net.sources, strict=True)
    )
    taken = sum(
        a * (made.volts[load[0]] - made.volts[load[1]]) for a, load in zip(made.loads_a, net.loads, strict=True)
    )
    heat = sum((a or 0.0) ** 2 * wire[2] for a, wire in zip(made.resistors_a, net.wires, strict=True))
    assert given == pytest.approx(taken + heat, rel=1e-9)


@pytest.mark.parametrize("number", range(0, COUNT, 5))
def test_against_the_resistance_distance_of_networkx(number: int) -> None:
    """1 A into one node and out of another of a feed side: the volts between them are networkx's resistance."""
    wires = [wire for wire in network(number).wires if {wire[0][0], wire[1][0]} <= {"p", "f"}]
    graph = nx.MultiGraph()
    graph.add_edges_from((a, b, {"ohm": ohm}) for a, b, ohm in wires)
    a, b = random.Random(number).sample(sorted(graph), 2)
    expected = nx.resistance_distance(graph, a, b, weight="ohm")
    made = solve([Resistor(*wire) for wire in wires], [Source("bench", a, 1e3)], [Load(a, b, 1.0)])
    # the bench supply's minus is `a`: what the load takes there comes back over the net from b
    measured = made.volts[b] - made.volts[a]
    assert measured == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("first", range(0, COUNT, 25))
def test_against_ngspice(first: int, tmp_path: Path) -> None:
    """500 networks, 25 to a deck, each with its own names: every node within a millionth of a volt."""
    program = shutil.which("ngspice")
    if program is None and not os.environ.get("CI"):
        pytest.skip("ngspice is not installed; CI installs it")
    assert program is not None, "CI must install ngspice: apt-get install ngspice"
    nets = {number: network(number) for number in range(first, first + 25)}
    lines = ["networks of tests/electrical"]
    wanted: list[tuple[int, str]] = []
    for number, net in nets.items():
        name = {"minus": "0"}
        nodes = sorted({end for wire in net.wires for end in wire[:2]} | {"plus", "minus"})
        name |= {node: f"n{number}{node}" for node in nodes if node != "minus"}
        wanted += [(number, node) for node in nodes if node != "minus"]
        for at, (a, b, ohm) in enumerate(net.wires):
            lines.append(f"R{number}_{at} {name[a]} {name[b]} {ohm:.17g}")
        for at, (plus, minus, volts, ohm) in enumerate(net.sources):
            inner = f"n{number}inner{at}" if ohm else name[plus]
            lines.append(f"V{number}_{at} {inner} {name[minus]} {volts:.17g}")
            if ohm:
                lines.append(f"RS{number}_{at} {inner} {name[plus]} {ohm:.17g}")
        for at, (a, b, amperes) in enumerate(net.loads):
            lines.append(f"I{number}_{at} {name[a]} {name[b]} {amperes:.17g}")
    lines += [".options reltol=1e-9 abstol=1e-12 vntol=1e-9 gmin=1e-15 noacct", ".control", "set numdgt=12", "op"]
    lines += [f"print v(n{number}{node})" for number, node in wanted]
    lines += ["quit", ".endc", ".end"]
    deck = tmp_path / "deck.cir"
    deck.write_text("\n".join(lines) + "\n", encoding="utf-8")
    told = subprocess.run([program, "-b", str(deck)], capture_output=True, text=True, check=False, timeout=300)
    volts = dict(re.findall(r"v\((n[0-9a-z]+)\) = (\S+)", told.stdout))
    assert len(volts) == len(wanted), told.stderr[-500:]
    for number, net in nets.items():
        made = solved(net)
        for node in {end for wire in net.wires for end in wire[:2]} - {"minus"}:
            assert made.volts[node] == pytest.approx(float(volts[f"n{number}{node}"]), abs=1e-6), (number, node)


def test_what_it_refuses() -> None:
    with pytest.raises(ValueError, match="below 0"):
        solve([Resistor("a", "b", -1.0)], [Source("a", "b", 12.0)])
    with pytest.raises(ValueError, match="needs a source"):
        solve([Resistor("a", "b", 1.0)], [])
    with pytest.raises(ValueError, match="different volts"):
        solve([], [Source("a", "m", 12.0), Source("a", "m", 13.0)])


# Two ways from the plus to x, 0.2 ohm and 0.1 + 0.1 ohm, make 0.1 ohm: a network with a loop. Back over 0.1 ohm.
LOOP = [Resistor("p", "x", 0.2), Resistor("p", "y", 0.1), Resistor("y", "x", 0.1), Resistor("z", "m", 0.1)]


@pytest.mark.parametrize("emf_v", [0.012, 1.2, 12.0])
@pytest.mark.parametrize("share", [0.1, 0.9])
def test_constant_power_in_a_network_with_a_loop(emf_v: float, share: float) -> None:
    """As above, R = 0.2 ohm: the greatest power is E²/0.8 W, and V = (E + sqrt(E² - 0.8 P)) / 2, however small E is."""
    watts = share * emf_v**2 / 0.8
    made = solve(LOOP, [Source("p", "m", emf_v)], [Load("x", "z", power_w=watts)])
    assert not made.collapsed
    assert made.volts["x"] - made.volts["z"] == pytest.approx((emf_v + math.sqrt(emf_v**2 - 0.8 * watts)) / 2, rel=1e-9)


def test_of_two_loads_in_a_loop_the_one_without_volts_has_collapsed() -> None:
    """5 W at x alone arrive; 5 W between x and x can't."""
    made = solve(LOOP, [Source("p", "m", 12.0)], [Load("x", "z", power_w=5.0), Load("x", "x", power_w=5.0)])
    assert made.collapsed == (1,)


def test_a_load_with_both_ends_on_one_node_has_collapsed() -> None:
    """Its feed is joined to the body: 0 V across it, at which no current makes 10 W; with a loop and without."""
    for loop in ((), (Resistor("p", "x", 0.2),)):
        made = solve([Resistor("p", "x", 0.1), *loop], [Source("p", "m", 12.0)], [Load("m", "m", power_w=10.0)])
        assert made.collapsed == (0,)


def test_a_network_without_a_loop_needs_no_elimination(monkeypatch: pytest.MonkeyPatch) -> None:
    """Walked alone: 10 A over 0.1 ohm leave 11 V; of 11 W at 12 V and 0.1 ohm: v² - 12 v + 1.1 = 0 and 11.9076 V."""
    monkeypatch.delattr("harness.electrical.solve._Net._factored")
    for load, volts in ((Load("x", "m", 10.0), 11.0), (Load("x", "m", power_w=11.0), 6 + math.sqrt(36 - 1.1))):
        made = solve([Resistor("p", "x", 0.1)], [Source("p", "m", 12.0)], [load])
        assert made.volts["x"] == pytest.approx(volts, rel=1e-12)
        assert made.collapsed == ()


def test_a_stiff_battery_beside_a_soft_one() -> None:
    """At 12 V the soft one gives (12.5 - 12)/0.1 = 5 A of the load's 8 A, and the stiff one the other 3."""
    sources = [Source("p", "m", 12.0), Source("p", "m", 12.5, 0.1)]
    made = solve([Resistor("p", "x", 0.1)], sources, [Load("x", "m", 8.0)])
    assert made.sources_a == pytest.approx((3.0, 5.0))


def test_a_network_without_a_free_node_misses_nothing() -> None:
    """12 V over 3 ohm: 4 A; the load's 2 A come from the same post."""
    made = solve([Resistor("p", "m", 3.0)], [Source("p", "m", 12.0)], [Load("p", "m", 2.0)])
    assert made.residual_a == 0.0
    assert made.resistors_a == pytest.approx((4.0,))
    assert made.sources_a == pytest.approx((6.0,))
