"""Feeds, fuses and grounds: one check at a time on jobs of a few lines, read off by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, found, told
from tests.graph import test_joined_rules as joined
from tests.graph.test_supply import wiring_of as supplied

# -- supply: F04, F17, F21, F25, F27, F31 -----------------------------------------------------------------------------

UNITS = """\
units:
  amp: {kind: amplifier, draws: 50 A, inputs: {in1: 1..4 V grounded}}
  two: {kind: amplifier, draws: 10 A, outputs: {out1: 4 V grounded}}
  three: {kind: processor, inputs: {in1: 1..4 V grounded}}
  block: {kind: fuse block, ways: 2, fuses: {1: 40 A}}
runs:
"""
GROUND = "; amp.GND > 1 m 4 AWG > gnd.G1; two.GND > 1 m 4 AWG > gnd.G1"


@pytest.mark.parametrize(
    ("code", "runs", "parts"),
    [
        # 50 A x 1.25 = 62.5 A: 80 A
        ("F04", "battery.+ > fuse 40 A > 1 m 4 AWG > amp.B+", ["The fuse of 40 A before amp carries 50 A"]),
        ("F04", "battery.+ > fuse 50 A > 1 m 4 AWG > amp.B+", []),
        ("F04", "battery.+ > fuse 50 A > 1 m 4 AWG > amp.B+; battery.+ > fuse 5 A > 1 m 4 AWG > two.B+",
         ["The fuse of 5 A before two carries 10 A"]),
        ("F04", "battery.+ > 1 m 4 AWG > block.in; block.1 > 1 m 4 AWG > amp.B+",
         ["The fuse of 40 A before amp carries 50 A"]),
        ("F04", ("battery.+ > fuse 55 A > 1 m 4 AWG > block.in; "
         "block.1 > 1 m 4 AWG > two.B+; block.2 > 1 m 4 AWG > amp.B+"),
         ["The fuse of 55 A before amp and two carries 60 A"]),
        ("F17", "two.out1 > 1 m rca > amp.in1; two.GND > 1 m 8 AWG > gnd.G1",
         ["amp reaches ground only by the signal at amp in1− and two out1−"]),
        ("F17", "two.out1 > 1 m rca > amp.in1; two.GND > 1 m 8 AWG > gnd.G1; amp.GND > 1 m 8 AWG > three.GND",
         ["amp and three reach ground only by"]),
        ("F17", "two.out1 > 1 m rca > amp.in1; two.GND > 1 m 8 AWG > gnd.G1; amp.GND > 1 m 8 AWG > gnd.G1", []),
        ("F21", "battery.+ > fuse unknown > 1 m 4 AWG > amp.B+", ["The fuse at battery + has no rating"]),
        ("F21", "battery.+ > 1 m 4 AWG > fuse unknown > 1 m 4 AWG > fuse unknown > amp.B+",
         ["The fuses at battery + have no rating"]),
        ("F21", "battery.+ > 1 m 4 AWG > block.in; block.2 > 1 m 4 AWG > amp.B+",
         ["The fuse at block 2 has no rating"]),
        ("F21", "battery.+ > fuse 30 A > 1 m 4 AWG > amp.B+", []),
        ("F27", "battery.+ > fuse 30 A > 1 m 4 AWG > amp.B+; two.GND > 1 m 8 AWG > gnd.G1",
         ["Nothing feeds two B+: it stays dead", "Nothing feeds three B+"]),
        ("F27", ("battery.+ > fuse 30 A > 1 m 4 AWG > amp.B+; block.1 > 1 m 8 AWG > two.B+; "
         "three.B+ > 1 m 8 AWG > amp.B+"),
         ["Nothing feeds block in, on which two hangs"]),
        ("F27", "two.B+ > 1 m 4 AWG > block.in; three.B+ > 1 m 8 AWG > block.in; battery.+ > fuse 9 A > amp.B+",
         ["Nothing feeds block in, on which two and three hang"]),
        ("F27", "two.B+ > 1 m 4 AWG > three.B+; battery.+ > fuse 9 A > amp.B+",
         ["Nothing feeds two B+ (nor three): it stays dead"]),
        # neither has a ground, by itself or one behind the other; a run that ends at a fuse block
        ("F28", "battery.+ > fuse 50 A > amp.B+; two.GND > 1 m 8 AWG > gnd.G1; three.GND > 1 m 8 AWG > gnd.G1",
         ["amp GND has no ground: it stays dead"]),
        ("F28", "amp.GND > 1 m 8 AWG > two.GND; three.GND > 1 m 8 AWG > gnd.G1",
         ["amp GND ends at two GND and reaches no ground (nor has two)"]),
        # B+ on ground is told as a short, and who stays dead beside it all the same
        ("F27", "amp.B+ > 1 m 8 AWG > gnd.G1; battery.+ > fuse 30 A > two.B+", ["Nothing feeds three B+"]),
        ("F27", "battery.+ > fuse 30 A > two.B+; two.B+ > three.B+; amp.B+ > 1 m 8 AWG > gnd.G1", []),
        # by a signal's shield, after one that has no ground and no signal; one so grounded before one that isn't at all
        ("F17", "two.out1 > 1 m rca > three.in1; two.GND > 1 m 8 AWG > gnd.G1", ["three reaches ground only"]),
        ("F28", "two.out1 > 1 m rca > amp.in1; two.GND > 1 m 8 AWG > gnd.G1", ["three GND has no ground"]),
        # 18 in is the shop's figure (common practice, no source); two pieces together; the longer is told
        ("F31", "amp.GND > 18 in 8 AWG > gnd.G1", []), ("F31", "amp.GND > 19 in 8 AWG > gnd.G1",
         ["amp GND goes 19 in to its ground"]),
        ("F31", "amp.GND > 10 in 8 AWG > gnd.G1; two.GND > 30 in 8 AWG > gnd.G1", ["two GND goes 30 in"]),
        ("F31", "amp.GND > 10 in 8 AWG > two.GND; two.GND > 10 in 8 AWG > gnd.G1", []),
        ("F31", "amp.GND > 30 in 8 AWG > battery.-", []),
        ("F31", "two.GND > 10 in 8 AWG > gnd.G1; amp.GND > 30 in 8 AWG > gnd.G1", ["amp GND goes 30 in"]),
    ],
)  # fmt: skip
def test_supply_and_grounds(code: str, runs: str, parts: list[str]) -> None:
    rows = (runs + GROUND if code == "F04" else runs).split("; ")
    alike(told(code, supplied(UNITS + "".join(f"  - {run}\n" for run in rows))), parts)


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("dash.1: dash.8", "", ["is tied to dash cavity 8 (red, ACC)"]),
        # two cavities of one feed; as found they were one; a unit's terminal is no cavity
        ("dash.1: gate.1", "", []), ("dash.1: gate.6", "found:\n  - dash.1 > gate.6\n", []), ("dash.1: amp.rem", "",
         []),
        # three: the one that wasn't there is told; the second of two nets
        ("dash.1: gate.5", "found:\n  - dash.1 > gate.6\n", ["is tied to gate cavity 5"]),
        ("gate.5: gate.6", "found:\n  - dash.1 > dash.8\n", ["is tied to"]),
    ],
)  # fmt: skip
def test_feeds_tied_together(joints: str, more: str, parts: list[str]) -> None:
    alike(told("F25", joined.wiring_of(joints, more)), parts)


@pytest.mark.parametrize(("draws", "parts"), [("15 A", []), ("15.1 A", ["eye draws 15.1 A from dash cavity 1"])])
def test_what_a_radios_circuit_carries(draws: str, parts: list[str]) -> None:
    """15 A is what a radio's circuit has at most (common practice, no source)."""
    head = joined.HEAD.replace("draws: 2 A", f"draws: {draws}")
    alike(told("F13", joined.wiring_of("dash.1: eye.B+", head=head)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("gate.1: eye.B+", ["eye B+ is fed from gate cavity 1"]),
        # two at one joint are one fault, and another joint behind it is told all the same; a radio is no control unit
        ("gate.1: [eye.B+, face.B+]; gate.6: amp.B+", ["eye B+ is fed", "amp B+ is fed from gate cavity 6"]),
        ("dash.1: eye.B+", []), ("gate.5: eye.B+", []),
    ],
)  # fmt: skip
def test_fed_from_a_control_unit(joints: str, parts: list[str]) -> None:
    alike(told("F14", joined.wiring_of(joints)), parts)


