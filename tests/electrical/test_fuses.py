"""Fuses and sizes against published charts."""

from __future__ import annotations

import pytest

from harness.electrical.fuses import fuse_for, greatest_fuse_a, value_below_a
from harness.electrical.sizing import AWG, METRIC, SAE, size_for
from harness.units import wire_size

FT = 0.3048

# A car-audio guide's chart, seen 2026: greatest fuse by copper AWG.
CHART_A = {
    "2/0": 400, "1/0": 325, "1": 250, "2": 200, "4": 125, "6": 80, "8": 50, "10": 30, "12": 20, "14": 15, "16": 7.5,
}  # fmt: skip
# A power cable kit's chart, seen 2026.
CHART_B = {
    "2/0": 430, "1/0": 345, "1": 265, "2": 215, "4": 135, "6": 80, "8": 55, "10": 30, "12": 20, "14": 15, "16": 7.5,
}  # fmt: skip


@pytest.mark.parametrize(("chart", "rows"), [("A", CHART_A), ("B", CHART_B)])
def test_the_charts(chart: str, rows: dict[str, float]) -> None:
    for gauge, amperes in rows.items():
        assert greatest_fuse_a(wire_size(f"{gauge} AWG"), chart=chart) == pytest.approx(amperes, rel=1e-9)


def test_a_thicker_cable_never_carries_less() -> None:
    """A merchant's chart asks 4 AWG for 25 ft and 6 AWG for 30: that can't be, and nothing like it may come out."""
    every = sorted((*AWG, *METRIC, *SAE), key=lambda size: size.area_mm2)
    limits = [greatest_fuse_a(size) for size in every]
    assert limits == sorted(limits)
    for current in (5, 20, 60):
        chosen = [size_for(current, length * FT, 0.5).chosen for length in range(3, 30)]
        areas = [each.size.area_mm2 for each in chosen if each is not None]
        assert areas == sorted(areas)


def test_a_metric_size_lies_between_its_neighbours() -> None:
    """25 mm² lies between 4 AWG (21.15 mm², 125 A) and 2 AWG (33.63 mm², 200 A)."""
    assert 125 < greatest_fuse_a(wire_size("25 mm2")) < 200


def test_copper_clad_counts_two_sizes_thinner() -> None:
    """The trade's rule: treat 4 AWG CCA as 6 AWG, an 80 A fuse."""
    assert value_below_a(greatest_fuse_a(wire_size("4 AWG"), "CCA")) == 80


# 600 W at 12 V are 50 A; x 1.25 = 62.5 A; the calculator's page (seen 2026) goes to 80 A by its own list of 60 and 80;
# with the 70 A that large blades have the next value is 70.
def test_the_margin() -> None:
    assert fuse_for(50, 125).rating_a == 70
    assert fuse_for(50, 125).runner_up_a == 80


def test_a_fuse_never_above_the_cable() -> None:
    """49 A want 61.25 A; a cable of 60 A takes 60 A, which still carries them; one of 40 A takes none that does."""
    assert fuse_for(49, 60) == (60, None, True)
    assert fuse_for(49, 40) == (40, None, False)


# A car-audio guide's half-volt table, seen 2026: amperes for 0.5 V in 15 ft.
HALF_VOLT_A = {"1/0": 330, "2": 208, "4": 131, "6": 82, "8": 52, "10": 33, "12": 21, "14": 13}


@pytest.mark.parametrize(("gauge", "amperes"), HALF_VOLT_A.items())
def test_the_half_volt_table(gauge: str, amperes: float) -> None:
    """Printed with two figures for a slightly warmer cable: within 4 % of the definition at 20 °C."""
    from harness.electrical.conductors import ohm_per_m

    here = 0.5 / (15 * FT * ohm_per_m(wire_size(f"{gauge} AWG")))
    assert here == pytest.approx(amperes, rel=0.04)


# A retailer's cable chart of 0.5 V, seen 2026: the worst of each cell, amperes and feet, and the AWG printed.
# "85 to 105 A: 6 AWG to 7 ft, 4 to 10 ft, 2 to 22 ft".
@pytest.mark.parametrize(("feet", "gauge"), [(7, "6"), (10, "4"), (16, "2")])
def test_every_cell_of_the_power_cable_chart_stays_within_half_a_volt(feet: float, gauge: str) -> None:
    from harness.electrical.sizing import drop_v

    assert drop_v(wire_size(f"{gauge} AWG"), 105, feet * FT) <= 0.5


def test_the_size_and_its_neighbours() -> None:
    """58 A over 19.5 ft: 8 AWG loses 0.711 V, 6 AWG 0.447, 4 AWG 0.281 (R of the table in test_conductors)."""
    choice = size_for(58, 19.5 * FT, 0.5)
    assert choice.chosen is not None
    assert choice.thinner is not None
    assert choice.thicker is not None
    assert (choice.thinner.size.text, choice.chosen.size.text, choice.thicker.size.text) == ("8 AWG", "6 AWG", "4 AWG")
    assert choice.thinner.drop_v == pytest.approx(58 * 19.5 * 0.6282e-3, rel=1e-3)
    assert choice.chosen.drop_v == pytest.approx(58 * 19.5 * 0.3951e-3, rel=1e-3)
    assert choice.thicker.drop_v == pytest.approx(58 * 19.5 * 0.2485e-3, rel=1e-3)


def test_nothing_on_the_list_is_thick_enough() -> None:
    assert size_for(500, 30, 0.1).chosen is None
