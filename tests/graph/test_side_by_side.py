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


PLUG = """
plugs:
  kick:
    place: kick panel
    unit: famp
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1: B+ YE, 2: GND BK, 3: unknown BU, 4: unknown VT}
"""


def groups(*runs: str, found: tuple[str, ...] = (), units: str = UNITS) -> list[tuple[list[float | None], str, str]]:
    units = units.replace("  block:", "  famp: {kind: factory amplifier}\n  aux: {kind: battery}\n  block:")
    text = PLUG + units + "".join(f"  - {run}\n" for run in runs)
    text += "found:\n" + "".join(f"  - {each}\n" for each in found) if found else ""
    return [([fuse.rating_a for fuse in each.fuses], each.near, each.far) for each in side_by_side(wiring_of(text))]


def test_one_written_from_each_end() -> None:
    """The fed end is the near one, however the first of them, or the second, is written."""
    there = "battery.+ > 1 ft 4 AWG > fuse 60 A > 9 ft 4 AWG > amp.B+"
    back = "amp.B+ > 9 ft 4 AWG > fuse 50 A > 1 ft 4 AWG > battery.+"
    assert told(there, back) == [([60, 50], "battery.+", "amp.B+")]
    assert told(back, there) == [([50, 60], "battery.+", "amp.B+")]


def test_where_nothing_feeds_either_end_it_is_as_written() -> None:
    assert told("two.B+ > fuse 60 A > 9 ft 4 AWG > amp.B+", "two.B+ > fuse 50 A > 9 ft 4 AWG > amp.B+") == [
        ([60, 50], "two.B+", "amp.B+")
    ]


def test_what_an_end_is_called_by() -> None:
    """A source or what takes the current, before a block's terminal, before a plug's cavity, before a run."""
    ways = [f"block.{way} > fuse 20 A > 3 ft 8 AWG > amp.B+" for way in (1, 2)]
    assert groups("block.in > 1 ft 4 AWG > battery.+", *ways) == [([20, 20], "battery.+", "amp.B+")]
    assert groups("block.in > 1 ft 4 AWG > aux.+", *ways) == [([20, 20], "aux.+", "amp.B+")]
    three = [f"battery.+ > fuse {value} A > 1 ft 8 AWG > kick.3" for value in (30, 20, 10)]
    assert groups(*three) == [([30, 20, 10], "battery.+", "kick.car.3")]
    block = [f"battery.+ > fuse {value} A > 1 ft 8 AWG > kick.3 > 1 ft 8 AWG > block.in" for value in (30, 20)]
    assert groups(*block) == [([30, 20], "battery.+", "block.in")]


def test_at_least_one_of_them_is_ours() -> None:
    """Two of the car's own were there before; a block's way, or a run, beside one of them is ours."""
    own = ("kick.1 > fuse 15 A > battery.+", "kick.3 > fuse 10 A > battery.+", "kick.1 > kick.3")
    elsewhere = "battery.+ > fuse 5 A > 1 ft 8 AWG > two.B+"
    assert groups(elsewhere, found=own) == []
    (ours,) = groups("kick.1 > 1 ft 8 AWG > fuse 20 A > battery.+", found=own[:1])
    assert (sorted(each or 0 for each in ours[0]), ours[1:]) == ([15, 20], ("battery.+", "famp.B+"))
    ways = ("block.1 > 1 ft 8 AWG > kick.1", "battery.+ > 1 ft 8 AWG > block.in")
    assert [sorted(each or 0 for each in one[0]) for one in groups(*ways, found=own[:1])] == [[0, 15]]


def test_fuses_in_a_ground_cable_are_another_fault() -> None:
    grounds = [f"amp.GND > fuse {value} A > 1 ft 4 AWG > gnd.G1" for value in (60, 50)]
    assert told(*grounds) == []
    assert told(*grounds, "battery.+ > fuse 60 A > 9 ft 4 AWG > amp.B+") == []


def test_a_fuse_of_which_no_value_is_written_is_the_weakest() -> None:
    chain = "battery.+ > fuse 60 A > 1 ft 4 AWG > fuse unknown > 9 ft 4 AWG > amp.B+"
    assert told(chain, "battery.+ > fuse 50 A > 9 ft 4 AWG > amp.B+") == [([None, 50], "battery.+", "amp.B+")]


def test_the_way_from_behind_the_one_to_behind_the_other() -> None:
    """It goes by what they feed, and not back through the fuses, also where that is shorter."""
    for runs in (
        [f"battery.+ > fuse {value} A > 1 ft 4 AWG > 2 ft 4 AWG > 3 ft 4 AWG > amp.B+" for value in (60, 50)],
        [f"amp.B+ > 3 ft 4 AWG > 2 ft 4 AWG > 1 ft 4 AWG > fuse {value} A > battery.+" for value in (60, 50)],
    ):
        wiring = wiring_of(UNITS + "".join(f"  - {run}\n" for run in runs))
        (group,) = side_by_side(wiring)
        assert "amp.B+" in group.path
        assert "battery.+" not in group.path
        assert len(group.path) == len(set(group.path)) == 7  # three pieces each way, and the terminal between


def test_a_fuse_that_a_joint_bridges_is_beside_none() -> None:
    text = UNITS + "  - battery.+ > fuse 60 A > amp.B+\n  - battery.+ > fuse 50 A > 1 ft 4 AWG > amp.B+\n"
    assert len(list(side_by_side(wiring_of(text)))) == 1
    assert list(side_by_side(wiring_of(text + "joints:\n  solder at the sill: {battery.+: amp.B+}\n"))) == []


def test_what_takes_the_current_gives_its_name_before_what_passes_it() -> None:
    mains = [f"battery.+ > fuse {value} A > 9 ft 4 AWG > block.in" for value in (60, 50)]
    assert told(*mains, "block.in > 1 ft 4 AWG > amp.B+") == [([60, 50], "battery.+", "amp.B+")]


def test_a_way_whose_two_fuses_are_both_written_from_the_middle() -> None:
    """From the cavity one goes to the battery and one to the amplifier: 20 A is the weaker of that way."""
    middle = ("kick.3 > fuse 30 A > battery.+", "kick.3 > fuse 20 A > amp.B+")
    assert groups(*middle, "battery.+ > fuse 10 A > amp.B+") == [([20, 10], "battery.+", "amp.B+")]
