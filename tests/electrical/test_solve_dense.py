"""The DC solve against numpy: every node and every source an unknown of one dense matrix, as textbooks write it."""

from __future__ import annotations

import random

import networkx as nx
import numpy as np
import pytest

from harness.electrical.solve import Load, Resistor, Solution, Source, solve

TURNS = 400  # of putting a constant power's current back in until its volts stay


class Net:
    """A random feed and return with links of no ohms, soft and stiff batteries, and parts that hang on nothing."""

    def __init__(self, number: int) -> None:
        draw = random.Random(number)
        feeds, returns = ["plus"], ["minus"]
        self.resistors: list[Resistor] = []
        for at in range(draw.randint(2, 9)):
            for side, letter in ((feeds, "f"), (returns, "r")):
                ohm = 0.0 if draw.random() < 0.2 else 10 ** draw.uniform(-3, -1.5)
                ends = (draw.choice(side), f"{letter}{at}")
                self.resistors.append(Resistor(*(ends if draw.random() < 0.5 else ends[::-1]), ohm))
                side.append(f"{letter}{at}")
        if number % 2:
            for _ in range(draw.randint(1, 6)):
                one, other = draw.sample(draw.choice((feeds, returns)), 2)
                self.resistors.append(Resistor(one, other, 0.0 if draw.random() < 0.1 else 10 ** draw.uniform(-3, -1)))
        if number % 3 == 0:  # a fan that leaks straight from feed to return, and a wire beside another
            self.resistors += [Resistor(draw.choice(feeds), draw.choice(returns), 5.0), Resistor("plus", "f0", 0.02)]
        self.sources = [Source("plus", "minus", 13.8, draw.choice((0.0, 0.004)))]
        if number % 5 == 0:
            self.sources.insert(0, Source("second", "minus", 13.2, draw.choice((0.0, 0.01))))
            self.resistors.append(Resistor("second", feeds[-1], 0.015))
        if number % 7 == 0:
            self.resistors += [Resistor("lost", "gone", 0.5), Resistor("gone", "away", 0.0)]
            self.sources.append(Source("lost", "gone", 12.0, 0.1))
        self.loads = []
        for at in range(draw.randint(1, 6)):
            ends = draw.choice(feeds), draw.choice(returns)
            power_w = draw.uniform(5, 60) if (number // 2) % 2 and at % 2 == 0 else 0.0
            self.loads.append(Load(*ends, 0.0 if power_w else draw.uniform(0.1, 6), power_w))
        if number % 7 == 0:
            self.loads.insert(0, Load("lost", "minus", 5.0))
            self.loads.insert(2, Load("plus", "gone", 0.0, 50.0))

    def reached(self) -> set[str]:
        graph = nx.Graph((each.a, each.b) for each in self.resistors)
        graph.add_edges_from((each.plus, each.minus) for each in self.sources)
        return set(nx.node_connected_component(graph, self.sources[0].minus))


def dense(net: Net) -> tuple[dict[str, float], list[float], list[float]]:
    """Volts by node, amperes of the loads and of the sources. Links and stiff batteries carry an unknown current."""
    ends = {end for each in net.resistors for end in each[:2]} | {end for each in net.sources for end in each[:2]}
    nodes = {node: at for at, node in enumerate(sorted(ends))}
    reached = net.reached()
    held = [(each.a, each.b, 0.0) for each in net.resistors if each.ohm == 0]
    held += [(each.plus, each.minus, each.emf_v) for each in net.sources if each.ohm == 0]
    size = len(nodes) + len(held)
    matrix, fed = np.zeros((size + 1, size)), np.zeros(size + 1)
    rows = [(each.a, each.b, each.ohm) for each in net.resistors if each.ohm]
    for a, b, ohm in rows + [(each.plus, each.minus, each.ohm) for each in net.sources if each.ohm]:
        for here, other in ((a, b), (b, a)):
            matrix[nodes[here], nodes[here]] += 1 / ohm
            matrix[nodes[here], nodes[other]] -= 1 / ohm
    for source in net.sources:
        if source.ohm:
            fed[nodes[source.plus]] += source.emf_v / source.ohm
            fed[nodes[source.minus]] -= source.emf_v / source.ohm
    for at, (a, b, volts) in enumerate(held, start=len(nodes)):
        matrix[at, nodes[a]] = matrix[nodes[a], at] = 1
        matrix[at, nodes[b]] = matrix[nodes[b], at] = -1
        fed[at] = volts
    matrix[size, nodes[net.sources[0].minus]] = 1
    inverse = np.linalg.pinv(matrix, rcond=1e-13)
    drawn = [each.current_a or each.power_w / 13.8 for each in net.loads]
    drawn = [a if {load.a, load.b} <= reached else 0.0 for a, load in zip(drawn, net.loads, strict=True)]
    for _ in range(TURNS if any(each.power_w for each in net.loads) else 1):
        into = fed.copy()
        for amperes, load in zip(drawn, net.loads, strict=True):
            into[nodes[load.a]] -= amperes
            into[nodes[load.b]] += amperes
        unknown = inverse @ into
        for at, load in enumerate(net.loads):
            if load.power_w and drawn[at]:
                drawn[at] = load.power_w / float(unknown[nodes[load.a]] - unknown[nodes[load.b]])
    volts_of = {node: float(unknown[at]) for node, at in nodes.items() if node in reached}
    given, stiff = [], len(nodes) + sum(each.ohm == 0 for each in net.resistors)
    for source in net.sources:
        if source.ohm:
            across = volts_of[source.plus] - volts_of[source.minus] if source.plus in reached else source.emf_v
            given.append((source.emf_v - across) / source.ohm)
        else:
            given.append(-float(unknown[stiff]))
            stiff += 1
    return volts_of, drawn, given


@pytest.mark.parametrize("number", range(120))
def test_against_one_dense_matrix(number: int) -> None:
    net = Net(number)
    made = solve(net.resistors, net.sources, net.loads)
    volts, drawn, given = dense(net)
    assert made.collapsed == ()
    assert {node: made.volts[node] for node in volts} == pytest.approx(volts, abs=1e-7)
    assert set(made.volts) == set(volts)
    assert made.loads_a == pytest.approx(drawn, abs=1e-6)
    assert made.sources_a == pytest.approx(given, abs=1e-4)
    floating = {at for at, each in enumerate(net.loads) if not {each.a, each.b} <= set(volts)}
    assert set(made.floating) == floating
    for amperes, wire in zip(made.resistors_a, net.resistors, strict=True):
        if wire.ohm == 0:
            assert amperes is None
        else:
            assert amperes == pytest.approx((volts.get(wire.a, 0) - volts.get(wire.b, 0)) / wire.ohm, abs=1e-4)
    assert made.residual_a <= 1e-9 * (sum(drawn) + 13.8 / 0.004)


def solved(*parts: Resistor | Source | Load) -> Solution:
    return solve(
        [each for each in parts if isinstance(each, Resistor)],
        [each for each in parts if isinstance(each, Source)],
        [each for each in parts if isinstance(each, Load)],
    )


# A triangle: 0.2 ohm beside 0.1 + 0.1 ohm make 0.1; with 0.1 ohm back 0.2. From 12 V the greatest power is
# 144/(4 x 0.2) = 180 W; 179.9 W settle at (12 + sqrt(144 - 0.8 x 179.9))/2 = 6.1414 V.
TRIANGLE = (
    Resistor("p", "q", 0.1), Resistor("q", "x", 0.1), Resistor("p", "x", 0.2), Resistor("y", "m", 0.1),
    Source("p", "m", 12.0),
)  # fmt: skip


def test_a_mesh_near_to_its_collapse_and_beyond() -> None:
    made = solved(*TRIANGLE, Load("x", "y", power_w=179.9))
    assert made.collapsed == ()
    assert made.volts["x"] - made.volts["y"] == pytest.approx(6.1414, abs=1e-4)
    assert made.loads_a == (pytest.approx(179.9 / 6.1414, rel=1e-4),)
    for watts in (180.1, 200.0, 5000.0):
        assert solved(*TRIANGLE, Load("p", "m", power_w=10.0), Load("x", "y", power_w=watts)).collapsed == (1,)


def test_of_several_loads_the_one_that_gets_nothing_is_told() -> None:
    """150 A over 0.1 ohm lose 15 of 12 V, in a mesh as on one wire; the lamp at the battery has its 12 V."""
    made = solved(*TRIANGLE, Load("p", "m", 1.0), Load("x", "m", 150.0))
    assert made.collapsed == (1,)
    assert made.volts["x"] == pytest.approx(-3.0)
    exactly = solved(Resistor("p", "x", 0.125), Source("p", "m", 12.0), Load("x", "m", 96.0))
    assert exactly.collapsed == (0,), "96 A x 0.125 ohm leave exactly 0 V"


def test_wires_that_carry_nothing() -> None:
    """A wire from a node to itself, one beside a link of 0 ohm and one on nothing have 0 A; a link has no current."""
    made = solved(
        Resistor("p", "p", 1.0), Resistor("p", "x", 0.0), Resistor("x", "p", 0.5), Resistor("u", "v", 2.0),
        Resistor("x", "z", 1.0), Source("p", "m", 12.0), Load("z", "m", 2.0),
    )  # fmt: skip
    assert made.resistors_a == (0.0, None, 0.0, 0.0, pytest.approx(2.0))
    assert made.volts == {"p": 12.0, "x": 12.0, "m": 0.0, "z": pytest.approx(10.0)}


def test_stiff_sources_on_one_node_share_evenly() -> None:
    """6 A by two of 12 V: 3 A each; a third in line on top (plus 6 V, 18 V) gives 2 A, and these come through the
    first two, 4 A each.
    """
    rows = (Source("p", "m", 12.0), Source("p", "m", 12.0), Source("t", "p", 6.0), Source("s", "m", 12.0, 0.5))
    made = solved(*rows, Load("p", "m", 6.0), Load("t", "m", 2.0))
    assert made.volts["t"] == 18.0
    assert made.sources_a == pytest.approx((4.0, 4.0, 2.0, 0.0))


def test_a_soft_battery_first() -> None:
    """The first one's minus is 0 V, soft or not: 12 V behind 1 ohm beside 13 V stiff over 1 ohm: 0.5 A flow back."""
    made = solved(Source("q", "m", 12.0, 1.0), Source("p", "m", 13.0), Resistor("p", "q", 1.0))
    assert made.volts == {"m": 0.0, "p": 13.0, "q": pytest.approx(12.5)}
    assert made.sources_a == pytest.approx((-0.5, 0.5))
    assert made.resistors_a == (pytest.approx(0.5),)


def test_a_soft_battery_whose_ends_are_one_gives_nothing() -> None:
    made = solved(Source("p", "m", 12.0), Source("s", "m", 12.0, 0.1), Resistor("s", "m", 0.0), Load("p", "m", 1.0))
    assert made.sources_a == (1.0, 0.0)


def test_a_stiff_battery_apart_is_refused() -> None:
    with pytest.raises(ValueError, match="common minus"):
        solved(Source("p", "m", 12.0), Source("a", "b", 12.0))
    with pytest.raises(ValueError, match="different volts"):
        solved(Source("p", "m", 12.0), Source("a", "m", 12.0), Resistor("a", "m", 0.0))