@pytest.mark.parametrize(
    ("point", "parts"),
    [
        ("metal: bare", []), ("", []),
        ("metal: painted", ["is painted metal"]),
        ("fixed: belt anchor, metal: bare", ["is a belt anchor: it is part of the restraint system"]),
        ("fixed: belt anchor, metal: painted", ["is a belt anchor, and painted: it is part"]),
    ],
)  # fmt: skip
def test_a_poor_ground_point(point: str, parts: list[str]) -> None:
    made = UNITS.removesuffix("runs:\n") + f"grounds: {{B1: {{place: floor, {point}}}}}\n"
    wiring = supplied(f"{made}runs:\n  - amp.GND > 1 ft 8 AWG > gnd.B1\n", grounds="")
    alike(told("F09", wiring), parts)
    assert told("F09", supplied(f"{made}runs:\n  - amp.GND > 1 ft 8 AWG > battery.-\n", grounds="")) == []


def test_a_feed_is_parted_behind_the_last_terminal_of_its_unit() -> None:
    """Two terminals of one unit joined to each other, and one of them to the car's wire."""
    head = joined.HEAD.replace("draws: 2 A", "draws: 30 A")
    (finding,) = found("F13", joined.wiring_of("eye.B+: eye.CAN-H; eye.CAN-H: dash.1", head=head))
    assert finding.places[0].place.line == joined.FIRST + 1


