"""Cables behind too great a fuse, by chart A of tests/electrical/test_fuses: 12 AWG 20 A, 10 AWG 30, 8 AWG 50, 6 AWG
80, 4 AWG 125, 2 AWG 200, 1 AWG 250 A. Copper-clad conducts as copper of 10.37/16.06 of its area.
"""

from __future__ import annotations

import math

from harness.graph.cable import fuses
from harness.graph.overfused import COPPER_CLAD, least_limit_behind, overfused, piece_words
from harness.graph.wiring import Wiring
from tests.graph.test_supply import wiring_of


def told(wiring: Wiring) -> list[tuple[str, str, float, float | None, str | None]]:
    """Each by its words and kind, what it can carry in whole amperes, the fuse and the size to fit."""
    return [
        (piece_words(wiring, each.cable), each.kind, round(each.limit_a), each.fuse_a, each.size and each.size.text)
        for each in overfused(wiring)
    ]


def behind(wiring: Wiring) -> dict[float | None, float]:
    """By each fuse's value the least that a cable between it and the next ones carries."""
    least = {fuse.rating_a: least_limit_behind(wiring, fuse) for fuse in fuses(wiring).values()}
    return {rating_a: each if math.isinf(each) else round(each) for rating_a, each in least.items()}


def test_branches_of_a_block_are_told_each_and_the_right_one_is_not() -> None:
    """20 A in 8 AWG want 1.25 x 20 = 25 A; where no current is written the greatest allowed, 50 A. 60 A want 6 AWG,
    150 A 2 AWG; 8 AWG behind just 50 A is right. 75 A flow in the main cable: 93.75, so 100 A.
    """
    wiring = wiring_of("""
units:
  amp: {kind: amplifier, draws: 20 A, wakes: signal}
  bass: {kind: amplifier, draws: 55 A, wakes: signal}
  aux: {kind: amplifier, wakes: signal}
  block: {kind: fuse block, ways: 3}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 150 A > 15 ft 4 AWG > block.in
  - block.1 > fuse 60 A > 3 ft 8 AWG > amp.B+
  - block.2 > fuse 70 A > 9 ft 6 AWG > bass.B+
  - block.3 > fuse 80 A > 3 ft 8 AWG > aux.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
  - bass.GND > 18 in 8 AWG > gnd.G1
  - aux.GND > 18 in 8 AWG > gnd.G1
""")
    assert told(wiring) == [
        ("the 4 AWG cable to block in", "behind its fuse", 125, 100, "2 AWG"),
        ("the 8 AWG cable to amp B+", "behind its fuse", 50, 25, "6 AWG"),
        ("the 8 AWG cable to aux B+", "behind its fuse", 50, 50, "6 AWG"),
    ]
    assert behind(wiring) == {150: 125, 60: 50, 70: 80, 80: 50}


def test_exactly_the_limit_is_right() -> None:
    wiring = wiring_of("""
units: {amp: {kind: amplifier, draws: 20 A, wakes: signal}, two: {kind: amplifier, draws: 20 A, wakes: signal}}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 125 A > 9 ft 4 AWG > amp.B+
  - battery.+ > 1 ft 8 AWG > fuse 50 A > 9 ft 8 AWG > two.B+
  - amp.GND > 18 in 4 AWG > gnd.G1
  - two.GND > 18 in 4 AWG > gnd.G1
""")
    assert told(wiring) == []
    assert behind(wiring) == {125: 125, 50: 50}


