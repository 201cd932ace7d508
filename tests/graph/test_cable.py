"""Cables, fuses and what they let through: every expected value read off the chains by hand."""

from __future__ import annotations

import math

import pytest

from harness.graph import cable
from harness.graph.wiring import Wiring
from harness.read.job import read_job_text
from harness.read.troubles import Troubles

HEAD = """
ringout: 1
title: Supply
car: {name: Hazel van, steering: left}
units:
  amp: {kind: amplifier}
  sub: {kind: amplifier}
  k1: {kind: relay}
  spare: {kind: battery}
"""


def wiring_of(text: str) -> Wiring:
    troubles = Troubles()
    job = read_job_text(HEAD.lstrip() + text, "supply.yaml", troubles)
    assert job is not None, troubles.findings
    assert not troubles.findings, troubles.findings
    return Wiring(job)


def through(wiring: Wiring) -> dict[tuple[str, str], float]:
    """What the fuses before each piece of cable that has a size let pass, by length and size as written."""
    return {
        (f"{piece.segment.length_m:.4f}", piece.segment.size.text): piece.through_a
        for piece in cable.cables(wiring)
        if piece.segment.size is not None
    }


def test_a_fuse_protects_what_lies_behind_it() -> None:
    """12 in is 0.3048 m; before the fuse nothing limits the current, behind it 100 A do."""
    wiring = wiring_of("runs: [battery.+ > 12 in 4 AWG > fuse 100 A > 4 m 4 AWG > amp.B+]\n")
    assert through(wiring) == {("0.3048", "4 AWG"): math.inf, ("4.0000", "4 AWG"): 100.0}


def test_a_way_without_a_rating_is_no_fuse_but_the_one_in_the_chain_behind_it_is() -> None:
    """Way 1 has 40 A written, way 2 takes the 5 A of its chain, and 2 m behind way 2 still see 5 A."""
    wiring = wiring_of(
        "  block: {kind: fuse block, ways: 3, fuses: {1: 40 A}}\n"
        "runs:\n"
        "  - battery.+ > 10 cm 25 mm2 > fuse 80 A > 3 m 25 mm2 > block.in\n"
        "  - block.1 > 1 m 10 mm2 > amp.B+\n"
        "  - block.2 > fuse 5 A > 2 m 1.5 mm2 > k1.30\n"
    )
    assert through(wiring) == {
        ("0.1000", "25 mm2"): math.inf, ("3.0000", "25 mm2"): 80.0, ("1.0000", "10 mm2"): 40.0,
        ("2.0000", "1.5 mm2"): 5.0,
    }  # fmt: skip
    assert sorted(fuse.rating_a or 0 for fuse in cable.fuses(wiring).values()) == [5.0, 40.0, 80.0]


def test_a_used_way_whose_fuse_nobody_wrote() -> None:
    wiring = wiring_of(
        "  block: {kind: fuse block, ways: 2}\nruns: [battery.+ > 1 m 8 AWG > block.in, block.1 > 1 m 8 AWG > amp.B+]\n"
    )
    assert [fuse.rating_a for fuse in cable.fuses(wiring).values()] == [None]


def test_the_worst_way_counts_where_two_lead_to_one_cable() -> None:
    """The last metre is fed over 30 A and over 60 A: 60 A can come in before anything blows."""
    wiring = wiring_of(
        "  hub: {kind: fuse block, ways: 1}\n"
        "runs:\n"
        "  - battery.+ > 1 ft 8 AWG > fuse 30 A > 2 m 8 AWG > hub.in\n"
        "  - battery.+ > 2 ft 8 AWG > fuse 60 A > 3 m 8 AWG > hub.in\n"
        "  - hub.1 > fuse 200 A > 5 m 4 AWG > amp.B+\n"
    )
    assert through(wiring)["5.0000", "4 AWG"] == 60.0


def test_a_second_battery_feeds_the_cable_from_its_own_end() -> None:
    """Fused at the first battery only, the cable between the two is open to whatever the second one gives."""
    wiring = wiring_of("runs: [battery.+ > 1 ft 1/0 AWG > fuse 150 A > 4 m 1/0 AWG > spare.+]\n")
    assert through(wiring)["4.0000", "1/0 AWG"] == math.inf
    lengths = {stretch.source: stretch.length_m for stretch in cable.stretches(wiring) if stretch.fused}
    assert lengths == {"battery.+": pytest.approx(0.3048), "spare.+": pytest.approx(4.0)}


def test_a_relays_contact_passes_the_current_on() -> None:
    wiring = wiring_of(
        "runs: [battery.+ > 5 cm 14 AWG > fuse 15 A > 1 m 14 AWG > k1.30, k1.87 > 2 m 16 AWG > amp.B+]\n"
    )
    assert through(wiring)["2.0000", "16 AWG"] == 15.0


def test_stretches_add_up_until_the_first_fuse_and_end_at_a_load_without_one() -> None:
    """1 ft + 20 in = 0.3048 + 0.508 = 0.8128 m to the fuse; 1 ft + 6 ft = 2.1336 m to the amplifier without one."""
    wiring = wiring_of(
        "  hub: {kind: fuse block, ways: 1}\n"
        "runs:\n"
        "  - battery.+ > 1 ft 4 AWG > hub.in\n"
        "  - hub.in > 20 in 4 AWG > fuse 60 A > 1 m 4 AWG > amp.B+\n"
        "  - hub.in > 6 ft 8 AWG > sub.B+\n"
    )
    found = {(stretch.end.partition("~")[0], stretch.fused): stretch.length_m for stretch in cable.stretches(wiring)}
    assert found == {
        ("run.hub.in>amp.B+", True): pytest.approx(0.8128), ("sub.B+", False): pytest.approx(2.1336),
    }  # fmt: skip


def test_a_fuse_right_at_the_load_leaves_the_whole_way_before_it_open() -> None:
    wiring = wiring_of("runs: [battery.+ > 4 m 8 AWG > fuse 40 A > amp.B+]\n")
    assert [(each.fused, each.length_m) for each in cable.stretches(wiring)] == [(True, 4.0)]


def test_ground_is_not_gone_into() -> None:
    """A feed that meets ground is a fault of its own: nothing here may walk over the car's body."""
    wiring = wiring_of(
        "grounds: {G1: {place: floor}}\nruns: [battery.+ > 1 m 8 AWG > gnd.G1, amp.GND > 1 m 8 AWG > gnd.G1]\n"
    )
    assert cable.let_through(wiring) == {"spare.+": math.inf}
    assert cable.stretches(wiring) == []
