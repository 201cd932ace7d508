"""One check at a time on jobs of a few lines: who is told, and what the words hang on. Read off the lines by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from harness.checks import all_checks
from harness.checks.registry import run_checks
from harness.graph.wiring import Wiring
from tests.graph import test_joined_rules as joined
from tests.graph import test_signals as signals
from tests.graph.test_supply import wiring_of as supplied


def told(code: str, wiring: Wiring) -> list[str]:
    """The messages of one code."""
    check = next(each for each in all_checks() if each.code == code)
    return [each.message for each in run_checks(wiring, [check])[0]]


def alike(messages: list[str], parts: list[str]) -> None:
    """As many messages as parts, each with its part in it."""
    assert len(messages) == len(parts), messages
    for message, part in zip(messages, parts, strict=True):
        assert part in message


# -- bands: C10, C11 -----------------------------------------------------------------------------------------------

DECK = "deck: {{kind: radio, outputs: {{a: 4 V {a}, b: 4 V {b}}}}}"


@pytest.mark.parametrize(
    ("band", "out", "speaker", "parts"),
    [
        # an octave may be missing; what is missing at one end alone is told of that end alone
        ("40.. Hz", "", "FL", []),
        ("41.. Hz", "", "FL", ["gets 41 to 20000 Hz from deck a, and 20 to 41 Hz is missing."]),
        ("..10000 Hz", "", "FL", []),
        ("..9900 Hz", "", "FL", ["gets 20 to 9900 Hz from deck a, and 9900 to 20000 Hz is missing."]),
        ("100..5000 Hz", "", "FL", ["and 20 to 100 Hz and 5000 to 20000 Hz is missing."]),
        # the output plays no more than it gets
        ("100..5000 Hz", "100..5000 Hz", "FL", []),
        # a tweeter is for 2 kHz and up, a midrange and a woofer for 100 Hz to 3 kHz, a sub for 80 Hz and below
        ("4000.. Hz", "", "FL-TW", []), ("4100.. Hz", "", "FL-TW", ["2000 to 4100 Hz is missing"]),
        ("200..1500 Hz", "", "FL-WF", []), ("201..1500 Hz", "", "FL-WF", ["100 to 201 Hz is missing"]),
        ("200..1499 Hz", "", "FL-WF", ["1499 to 3000 Hz is missing"]),
        ("..40 Hz", "", "SUB", []), ("..39 Hz", "", "SUB", ["39 to 80 Hz is missing"]),
        # nothing is shared
        ("..80 Hz", "100.. Hz", "FL", ["gets nothing of what its output plays from deck a: it stays silent."]),
    ],
)  # fmt: skip
def test_a_band_that_does_not_come(band: str, out: str, speaker: str, parts: list[str]) -> None:
    """Common practice, no source, for what drivers are for."""
    speakers = "speakers: {FL FL-TW FL-WF SUB: {nominal: 4 ohm}}\n"
    amp = f"amp: {{kind: amplifier, inputs: {{in1: 1..9 V}}, outputs: {{out1: 50 W}}, routes: {{out1: in1 {out}}}}}"
    units = DECK.format(a=band, b="") + "; " + amp
    alike(told("C10", signals.wiring_of(f"deck.a: amp.in1; amp.out1: spk.{speaker}", units, speakers=speakers)), parts)


@pytest.mark.parametrize(
    ("a", "b", "more", "parts"),
    [
        # 5/1.8 and 7/1.8 kHz; alike; no delay; no shared band; a band below the first hole (0.556 kHz)
        ("2000..4000 Hz 0.9 ms", "2000..4000 Hz", "", ["in1 runs 0.9 ms behind in2 and both play 2000 to 4000 Hz"]),
        ("2000..4000 Hz", "2000..4000 Hz 0.9 ms", "", ["in2 runs 0.9 ms behind in1 and both play 2000 to 4000 Hz"]),
        ("0.9 ms", "0.9 ms", "", []), ("", "", "", []),
        ("..100 Hz 0.9 ms", "4000.. Hz", "", []), ("..500 Hz 0.9 ms", "..500 Hz", "", []),
        # three holes are named at most
        ("..4000 Hz 0.9 ms", "..4000 Hz", "", ["holes at 556 and 1667 and 2778 Hz"]),
    ],
)  # fmt: skip
def test_a_sum_with_a_delay(a: str, b: str, more: str, parts: list[str]) -> None:
    """(2k + 1)/(2 delay): 1/1.8, 3/1.8, 5/1.8, 7/1.8 kHz. A sum without holes stands before it in the job."""
    sums = "; ".join(
        f"{name}: {{kind: processor, inputs: {{in1..2: 1..9 V}}, outputs: {{out1..2: 4 V}}, "
        "routes: {out1: in1 + in2, out2: in1}}"
        for name in ("first", "mix")
    )
    joints = "deck.a: [mix.in1, first.in1, first.in2]; deck.b: mix.in2; mix.out1: spk.FL; first.out1: spk.FR"
    messages = told("C11", signals.wiring_of(joints, f"{DECK.format(a=a, b=b)}; {sums}{more}"))
    alike(messages, [f"mix {part}" if part.startswith("in") else part for part in parts])


def test_a_bridge_over_a_sum_is_told_once() -> None:
    mix = (
        "mix: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 50 W}, "
        "routes: {out1: in1 + in2, out2: in1}, bridges: out1+/out2-}"
    )
    units = DECK.format(a="2000..4000 Hz 0.9 ms", b="2000..4000 Hz") + "; " + mix
    wiring = signals.wiring_of("deck.a: mix.in1; deck.b: mix.in2; mix.out1+: spk.FL+; mix.out2-: spk.FL-", units)
    assert len(told("C11", wiring)) == 1


# -- pairs in one net: C24, C03, C20 ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("radio.FL: spk.FL", "", []),
        ("radio.FL: spk.FL; radio.FL+: radio.FL-", "", ["radio FL+ and radio FL− are one wire"]),
        # a speaker's own two wires alone; in a clip with another
        ("spk.FL+: spk.FL-", "", ["speaker FL+ and speaker FL− are one wire"]),
        ("radio.FL: spk.FL; spk.FR+: spk.FR-", "", ["speaker FR+ and speaker FR− are one wire"]),
        # an unused input that is closed is fine, whichever comes first; with an output on it it isn't
        ("amp.in1+: amp.in1-", "", []),
        ("amp.in1+: amp.in1-; radio.FL+: radio.FL-", "", ["radio FL+ and radio FL−"]),
        ("radio.FL+: [radio.FL-, amp.in1+]; amp.in1+: amp.in1-", "", ["radio FL+ and radio FL−"]),
        ("amp.in1+: [amp.in1-, spk.FL+]", "", ["amp in1+ and amp in1− are one wire"]),
        # what a unit joins inside is its maker's
        ("", "bonds", []),
        ("radio.FL: spk.FL; radio.FR+: radio.FR-", "bonds", ["radio FR+ and radio FR−"]),
        # two nets, two faults
        ("radio.FL+: radio.FL-; radio.FR+: radio.FR-", "", ["radio FL+ and radio FL−", "radio FR+ and radio FR−"]),
    ],
)
def test_both_wires_of_a_pair_in_one_net(joints: str, more: str, parts: list[str]) -> None:
    bonds = ", bonds: [in2+ in2-]" if more else ""
    amp = f"amp: {{kind: amplifier, inputs: {{in1..2: 1..9 V}}, outputs: {{out1: 50 W}}{bonds}}}"
    alike(told("C24", signals.wiring_of(joints, amp)), parts)


def test_where_a_pair_turned_and_shorted_is_parted() -> None:
    """Of two joints on the way the one between the last contact marked + and the first marked −, whichever is first."""
    check = next(each for each in all_checks() if each.code == "C24")
    for joints, line in (
        ("radio.FL+: [spk.FL+, spk.FR+]; spk.FR+: spk.RL-; spk.RL-: radio.FL-", 8 + 2),
        ("spk.RL-: radio.FL-; spk.FR+: spk.RL-; radio.FL+: [spk.FL+, spk.FR+]", 8 + 2),
    ):
        wiring = signals.wiring_of(joints)
        (finding,) = run_checks(wiring, [check])[0]
        assert finding.places[0].place.line == line


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("radio.FL: spk.FL", []),
        ("radio.FL-: gnd.G1", ["radio FL− is live at about 6 V and reaches ground point G1"]),
        ("radio.FL+: gnd.G1; radio.FR-: gnd.G1", ["radio FL+ is live", "radio FR− is live"]),
        # both at one joint are one fault; so is the second wire that meets the first
        ("gnd.G1: [radio.FL-, radio.FR-]", ["radio FL− is live"]),
        ("gnd.G1: radio.FL-; radio.FL-: radio.FR-", ["radio FL− is live"]),
        # a plain output's + is one, its − is none; − of a bridge is one
        ("amp.out1+: gnd.G1", ["amp out1+ is an output and reaches"]),
        ("amp.out1-: gnd.G1", []), ("amp.out2-: gnd.G1", ["amp out2− is an output"]),
        # an input that ties its own − to ground inside
        ("radio.FL: low.in1", []), ("radio.FL-: low.in1-; low.in1-: low.in2+", []),
        # a speaker between one wire and the body
        ("radio.FL+: spk.FL+; spk.FL-: gnd.G1",
         ["radio FL+ is live at about 6 V and drives speaker FL+, whose other wire"]),
        ("radio.FL-: spk.FL+; spk.FL-: gnd.G1",
         ["radio FL− is live at about 6 V and drives speaker FL+, whose other wire"]),
        ("radio.FL+: spk.FL-; spk.FL+: gnd.G1",
         ["radio FL+ is live at about 6 V and drives speaker FL−, whose other wire"]),
        ("amp.out1+: spk.FL+; spk.FL-: gnd.G1", []),
        ("spk.FR-: gnd.G1; radio.FL+: spk.FL+; spk.FL-: gnd.G1", ["drives speaker FL+"]),
    ],
)  # fmt: skip
def test_live_wires_on_ground(joints: str, parts: list[str]) -> None:
    units = (
        "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1..2: 50 W}, bridges: out1+/out2-}; "
        "low: {kind: line converter, inputs: {in1: 1..9 V grounded, in2: 1..9 V}}"
    )
    alike(told("C03", signals.wiring_of(joints, units, "grounds: {G1: {place: floor, metal: bare}}\n")), parts)


LINK = """\
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 1, columns: 8, view: wire, latch: top, first: top left, count: across}
    CARRIES
    cavities: {CAVITIES}
