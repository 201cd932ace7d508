"""Wires that several hang on, and what counts for one of them: one check at a time on jobs of a few lines."""

from __future__ import annotations

import pytest

from tests.checks.alone import LINK, alike, found, told
from tests.checks.test_alone_feeds import UNITS
from tests.checks.test_alone_halves import AMP, CUT, DECK, PAIRS, STAGE
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals
from tests.graph.test_supply import wiring_of as supplied

CHAIN = "found:\n  - dash.FL > spk.FL\n"
GROUND = "grounds: {G1: {place: floor, metal: bare}}\n"


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("dash.unit.FL: amp.in1", ["The radio looks for a speaker on dash 1/2 (FL) and finds none"]),
        # a transformer and a resistor of its own are loads, an output with ohms is none
        ("dash.unit.FL: amp.in2", []), ("dash.unit.FL: amp.in3", []), ("dash.unit.FL: spk.C", []),
        ("dash.unit.FL: amp.out1", ["finds none"]),
        # both pairs; the first has its load
        ("dash.unit.FL: amp.in2; dash.unit.FR: amp.in1", ["on dash 3/4 (FR) and finds none"]),
    ],
)  # fmt: skip
def test_what_a_radio_finds_where_a_speaker_was(joints: str, parts: list[str]) -> None:
    amp = "amp: {kind: amplifier, outputs: {out1: 50 W @ 4 ohm}, "
    amp += "inputs: {in1: 1..9 V, in2: 1..9 V transformer, in3: 1..9 V @ 100 ohm}}"
    cut = "cut: [dash.FL, dash.FR]\n" if "FR" in joints else CUT
    head = signals.HEAD.replace("steering: left", "steering: left, fitted: [speaker check]")
    more = f"{PAIRS}{cut}{CHAIN}  - dash.FR > spk.FR\n"
    alike(told("C19", signals.wiring_of(joints, amp, more, head=head)), parts)
    gone = f"{more}removed: [radio]\n"
    assert told("C19", signals.wiring_of(joints, amp, gone, head=head)) == []


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("", "", []), ("", "cut: [dash.1]\n", ["dash cavity 1 (brown, MIC+) is the hands-free microphone"]),
        ("", "cut: [C204.car.1]\n", ["dash cavity 1 (brown, MIC+)"]),
        ("", "cut: [dash.2]\n", ["dash cavity 2 (blue, MIC−)"]),
        # another phone takes it: behind the plug; and so that the roof's end hangs open behind the pillar
        ("dash.car.1: phone.MIC+", "cut: [dash.1]\n", []),
        ("dash.car.1: phone.MIC+", "cut: [dash.1, C204.car.1]\n", ["dash cavity 1 (brown, MIC+)"]),
        ("dash.car.1: phone.line", "cut: [dash.1]\n", ["dash cavity 1 (brown, MIC+)"]),
        # a plug of which nobody wrote whose it is, cut there and behind the pillar
        ("nobody", "", []), ("nobody", "cut: [dash.1]\n", ["dash cavity 1 (brown, MIC+)"]),
        ("nobody", "cut: [C204.car.1]\n", ["dash cavity 1 (brown, MIC+)"]),
        # what the plug joins to the radio comes out: no microphone is left
        ("", "cut: [dash.1]\nremoved: [roof]\n", []),
        ("roof.line: phone.line", "cut: [dash.1]\nremoved: [radio]\n", []),
    ],
)  # fmt: skip
def test_a_microphone_behind_two_plugs(joints: str, more: str, parts: list[str]) -> None:
    plug = LINK.replace("    CARRIES\n", "").replace("CAVITIES", "1/2: MIC BN BU")
    if "roof" in joints + more:
        plug = plug.replace("    unit: radio\n", "    unit: radio\n    car: roof\n")
    if "nobody" in joints:
        plug, joints = plug.replace("    unit: radio\n", ""), joints.removesuffix("nobody")
    more = f"{plug}{more}inline: {{C204: pillar, C310: roof}}\nfound:\n  - dash.1/2 > C204.1/2 > C310.1/2\n"
    units = "phone: {kind: interface, terminals: [MIC+, MIC-, line]}; roof: {kind: interface, terminals: [line]}"
    alike(told("C17", signals.wiring_of(joints, units, more)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # one wire, by way of another output, is one fault; the next is told all the same
        ("radio.FL-: gnd.G1; radio.FR-: radio.FL-; amp.out1+: gnd.G1",
         ["radio FL− is live at about 6 V and reaches ground point G1", "amp out1+ is an output and reaches ground"]),
        ("radio.FL-: [gnd.G1, radio.FR-]; amp.out1+: gnd.G1", ["radio FL− is live", "amp out1+ is an output and"]),
    ],
)  # fmt: skip
def test_outputs_on_ground(joints: str, parts: list[str]) -> None:
    alike(told("C03", signals.wiring_of(joints, "amp: {kind: amplifier, outputs: {out1: 50 W}}", GROUND)), parts)


