"""How many there are, and how many of them are named: one check at a time on jobs of a few lines, read off by hand."""

from __future__ import annotations

import pytest

from tests.checks.alone import alike, found, told
from tests.checks.test_alone_halves import CHAINS, DSP, PAIRS
from tests.graph import test_signals as signals

LOOM = (
    "looms:\n  T1: {ends: {unit: 8-way, car: 8-way}, "
    "leads: {unit.1/2: FL WH WH/BK, car.1/2: FL WH WH/BK, unit.3: FR+ GY}}\n"
)
BOTH = "T1 unit end 1 (white, FL+) (and 1 more of this row) is joined to nothing and live from radio FL+: a bare end"
THIRD = "T1 unit end 3 (grey, FR+) is joined to nothing and live from radio FR+: a bare end finds metal."


@pytest.mark.parametrize(
    ("code", "joints", "more", "parts", "do"),
    [
        # both leads of a row, or one of them; a lead by itself
        ("H01", "", "", [BOTH, THIRD],
         "Cap it (`capped: [T1.unit.1, T1.unit.2]`) or depin it (`depinned: [T1.unit.1, T1.unit.2]`)."),
        ("H01", "", "capped: [T1.unit.1]\n",
         ["T1 unit end 2 (white with black stripe, FL−) is joined to nothing and live from radio FL−", THIRD],
         "Cap it (`capped: [T1.unit.2]`) or depin it (`depinned: [T1.unit.2]`)."),
        # a cut end can't be depinned
        ("H01", "", "cut: [dash.FL]\n",
         ["dash cavity 1 (white, FL+), unit side (and 1 more of this row) is joined to nothing and live from radio"],
         "Cap it (`capped: [dash.unit.1, dash.unit.2]`)."),
        # an amplifier's own lead is live of itself
        ("H01", "radio.FL: amp.in1", "", ["amp out1+ (white) (and 1 more of this row) is joined to nothing and a live"],
         "Cap it (`capped: [amp.out1+, amp.out1-]`)"),
        # the leads of the car's side have no volts
        ("H17", "", "", ["T1 car end 1 (white, FL+) (and 1 more of this row) is joined to nothing and has no fate"],
         "Join it, or write `capped: [T1.car.1, T1.car.2]` or `depinned: [T1.car.1, T1.car.2]`."),
        ("H17", "T1.car.1: dsp.out1+", "",
         ["T1 car end 2 (white with black stripe, FL−) is joined to nothing and has no fate"],
         "Join it, or write `capped: [T1.car.2]` or `depinned: [T1.car.2]`."),
        ("H17", "dsp.out1: T1.car.FL", "", [], ""),
    ],
)  # fmt: skip
def test_leads_of_one_row(code: str, joints: str, more: str, parts: list[str], do: str) -> None:
    mate = "" if "cut" in more or "amp" in joints else "T1: dash"
    amp = "amp: {kind: amplifier, inputs: {in1: 2..20 V}, outputs: {out1: 50 W}, routes: {out1: in1}, "
    amp += "leads: {out1: WH WH/BK}}"
    units = f"{DSP}; {amp}" if "amp" in joints else DSP
    wiring = signals.wiring_of(joints, units, f"{PAIRS}{LOOM}{CHAINS}{more}", mate=mate)
    findings = found(code, wiring)
    alike([each.message for each in findings], parts)
    assert all(each.do.startswith(do) for each in findings[:1])


@pytest.mark.parametrize(
    ("woken", "parts"),
    [
        # 30 mA each, of the sixth nobody wrote any; four are named
        ("1 2", []), ("1 2 3", ["gives 60 mA and 90 mA hangs on it (a1 30 mA, a2 30 mA, a3 30 mA): the output burns."]),
        ("1 2 3 4", ["and 120 mA hangs on it (a1 30 mA, a2 30 mA, a3 30 mA, a4 30 mA): the output"]),
        ("1 2 3 4 5", ["and 150 mA hangs on it (a1 30 mA, a2 30 mA, a3 30 mA, a4 30 mA, …): the output"]),
        ("1 2 3 6", ["gives 60 mA and at least 90 mA hangs on it (a1 30 mA, a2 30 mA, a3 30 mA): the output"]),
        ("1 2 6", []),
    ],
)  # fmt: skip
def test_what_hangs_on_a_turn_on_output(woken: str, parts: list[str]) -> None:
    draws = {number: " 30 mA" * (number != "6") for number in "123456"}
    units = "cam: {kind: interface, gives: {rem-out: 60 mA}}; "
    units += "; ".join(f"a{n}: {{kind: amplifier, outputs: {{out1: 5 W}}, wakes: rem{ma}}}" for n, ma in draws.items())
    joint = f"cam.rem-out: [{', '.join(f'a{number}.rem' for number in woken.split())}]"
    alike(told("E05", signals.wiring_of(joint, units)), parts)


@pytest.mark.parametrize(
    ("many", "words"),
    [(1, "b0 is"), (2, "b0 and b1 is"), (3, "b0 and b1 and b2 is"), (4, "b0 and b1 and b2 and others is")],
)
def test_for_how_many_a_converter_is_asked(many: int, words: str) -> None:
    head = signals.HEAD.replace("steering: left", "steering: left, drive: electric")
    units = "; ".join(f"b{number}: {{kind: amplifier, draws: 2 A}}" for number in range(many))
    runs = "".join(f"  - battery.+ > fuse 40 A > 1 m 8 AWG > b{number}.B+\n" for number in range(many))
    wiring = signals.wiring_of("", units, f"runs:\n{runs}", head=head)
    alike(told("F18", wiring), [f"what the converter may give for {words} a guess."])


