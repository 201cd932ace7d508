"""Signals: one check at a time on jobs of a few lines, read off by hand.

The fixtures hold each fault in a whole job; here stand its neighbours, one beside the other.
"""

from __future__ import annotations

import pytest

from tests.checks.alone import LINK, alike, found, told
from tests.graph import test_signals as signals

# -- bands: C10, C11 --------------------------------------------------------------------------------------------------

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


def test_negatives_of_a_bridged_radio_are_parted_where_the_nearest_two_meet() -> None:
    """Three at two joints: the first joint shorts two, and the second adds the third."""
    deck = "deck: {kind: radio, outputs: {a b d: btl 8 V}}"
    for joints, line in (
        ("deck.a-: deck.b-; deck.b-: deck.d-", 1), ("deck.b-: deck.d-; deck.a-: deck.b-", 2),
        ("deck.b+: spk.FL+; deck.a-: [deck.b-, deck.d-]", 2),
    ):  # fmt: skip
        wiring = signals.wiring_of(joints, deck)
        (finding,) = found("C04", wiring)
        assert "deck a− and deck b− and deck d− are joined" in finding.message
        assert "shorts 3 outputs together" in finding.message
        assert finding.places[0].place.line == 9 + line
    assert told("C04", signals.wiring_of("deck.a-: spk.FL-; deck.b-: spk.FR-", deck)) == []
    # two that meet by both wires are another fault, and end nothing
    wiring = signals.wiring_of("deck.a: deck.b; deck.d-: deck.e-", deck.replace("a b d", "a b d e"))
    alike(told("C04", wiring), ["deck d− and deck e− are joined"])


# -- pairs in one net: C24, C03, C20 ----------------------------------------------------------------------------------


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
    for joints, line in (
        ("radio.FL+: [spk.FL+, spk.FR+]; spk.FR+: spk.RL-; spk.RL-: radio.FL-", 8 + 2),
        ("spk.RL-: radio.FL-; spk.FR+: spk.RL-; radio.FL+: [spk.FL+, spk.FR+]", 8 + 2),
    ):
        wiring = signals.wiring_of(joints)
        (finding,) = found("C24", wiring)
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
        ("amp.out3-: gnd.G1", []), ("amp.out3+: gnd.G1", ["amp out3+ is an output and reaches ground point G1"]),
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
        # by what another unit bonds inside
        ("radio.FL+: box.a; box.b: gnd.G1", ["radio FL+ is live at about 6 V and reaches"]),
        ("radio.FL+: box.c; box.GND: gnd.G1", ["radio FL+ is live at about 6 V and reaches"]),
    ],
)  # fmt: skip
def test_live_wires_on_ground(joints: str, parts: list[str]) -> None:
    units = (
        "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1..3: 50 W}, bridges: out1+/out2-}; "
        "low: {kind: line converter, inputs: {in1: 1..9 V grounded, in2: 1..9 V}}; "
        "box: {kind: interface, terminals: [a, b, c], bonds: [a b, c GND]}"
    )
    alike(told("C03", signals.wiring_of(joints, units, "grounds: {G1: {place: floor, metal: bare}}\n")), parts)


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
        # two at one joint are one fault, and the next joint another; so is the second wire of the link
        ("1/2: DIGITAL BK WH", "", "dash.1: [amp.in1+, spk.FL+]; spk.FR+: dash.1", ["dash cavity 1", "speaker FR+"]),
        ("1/2: DIGITAL BK WH", "", "dash.1: amp.in1+; dash.2: amp.in1-", ["is tapped for amp in1+", "amp in1−"]),
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


BOOT = """\
plugs:
  boot:
    place: boot
    unit: tuner
    face: {rows: 1, columns: 2, view: wire, latch: top, first: top left, count: across}
    cavities: {1/2: RR GN GN/BK}
"""


