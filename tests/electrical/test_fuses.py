"""Fuses and sizes against published charts."""

from __future__ import annotations

import pytest

from harness.electrical.fuses import (
    BLADE_A,
    BOLTED_A,
    LARGE_BLADE_A,
    VALUES_A,
    fuse_for,
    greatest_fuse_a,
    value_below_a,
)
from harness.electrical.sizing import AWG, METRIC, SAE, drop_v, size_for
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
        assert greatest_fuse_a(wire_size(f"{gauge} AWG"), chart=chart) == amperes


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


# The thin end of both charts: about 300 circular mils (0.152 mm²) per ampere, 18 AWG 0.823 mm², 22 AWG 0.326 mm².
@pytest.mark.parametrize("chart", ["A", "B"])
@pytest.mark.parametrize(("gauge", "amperes"), [("18", 5), ("20", 3), ("22", 2)])
def test_the_thin_end_of_the_charts(chart: str, gauge: str, amperes: float) -> None:
    assert greatest_fuse_a(wire_size(f"{gauge} AWG"), chart=chart) == pytest.approx(amperes, rel=1e-9)


# Areas by ASTM B258: 4 AWG 21.151 mm², 2 AWG 33.631, 2/0 AWG 67.431, 22 AWG 0.32553.
# 25 mm²: ln(25/21.151)/ln(33.631/21.151) = 0.16719/0.46377 = 0.36050; 125 x (200/125)^0.36050 = 148.08 A.
# 95 mm²: 400/67.431 A per mm² x 95 = 563.54 A. 0.2 mm²: 2/0.32553 x 0.2 = 1.2288 A.
@pytest.mark.parametrize(("area", "amperes"), [("25", 148.08), ("95", 563.54), ("0.2", 1.2288)])
def test_sizes_between_above_and_below_the_rows(area: str, amperes: float) -> None:
    assert greatest_fuse_a(wire_size(f"{area} mm2")) == pytest.approx(amperes, rel=1e-4)


# ISO 8820-3 and -5, from memory: blade fuses 1 to 40 A and large ones 20 to 100 A; bolted links 30 to 500 A.
EVERY_VALUE_A = (
    1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 100, 125, 130, 150, 175, 200, 225, 250, 300, 325,
    350, 400, 425, 500,
)  # fmt: skip


def test_every_value_that_is_sold() -> None:
    assert VALUES_A == EVERY_VALUE_A
    assert EVERY_VALUE_A[:13] == BLADE_A
    assert EVERY_VALUE_A[8:18] == LARGE_BLADE_A
    assert (30, 40, 50, 60, 70, 80, *EVERY_VALUE_A[17:]) == BOLTED_A


def test_the_fuse_and_the_next_within_the_cable() -> None:
    """1.25 x 8 = 10 A exactly; a cable of 10 A takes no next one, one of 15 A just that, one of 0.5 A none at all."""
    assert fuse_for(8, 10) == (10, None, True)
    assert fuse_for(8, 15) == (10, 15, True)
    assert fuse_for(8, 100) == (10, 15, True)
    assert fuse_for(8, 0.5) == (None, None, False)
    assert fuse_for(16, 21) == (20, None, True)
    assert fuse_for(0.4, 1) == (1, None, True)
    assert fuse_for(9.99, 10) == (10, None, True), "carries the current, if not the margin"


def test_rounding_costs_no_fuse() -> None:
    """A millionth of a millionth is an error of sums, not of cables: 10 A within 9.99999999999 A."""
    a_hair = 1e-12
    assert fuse_for(8 * (1 + a_hair), 10 * (1 - a_hair)) == (10, None, True)
    assert fuse_for(10 * (1 + a_hair), 10) == (10, None, True)
    assert value_below_a(60 * (1 - a_hair)) == 60
    assert value_below_a(59.99) == 50
    assert value_below_a(0.99) is None
    assert value_below_a(1) == 1


# Ohm per metre of 8 AWG: 0.6282 ohm per 1000 ft (the table in test_conductors), so 1 A over 1000 ft loses 0.6282 V.
def test_exactly_the_volts_allowed_and_exactly_the_fuse() -> None:
    lost = drop_v(wire_size("8 AWG"), 1.0, 1000 * FT)
    assert lost == pytest.approx(0.6282, rel=1e-3)
    for allowed, gauge in ((lost, "8 AWG"), (lost * (1 - 1e-12), "8 AWG"), (lost * 0.999, "6 AWG")):
        chosen = size_for(1.0, 1000 * FT, allowed).chosen
        assert chosen is not None
        assert chosen.size.text == gauge
    # chart A: 8 AWG takes 50 A, 6 AWG 80 A
    for fuse_a, gauge in ((50.0, "8 AWG"), (50 * (1 + 1e-12), "8 AWG"), (50.1, "6 AWG")):
        chosen = size_for(1.0, 1000 * FT, lost, fuse_a=fuse_a).chosen
        assert chosen is not None
        assert chosen.size.text == gauge


def test_the_ends_of_a_list_of_sizes() -> None:
    """The thinnest has no thinner, the thickest no thicker; where none will do the thickest is told as too thin."""
    thin, thick = AWG[0], AWG[-1]
    first = size_for(0.1, 1, 0.5)
    assert (first.chosen, first.thinner) == ((thin, pytest.approx(drop_v(thin, 0.1, 1))), None)
    assert first.thicker is not None
    assert first.thicker.size == AWG[1]
    last = size_for(1.0, 1.0, drop_v(thick, 1.0, 1.0))
    assert last.chosen is not None
    assert (last.chosen.size, last.thicker) == (thick, None)
    assert last.thinner is not None
    assert last.thinner.size == AWG[-2]
    none = size_for(500, 30, 0.1)
    assert none.thinner is not None
    assert (none.chosen, none.thinner.size, none.thicker) == (None, thick, None)
    assert size_for(1, 1, 1, ()) == (None, None, None)