"""


@pytest.mark.parametrize(
    ("cavities", "carries", "joints", "parts"),
    [
        ("1/2: DIGITAL BK WH", "", "", []),
        ("1/2: DIGITAL BK WH", "", "dash.1: amp.in1+",
         ["dash cavity 1 (black, DIGITAL+), unit side carries digital audio and is tapped for amp in1+"]),
        ("1/2: DIGITAL BK WH", "", "dash.1: spk.FL+", ["is tapped for speaker FL+"]),
        ("1/2: DIGITAL BK WH", "", "dash.1: gnd.G1", []),
        # a digital input on a whole wire is a tap, on an opened one a link
        ("1/2: DIGITAL BK WH", "", "dash.1: dac.in1+", ["is tapped for dac in1+"]),
        ("1/2: DIGITAL BK WH", "cut", "dash.unit.1: dac.in1+", []),
        ("1/2: DIGITAL BK WH", "cut", "dash.unit.1: amp.in1+", ["is joined to amp in1+"]),
        ("1/2: DIGITAL BK WH", "cut", "dash.car.1: amp.in1+",
         ["car side carries digital audio and is joined to amp in1+"]),
        # a unit's own digital output on an analogue input; on a digital one
        ("1: ILL", "", "dac.out1: amp.in1", ["dac out1+ carries digital audio and is joined to amp in1+"]),
        ("1: ILL", "", "dac.out1: dac.in1", []),
        # a plug that is said to carry a link, whose cavities say audio; one that isn't
        ("1/2: FL BK WH", "carries: digital", "dash.1: amp.in1+", ["is tapped for amp in1+"]),
        ("1/2: FL BK WH", "", "dash.1: amp.in1+", []),
        ("1/2: FL BK WH, 3: DIGITAL+", "carries: digital", "dash.1: amp.in1+", []),
    ],
)  # fmt: skip
def test_digital_links(cavities: str, carries: str, joints: str, parts: list[str]) -> None:
    units = (
        "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1: 50 W}}; "
        "dac: {kind: processor, inputs: {in1: digital}, outputs: {out1: digital}}"
    )
    said = "" if carries in ("", "cut") else f"    {carries}\n"
    plug = LINK.replace("CAVITIES", cavities).replace("    CARRIES\n", said)
    plug += "cut: [dash.unit.1, dash.unit.2]\n" if carries == "cut" else ""
    alike(told("C20", signals.wiring_of(joints, units, plug + "grounds: {G1: {place: floor, metal: bare}}\n")), parts)


# -- data, restraint, orange: G01, G07, G08, G11 -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("more", "mate", "parts"),
    [
        ("", "", []),
        ("cut: [dash.car.3]\n", "", ["dash cavity 3 (yellow with green stripe, CAN-H) is opened alone"]),
        ("cut: [gate.car.4]\n", "", ["gate cavity 4 (yellow with brown stripe, CAN-L) is opened alone"]),
        ("cut: [dash.car.3, dash.car.4]\n", "", ["are opened: radio is off the bus"]),
        ("cut: [gate.car.3, dash.car.4]\n", "", ["gate cavity 3", "dash cavity 4"]),
        # a wire of which the chart has no partner; another wire
        ("cut: [sill.car.1]\n", "", []), ("cut: [dash.car.5]\n", "", []),
        # the loom opens both; the unit comes out with the plug
        ("", "T1: dash", ["are opened: radio is off the bus"]),
        ("cut: [gate.car.3, gate.car.4]\nremoved: [out, body]\n", "", []),
        ("cut: [gate.car.3]\nremoved: [out, body]\n", "", ["is opened alone"]),
    ],
)  # fmt: skip
def test_data_pairs_that_are_opened(more: str, mate: str, parts: list[str]) -> None:
    head = joined.HEAD.replace("removed: [out]\n", "") if "removed" in more else joined.HEAD
    alike(told("G01", joined.wiring_of("", more, mate, head)), parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("dash.3: eye.CAN-H; dash.4: eye.CAN-L", []),
        ("dash.3: eye.CAN-L", ["high and low are swapped"]),
        # both wires are one fault, two plugs are two
        ("dash.3: eye.CAN-L; dash.4: eye.CAN-H", ["arrives at eye CAN-L"]),
        ("dash.3: eye.CAN-L; gate.3: face.CAN-L", ["arrives at eye CAN-L", "arrives at face CAN-L"]),
        # a short before it doesn't end the search
        ("dash.car.3: dash.car.4; gate.3: eye.CAN-L", ["arrives at eye CAN-L"]),
    ],
)
def test_data_pairs_that_are_crossed(joints: str, parts: list[str]) -> None:
    alike(told("G11", joined.wiring_of(joints)), parts)


BAG = """\
  bag:
    place: under the seat
    face: {rows: 1, columns: 3, view: wire, latch: top, first: top left, count: across}
    carries: srs
    cavities: {1: SRS YE, 2: ILL OG, 3: GND BK}