@pytest.mark.parametrize(
    ("fitted", "joints", "more", "parts"),
    [
        ("speaker check", "dash.unit.FL: amp.in1", "dash.unit", ["The radio looks for a speaker on dash 1/2 (FL)"]),
        ("speaker check", "dash.unit.FL: load.in1", "dash.unit", []),
        ("speaker check", "dash.unit.FL: round.in1", "dash.unit", []),
        ("speaker check", "dash.unit.FL: spk.FR", "dash.unit", []),
        ("speaker check", "dash.FL: amp.in1", "", []),
        # a car without the check, a pair that had no speaker, a radio that comes out, a plug of another unit
        ("", "dash.unit.FL: amp.in1", "dash.unit", []),
        ("speaker check", "dash.unit.RL: amp.in1", "dash.unit.3", []),
        ("speaker check", "dash.car.FL: amp.out1", "removed", []),
        ("speaker check", "dash.car.FL: amp.out1; dash.unit.FL: amp.in1", "removed and cut", []),
        ("speaker check", "dash.unit.FL: amp.in1", "tuner", []),
        # a pair without one before it ends nothing, nor does one whose speaker is still there
        ("speaker check", "dash.unit.FR: amp.in1", "dash.unit.5", ["on dash 5/6 (FR)"]),
    ],
)
def test_a_radio_that_looks_for_its_speakers(fitted: str, joints: str, more: str, parts: list[str]) -> None:
    """An input with a load of its own, or a transformer, is found; a bare one is not."""
    units = (
        "amp: {kind: amplifier, inputs: {in1: 1..9 V}, outputs: {out1: 50 W}}; "
        "load: {kind: line converter, inputs: {in1: 1..9 V 47 ohm}, outputs: {out1: 2 V}}; "
        "round: {kind: line converter, inputs: {in1: 1..9 V transformer}, outputs: {out1: 2 V}}; "
        "tuner: {kind: interface, outputs: {FL: 4 V}}"
    )
    plug = LINK.replace("CAVITIES", "7/8: C VT VT/BK, 3/4: RL GN GN/BK, 1/2: FL WH WH/BK, 5/6: FR GY GY/BK").replace(
        "    CARRIES\n", ""
    )
    plug = plug.replace("plugs:\n", BOOT)  # another unit's plug, and a pair that no output is written for, end nothing
    plug = plug.replace("unit: radio", "unit: tuner") if more == "tuner" else plug
    first = {"dash.unit.3": 3, "dash.unit.5": 5}.get(more, 1)
    cut = (
        f"cut: [dash.unit.{first}, dash.unit.{first + 1}]\n"
        if more.startswith(("dash", "tuner")) or "cut" in more
        else ""
    )
    removed = "removed: [radio]\n" if more.startswith("removed") else ""
    found_chains = "found:\n  - dash.FL > spk.FL\n  - dash.FR > spk.FR\n"
    head = signals.HEAD.replace("FL FR: btl", "FL FR RL: btl")
    head = head.replace("steering: left", f"steering: left, fitted: [{fitted}]") if fitted else head
    heard = "speakers: {FL FR: {nominal: 4 ohm}}\n"
    wiring = signals.wiring_of(joints, units, plug + cut + removed + found_chains, speakers=heard, head=head)
    alike(told("C19", wiring), parts)


# -- split pairs, returns, what is opened and joined again: B06, C02, H13 ----------------------------------------------

TWO = "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 50 W}, routes: {out1..2: in1..2}}"


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        ("amp.out1: spk.FL; amp.out2: spk.FR", []),
        ("amp.out1+: spk.FL+; amp.out2-: spk.FL-",
         ["speaker FL+ is driven by amp out1+, but speaker FL− by amp out2−: two channels"]),
        ("amp.out1+: spk.FL+; amp.out1-: spk.FR-; spk.FL-: spk.FR+", []),
        ("amp.out1+: spk.FL+; amp.out2-: spk.FL-; amp.out2+: spk.FR+; amp.out1-: spk.FR-", ["two channels"]),
        # outputs of one name, of two amplifiers: by one speaker, by both; an output between two speakers is another
        ("amp.out1+: spk.FL+; two.out1-: spk.FL-",
         ["speaker FL+ is driven by amp out1+, but speaker FL− by two out1−: two channels"]),
        ("amp.out1+: spk.FL+; two.out1-: spk.FL-; two.out1+: spk.FR+; amp.out1-: spk.FR-",
         ["speaker FL+ is driven by amp out1+, but speaker FL− by two out1−: two channels"]),
    ],
)  # fmt: skip
def test_a_pair_of_two_outputs(joints: str, parts: list[str]) -> None:
    alike(told("B06", signals.wiring_of(joints, f"{TWO}; {TWO.replace('amp:', 'two:')}")), parts)


