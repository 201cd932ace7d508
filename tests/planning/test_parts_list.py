"""The parts of a job against counts and sums made by hand from its text."""

from __future__ import annotations

import pytest

from harness.planning.parts_list import IN_LINE, PartsList, parts_list
from tests.conftest import Wired

JOB = """
units:
  radio: {kind: radio, outputs: {FL FR: 4 V}}
  amp: {kind: amplifier, place: seat, inputs: {in1..2: 0.2..8 V}, outputs: {out1..2: 50 W @ 4 ohm}, wakes: rem 20 mA}
  sub: {kind: amplifier, inputs: {in1: 0.2..8 V}, outputs: {out1: 50 W @ 4 ohm}, wakes: rem 20 mA}
  block: {kind: fuse block, ways: 2, fuses: {1: 30 A}}
speakers:
  FL FR: {place: doors, nominal: 4 ohm}
  SUB: {place: boot, nominal: 4 ohm, new: one 10 in box}
grounds: {G1: {place: crossmember, metal: bare}}
joints:
  crimp at the radio with heat shrink:
    radio.FL: amp.in1
    radio.FR: amp.in2
  crimp at the seat:
    amp.out1: spk.FL
  solder with tape:
    amp.rem: [radio.AMP-ON, sub.rem]
runs:
  - battery.+ > 18 in 4 AWG > fuse 60 A > 4 m 4 AWG via bulkhead grommet > block.in
  - block.1 > 3 ft 8 AWG > amp.B+
  - block.2 > fuse 30 A > 2 m 8 AWG CCA > sub.B+
  - amp.GND > 50 cm 8 AWG > gnd.G1
  - sub.GND > 8 AWG > gnd.G1
  - amp.out2 > 5 m 14 AWG via door grommet > spk.FR
  - sub.out1 > 1 m 14 AWG > spk.SUB
  - amp.out1 > 2 m rca > sub.in1
"""
JOB = JOB.replace("  - sub.GND > 8 AWG", "  - sub.GND").replace(
    "radio, outputs", "radio, gives: {AMP-ON: 100 mA}, outputs"
)


@pytest.fixture
def parts(wired: Wired) -> PartsList:
    return parts_list(wired(JOB))


def test_what_is_fitted_and_not_what_the_car_has(parts: PartsList) -> None:
    # read off the job: the radio and the door speakers are the car's
    assert [each.name for each in parts.units] == ["amp", "sub", "block"]
    assert [each.name for each in parts.speakers] == ["SUB"]


def test_cable_by_size_as_the_cut_list_cuts_it(parts: PartsList) -> None:
    found = {
        (each.kind, each.size.text if each.size else "", each.metal, each.cores): (each.length_m, each.to_cut_m)
        for each in parts.cables
        if each.size
    }
    # a fifth more and 0.2 m of slack a piece, but nothing before the first fuse and on ground cables. 18 in is 0.4572 m
    # before its fuse, 46 cm; 4 m are 4 x 1.2 + 0.2 = 5.0; 3 ft is 0.9144 m, 1.29728 or 1.30, and 0.5 m to ground;
    # CCA by itself: 2, 2.6; pairs along their way: 5 and 1 m, 6.2 + 1.4 = 7.6
    assert found == {
        ("wire", "4 AWG", "", 1): (pytest.approx(4.4572), pytest.approx(5.46)),
        ("wire", "8 AWG", "", 1): (pytest.approx(1.4144), pytest.approx(1.80)),
        ("wire", "8 AWG", "CCA", 1): (pytest.approx(2.0), pytest.approx(2.6)),
        ("wire", "14 AWG", "", 2): (pytest.approx(6.0), pytest.approx(7.6)),
    }


def test_a_cable_without_length_is_counted_as_such(parts: PartsList) -> None:
    (bare,) = [each for each in parts.cables if each.kind == "wire" and each.size is None]
    # `sub.GND > gnd.G1`: nobody wrote size or length
    assert (bare.pieces, bare.unwritten, bare.length_m) == (1, 1, 0.0)


