"""Turn-on and mute lines, microphones and feeds of a car with a factory amplifier: one check at a time, by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, told
from tests.graph import test_joined_rules as joined

HEAD = """\
ringout: 1
title: Lines of a factory amplifier
car: {name: Bench car, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: MIC BN BN/WH, 3: MUTE BN, 4: AMP-ON BU, 5: ACC RD}
  kick:
    place: left kick panel
    unit: famp
    face: {rows: 1, columns: 6, view: wire, latch: top, first: top left, count: across}
    cavities: {3: MUTE BN, 4: AMP-ON BU, 5: unknown WH}
  roof:
    place: roof
    unit: voice
    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: MIC BN BN/WH}
units:
  radio: {kind: radio, gives: {AMP-ON: 100 mA}}
  famp: {kind: factory amplifier}
  bass: {kind: factory amplifier, wakes: AMP-ON 20 mA}
  dsp: {kind: processor, gives: {rem-out: 1 A}, wakes: rem 10 mA}
  amp: {kind: amplifier, wakes: AMP-ON 20 mA}
  voice: {kind: control unit}
found:
  - dash.3 > kick.3
  - dash.4 > kick.4
"""
MUTE = "famp MUTE loses its line from radio MUTE at dash cavity 3 (brown, MUTE), car side, and famp stays"
ON = "famp AMP-ON loses its line from radio AMP-ON at dash cavity 4 (blue, AMP-ON), car side, and famp stays"


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("", "", []), ("", "cut: [dash.3]\n", [MUTE]), ("", "cut: [dash.4]\n", [ON]),
        # two lines are two faults; the amplifier comes out
        ("", "cut: [dash.3, dash.4]\n", [MUTE, ON]), ("", "cut: [dash.3]\nremoved: [famp]\n", []),
        # another unit's output, unless that comes out; the car's switched feed
        ("kick.3: dsp.rem-out", "cut: [dash.3]\n", []),
        ("kick.3: dsp.rem-out", "cut: [dash.3]\nremoved: [dsp]\n", [MUTE]),
        ("kick.3: dash.5", "cut: [dash.3]\n", []), ("kick.3: dash.1", "cut: [dash.3]\n", [MUTE]),
        # what is woken gives nothing, by whatever name; nor does a factory amplifier
        ("kick.3: dsp.rem", "cut: [dash.3]\n", [MUTE]), ("kick.4: amp.AMP-ON", "cut: [dash.4]\n", [ON]),
        ("kick.4: bass.AMP-ON", "cut: [dash.4]\n", [ON]),
        # the amplifier's own other terminal; one that still has its line passes it on
        ("kick.4: kick.3", "cut: [dash.3, dash.4]\n", [MUTE, ON]), ("kick.4: kick.3", "cut: [dash.4]\n", []),
        # a line that is whole and branches off, before one that is cut
        ("dash.4: bass.AMP-ON", "cut: [dash.3]\n", [MUTE]),
    ],
)  # fmt: skip
def test_a_line_of_an_amplifier_that_stays(joints: str, more: str, parts: list[str]) -> None:
    alike(told("C18", joined.wiring_of(joints, more, head=HEAD)), parts)


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("", "", []),
        ("", "cut: [dash.MIC]\n", ["dash cavity 1 (brown, MIC+)"]),
        # one wire of the two is enough; by hand it is passed on again
        ("", "cut: [dash.2]\n", ["dash cavity 2 (brown with white stripe, MIC−)"]),
        ("dash.unit.1: dash.car.1; dash.unit.2: dash.car.2", "cut: [dash.MIC]\n", []),
        # two plugs are two; of a unit that comes out nothing, and what stands behind it is told all the same
        ("", "cut: [dash.MIC, roof.MIC]\n", ["dash cavity 1", "roof cavity 1"]),
        ("", "cut: [dash.MIC, roof.MIC]\nremoved: [radio]\n", ["roof cavity 1"]),
        ("", "cut: [dash.MIC]\nremoved: [voice]\n", ["dash cavity 1"]),
    ],
)
def test_a_microphone_that_is_cut(joints: str, more: str, parts: list[str]) -> None:
    alike(told("C17", joined.wiring_of(joints, more, head=HEAD)), parts)