@pytest.mark.parametrize(
    ("joints", "lines"),
    [
        ("radio.FL: amp.in1; amp.out1: spk.FL", []),
        ("amp.out1+: amp.in1+", [1]), ("amp.out1+: amp.in2+", []),
        # of two joints the other one is shown too; so is each of two in the same line of the file
        ("amp.out1+: spk.FL+; spk.FL+: amp.in1+", [1, 2]), ("spk.FL+: amp.in1+; amp.out1+: spk.FL+", [1, 2]),
        ("amp.out1+: [spk.FL+, amp.in1+]", [1]),
    ],
)  # fmt: skip
def test_an_output_on_the_input_it_is_made_from(joints: str, lines: list[int]) -> None:
    findings = found("C02", signals.wiring_of(joints, TWO))
    assert [sorted(spot.place.line - 9 for spot in each.places) for each in findings] == ([lines] if lines else [])


@pytest.mark.parametrize(
    ("joints", "chains", "parts"),
    [
        (
            "dash.unit.FL: [dash.car.FL, amp.in1]",
            "dash.FL > spk.FL",
            ["is opened and joined again, only so that amp in1+"],
        ),
        # nothing listens; the pair stays open, or is only tapped
        ("dash.unit.FL: dash.car.FL", "dash.FL > spk.FL", []),
        ("dash.unit.FL: amp.in1; amp.out1: dash.car.FL", "dash.FL > spk.FL", []),
    ],
)
def test_a_pair_that_is_opened_and_joined_again(joints: str, chains: str, parts: list[str]) -> None:
    plug = LINK.replace("CAVITIES", "1/2: FL WH WH/BK, 3/4: FR GY GY/BK").replace("    CARRIES\n", "")
    more = f"{plug}cut: [dash.FL]\nfound:\n  - {chains}\n"
    findings = found("H13", signals.wiring_of(joints, TWO, more))
    alike([each.message for each in findings], parts)
    assert [(each.path[0], each.path[-1]) for each in findings] == [("radio.FL+", "spk.FL+")] * len(parts)


@pytest.mark.parametrize(
    ("joints", "lines"),
    [
        ("radio.FL: spk.FL", []), ("radio.FL+: amp.out1+", [[1]]),
        # both wires at one joint, and at two; a third output further on
        ("radio.FL: amp.out1", [[1]]),
        ("radio.FL+: amp.out1+; amp.out2+: radio.FL+", [[1, 2]]),
        ("radio.FL+: [amp.out1+, amp.out2+]", [[1]]),
        # two nets are two faults
        ("radio.FL+: amp.out1+; radio.FR+: amp.out2+", [[1], [2]]),
        # the negatives of a bridged radio alone are another; with one that isn't bridged they are this
        ("radio.FL-: radio.FR-", []), ("radio.FL-: amp.out1+", [[1]]),
    ],
)  # fmt: skip
def test_outputs_on_one_wire(joints: str, lines: list[list[int]]) -> None:
    findings = found("C01", signals.wiring_of(joints, TWO))
    assert [sorted(spot.place.line - 9 for spot in each.places) for each in findings] == lines


@pytest.mark.parametrize(
    ("second", "advice"),
    [
        ("1..9 V", "Use deck in2, or a pad"), ("8..9 V", "Use deck in2, or a pad"),
        ("1..8 V", "Use deck in2, or a pad"),
        ("8.1..9 V", "Use a line converter, or a pad"), ("1..7.9 V", "Use a line converter, or a pad"),
    ],
)  # fmt: skip
def test_another_input_that_takes_the_level(second: str, advice: str) -> None:
    """8 V into 0.2 to 4 V: too hot. The other input of the unit takes it from its least to its most volts."""
    deck = f"deck: {{kind: processor, inputs: {{in1: 0.2..4 V, in2: {second}}}, outputs: {{out1: 3 V}}}}"
    (finding,) = found("C06", signals.wiring_of("radio.FL: deck.in1", deck))
    assert finding.do.startswith(advice)