@pytest.mark.parametrize(
    ("band", "parts"),
    [
        # the car's own amplifier is made for what it gets; that it leaves out is nobody's fault
        ("100.. Hz", []), ("..5000 Hz", []), ("300.. Hz", []),
    ],
)  # fmt: skip
def test_the_cars_own_amplifier_plays_what_it_gets(band: str, parts: list[str]) -> None:
    units = DECK % band + (STAGE % ("amp", "factory amplifier", band)).removesuffix("; ")
    alike(told("C10", signals.wiring_of("deck.a: amp.in1; amp.out1: spk.FL", units)), parts)
    # an amplifier that gets less than it is made for
    units = DECK % "500..2000 Hz" + (STAGE % ("amp", "factory amplifier", band)).removesuffix("; ")
    assert len(told("C10", signals.wiring_of("deck.a: amp.in1; amp.out1: spk.FL", units))) == 1


@pytest.mark.parametrize(
    ("speaker", "chain", "parts"),
    [
        # what the speaker had before was enough for it; a new one in its place wants all that it is made for
        ("", "dash.FL > spk.FL", []),
        (", new: 6 inch", "dash.FL > spk.FL", ["FL gets 200 to 20000 Hz from radio FL, and 20 to 200 Hz is missing"]),
        # it had nothing
        ("", "dash.FL > spk.FR", ["FL gets 200 to 20000 Hz from radio FL, and 20 to 200 Hz is missing"]),
    ],
)
def test_a_new_speaker_where_less_was_enough(speaker: str, chain: str, parts: list[str]) -> None:
    speakers = f"speakers: {{FL: {{nominal: 4 ohm{speaker}}}, FR: {{nominal: 4 ohm}}}}\n"
    joints = "dash.unit.FL: amp.in1; amp.out1: " + ("dash.car.FL" if chain.endswith("spk.FL") else "spk.FL")
    head = signals.HEAD.replace("btl 8 V", "btl 8 V 200.. Hz")
    more = f"{PAIRS}{CUT}found:\n  - {chain}\n"
    alike(told("C10", signals.wiring_of(joints, AMP.removesuffix("; "), more, speakers=speakers, head=head)), parts)


@pytest.mark.parametrize(
    ("joints", "speaker", "many"),
    [
        # nothing drives the new speaker, or the old one; the new one is driven; the old one is as it was
        ("", ", new: 6 inch", 0), ("", "", 0), ("radio.FL: spk.FL", ", new: 6 inch", 1), ("radio.FL: spk.FL", "", 1),
    ],
)  # fmt: skip
def test_noise_cancelling_and_a_new_speaker(joints: str, speaker: str, many: int) -> None:
    head = signals.HEAD.replace("steering: left", "steering: left, fitted: [noise cancelling]")
    speakers = f"speakers: {{FL: {{nominal: 4 ohm{speaker}}}}}\n"
    assert len(told("C22", signals.wiring_of(joints, "", "", speakers=speakers, head=head))) == many


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # both in one row are one fault, two rows are two
        ("battery.-: [amp.GND, dsp.GND]", ["amp GND goes to battery −"]),
        ("battery.-: [amp.GND, dsp.GND]; eye.GND: battery.-", ["amp GND goes to battery −", "eye GND goes to battery"]),
        ("battery.-: amp.GND; dsp.GND: battery.-", ["amp GND goes to battery −", "dsp GND goes to battery −"]),
    ],
)
def test_grounds_of_one_row_behind_the_sensor(joints: str, parts: list[str]) -> None:
    head = joined.HEAD.replace("steering: left}", "steering: left, fitted: [battery sensor]}")
    alike(told("F16", joined.wiring_of(joints, head=head)), parts)


