"""Pairs that are turned, and sides that are crossed: one check at a time on jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, told
from tests.graph import test_signals as signals

UNITS = (
    "amp: {kind: amplifier, inputs: {in1..4: 1..9 V}, outputs: {out1..4: 50 W}, routes: {ROUTES}}; "
    "other: {kind: radio, outputs: {RL RR: btl 8 V}}"
)
STRAIGHT = "out1: in1, out2: in2, out3: in3, out4: in4"
IN = "radio.FL: amp.in1; radio.FR: amp.in2; other.RL: amp.in3; other.RR: amp.in4"
OUT = "amp.out1: spk.FL; amp.out2: spk.FR; amp.out3: spk.RL; amp.out4: spk.RR"


@pytest.mark.parametrize(
    ("code", "wish", "chain", "joint", "parts"),
    [
        # the factory turned it, and so it is written; the plan joins it straight, or turns it as well
        ("B08", "factory", " reversed", "", ["FL is inverted by the factory, and the plan joins it without that"]),
        ("B08", "factory", " reversed", " reversed", []),
        # it was straight, or had no feed at all: then the wish alone is not met
        ("B08", "on purpose", "", "", []),
        ("B08", "on purpose", "none", "", []),
        ("B01", "on purpose", "none", "", ["FL is written as inverted on purpose, but nothing on its way turns"]),
        # it was turned, nobody wishes it, and the plan turns it once: reversed, and no wish undone
        ("B08", "", " reversed", " reversed", []),
        ("B01", "", "", " reversed", ["FL is reversed once"]),
        ("B01", "", "", "", []),
    ],
)
def test_a_speaker_that_is_turned(code: str, wish: str, chain: str, joint: str, parts: list[str]) -> None:
    inverted = f", inverted: {wish}" if wish else ""
    speakers = f"speakers:\n  FL: {{nominal: 4 ohm{inverted}}}\n  FR: {{nominal: 4 ohm}}\n"
    more = "" if chain == "none" else f"found:\n  - other.RL > spk.FL{chain}\n"
    joints = f"radio.FL: amp.in1; radio.FR: amp.in2; amp.out1: spk.FL{joint}; amp.out2: spk.FR"
    wiring = signals.wiring_of(joints, UNITS.replace("ROUTES", STRAIGHT), more, speakers=speakers)
    alike(told(code, wiring), parts)


@pytest.mark.parametrize(
    ("code", "routes", "joints", "parts"),
    [
        ("B03", STRAIGHT, f"{IN}; {OUT}", []), ("B04", STRAIGHT, f"{IN}; {OUT}", []),
        ("B09", STRAIGHT, f"{IN}; {OUT}", []),
        # crossed in the table: left for right, front for rear on each side, both at once from corner to corner
        ("B09", "out1: in2, out2: in1, out3: in3, out4: in4", f"{IN}; {OUT}",
         ["in the wires (out1 takes in2) and in the routing of amp, not in the wires (out2 takes in1): left"]),
        ("B09", "out1: in3, out2: in4, out3: in1, out4: in2", f"{IN}; {OUT}", []),
        ("B04", "out1: in3, out2: in4, out3: in1, out4: in2", f"{IN}; {OUT}", ["backwards.", "backwards."]),
        ("B09", "out1: in4, out2: in3, out3: in2, out4: in1", f"{IN}; {OUT}",
         ["left and right change places and the fader acts backwards."] * 2),
        # crossed in the wires alone, before the unit or behind it
        ("B09", STRAIGHT, f"radio.FL: amp.in2; radio.FR: amp.in1; {OUT}", []),
        ("B03", STRAIGHT, f"radio.FL: amp.in2; radio.FR: amp.in1; {OUT}", ["left and right change places."]),
        ("B09", STRAIGHT, f"{IN}; amp.out1: spk.FR; amp.out2: spk.FL", []),
        ("B03", STRAIGHT, f"{IN}; amp.out1: spk.FR; amp.out2: spk.FL", ["left and right change places."]),
        ("B04", STRAIGHT, f"{IN}; amp.out1: spk.FR; amp.out2: spk.FL", []),
    ],
)  # fmt: skip
def test_sides_that_are_crossed(code: str, routes: str, joints: str, parts: list[str]) -> None:
    alike(told(code, signals.wiring_of(joints, UNITS.replace("ROUTES", routes))), parts)