"""
SRS = joined.HEAD.replace("  sill:\n", BAG + "  sill:\n")


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("dash.5: amp.rem", "", []),
        ("bag.1: amp.rem", "",
         ["bag cavity 1 (yellow, SRS), car side is a restraint wire, and the plan has it joined"]),
        # any wire of such a plug; what hangs on ground elsewhere isn't
        ("bag.2: amp.rem", "", ["is a restraint wire"]), ("bag.3: gnd.G1", "", ["is a restraint wire"]),
        ("dash.2: gnd.G1", "", []),
        # a wire that leads there
        ("sill.2: amp.rem", "found:\n  - bag.2 > sill.2\n",
         ["sill cavity 2 (orange, ILL), car side leads to bag cavity 2"]),
        ("", "cut: [bag.car.1]\n", ["and the plan has it cut"]), ("", "capped: [bag.unit.1]\n", ["capped"]),
        # two acts, two faults; one that is fine before it
        ("dash.5: amp.rem", "cut: [bag.car.1]\n", ["cut"]),
        ("bag.1: amp.rem", "cut: [bag.car.2]\n", ["joined", "cut"]),
    ],
)  # fmt: skip
def test_restraint_wires(joints: str, more: str, parts: list[str]) -> None:
    alike(told("G07", joined.wiring_of(joints, more, head=SRS)), parts)


@pytest.mark.parametrize(
    ("orange", "runs", "parts"),
    [
        ("[tunnel]", "battery.+ > 1 m 8 AWG via tunnel grommet > fuse 30 A > amp.B+", ["tunnel, where orange"]),
        ("[Tunnel]", "battery.+ > 1 m 8 AWG via  tunnel grommet > fuse 30 A > amp.B+", ["Tunnel, where orange"]),
        ("[tunnel]", "battery.+ > 1 m 8 AWG via sill grommet > fuse 30 A > amp.B+", []),
        ("[floor]", "amp.GND > 1 ft 8 AWG > gnd.G1", ["floor, where orange"]),
    ],
)
def test_places_with_orange_cables(orange: str, runs: str, parts: list[str]) -> None:
    """Two pieces of one run at one place are told once; a place that is fine stands before it."""
    head = joined.HEAD.replace("steering: left}", f"steering: left, drive: hybrid, orange: {orange}}}")
    more = f"runs:\n  - dsp.GND > 1 ft 8 AWG via pillar grommet > gnd.G2\n  - {runs}\n"
    alike(told("G08", joined.wiring_of("", more, head=head)), parts)


# -- looms and leads: H01, H14, H18 ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("leads", "moved", "parts"),
    [
        ("through: 1..2, leads: {3/4: CAN YE/GN YE/BN}", "", []),
        ("leads: {car.6: ILL OG, other: car.6 ILL BU}", "", ["T1 car end cavity 6 has two leads in one terminal"]),
        ("through: {1: 1, 2: 1}", "", ["T1 car end cavity 1 has two leads"]),
        # the same wire written twice; one that branches off a wire through
        ("through: 1 1", "", []),
        ("through: [1], leads: {car.1: ILL OG}", "", []),
        # a pin moved to where one stands, where none does, where one was; two to one
        ("through: 1..2", "moved: {T1.car.1: T1.car.2}\n", ["is moved to cavity 2, where"]),
        ("through: 1..2", "moved: {T1.car.1: T1.car.9}\n", []),
        ("through: 1..2", "moved: {T1.car.1: T1.car.2, T1.car.2: T1.car.1}\n", []),
        ("through: 1..2", "moved: {T1.car.1: T1.car.2}\ndepinned: [T1.car.2]\n", []),
        ("through: 1..2", "moved: {T1.car.1: T1.car.9, T1.car.2: T1.car.9}\n", ["is moved to cavity 9, where"]),
    ],
)
def test_two_leads_in_one_terminal(leads: str, moved: str, parts: list[str]) -> None:
    start = joined.HEAD.index("through: 1..2")
    end = joined.HEAD.index("}", joined.HEAD.index("car.6: unknown WH"))
    head = joined.HEAD[:start] + leads + joined.HEAD[end + 1 :]
    alike(told("H14", joined.wiring_of("", moved, head=head)), parts)


@pytest.mark.parametrize(
    ("more", "parts"),
    [
        ("", []),
        ("cut: [dash.car.1]\n", ["dash cavity 1 (yellow, B+), unit side is cut off: radio stays and loses its B+."]),
        ("depinned: [gate.unit.6]\n", ["loses its ACC"]),
        # lamps are no feed; a plug without a unit; a capped unit side is meant
        ("cut: [dash.car.5]\n", []), ("cut: [sill.car.3]\n", []),
        ("cut: [dash.car.1]\ncapped: [dash.unit.1]\n", []),
        ("cut: [dash.car.5, dash.car.8, gate.car.1]\n", ["loses its ACC", "loses its B+"]),
    ],
)  # fmt: skip
def test_feeds_that_are_cut_off(more: str, parts: list[str]) -> None:
    alike(told("H18", joined.wiring_of("", more)), parts)


# -- supply: F04, F17, F21, F25, F27, F31 ------------------------------------------------------------------------------

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
        # 18 in is the shop's figure (common practice, no source); two pieces together; the longer is told
        ("F31", "amp.GND > 18 in 8 AWG > gnd.G1", []), ("F31", "amp.GND > 19 in 8 AWG > gnd.G1",
         ["amp GND goes 19 in to its ground"]),
        ("F31", "amp.GND > 10 in 8 AWG > gnd.G1; two.GND > 30 in 8 AWG > gnd.G1", ["two GND goes 30 in"]),
        ("F31", "amp.GND > 10 in 8 AWG > two.GND; two.GND > 10 in 8 AWG > gnd.G1", []),
        ("F31", "amp.GND > 30 in 8 AWG > battery.-", []),
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


# -- 12 V on signals, units that come out, looms: F23, F24, G12, C18, C19, G05, H07 ------------------------------------


@pytest.mark.parametrize(
    ("code", "joints", "parts"),
    [
        ("F23", "dash.1: amp.in1+", ["dash cavity 1 (yellow, B+), car side is joined to amp in1+"]),
        ("F23", "dash.8: radio.FL+", ["is joined to radio FL+"]),
        ("F23", "dash.1: amp.B+", []), ("F23", "dash.5: amp.in1+", []),
        # behind another joint; two nets; by way of ground it is another's fault
        ("F23", "dash.1: face.line; face.line: amp.in1+", ["is joined to amp in1+"]),
        ("F23", "dash.1: amp.in1+; gate.1: amp.in2+", ["amp in1+", "amp in2+"]),
        ("F23", "dash.1: gnd.G1; gnd.G1: amp.in1-", []),
        ("F24", "dash.5: amp.in1+", ["dash cavity 5 (orange, ILL), car side is joined to amp in1+"]),
        ("F24", "dsp.rem-out: amp.in1+", ["dsp rem-out is joined to amp in1+"]),
        # what wants 12 V doesn't give it
        ("F24", "dsp.rem: amp.in1+", []), ("F24", "dsp.rem-out: amp.rem", []),
        ("G12", "dash.1: dash.3", ["meets dash cavity 1 (yellow, B+)"]), ("G12", "dash.5: eye.CAN-H",
         ["eye CAN-H meets dash cavity 5 (orange, ILL)"]),
        ("G12", "dash.2: dash.3", ["dash cavity 2"]), ("G12", "dash.3: eye.CAN-H", []),
    ],
)  # fmt: skip
def test_12_volts_on_signals(code: str, joints: str, parts: list[str]) -> None:
    alike(told(code, joined.wiring_of(joints)), parts)


RING = """\
  ring:
    place: under the seat
    unit: eye
    face: {rows: 1, columns: 3, view: wire, latch: top, first: top left, count: across}
    carries: optical
    cavities: {1: OPTICAL-IN, 2: OPTICAL-OUT, 3: ILL OG}