@pytest.mark.parametrize(
    ("runs", "names"),
    [
        ("two.out1 > 1 m rca > amp.in1; two.GND > 1 m 8 AWG > gnd.G1", ["amp GND", "amp in1−"]),
        # both hang on the shield: the second stands beside it, with its own row
        (
            "two.out1 > 1 m rca > amp.in1; two.GND > 1 m 8 AWG > gnd.G1; amp.GND > 1 m 8 AWG > three.GND",
            ["amp GND", "amp in1−", "three"],
        ),
    ],
)
def test_where_a_ground_by_a_shield_is_shown(runs: str, names: list[str]) -> None:
    (finding,) = found("F17", supplied(UNITS + "".join(f"  - {run}\n" for run in runs.split("; "))))
    assert sorted(spot.name for spot in finding.places) == sorted(names)


def test_a_ground_point_that_nothing_is_on_stands_first() -> None:
    """Painted metal that no cable of ours goes to is nobody's fault; the next one has a cable."""
    units = UNITS.removesuffix("runs:\n")
    points = "grounds: {B0: {place: boot, metal: painted}, B1: {place: floor, metal: bare}, "
    points += "B2: {place: sill, metal: painted}}\n"
    wiring = supplied(
        f"{units}{points}runs:\n  - two.GND > 1 ft 8 AWG > gnd.B1\n  - amp.GND > 1 ft 8 AWG > gnd.B2\n", ""
    )
    alike(told("F09", wiring), ["ground point B2 (sill) is painted metal"])


@pytest.mark.parametrize(
    ("more", "joint", "parts"),
    [
        # a place without a name is none; a plug with orange cables whose place is named
        ("    carries: HV\n", "solder", []), ("    place: behind the radio\n    carries: HV\n", "solder", []),
        ("    place: behind the radio\n    carries: HV\n", "solder at Behind  the radio", ["J1 is made at"]),
        ("    place: behind the radio\n", "solder at behind the radio", []),
    ],
)  # fmt: skip
def test_where_orange_cables_lie(more: str, joint: str, parts: list[str]) -> None:
    plug = (
        LINK.replace("    place: behind the radio\n", more)
        .replace("    CARRIES\n", "")
        .replace("CAVITIES", "1: ACC RD")
    )
    units = "amp: {kind: amplifier, wakes: rem}"
    text = f"{plug}joints:\n  {joint} with tape:\n    dash.1: amp.rem\n"
    alike(told("G08", signals.wiring_of("", units, text)), parts)


@pytest.mark.parametrize(
    ("key", "parts"),
    [("runs", ["The run from battery + goes via tunnel"]), ("found", [])],
)
def test_a_cable_that_lies_by_orange_ones(key: str, parts: list[str]) -> None:
    """What the car has there is the maker's."""
    head = signals.HEAD.replace("steering: left", "steering: left, orange: [tunnel]")
    more = f"{key}:\n  - battery.+ > fuse 10 A > 1 m 8 AWG via tunnel grommet > amp.B+\n"
    alike(told("G08", signals.wiring_of("", "amp: {kind: amplifier, draws: 3 A}", more, head=head)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # the plug's ground is the body: a joint at another ground touches no restraint wire, one on its own does
        ("amp.GND: gnd.G1", []),
        ("amp.GND: seat.2", ["seat cavity 2 (black, GND), car side is a restraint wire"]),
        ("amp.rem: seat.1", ["seat cavity 1 (yellow, SRS), car side is a restraint wire"]),
        # a row that says SRS and lies on the body makes no restraint wire of all that is grounded
        ("amp.GND: gnd.G1 of 1", []),
        ("amp.GND: seat.2 of 1", []),
        ("amp.GND: seat.1 of 1", ["seat cavity 1 (yellow, SRS), car side is a restraint wire"]),
    ],
)
def test_the_ground_of_a_restraint_plug(joints: str, parts: list[str]) -> None:
    plug = LINK.replace("dash:", "seat:").replace("    unit: radio\n", "    unit: sensor\n")
    plug = plug.replace("CARRIES", "carries: SRS").replace("CAVITIES", "1: SRS YE, 2: GND BK")
    units = "sensor: {kind: control unit}; amp: {kind: amplifier, wakes: rem}"
    if joints.endswith(" of 1"):
        joints, plug = (
            joints.removesuffix(" of 1"),
            plug.replace("    carries: SRS\n", "").replace("  seat.2", "  seat.1"),
        )
    more = f"{plug}{GROUND}found:\n  - seat.{1 if 'carries' not in plug else 2} > gnd.G1\n"
    alike(told("G07", signals.wiring_of(joints, units, more)), parts)