PORTS = (
    "amp: {kind: amplifier, inputs: {in1: 0.2..20 V grounded, in2: 1..9 V}, outputs: {out1..3: 50 W}, "
    "routes: {out1: in1}, bridges: out1+/out2-}"
)


@pytest.mark.parametrize(
    ("code", "joints", "rows"),
    [
        # told where it is joined so, by the number of the joint; first where something is put right
        ("C01", "radio.FL+: spk.FL+; spk.FL+: radio.FR+", [0]), ("C01", "radio.FL: spk.FL; amp.out1: spk.FL", [0]),
        ("C01", "radio.FR: spk.FR; radio.FL: spk.FL; amp.out1: spk.FL", [1]),
        ("C02", "radio.FL: amp.in1; amp.out1: amp.in1", [1]), ("C02", "amp.out1: spk.FL; spk.FL: amp.in1", [0, 1]),
        ("C03", "radio.FL+: spk.FL+; spk.FL-: gnd.G1", [1]), ("C03", "radio.FR: spk.FR; radio.FL-: gnd.G1", [1]),
        ("C04", "radio.FR: spk.FR; radio.FL-: radio.FR-", [1]), ("C05", "radio.FR: spk.FR; radio.FL: amp.in1", [1]),
        ("C24", "radio.FR: spk.FR; radio.FL: spk.FL; spk.FL+: spk.FL-", [2]),
        ("B06", "amp.out1+: spk.FL+; amp.out3-: spk.FL-", [1]),
        ("D07", "radio.FR: spk.FR; amp.out2+: spk.FL+; amp.out1-: spk.FL-", [2]),
    ],
)  # fmt: skip
def test_the_joint_at_which_it_is_told(code: str, joints: str, rows: list[int]) -> None:
    wiring = signals.wiring_of(joints, PORTS, "grounds: {G1: {place: floor, metal: bare}}\n")
    first = signals.HEAD.count("\n") + 6  # the amplifier, the speakers, the ground, two headings
    (finding,) = found(code, wiring)
    assert [spot.place.line - first for spot in finding.places] == rows


CROSSED = "radio.FL: [amp.in1, amp.in3]; radio.FR: [amp.in2, amp.in4]; amp.out1: spk.FR; amp.out2: spk.FL"
FIRST, SECOND = "between amp out2+ and speaker FL+", "between amp out1+ and speaker FR+"


@pytest.mark.parametrize(
    ("joints", "words", "places"),
    [
        # two joints are named, and all of them shown
        (CROSSED, f"FL plays right front and FR plays left front, crossed {FIRST} and {SECOND}: left and right", 2),
        (f"{CROSSED}; amp.out3: spk.FR-TW",
         f"FL plays right front and FR and FR-TW play left front, crossed {FIRST} and {SECOND}: left and right", 3),
        (f"{CROSSED}; amp.out3: spk.FR-TW; amp.out4: spk.FL-TW",
         f"crossed {FIRST} and between amp out4+ and speaker FL-TW+: left and right", 4),
        # crossed at the inputs once, it is heard in both drivers
        ("radio.FL: amp.in2; radio.FR: amp.in1; amp.out1: [spk.FL, spk.FL-TW]; amp.out2: [spk.FR, spk.FR-TW]",
         "FL and FL-TW play right front and FR and FR-TW play left front, crossed between radio FL+ and amp", 2),
    ],
)  # fmt: skip
def test_where_left_and_right_are_crossed(joints: str, words: str, places: int) -> None:
    amp = "amp: {kind: amplifier, inputs: {in1..4: 1..9 V}, outputs: {out1..4: 50 W}, routes: {out1..4: in1..4}}"
    (finding,) = found("B03", signals.wiring_of(joints, amp))
    assert words in finding.message
    assert len(finding.places) == places


@pytest.mark.parametrize(
    ("left", "joints", "cut", "parts"),
    [
        # nothing changed; another unit drives it; it is tapped alone; it is new itself, and driven as before or not
        ("", "", "", []),
        ("", "radio.FR: dsp.in1; dsp.out1: dash.car.FL", "cut: [dash.FL]\n", ["after the job FL is driven otherwise"]),
        ("", "dash.FL: dsp.in1", "", []), (", new: 6 inch", "", "", ["after the job FL is driven otherwise"]),
        (", new: 6 inch", "", "cut: [dash.FL]\n", []),
        ("", "radio.FR: dsp.in1; dsp.out1: dash.car.FL; dsp.out2: dash.car.FR", "cut: [dash.FL, dash.FR]\n",
         ["after the job FL, FR are driven otherwise"]),
    ],
)  # fmt: skip
def test_in_a_car_with_noise_cancelling(left: str, joints: str, cut: str, parts: list[str]) -> None:
    head = signals.HEAD.replace("steering: left", "steering: left, fitted: [noise cancelling]")
    speakers = f"speakers:\n  FL: {{nominal: 4 ohm{left}}}\n  FR: {{nominal: 4 ohm}}\n"
    wiring = signals.wiring_of(joints, DSP, f"{PAIRS}{cut}{CHAINS}", speakers=speakers, head=head)
    alike(told("C22", wiring), parts)
    assert told("C22", signals.wiring_of(joints, DSP, f"{PAIRS}{cut}{CHAINS}", speakers=speakers)) == []


def test_all_that_one_feed_reaches() -> None:
    """Both inputs on its wire, by way of a terminal that is named too."""
    face = "face: {kind: interface, terminals: [line]}"
    plug = PAIRS.replace("1/2: FL WH WH/BK", "1: B+ YE")
    joints = "dash.1: face.line; face.line: [amp.in1+, amp.in2+]"
    (finding,) = found("F23", signals.wiring_of(joints, f"{PORTS}; {face}", plug))
    assert " ".join(finding.about) == "dash.car.1 face.line amp.in1+ amp.in2+"