"""


@pytest.mark.parametrize(
    ("joints", "more", "parts"),
    [
        ("", "", []),
        ("", "cut: [ring.car.1]\n", ["ring is opened, and ring cavity 1 (OPTICAL-IN), car side leads nowhere"]),
        ("", "cut: [ring.car.2]\n", ["ring is opened"]),
        ("", "cut: [ring.car.3]\n", []),
        ("", "removed: [eye]\n", ["eye comes out, and ring cavity 1"]),
        # the two ends joined; passed on to another unit that sends it on; to one that only takes it
        ("ring.car.1: ring.car.2", "removed: [eye]\n", []),
        ("ring.car.1: out.OPTICAL-IN; ring.car.2: out.OPTICAL-OUT", "removed: [eye]\n", []),
        ("ring.car.1: out.OPTICAL-IN", "removed: [eye]\n", ["eye comes out"]),
    ],
)
def test_a_ring_of_light(joints: str, more: str, parts: list[str]) -> None:
    head = joined.HEAD.replace("  sill:\n", RING + "  sill:\n").replace("removed: [out]\n", "")
    head = head.replace("out: {kind: interface,", "out: {kind: interface, terminals: [OPTICAL-IN, OPTICAL-OUT],")
    alike(told("G05", joined.wiring_of(joints, more, head=head)), parts)


def test_a_plug_of_which_nobody_wrote_the_light_guides() -> None:
    head = joined.HEAD.replace("  sill:\n", RING.replace("1: OPTICAL-IN, 2: OPTICAL-OUT, ", "") + "  sill:\n")
    assert told("G05", joined.wiring_of("", head=head)) == []
    (message,) = told("G05", joined.wiring_of("", head=head.replace("removed: [out]", "removed: [out, eye]")))
    assert message == "eye comes out, and ring carries light-guides: nothing says that the ring stays closed."


@pytest.mark.parametrize(
    ("loom", "more", "parts"),
    [
        ("through: 1..2, leads: {3/4: CAN YE/GN YE/BN}", "", []),
        # what the maker calls it is another thing; a wire that crosses to one
        ("through: 2, leads: {1: ILL OG}", "", ["T1 fits dash, its pins don't: 1 is ILL there, B+ here."]),
        ("through: {1: 2}", "", ["1 (B+) goes to 2 (GND)"]),
        ("through: {1: 8}", "", ["1 (B+) goes to 8 (ACC)"]),
        ("through: {1: 1, 5: 5}", "", []),
        # a swap of signs is none; a cavity that isn't recorded
        ("leads: {3: CAN-L YE}", "", []), ("leads: {12: ILL OG}", "", []),
        # depinned, or moved to where it fits
        ("leads: {car.1: ILL OG}", "depinned: [T1.car.1]\n", []),
        ("leads: {car.1: ILL OG}", "moved: {T1.car.1: T1.car.5}\n", []),
        ("leads: {car.5: ILL OG}", "moved: {T1.car.5: T1.car.1}\n", ["1 is ILL there, B+ here"]),
        # five are named, the rest counted
        ("through: {1: 5, 2: 8, 5: 1, 8: 2}", "", ["1 (B+) goes to 5 (ILL); 2 (GND) goes to 8 (ACC)"]),
    ],
)  # fmt: skip
def test_a_loom_whose_pins_do_not_suit(loom: str, more: str, parts: list[str]) -> None:
    start = joined.HEAD.index("through: 1..2")
    end = joined.HEAD.index("}", joined.HEAD.index("car.6: unknown WH"))
    head = joined.HEAD[:start] + loom + joined.HEAD[end + 1 :]
    alike(told("H07", joined.wiring_of("", more, mate="T1: dash", head=head)), parts)


# -- what the mutation run asked for: C10, F13, G08, H02, H05 ----------------------------------------------------------


def test_what_the_speaker_had_before_is_what_it_may_want() -> None:
    """As found FL got 100 to 5000 Hz; the plan takes another output that begins at 300 Hz."""
    plug = LINK.replace("CAVITIES", "1/2: FL BK WH").replace("    CARRIES\n", "").replace("unit: radio", "unit: deck")
    units = (
        "deck: {kind: radio, outputs: {FL: btl 100..5000 Hz, b: 4 V %s}}; "
        "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1: 50 W}, routes: {out1: in1}}"
    )
    cut = "cut: [dash.unit.1, dash.unit.2]\n"
    for band, parts in (
        ("100..5000 Hz", []), ("300..5000 Hz", ["and 100 to 300 Hz is missing."]),
        ("100..2000 Hz", ["and 2000 to 5000 Hz is missing."]),
    ):  # fmt: skip
        wiring = signals.wiring_of("deck.b: amp.in1; amp.out1: dash.car.FL", units % band, plug + cut)
        alike(told("C10", wiring), parts)


@pytest.mark.parametrize(("draws", "parts"), [("15 A", []), ("15.1 A", ["eye draws 15.1 A from dash cavity 1"])])
def test_what_a_radios_circuit_carries(draws: str, parts: list[str]) -> None:
    """15 A is what a radio's circuit has at most (common practice, no source)."""
    head = joined.HEAD.replace("draws: 2 A", f"draws: {draws}")
    alike(told("F13", joined.wiring_of("dash.1: eye.B+", head=head)), parts)