def test_steps_down_along_a_branch() -> None:
    """A second piece of one size is told with the first, a thinner one again. 4 AWG CCA carries about 82 A: between
    6 and 8 AWG's rows, 21.15 x 10.37/16.06 = 13.66 mm² is a little above 6 AWG's 13.30 (80 A). All want 4 AWG for
    100 A, CCA one of 2 AWG (33.63 x 0.6457 = 21.7 mm²).
    """
    wiring = wiring_of("""
units:
  amp: {kind: amplifier, draws: 20 A, wakes: signal}
  two: {kind: amplifier, draws: 10 A, wakes: signal}
  six: {kind: amplifier, draws: 10 A, wakes: signal}
  block: {kind: fuse block, ways: 2}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 100 A > 15 ft 4 AWG > block.in
  - block.in > 2 ft 8 AWG > 3 ft 8 AWG > amp.B+
  - block.in > 2 ft 4 AWG > 2 ft 4 AWG CCA > 3 ft 10 AWG > two.B+
  - block.in > 2 ft 10 AWG > 3 ft 12 AWG > six.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
  - two.GND > 18 in 8 AWG > gnd.G1
  - six.GND > 18 in 8 AWG > gnd.G1
""")
    assert told(wiring) == [
        ("the 8 AWG cable to amp B+", "step-down", 50, 25, "4 AWG"),
        ("the 4 AWG copper-clad cable to two B+", COPPER_CLAD, 82, 15, "2 AWG"),
        ("the 10 AWG cable to two B+", "step-down", 30, 15, "4 AWG"),
        ("the 10 AWG cable to six B+", "step-down", 30, 15, "4 AWG"),
        ("the 12 AWG cable to six B+", "step-down", 20, 15, "4 AWG"),
    ]
    assert behind(wiring) == {100: 20}


def test_copper_clad_fails_by_its_metal_only_where_copper_would_do() -> None:
    """4 AWG copper takes just 125 A and not 130."""
    for fuse_a, kind in ((125, COPPER_CLAD), (130, "behind its fuse")):
        wiring = wiring_of(f"""
units: {{amp: {{kind: amplifier, draws: 50 A, wakes: signal}}}}
runs:
  - battery.+ > 1 ft 2 AWG > fuse {fuse_a} A > 9 ft 4 AWG CCA > amp.B+
  - amp.GND > 18 in 4 AWG > gnd.G1
""")
        assert [each[1] for each in told(wiring)] == [kind]


def test_nothing_that_mends_it() -> None:
    """70 A in 8 AWG: no fuse within 50 A carries them. No cable on the list takes 500 A in copper-clad 4/0 AWG
    (107.2 x 0.6457 = 69.2 mm², a little above 2/0's 400 A). 22 AWG takes 2 A.
    """
    wiring = wiring_of("""
units:
  amp: {kind: amplifier, draws: 70 A, wakes: signal}
  big: {kind: amplifier, draws: 20 A, wakes: signal}
  aux: {kind: amplifier, draws: 0.5 A, wakes: signal}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 60 A > 15 ft 8 AWG > amp.B+
  - battery.+ > 1 ft 4 AWG > fuse 500 A > 2 ft 1 AWG CCA > big.B+
  - battery.+ > 1 ft 4 AWG > fuse 5 A > 15 ft 22 AWG > aux.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
  - big.GND > 18 in 8 AWG > gnd.G1
  - aux.GND > 18 in 8 AWG > gnd.G1
""")
    assert [(each[0], each[3], each[4]) for each in told(wiring)] == [
        ("the 8 AWG cable to amp B+", None, "6 AWG"),
        ("the 1 AWG copper-clad cable to big B+", 25, None),
        ("the 22 AWG cable to aux B+", 1, "18 AWG"),
    ]


def test_a_run_back_to_where_it_began_ends_there() -> None:
    """A slip of a hand, and no reason to fall over: 8 AWG carries 50 A, the main fuse lets 100 A through both ways."""
    wiring = wiring_of("""
units: {amp: {kind: amplifier, draws: 20 A, wakes: signal}, block: {kind: fuse block, ways: 1}}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 100 A > 9 ft 4 AWG > block.in
  - block.in > 2 ft 4 AWG > 9 ft 8 AWG > block.in
  - block.1 > fuse 30 A > 3 ft 8 AWG > amp.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
""")
    assert {(words, round(limit_a)) for words, _, limit_a, _, _ in told(wiring)} == {
        ("the 8 AWG cable to block in", 50)
    }