POWER = "units:\n  amp: {kind: amplifier, draws: %s, wakes: signal, leads: {B+: RD, GND: BK}}\n"
BY_RUN = "runs:\n  - battery.+ > 12 in 8 AWG > fuse 50 A > 33 m 8 AWG > amp.B+\n"
BY_CAR = "inline: {C1: sill}\nfound:\n  - C1.1 > 1 m 8 AWG > amp.B+\nruns:\n  - battery.+ > 33 m 8 AWG > C1.1\n"


@pytest.mark.parametrize(
    ("draws", "feed", "line"),
    [
        # 33 m of 8 AWG are 0.068 ohm: 13.8²/(4 x 0.068) = 700 W arrive at most
        ("500 W", BY_RUN, 0), ("900 W", BY_RUN, 8),
        # where the car's own wire is the last stretch nobody of us laid it: the unit's row
        ("900 W", BY_CAR, 6),
    ],
)  # fmt: skip
def test_power_that_does_not_arrive(draws: str, feed: str, line: int) -> None:
    findings = found("F29", supplied(POWER % draws + feed + "  - amp.GND > 18 in 8 AWG > gnd.G1\n"))
    assert [each.places[0].place.line for each in findings] == [line] * bool(line)
    # what its fuse carries and its cable loses is then no figure any more; of 33.8 m, 0.0696 ohm, 500 W draw 47.7 A:
    # 47.7 (13.8 - 47.7 x 0.0696) = 500
    lost = told("F06", supplied(POWER % draws + feed + "  - amp.GND > 18 in 8 AWG > gnd.G1\n"))
    assert bool(lost) == (not line)
    small = (POWER % draws + feed).replace("fuse 50 A", "fuse 20 A")
    opened = told("F04", supplied(small + "  - amp.GND > 18 in 8 AWG > gnd.G1\n"))
    alike(opened, ["The fuse of 20 A before amp carries 47.7 A"] * (not line))