def test_two_pieces_of_one_run_at_one_orange_place() -> None:
    head = joined.HEAD.replace("steering: left}", "steering: left, drive: hybrid, orange: [tunnel]}")
    piece = "1 m 8 AWG via tunnel grommet"
    more = f"runs:\n  - battery.+ > {piece} > fuse 30 A > {piece} > amp.B+\n"
    assert len(told("G08", joined.wiring_of("", more, head=head))) == 1


def test_an_empty_cavity_that_is_joined() -> None:
    head = joined.HEAD.replace("3: B+ YE}\nlooms", "3: B+ YE, 4: empty}\nlooms")
    alike(told("H02", joined.wiring_of("sill.4: amp.rem", head=head)), ["is empty and also joined to amp rem"])
    assert told("H02", joined.wiring_of("sill.3: amp.rem", head=head)) == []


def test_a_lump_without_any_stagger() -> None:
    terminals = ", ".join(f"t{n}" for n in range(1, 11))
    head = joined.HEAD.replace("terminals: [CAN, line]", f"terminals: [{terminals}]")
    rows = "".join(f"    face.t{n}: {{to: face.t{n + 5}, stagger: 0 mm}}\n" for n in range(1, 6))
    alike(
        told("H05", joined.wiring_of("", "joints:\n  crimp at dash:\n" + rows, head=head)), ["5 splices lie 0 mm apart"]
    )
