"""What becomes of a cavity and of a lead, by one line written into a bare job: read off the text by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.graph.test_union_find import wiring_of

JOB = """\
ringout: 1
title: What becomes of them
plugs:
  dash:
    unit: radio
    cavities: {1/2: FL WH WH/BK, 3: ACC RD, 4: empty}
looms:
  T1: {ends: {unit: 4-way, car: 4-way}, through: [2], leads: {1: FL+ WH, 3: ACC RD}}
units:
  radio: {kind: radio, outputs: {FL: btl}}
  eye: {kind: interface, terminals: [on, line], leads: {ACC: RD}}
speakers: {FL: {nominal: 4 ohm}}
"""
CUT = "cut: [dash.3]\n"
MATE = "  mate: {T1: dash}\n"


def joints(*rows: str, mate: str = "") -> str:
    return "joints:\n" + mate + ("  solder:\n" + "".join(f"    {row}\n" for row in rows) if rows else "")


@pytest.mark.parametrize(
    ("more", "fate", "unit_to", "car_to"),
    [
        ("", "passed", (), ()),
        # the wire goes through, and something hangs on it: on which half is one and the same
        (joints("dash.unit.3: eye.on"), "tapped", ("eye.on",), ()),
        (joints("dash.car.3: eye.on"), "tapped", (), ("eye.on",)),
        # cut: each half goes its own way, to one and the same thing, or one of them nowhere
        (CUT, "open", (), ()),
        (CUT + joints("dash.unit.3: eye.on", "dash.car.3: eye.line"), "intercepted", ("eye.on",), ("eye.line",)),
        (CUT + joints("dash.unit.3: dash.car.3"), "passed", ("dash.car.3",), ("dash.unit.3",)),
        (CUT + joints("dash.unit.3: eye.on", "dash.car.3: eye.on"), "tapped", ("eye.on",), ("eye.on",)),
        (CUT + joints("dash.unit.3: eye.on"), "used at one end", ("eye.on",), ()),
        (CUT + joints("dash.car.3: eye.on"), "used at one end", (), ("eye.on",)),
        ("cut: [dash.unit.3]\n", "open", (), ()),
        ("cut: [dash.car.3]\n", "open", (), ()),
        # the car's own fuse was there before
        ("found: [dash.3 > fuse 5 A > battery.+]\n", "passed", (), ()),
        (CUT + "capped: [dash.unit.3]\n", "capped", (), ()),
        (CUT + "capped: [dash.car.3]\n", "capped", (), ()),
        ("depinned: [dash.unit.3]\n", "depinned", (), ()),
        ("depinned: [dash.car.3]\n", "depinned", (), ()),
        # a loom plugged in: its lead joined to nothing carries nothing on, from either end
        (joints(mate=MATE), "open", (), ()),
        (joints("T1.unit.3: eye.on", mate=MATE), "used at one end", ("eye.on",), ()),
        (joints("T1.car.3: eye.on", mate=MATE), "used at one end", (), ("eye.on",)),
    ],
)
def test_what_becomes_of_a_cavity(
    more: str, fate: str, unit_to: tuple[str, ...], car_to: tuple[str, ...], tmp_path: Path
) -> None:
    made = wiring_of(JOB + more, tmp_path).fates.cavity("dash", "3")
    assert (made.fate, made.unit_to, made.car_to) == (fate, unit_to, car_to)


def test_an_empty_cavity_stays_empty(tmp_path: Path) -> None:
    for more in ("", joints("dash.unit.4: eye.on"), joints(mate=MATE)):
        assert wiring_of(JOB + more, tmp_path).fates.cavity("dash", "4").fate == "empty"


def test_a_wire_of_the_loom_that_goes_through(tmp_path: Path) -> None:
    assert wiring_of(JOB + joints(mate=MATE), tmp_path).fates.cavity("dash", "2").fate == "passed"
    taps = joints("T1.unit.1: eye.line", mate=MATE)
    assert wiring_of(JOB + taps, tmp_path).fates.cavity("dash", "2").fate == "passed", "the lead beside it is no tap"


@pytest.mark.parametrize(
    ("more", "fate", "to"),
    [
        ("", "loose", ()),
        (joints("eye.ACC: dash.3"), "used", ("dash.car.3",)),
        # what hangs on it counts before what is said of it
        (joints("eye.ACC: dash.3") + "capped: [eye.ACC]\n", "used", ("dash.car.3",)),
        ("capped: [eye.ACC]\n", "capped", ()),
        ("depinned: [eye.ACC]\n", "depinned", ()),
        ("depinned: [eye.ACC]\ncapped: [eye.ACC]\n", "capped", ()),
        # as the car was found is nothing that we do with it
        ("found: [dash.3 > eye.ACC]\n", "loose", ()),
        ("found: [dash.3 > fuse 5 A > eye.ACC]\n", "loose", ()),
        ("runs: [battery.+ > 1 ft 16 AWG > eye.ACC]\n", "used", ("battery.+",)),
    ],
)
def test_what_becomes_of_a_lead(more: str, fate: str, to: tuple[str, ...], tmp_path: Path) -> None:
    (made,) = wiring_of(JOB + more, tmp_path).fates.leads("eye")
    assert (made.fate, made.to) == (fate, to)


def test_the_pin_of_a_lead_is_nothing_that_it_is_joined_to(tmp_path: Path) -> None:
    wiring = wiring_of(JOB + joints("T1.unit.3: eye.on", mate=MATE), tmp_path)
    made = {each.lead.name: (each.fate, each.to) for each in wiring.fates.leads("T1")}
    assert made == {
        "T1.unit.1": ("loose", ()), "T1.car.1": ("loose", ()), "T1.unit.3": ("used", ("eye.on",)),
        "T1.car.3": ("loose", ()),
    }  # fmt: skip


def test_each_cavity_as_it_is_written(tmp_path: Path) -> None:
    fates = wiring_of(JOB, tmp_path).fates
    assert [each.row.cavity for each in fates.cavities("dash")] == ["1", "2", "3", "4"]
    assert (fates.has("dash", "3"), fates.has("dash", "5")) == (True, False)
