"""What units draw, at the shop's 13.8 V, and what the supply says beside the volts: hand sums."""

from __future__ import annotations

import pytest

from harness.graph.draws import draws
from harness.graph.supply import supply
from tests.graph.test_supply import wiring_of

UNITS = """
units:
  amps: {kind: amplifier, draws: 20 A}
  watts: {kind: amplifier, draws: 276 W}
  two: {kind: amplifier, outputs: {out1: 75 W @ 4 ohm, out2: 300 W @ 4 ohm}, efficiency: 80 %}
  four: {kind: amplifier, outputs: {out1..4: 75 W @ 4 ohm}, class: D, inputs: {in1: 0.2..4 V grounded}}
  fused: {kind: amplifier, fuses: 2 x 30 A}
  one: {kind: amplifier, fuses: 25 A}
  taking: {kind: amplifier, fuses: 20 A, inputs: {in1: 75 W}}
  nothing: {kind: amplifier}
  away: {kind: amplifier, draws: 5 A}
removed: [away]
"""
EACH = ("A", "AB", "G", "H", "D")


def test_what_each_draws_and_how_that_is_known() -> None:
    """276 W / 13.8 V = 20 A; 375 W / 0.8 / 13.8 = 33.967 A; class D counts 75 %: 300 / 0.75 / 13.8 = 28.986 A."""
    made = draws(wiring_of(UNITS))
    assert {unit: (each.current_a, each.power_w, each.guessed) for unit, each in made.items()} == {
        "amps": (20, None, False),
        "watts": (pytest.approx(20), 276, False),
        "two": (pytest.approx(33.967, abs=1e-3), None, False),
        "four": (pytest.approx(28.986, abs=1e-3), None, False),
        "fused": (60, None, True),
        "one": (25, None, True),
        "taking": (20, None, True),  # the watts of its input are another unit's
    }
    said = {unit: each.how for unit, each in made.items()}
    assert (said["amps"], said["watts"]) == ("20 A as written", "276 W as written")
    assert said["two"].startswith("75 W + 300 W at 80 %, ")
    assert said["four"].startswith("4 x 75 W at 75 % for class D, ")
    assert (said["fused"], said["one"]) == ("its own fuses, 2 x 30 A", "its own fuses, 25 A")


def test_how_much_of_the_current_each_class_brings_to_the_speakers() -> None:
    """By a retailer's guide (seen 2026) an amplifier of class AB gives 60 % of what it draws, of D 75 %, of A 25 %; G
    and H count as AB. 69 W at 13.8 V are 5 A: /0.25 = 20, /0.6 = 8.333, /0.75 = 6.667 A.
    """
    units = "".join(f"  {name}: {{kind: amplifier, outputs: {{out1: 69 W}}, class: {name}}}\n" for name in EACH)
    made = draws(wiring_of(f"units:\n{units}  none: {{kind: amplifier, outputs: {{out1: 69 W}}}}\n"))
    assert {unit: (round(each.current_a, 3), each.guessed) for unit, each in made.items()} == {
        "A": (20, False), "AB": (8.333, False), "G": (8.333, False), "H": (8.333, False), "D": (6.667, False),
        "none": (8.333, True),
    }  # fmt: skip


def test_what_the_supply_could_not_work_out() -> None:
    """`far` has no draw. 3000 W can't come through 19 ft of 16 AWG: 13.17 mohm per metre (ASTM B258) make 76 mohm, and
    13.8²/(4 x 0.076) = 626 W is the most.
    """
    made = supply(
        wiring_of(
            """
units:
  near: {kind: amplifier, draws: 10 A}
  far: {kind: amplifier}
  big: {kind: amplifier, draws: 3000 W}
runs:
  - battery.+ > 1 ft 8 AWG > fuse 40 A > 9 ft 8 AWG > near.B+
  - battery.+ > 1 ft 8 AWG > fuse 40 A > 9 ft 8 AWG > far.B+
  - battery.+ > 1 ft 8 AWG > fuse 20 A > 19 ft 16 AWG > big.B+
  - near.GND > 1 ft 8 AWG > gnd.G1
  - far.GND > 1 ft 8 AWG > gnd.G1
  - big.GND > 1 ft 8 AWG > gnd.G1
""".replace("19 ft > dash", "8 AWG > dash")
        )
    )
    assert made is not None
    assert made.unknown == ("far",)
    assert made.collapsed == ("big",)
