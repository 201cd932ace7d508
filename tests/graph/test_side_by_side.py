"""Fuses side by side, read off the chains by hand: of fuses behind each other the weakest stands for the way."""

from __future__ import annotations

from harness.graph.side_by_side import side_by_side
from tests.graph.test_supply import wiring_of

UNITS = """
units:
  amp: {kind: amplifier, draws: 20 A}
  two: {kind: amplifier, draws: 5 A}
  block: {kind: fuse block, ways: 2}
runs:
"""


def told(*runs: str) -> list[tuple[list[float | None], str, str]]:
    wiring = wiring_of(UNITS + "".join(f"  - {run}\n" for run in runs))
    return [([fuse.rating_a for fuse in each.fuses], each.near, each.far) for each in side_by_side(wiring)]


def test_two_to_one_place_and_a_third_that_goes_elsewhere() -> None:
    other = "battery.+ > 1 ft 8 AWG > fuse 10 A > 9 ft 8 AWG > two.B+"
    one, more = (f"battery.+ > 1 ft 4 AWG > fuse {value} A > 9 ft 4 AWG > amp.B+" for value in (60, 40))
    assert told(one, more, other) == [([60, 40], "battery.+", "amp.B+")]
    assert told(one, other) == []
    assert told(one) == []


def test_written_from_either_end() -> None:
    assert told(
        "amp.B+ > 9 ft 4 AWG > fuse 60 A > 1 ft 4 AWG > battery.+",
        "amp.B+ > 9 ft 4 AWG > fuse 50 A > 1 ft 4 AWG > battery.+",
    ) == [([60, 50], "battery.+", "amp.B+")]


def test_fuses_behind_each_other_are_no_fuses_beside_each_other() -> None:
    three = "fuse 80 A > 1 ft 4 AWG > fuse 60 A > 1 ft 4 AWG > fuse 70 A"
    way = f"battery.+ > 1 ft 4 AWG > {three} > 9 ft 4 AWG > amp.B+"
    assert told(way) == []
    back = "amp.B+ > 1 ft 4 AWG > fuse 50 A > 1 ft 4 AWG > fuse 90 A > 9 ft 4 AWG > battery.+"
    third = "battery.+ > 1 ft 4 AWG > fuse 30 A > 9 ft 4 AWG > amp.B+"
    assert told(way, back, third) == [([60, 50, 30], "battery.+", "amp.B+")]


def test_two_groups_are_two() -> None:
    """Two ways of the block to one amplifier; and two fuses before the block."""
    mains = [f"battery.+ > 1 ft 4 AWG > fuse {value} A > 9 ft 4 AWG > block.in" for value in (80, 70)]
    ways = [f"block.{way} > fuse 20 A > 3 ft 8 AWG > amp.B+" for way in (1, 2)]
    assert sorted(told(*mains, *ways)) == [([20, 20], "block.in", "amp.B+"), ([80, 70], "battery.+", "block.in")]


def test_a_piece_of_cable_with_something_on_it_ends_a_way() -> None:
    """The second amplifier hangs between two fuses: 60 A and 40 A are each the only way to it or from it."""
    assert told(
        "battery.+ > 1 ft 4 AWG > fuse 60 A > 9 ft 4 AWG > two.B+",
        "two.B+ > 1 ft 4 AWG > fuse 40 A > 9 ft 4 AWG > amp.B+",
        "battery.+ > 1 ft 4 AWG > fuse 30 A > 9 ft 4 AWG > amp.B+",
    ) == []  # fmt: skip