def test_signal_cables_are_counted_by_the_piece(wired: Wired) -> None:
    body = JOB + "  - radio.FL > 2 m rca > sub.in1\n  - radio.FR > 3 m rca > sub.in1\n"
    made = [(each.pieces, each.length_m) for each in parts_list(wired(body)).cables if each.kind == "rca"]
    # two of 2 m and one of 3 m
    assert sorted(made) == [(1, 3.0), (2, 4.0)]


def test_fuses_by_value_with_their_holders(parts: PartsList) -> None:
    # 60 A in line; 30 A twice: way 1 of the block, and the one that begins the chain at way 2
    assert [(each.rating_a, each.number, dict(each.holders)) for each in parts.fuses] == [
        (60.0, 1, {IN_LINE: 1}), (30.0, 2, {"block": 2}),
    ]  # fmt: skip


def test_a_fuse_without_a_value_and_the_cars_own(wired: Wired) -> None:
    body = JOB.replace("fuses: {1: 30 A}", "fuses: {1: unknown}")
    values = {each.rating_a: each.number for each in parts_list(wired(body)).fuses}
    # way 1 was looked for and not found
    assert values == {60.0: 1, 30.0: 1, None: 1}


def test_holes_and_rings(parts: PartsList) -> None:
    def words(sizes: object) -> list[tuple[str, int]]:
        return [(size.text if size else "", number) for size, number in sizes]  # type: ignore[attr-defined]

    # one cable of 4 AWG through the bulkhead, one pair of 14 AWG into the door
    assert [(each.via, each.edge, words(each.sizes)) for each in parts.passing] == [
        ("bulkhead", "grommet", [("4 AWG", 1)]), ("door", "grommet", [("14 AWG", 1)]),
    ]  # fmt: skip
    # at G1 amp's 8 AWG and sub's ground, whose size nobody wrote; at the battery the feed
    assert [(each.contact, words(each.sizes)) for each in parts.rings] == [
        ("gnd.G1", [("8 AWG", 1), ("", 1)]), ("battery.+", [("4 AWG", 1)]),
    ]  # fmt: skip


def test_joints_by_method_and_cover(parts: PartsList) -> None:
    # two pairs crimped under heat shrink: 4 splices; one pair crimped bare: 2; three wires soldered in one: 1
    assert [(each.method, each.cover, each.number) for each in parts.joints] == [
        ("crimp", "heat shrink", 4), ("crimp", "", 2), ("solder", "tape", 1),
    ]  # fmt: skip
    assert all(each.needs_cover for each in parts.joints)


def test_where_a_run_is_joined_to_a_cavity_or_a_lead_and_no_row_says_how(wired: Wired) -> None:
    """Once a place: AMP-ON is one wire whose halves two runs name, ACC stands in a row, C1 is a plug of ours."""
    found = parts_list(
        wired("""
plugs:
  dash: {unit: radio, cavities: {1: AMP-ON BU, 2: ACC RD, 3: ILL OG, 4: MUTE BN}}
  boot: {unit: radio, cavities: {1: MUTE BN, 2: ILL OG}}
inline:
  C1: sill
looms:
  T1: {ends: {unit: 4-way, car: 4-way}, leads: {car.1: MUTE BU}, through: 2}
units:
  radio: {kind: radio}
  box: {kind: interface, terminals: [t1, t2, t3, t4, t5]}
joints:
  mate: {T1: boot}
  crimp at the seat with heat shrink: {dash.ACC: box.t2}
runs:
  - dash.unit.AMP-ON > 2 m 18 AWG > box.t1
  - dash.car.AMP-ON > 2 m 18 AWG > box.t3
  - dash.ACC > 2 m 18 AWG > box.t2
  - T1.car.MUTE > 2 m 18 AWG > C1.1 > 1 m 18 AWG > box.t4
""")
    )
    assert found.met == ("dash.unit.1", "T1.car.1")
