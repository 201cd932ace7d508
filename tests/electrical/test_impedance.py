"""Loads against handbook values, hand sums and published tables."""

from __future__ import annotations

import math
import random
from fractions import Fraction

import networkx as nx
import pytest

from harness.electrical.impedance import Branch, impedance, least_modulus, volts
from harness.electrical.rewiring import allowed_wirings, equal_wirings

# Cube of unit resistors (effective resistance, any circuits text): neighbours 7/12, face diagonal 3/4, body 5/6.
CUBE = [
    Branch(f"{a:03b}", f"{a ^ bit:03b}", 1.0) for a in range(8) for bit in (1, 2, 4) if a < a ^ bit
]  # fmt: skip


@pytest.mark.parametrize(
    ("far", "expected"), [("001", Fraction(7, 12)), ("011", Fraction(3, 4)), ("111", Fraction(5, 6))]
)
def test_cube_of_resistors(far: str, expected: Fraction) -> None:
    assert impedance(CUBE, "000", far, 1000.0).real == pytest.approx(float(expected), rel=1e-12)


def test_foster_sums_to_the_nodes_less_one() -> None:
    """Foster 1949: the sum of effective resistance over resistance of all branches is N - 1; here 8 - 1."""
    total = sum(impedance(CUBE, branch.a, branch.b, 50.0).real / branch.ohm for branch in CUBE)
    assert total == pytest.approx(7.0, rel=1e-12)


@pytest.mark.parametrize("number", range(60))
def test_resistances_against_networkx(number: int) -> None:
    draw = random.Random(number)
    nodes = [f"n{at}" for at in range(draw.randint(2, 9))]
    branches = [Branch(draw.choice(nodes[:at]), nodes[at], draw.uniform(0.1, 16)) for at in range(1, len(nodes))]
    branches += [Branch(*draw.sample(nodes, 2), draw.uniform(0.1, 16)) for _ in range(draw.randint(0, 6))]
    graph = nx.MultiGraph()
    graph.add_edges_from((each.a, each.b, {"ohm": each.ohm}) for each in branches)
    a, b = draw.sample(nodes, 2)
    expected = nx.resistance_distance(graph, a, b, weight="ohm")
    assert impedance(branches, a, b, 100.0).real == pytest.approx(expected, rel=1e-9)


def test_a_tweeter_behind_its_capacitor() -> None:
    """10 uF at 4 kHz: 1 / (2 pi x 4000 x 10e-6) = 3.979 ohm; with 4 ohm in line |Z| = sqrt(16 + 15.83) = 5.642."""
    made = impedance([Branch("+", "-", 4.0, 10e-6)], "+", "-", 4000.0)
    assert made.real == pytest.approx(4.0)
    assert made.imag == pytest.approx(-3.97887, rel=1e-5)
    assert abs(made) == pytest.approx(5.6420, rel=1e-4)


def test_woofer_and_tweeter_together() -> None:
    """At 20 kHz 4 ohm beside 4 - j0.7958: 4 x 4.0784 / 8.0395 = 2.0292; at 20 Hz the woofer is alone."""
    pair = [Branch("+", "-", 4.0), Branch("+", "-", 4.0, 10e-6)]
    assert abs(impedance(pair, "+", "-", 20.0)) == pytest.approx(4.0, rel=1e-3)
    least = least_modulus(pair, "+", "-", 20.0, 20000.0)
    assert least.hz == pytest.approx(20000.0, rel=1e-3)
    assert least.ohm == pytest.approx(2.0292, rel=1e-4)


def test_the_least_is_found_inside_the_band() -> None:
    """A dense sweep of 20,000 points, written here, is the referee."""
    pair = [Branch("+", "x", 0.5), Branch("x", "-", 4.0, 33e-6), Branch("x", "-", 8.0), Branch("+", "-", 6.0, 2e-6)]
    sweep = min(abs(impedance(pair, "+", "-", 30 * (3000 / 30) ** (at / 20000))) for at in range(20001))
    assert least_modulus(pair, "+", "-", 30.0, 3000.0).ohm == pytest.approx(sweep, rel=1e-3)


def test_volts_lost_in_a_thin_wire() -> None:
    """0.48 ohm before 2 ohm: 0.48/2.48 = 19.35 % of the volts. 19.5 % is printed for 0.4845 ohm (22 AWG, 2 x 15 ft)."""
    wires = [Branch("+", "a", 0.24), Branch("b", "-", 0.24), Branch("a", "b", 2.0)]
    here = volts(wires, "+", "-", 1000.0)
    assert 1 - abs(here["a"] - here["b"]) == pytest.approx(0.48 / 2.48, rel=1e-12)


def test_nothing_between_is_infinite() -> None:
    assert math.isinf(abs(impedance([Branch("+", "x", 4.0)], "+", "-", 100.0)))


# Double coils, published by car-audio pages (seen 2026): one of 4 ohm 8 or 2; of 2 ohm 4 or 1; two of 4 ohm 1 or 4, to
# which all in series, 16, is added: a page that says "1 or 4 only" is wrong. Two single 4 ohm 2 or 8.
@pytest.mark.parametrize(
    ("count", "coil", "expected"),
    [(2, 4.0, [2, 8]), (2, 2.0, [1, 4]), (4, 4.0, [1, 4, 16]), (4, 2.0, [0.5, 2, 8])],
)
def test_wirings_of_double_coils(count: int, coil: float, expected: list[float]) -> None:
    assert [each.ohm for each in equal_wirings(count, coil)] == pytest.approx(expected)
    assert 2.0 not in [each.ohm for each in equal_wirings(4, 4.0)], "not obtainable with all coils equally loaded"


def test_what_an_amplifier_of_1_ohm_allows() -> None:
    """Two subwoofers of 2 x 2 ohm on least 1 ohm: 2 ohm (strings of two) or 8 ohm, never 0.5."""
    assert [(each.ohm, each.words) for each in allowed_wirings(4, 2.0, 1.0)] == [
        (2.0, "2 strings of 2 in series"), (8.0, "all in series"),
    ]  # fmt: skip
