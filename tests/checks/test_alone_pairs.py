"""Pairs, bridges, loads and sums: one check at a time on jobs of a few lines, read off by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import LINK, alike, found, told
from tests.graph import test_signals as signals

GROUND = "grounds: {G1: {place: floor, metal: bare}}\n"
AMP = "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 50 W}%s}"


@pytest.mark.parametrize(
    ("code", "own", "joints"),
    [
        ("C19", "speaker check", "dash.unit.FL: amp.in1"), ("C22", "noise cancelling", "amp.out1: spk.FL"),
        ("E12", "stop-start", "dash.5: amp.rem"),
    ],
)  # fmt: skip
def test_a_car_with_another_thing_fitted(code: str, own: str, joints: str) -> None:
    """With a battery sensor in its place the radio looks for no speaker, nothing booms and nothing drops."""
    plug = LINK.replace("CAVITIES", "1/2: FL WH WH/BK, 5: ACC RD").replace("    CARRIES\n", "")
    cut = "cut: [dash.FL]\n" if code == "C19" else ""
    units = "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1: 50 W}, wakes: rem 20 mA}"
    for fitted, many in ((own, 1), ("battery sensor", 0)):
        head = signals.HEAD.replace("steering: left", f"steering: left, fitted: [{fitted}]")
        more = f"{plug}{cut}found:\n  - dash.FL > spk.FL\n"
        messages = told(code, signals.wiring_of(joints, units, more, head=head))
        assert len(messages) == many, messages


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        # what drives a speaker now and did not; one that is new itself; one that stays silent
        ("amp.out1: spk.FL", "", ["after the job FL is driven otherwise"]),
        ("radio.FL: spk.FL", "", ["after the job FL is driven otherwise"]),
        ("amp.out1: [spk.FL, spk.FR]", "", ["after the job FL, FR are driven otherwise"]),
        ("", "found:\n  - radio.FL > spk.FL\n", []),
        ("amp.out1: spk.FR", "found:\n  - radio.FL > spk.FL\n", ["after the job FR is"]),
    ],
)
def test_noise_cancelling_and_who_drives(joints: str, more: str, parts: list[str]) -> None:
    head = signals.HEAD.replace("steering: left", "steering: left, fitted: [noise cancelling]")
    alike(told("C22", signals.wiring_of(joints, AMP % "", more, head=head)), parts)


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        # both on ground is told of the ground; what stands behind it is told all the same
        ("gnd.G1: [radio.FL+, radio.FL-]", "", []),
        ("gnd.G1: [radio.FL+, radio.FL-]; radio.FR+: radio.FR-", "", ["radio FR+ and radio FR− are one wire"]),
        # a pair of a plug of which no output is written, by either half; one that leads on
        ("dash.car.1: dash.car.2", "", ["dash cavity 1 (white, RL+), car side and dash cavity 2"]),
        ("dash.unit.1: dash.unit.2", "", ["dash cavity 1 (white, RL+), unit side and dash cavity 2"]),
        # a closed input whose pair is fine, and one that is joined on by its + alone
        ("amp.in1+: amp.in1-; amp.in2+: amp.in2-", "", []),
        ("amp.in1+: amp.in1-; amp.in1-: face.line", "", ["amp in1+ and amp in1− are one wire"]),
        # what a unit joins inside is its maker's, also where it is joined outside once more; two bonds are two wires
        ("inside.in2+: [inside.in2-, spk.FL+]", "", []),
        ("apart.in1+: [apart.in1-, spk.FL+]", "", ["apart in1+ and apart in1− are one wire"]),
        # a bridge's own two terminals
        ("bridge.out1+: bridge.out2-", "", ["bridge out1+ and bridge out2− are one wire"]),
    ],
)
def test_more_pairs_in_one_net(joints: str, more: str, parts: list[str]) -> None:
    units = AMP % "" + "; face: {kind: interface, terminals: [line]}; "
    units += "bridge: {kind: amplifier, outputs: {out1..2: 50 W}, bridges: out1+/out2-}; "
    units += "inside: {kind: processor, inputs: {in1..2: 1..9 V}, bonds: [in2+ in2-]}; "
    units += "apart: {kind: processor, inputs: {in1..2: 1..9 V}, bonds: [in1+ in2+, in1- in2-]}"
    plug = LINK.replace("CAVITIES", "1/2: RL WH WH/BK").replace("    CARRIES\n", "")
    alike(told("C24", signals.wiring_of(joints, units, f"{plug}cut: [dash.RL]\n{GROUND}{more}")), parts)


@pytest.mark.parametrize(
    ("joints", "lines"),
    [
        ("radio.FL: plain.in1", []), ("radio.FL: low.in1", [1]),
        # both wires of one input are one fault, the second input of a unit another
        ("radio.FL+: low.in1+; radio.FL-: low.in1-", [2]), ("radio.FL: low.in1; radio.FR: low.in2", [1, 2]),
        # an output that isn't bridged, before one that is; its input first in the job
        ("plain.out1: low.in2; radio.FL: low.in1", [2]), ("radio.FL: plain.in1; radio.FR: low.in1", [2]),
        # at one joint with two inputs: told once
        ("radio.FL-: [low.in1-, low.in2-]", [1]),
        ("radio.FL-: [low.in1-, low.in2-]; radio.FR-: other.in1-", [1, 2]),
        # on ground itself it is another's fault; a unit that joins two inputs inside, and none to ground
        ("radio.FL-: gnd.G1", []), ("radio.FL-: tied.in1-", []), ("radio.FL-: tied.in1-; radio.FR: low.in1", [2]),
        # behind a bond to ground of what is no input
        ("radio.FL-: [face.line, low.in1-]", [1]),
        # a speaker alone before it; a bond to ground of a terminal that is no input
        ("radio.FL: spk.FL; radio.FR: low.in1", [2]), ("radio.FL-: face.line", []),
    ],
)  # fmt: skip
def test_a_bridged_output_into_a_grounded_input(joints: str, lines: list[int]) -> None:
    units = (
        "plain: {kind: processor, inputs: {in1..2: 1..9 V}, outputs: {out1: 4 V}}; "
        "low: {kind: line converter, inputs: {in1..2: 1..9 V grounded}}; "
        "other: {kind: line converter, inputs: {in1: 1..9 V grounded}}; "
        "tied: {kind: processor, inputs: {in1..2: 1..9 V}, bonds: [in1- in2-]}; "
        "face: {kind: interface, terminals: [line], inputs: {in1: 1..9 V}, bonds: [line GND]}"
    )
    wiring = signals.wiring_of(joints, units, GROUND)
    assert sorted(each.places[0].place.line for each in found("C05", wiring)) == [
        signals.HEAD.count("\n") + 5 + 2 + 2 + line for line in lines
    ]


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("amp.out1+: spk.FL+; amp.out2-: spk.FL-", []),
        ("amp.out1-: spk.FL-; amp.out2+: spk.FL+",
         ["FL is bridged over amp out2+ and out1−; amp bridges out1+ and out2−"]),
        # of two units, and of outputs that no bridge is written for, nothing: the next is told all the same
        ("amp.out1+: spk.FL+; two.out2-: spk.FL-", []), ("amp.out1+: spk.FL+; amp.out3-: spk.FL-", []),
        ("amp.out1+: spk.FL+; two.out2-: spk.FL-; amp.out1-: spk.FR-; amp.out2+: spk.FR+",
         ["FR is bridged over amp out2+ and out1−"]),
        ("amp.out3+: spk.FL+; amp.out4-: spk.FL-; amp.out1-: spk.FR-; amp.out2+: spk.FR+",
         ["FR is bridged over amp out2+ and out1−"]),
    ],
)  # fmt: skip
def test_a_bridge_on_other_terminals(joints: str, parts: list[str]) -> None:
    units = (
        "amp: {kind: amplifier, outputs: {out1..4: 50 W}, bridges: out1+/out2-}; "
        "two: {kind: amplifier, outputs: {out1..2: 50 W}, bridges: out1+/out2-}"
    )
    alike(told("D07", signals.wiring_of(joints, units)), parts)


@pytest.mark.parametrize(
    ("code", "rated", "joints", "parts"),
    [
        # 4 and 4 side by side 2 ohm: exactly as rated, and less
        ("D01", "2 ohm", "amp.out1: [spk.FL, spk.FR]", []),
        ("D01", "3 ohm", "amp.out1: [spk.FL, spk.FR]", ["amp out1 sees 2 ohm with FL and FR, rated for 3 ohm"]),
        # one whose least load isn't written, one that is bridged, before one that is too low
        ("D01", "3 ohm", "two.out1: spk.RL; amp.out1: [spk.FL, spk.FR]", ["amp out1 sees 2 ohm"]),
        ("D01", "3 ohm", "two.out1+: spk.RL+; two.out2-: spk.RL-; amp.out1: [spk.FL, spk.FR]", ["amp out1 sees"]),
        # a bridge halves: 4/2
        ("D02", "2 ohm", "amp.out1+: spk.FL+; amp.out2-: spk.FL-", []),
        ("D02", "3 ohm", "amp.out1+: spk.FL+; amp.out2-: spk.FL-", ["each half of amp out1+/out2- sees 2 ohm"]),
        ("D02", "3 ohm", "two.out1+: spk.RL+; two.out2-: spk.RL-; amp.out1+: spk.FL+; amp.out2-: spk.FL-", ["amp out"]),
        # what is bridged is D02's, what isn't D01's; what is fine ends nothing
        ("D02", "3 ohm", "amp.out1: [spk.FL, spk.FR]", []),
        ("D01", "3 ohm", "amp.out1+: spk.FL+; amp.out2-: spk.FL-", []),
        ("D01", "3 ohm", "amp.out1: spk.RL; amp.out2: [spk.FL, spk.FR]", ["amp out2 sees 2 ohm"]),
        ("D02", "3 ohm", "eight.out1+: spk.RL+; eight.out2-: spk.RL-; amp.out1+: spk.FL+; amp.out2-: spk.FL-",
         ["each half of amp out1+/out2- sees 2 ohm"]),
    ],
)  # fmt: skip
def test_loads_at_their_limit(code: str, rated: str, joints: str, parts: list[str]) -> None:
    units = (
        "two: {kind: amplifier, outputs: {out1..2: 50 W}, bridges: out1+/out2-}; "
        "eight: {kind: amplifier, outputs: {out1..2: 50 W @ 4 ohm least 1 ohm}, bridges: out1+/out2-}; "
        f"amp: {{kind: amplifier, outputs: {{out1..2: 50 W @ 4 ohm least {rated}}}, bridges: out1+/out2-}}"
    )
    alike(told(code, signals.wiring_of(joints, units)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("amp.in1+: radio.FL+; amp.in1-: radio.FL-", []),
        ("amp.in1+: radio.FL+", ["amp in1+ is joined and amp in1− is not: hum or silence"]),
        ("amp.in1-: radio.FL-", ["amp in1− is joined and amp in1+ is not: hum or silence"]),
        # two are two, and an output that sits in no plug is one more; data terminals, and one with a single sign
        ("amp.in1+: radio.FL+; amp.in2-: radio.FR-", ["amp in1+ is joined", "amp in2− is joined", "radio FR− is"]),
        ("face.CAN-H: dash.1", ["face CAN-H is joined and face CAN-L is not: it stays off the bus"]),
        ("lone.CAN-H: dash.1", []), ("face.CAN-H: dash.1; face.CAN-L: dash.2", []),
        ("amp.in2-: radio.FR-", ["amp in2− is joined", "radio FR− is joined"]),
        # what isn't sound or data comes in no twos
        ("odd.line+: dash.1", []),
        # half of an output in a plug, by either wire, is taken as it is
        ("five.RL-: amp.in1-", ["amp in1− is joined and"]), ("five.RR+: amp.in1+", ["amp in1+ is joined and"]),
        # a bridge needs one wire of each; the other bridge has its own
        ("bridge.out1+: spk.FL+; bridge.out2-: spk.FL-", []),
        ("bridge.out1+: spk.FL+; bridge.out2-: spk.FL-; bridge.out3+: spk.FR+",
         ["bridge out3+ is joined and bridge out3− is not"]),
        ("bridge.out1+: spk.FL+", ["bridge out1+ is joined and bridge out1− is not"]),
        # a plug's own wires are taken as they are, and what stands behind them is told
        ("dash.3: amp.in1+; dash.4: amp.in1-; bridge.out1-: spk.FR-", ["bridge out1− is joined"]),
    ],
)  # fmt: skip
def test_half_a_pair(joints: str, parts: list[str]) -> None:
    units = (
        AMP % "" + "; face: {kind: interface, terminals: [CAN-H, CAN-L]}; lone: {kind: interface, terminals: [CAN-H]}; "
        "odd: {kind: interface, terminals: [line+, line-]}; five: {kind: radio, outputs: {RL RR: 4 V}}; "
        "bridge: {kind: amplifier, outputs: {out1..3: 50 W}, bridges: out1+/out2-}"
    )
    plug = LINK.replace("CAVITIES", "1/2: CAN YE/GN YE/BN, 3/4: FL WH WH/BK").replace("    CARRIES\n", "")
    plug += LINK.replace("plugs:\n", "").replace("dash:", "seat:").replace("unit: radio", "unit: five").replace(
        "    CARRIES\n", "").replace("CAVITIES", "1: RL+ WH, 2: RR- WH/BK")  # fmt: skip
    alike(told("H12", signals.wiring_of(joints, units, plug)), parts)


def test_an_output_on_the_ground_that_another_is_on() -> None:
    """Two wires of one joint are one fault, and the wire of the next joint is another."""
    wiring = signals.wiring_of("gnd.G1: [radio.FL-, radio.FR-]; amp.out1+: gnd.G1", AMP % "", GROUND)
    alike(told("C03", wiring), ["radio FL− is live at about 6 V", "amp out1+ is an output and reaches"])
    # the wire of both, nearer to ground than the next fault is
    joints = "radio.FL-: [radio.FR-, gnd.G1]; amp.out1+: amp.in1+; amp.in1+: gnd.G1"
    alike(told("C03", signals.wiring_of(joints, AMP % "", GROUND)), ["radio FL− is live", "amp out1+ is an output"])


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # a radio plays by itself, whatever is routed through it
        ("deck.FL: spk.FL; deck.FR: spk.FR", []),
        ("radio.FL: dsp.in1; dsp.out1: spk.FL", []),
        ("radio.FL: dsp.in1; dsp.out1: spk.FL; dsp.out2: spk.FR", ["dsp out2 drives FR, but nothing is routed to it"]),
        # of three the second hangs on nothing
        ("radio.FL: dsp.in1; dsp.out3: [spk.FR, spk.C]", ["dsp out3 drives FR and C, but nothing is routed to it"]),
        # no routes are written: out2 has no input of its number, and that is listed as not checked
        ("radio.FL: mix.in1; mix.out2: spk.FR", []),
    ],
)
def test_an_output_that_nothing_is_routed_to(joints: str, parts: list[str]) -> None:
    units = (
        "deck: {kind: radio, inputs: {aux: 1..2 V}, outputs: {FL FR: btl 8 V}, routes: {FL: aux}}; "
        "dsp: {kind: processor, inputs: {in1: 1..9 V}, outputs: {out1..3: 4 V}, routes: {out1: in1}}; "
        "mix: {kind: processor, inputs: {in1: 1..9 V}, outputs: {out1..2: 4 V}}"
    )
    alike(told("C13", signals.wiring_of(joints, units)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # one coil of two, with a speaker of one coil that is silent before it; both; none
        ("radio.FL: amp.in1; amp.out1: spk.SUB.c1", ["SUB coil 2 is open though another coil is driven"]),
        ("radio.FL: amp.in1; amp.out1: spk.SUB.c2", ["SUB coil 1 is open though another coil is driven"]),
        ("radio.FL: amp.in1; radio.FR: amp.in2; amp.out1: spk.SUB.c1; amp.out2: spk.SUB.c2", []),
        ("radio.FL: spk.FL", []),
    ],
)
def test_one_coil_of_two(joints: str, parts: list[str]) -> None:
    speakers = "speakers:\n  FL: {nominal: 4 ohm, new: 6 inch}\n  SUB: {coils: 2 x 4 ohm separate, new: 10 inch}\n"
    amp = AMP % ", routes: {out1..2: in1..2}"
    alike(told("D04", signals.wiring_of(joints, amp, speakers=speakers)), parts)