def kinds(*runs: str, amp: str = "draws: 20 A") -> list[tuple[str, str, float | None]]:
    units = (
        f"{{amp: {{kind: amplifier, {amp}, wakes: signal}}, k1: {{kind: relay}}, block: {{kind: fuse block, ways: 1}}}}"
    )
    rows = (*runs, "amp.GND > 18 in 4 AWG > gnd.G1")
    return [
        each[:2] + each[3:4]
        for each in told(wiring_of(f"units: {units}\nruns:\n" + "".join(f"  - {r}\n" for r in rows)))
    ]


def test_a_step_down_is_one_only_up_to_the_fuse() -> None:
    """4 AWG takes the 100 A before the relay's contact, 8 AWG behind it doesn't; behind a fuse it is that fuse's."""
    main, thin = "battery.+ > fuse 100 A > 9 ft 4 AWG > ", ("the 8 AWG cable to amp B+", 25)
    step, behind_it = (thin[0], "step-down", 25), (thin[0], "behind its fuse", 25)
    assert kinds(f"{main}k1.30", "k1.87 > 3 ft 8 AWG > amp.B+") == [step]
    assert kinds(f"{main}block.in", "block.in > 1 ft 4 AWG > fuse 60 A > 3 ft 8 AWG > amp.B+") == [behind_it]
    assert kinds(f"{main}block.in", "amp.B+ > 3 ft 8 AWG > fuse 60 A > 1 ft 4 AWG > block.in") == [behind_it]


def test_a_step_without_a_cable_has_nothing_that_burns() -> None:
    """A run may go from terminal to terminal with no length said; the pieces behind it are looked at all the same."""
    wiring = wiring_of("""
units:
  amp: {kind: amplifier, draws: 20 A, wakes: signal}
  two: {kind: amplifier, draws: 2 A, wakes: signal}
  block: {kind: fuse block, ways: 1}
runs:
  - battery.+ > fuse 60 A > two.B+ > block.in
  - block.in > amp.B+
  - block.1 > 3 ft 10 AWG > amp.rem
  - block.in > 3 ft 8 AWG > amp.B+
  - amp.GND > 18 in 4 AWG > gnd.G1
""")
    assert [each[:2] for each in told(wiring)] == [
        ("the 10 AWG cable to amp rem", "behind its fuse"), ("the 8 AWG cable to amp B+", "behind its fuse"),
    ]  # fmt: skip
    assert behind(wiring) == {60: 50, None: 30}


def test_where_nothing_can_be_solved_the_greatest_allowed_is_offered() -> None:
    """Two more batteries have their + on ground, another fault: no currents are known, and 8 AWG allows 50 A."""
    wiring = wiring_of("""
units: {two: {kind: amplifier, draws: 2 A, wakes: signal}, b1: {kind: battery}, b2: {kind: battery}}
runs:
  - battery.+ > fuse 60 A > 3 ft 8 AWG > two.B+
  - b1.+ > 1 ft 8 AWG > gnd.G1
  - b2.+ > 1 ft 8 AWG > gnd.G1
""")
    assert told(wiring) == [("the 8 AWG cable to two B+", "behind its fuse", 50, 50, "6 AWG")]


def test_the_least_behind_a_fuse_of_a_run_written_from_the_load() -> None:
    """10 AWG takes 30 A, 4 AWG 125; behind the fuse of 7 A nothing is laid."""
    wiring = wiring_of("""
units: {amp: {kind: amplifier, draws: 20 A, wakes: signal}, two: {kind: amplifier, draws: 2 A, wakes: signal}}
runs:
  - battery.+ > 1 ft 4 AWG > fuse 7 A > two.B+
  - amp.B+ > 9 ft 10 AWG > fuse 60 A > 1 ft 4 AWG > battery.+
  - amp.GND > 18 in 4 AWG > gnd.G1
""")
    assert behind(wiring) == {7: math.inf, 60: 30}


def test_what_cannot_arrive_gives_no_current_to_go_by() -> None:
    """100 ft of 8 AWG are 63 mohm: no more than 13.8²/(4 x 0.063) = 758 W come through. The greatest allowed: 50 A."""
    (one,) = kinds("battery.+ > fuse 60 A > 100 ft 8 AWG > amp.B+", amp="draws: 5000 W")
    assert one == ("the 8 AWG cable to amp B+", "behind its fuse", 50)
