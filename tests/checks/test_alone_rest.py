"""Turns, offers and records, each beside its like: one check at a time on jobs of a few lines, read off by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove
from tests.checks.alone import alike, found, recorded, told
from tests.checks.marks import FOLDER
from tests.checks.test_alone_halves import CUT, DSP, PAIRS
from tests.checks.test_alone_records import CROSSED, FL, FR, JOB, READ
from tests.graph import test_signals as signals
from tests.graph.test_supply import wiring_of as supplied

UNITS = (
    "pre: {kind: processor, inputs: {in1: 1..9 V}, outputs: {out1: 2 V}, routes: {out1: in1}}; "
    "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 50 W}, "
    "routes: {out1: in1 inverted, out2: in2}}"
)


@pytest.mark.parametrize(
    ("joints", "spots", "times"),
    [
        ("radio.FL: pre.in1; pre.out1: amp.in2; amp.out2: spk.FL reversed", "speaker FL−", "once, between amp out2+"),
        ("radio.FL: pre.in1 reversed; pre.out1: amp.in2; amp.out2: spk.FL", "pre in1−", "once, between radio FL+"),
        # each place is shown, in the wires and in the routes, the first one first
        ("radio.FL: pre.in1 reversed; pre.out1: amp.in2 reversed; amp.out2: spk.FL reversed",
         "pre in1−, amp in2−, speaker FL−", "three times, between radio FL+"),
        ("radio.FL: pre.in1 reversed; pre.out1: amp.in1 reversed; amp.out1: spk.FL",
         "pre in1−, amp in1−, amp out1+", "three times, between radio FL+"),
        ("radio.FL: pre.in1; pre.out1: amp.in1; amp.out1: spk.FL", "amp out1+", "once, inside amp by its route"),
    ],
)  # fmt: skip
def test_each_place_that_turns_a_speaker_is_shown(joints: str, spots: str, times: str) -> None:
    (finding,) = found("B01", signals.wiring_of(joints, UNITS))
    assert ", ".join(spot.name for spot in finding.places) == spots
    assert finding.message.startswith(f"FL is reversed {times}")


@pytest.mark.parametrize(
    ("joint", "run", "said"),
    [
        ("radio.FR: dsp.in1; dsp.out1: dash.car.FL reversed", "", "turns it round between dsp out1+ and dash cavity 2"),
        ("radio.FR: dsp.in1 reversed; dsp.out1: dash.car.FL", "", "turns it round between radio FR+ and dsp in1−"),
        # a run that we lay is the plan's, not the car's
        ("radio.FR: dsp.in1", "dsp.out1 > 2 m 16 AWG > dash.car.FL reversed", "turns it round between dsp out1+"),
        ("dsp.out1: dash.car.FL", "radio.FR > 1 m 16 AWG > dsp.in1 reversed", "turns it round between radio FR+"),
    ],
)  # fmt: skip
def test_what_turns_a_speaker_back_that_the_car_turns(joint: str, run: str, said: str) -> None:
    """The car's own wires are reversed, as the factory wants it; one reversal more, and + comes to +."""
    speakers = "speakers:\n  FL: {nominal: 4 ohm, inverted: factory}\n  FR: {nominal: 4 ohm}\n"
    more = f"{PAIRS}{CUT}found:\n  - dash.FL > spk.FL reversed\n  - dash.FR > spk.FR\n"
    more += f"runs:\n  - {run}\n" if run else ""
    alike(told("B08", signals.wiring_of(joint, DSP, more, speakers=speakers)), [f"by the factory, and the plan {said}"])


def test_a_speaker_that_the_car_turns_and_nobody_wants_turned() -> None:
    """Reversed, and no wish undone; the other one is wanted so and stays so."""
    speakers = "speakers:\n  FL: {nominal: 4 ohm}\n  FR: {nominal: 4 ohm, inverted: factory}\n"
    more = f"{PAIRS}{CUT}found:\n  - dash.FL > spk.FL reversed\n  - dash.FR > spk.FR reversed\n"
    wiring = signals.wiring_of("radio.FR: dsp.in1; dsp.out1: dash.car.FL", DSP, more, speakers=speakers)
    alike(told("B01", wiring), ["FL is reversed once, between dash cavity 1 (white, FL+), car side and speaker FL−"])
    assert told("B08", wiring) == []


@pytest.mark.parametrize(
    ("code", "ports", "do"),
    [
        # 4 V: an input that takes it is offered, an output whose volts would do isn't one
        ("C06", "inputs: {in1: 0.1..1 V, in2: 2..9 V}, outputs: {out1: 1..12 V}", "Use amp in2, or a pad of "),
        ("C06", "inputs: {in1: 0.1..1 V, in2: 5..9 V}, outputs: {out1: 1..12 V}", "Use a line converter"),
        ("C07", "inputs: {in1: 10..20 V, in2: 2..9 V}, outputs: {out1: 1..12 V}", "Use amp in2."),
        ("C07", "inputs: {in1: 10..20 V, in2: 5..9 V}, outputs: {out1: 1..12 V}", "Use a line driver"),
        # at the very ends of its window it takes it
        ("C07", "inputs: {in1: 10..20 V, in2: 1..4 V}, outputs: {out1: 9 V}", "Use amp in2."),
        ("C07", "inputs: {in1: 10..20 V, in2: 4..9 V}, outputs: {out1: 9 V}", "Use amp in2."),
    ],
)
def test_which_input_is_offered(code: str, ports: str, do: str) -> None:
    units = f"deck: {{kind: radio, outputs: {{a: 4 V}}}}; amp: {{kind: amplifier, {ports}, routes: {{out1: in1}}}}"
    (finding,) = found(code, signals.wiring_of("deck.a: amp.in1", units))
    assert finding.do.startswith(do), finding.do


LOW = ("volts: dash.unit.4, reads: 11.8 V, key: run", "volts: amp.rem, reads: 9.4 V, key: run")
NO_ACC = "volts: dash.car.2, reads: 0 V, key: run"


@pytest.mark.parametrize(
    ("records", "parts"),
    [
        # too little on a turn-on wire is told of the wire; what else reads wrong, before or behind it, here
        (LOW, []), ((*LOW, NO_ACC), ["dash cavity 2 (red, ACC)"]), ((NO_ACC, *LOW), ["dash cavity 2 (red, ACC)"]),
    ],
)  # fmt: skip
def test_a_reading_beside_a_turn_on_wire_that_loses_volts(
    tmp_path: Path, records: tuple[str, ...], parts: list[str]
) -> None:
    job = (FOLDER / "E06/bad_plain.yaml").read_text(encoding="utf-8")
    alike([each.message for each in recorded(tmp_path, "J22", records, job)], parts)


OFF, BOTH = "tone: dash.car.1/5, charted: FL, heard: nothing", "tone: dash.car.1/5, charted: FL, heard: FL RL"
ON_1, ON_2 = "when: 2026-03-02 09:10, by: JM", "when: 2026-03-03 10:20, by: RK"


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        # who toned it, and when, both times; as far as it was written
        ((f"{ON_1}, {FL}", f"{ON_2}, {OFF}"), "(JM 2026-03-02), and nothing was heard there since (RK 2026-03-03): a"),
        ((FL, f"{ON_2}, {OFF}"), "FL, and nothing was heard there since (RK 2026-03-03): a"),
        ((f"{ON_1}, {FL}", OFF), "FL (JM 2026-03-02), and nothing was heard there since: a"),
        ((f"{ON_1}, {FL}", f"{ON_2}, {OFF}, signal: 1 kHz"), "heard there at 1 kHz since (RK 2026-03-03): a"),
        ((f"{ON_1}, {FL}", f"{ON_2}, {BOTH}"), "FL (JM 2026-03-02), and RL answers it too since (RK 2026-03-03): the"),
        ((FL, BOTH), "FL, and RL answers it too since: the"),
    ],
)  # fmt: skip
def test_who_toned_before_and_since(tmp_path: Path, lines: tuple[str, str], said: str) -> None:
    path = tmp_path / "job.yaml"
    path.write_text(JOB, encoding="utf-8")
    path.with_name("job.evidence.yaml").write_text("".join(f"- {{{line}}}\n" for line in lines), encoding="utf-8")
    report = prove(path, mends=False).report
    alike([each.message for each in report.findings if each.code == "J30"], [said])


AT_5 = "tone: dash.car.1/5, charted: FL, heard: FL, plus: 5"
REVERSED = JOB.replace("joints:\n", "found:\n  - dash.FL > spk.FL reversed\njoints:\n")
MARKS = "Look at the speaker's marks, and where + is at the radio's side: `polarity: dash.unit.1/5, plus: …`. If the "


@pytest.mark.parametrize(
    ("job", "records", "said", "do"),
    [
        # charted + on 1, and found there, or on 5; the radio's side may say which of the two is turned
        (JOB, (FL, FR), "", ""),
        (JOB, (AT_5, FR), "+ on 5, and is written with + on 1: the speaker is turned in this car, or the", MARKS),
        (JOB, (AT_5, "polarity: dash.unit.1/5, plus: 1"),
         "+ on 5, and is written with + on 1. The radio has its + on 1, as charted: the speaker is turned in this car.",
         "Record it as this car's: `polarity: spk.FL, found: turned`; the plan is held against it then."),
        # the car's wires are written as reversed: then + is awaited on 5
        (REVERSED, (AT_5, FR), "", ""),
        (REVERSED, (FL, FR), "+ on 1, and is written with + on 5, as the speaker is written as turned: it is not",
         "Take `reversed` off its chain, or record `polarity: spk.FL, found: as marked`."),
    ],
)  # fmt: skip
def test_plus_on_the_other_wire(tmp_path: Path, job: str, records: tuple[str, ...], said: str, do: str) -> None:
    findings = recorded(tmp_path, "A24", records, job)
    alike([each.message for each in findings], [said] * bool(said))
    assert all(each.do.startswith(do) for each in findings)


BRANCHES = """\
units:
  amp: {kind: amplifier, draws: 50 A}
  two: {kind: amplifier, draws: 10 A}
  block: {kind: fuse block, ways: 2}
runs:
  - amp.GND > 1 ft 4 AWG > gnd.G1
  - two.GND > 1 ft 4 AWG > gnd.G1
"""


@pytest.mark.parametrize(
    ("trunk", "branch", "said", "do"),
    [
        # 7.62 m of 8 AWG at 2.0609 mohm/m and 60 A are 0.942 V, 1 m at 50 A 0.103, the ground 0.012: the trunk is worst
        ("25 ft 8 AWG", "1 m 8 AWG", "amp loses 1.06 V at full power, 60 A in the worst piece, limit 0.5 V (two too)",
         "Lay 4 AWG to block in: 0.49 V then."),
        # 9 m of 8 AWG at 50 A are 0.927 V, 3 ft of 4 AWG at 60 A 0.045: the branch is
        ("3 ft 4 AWG", "9 m 8 AWG", "amp loses 0.98 V at full power, 50 A in the worst piece, limit 0.5 V: less",
         "Lay 4 AWG to amp B+: 0.42 V then."),
    ],
)  # fmt: skip
def test_volts_lost_in_a_trunk_or_a_branch(trunk: str, branch: str, said: str, do: str) -> None:
    runs = f"battery.+ > fuse 80 A > {trunk} > block.in; block.1 > fuse 60 A > {branch} > amp.B+; "
    runs += "block.2 > fuse 20 A > 1 m 8 AWG > two.B+"
    (finding,) = found("F06", supplied(BRANCHES + "".join(f"  - {run}\n" for run in runs.split("; "))))
    assert said in finding.message
    assert finding.do == do


@pytest.mark.parametrize(
    ("records", "worse"),
    [
        # both outputs on one speaker's wire is told as worse; that both inputs are crossed, all the same
        (('built: dash.car.1/5, is: "amp.out1, amp.out2"', *CROSSED), 1),
        ((*CROSSED, 'built: dash.car.1/5, is: "amp.out1, amp.out2"'), 3),
    ],
)
def test_what_is_built_worse_beside_what_is_built_wrong(tmp_path: Path, records: tuple[str, ...], worse: int) -> None:
    stop, wrong = recorded(tmp_path, "J24", records, JOB), recorded(tmp_path, "J25", records, JOB)
    assert [each.places[0].place.line for each in stop] == [worse]
    assert sorted(each.places[0].place.line for each in wrong) == [at for at in (1, 2, 3) if at != worse]


def test_what_was_heard_is_nothing_that_a_joint_brings(tmp_path: Path) -> None:
    """FL answered as planned before its joint was found crossed: the record is no fault of the car as built."""
    for finding in recorded(tmp_path, "J25", (*CROSSED, "plays: radio.FL, heard: FL"), JOB):
        assert " B03 " in finding.message
        assert " C27 " not in finding.message


WOKEN = """\
units:
  radio: {kind: radio, gives: {AMP-ON: 1 A}}
  amp: {kind: amplifier, draws: 5 A, wakes: rem, terminals: [x]}
runs:
  - battery.+ > fuse 9 A > amp.B+
"""


@pytest.mark.parametrize(
    ("joint", "parts"),
    [
        ("", ["amp rem gets no 12 V: nothing is joined to it. amp will"]),
        ("amp.rem: amp.x", ["amp rem gets no 12 V: only its own unit is joined to it. amp will never wake"]),
        ("amp.rem: radio.AMP-ON", []),
    ],
)
def test_a_turn_on_terminal_without_a_wire(joint: str, parts: list[str]) -> None:
    alike(told("E01", supplied(WOKEN + (f"joints:\n  crimp:\n    {joint}\n" if joint else ""))), parts)


@pytest.mark.parametrize(
    ("chain", "run", "parts"),
    [
        # 18 in is the shop's figure; what the car has laid isn't ours to shorten, whatever its length
        ("C1.1 > 30 in 8 AWG > gnd.G1", "amp.GND > 10 in 8 AWG > C1.1", []),
        ("C1.1 > 30 in 8 AWG > gnd.G1", "amp.GND > 20 in 8 AWG > C1.1", ["amp GND goes 20 in to its ground"]),
        ("amp.GND > 30 in 8 AWG > gnd.G1", "battery.+ > fuse 60 A > 1 m 8 AWG > amp.B+", []),
    ],
)
def test_a_ground_that_the_car_laid(chain: str, run: str, parts: list[str]) -> None:
    units = "units: {amp: {kind: amplifier, draws: 50 A}}\ninline: {C1: sill}\n"
    alike(told("F31", supplied(f"{units}found:\n  - {chain}\nruns:\n  - {run}\n")), parts)


@pytest.mark.parametrize(
    ("car", "parts"),
    [
        # a converter's limit says it; of a hybrid an alternator's amperes do, an electric car has none
        ("petrol", []), ("electric, supply: converter 150 A", []), ("hybrid, supply: converter 150 A", []),
        ("hybrid, supply: alternator 150 A", []),
        ("electric, supply: alternator 150 A", ["The car is electric and `alternator` is written of its supply"]),
        ("electric", ["The car is electric and nothing is written of its supply"]),
        ("hybrid", ["The car is hybrid and nothing is written of its supply"]),
        ("electric, supply: unknown", ["The car is electric and `unknown` is written of its supply"]),
    ],
)  # fmt: skip
def test_what_a_converter_may_give(car: str, parts: list[str]) -> None:
    head = signals.HEAD.replace("steering: left", f"steering: left, drive: {car}")
    run = "runs:\n  - battery.+ > fuse 40 A > 1 m 8 AWG > amp.B+\n"
    alike(told("F18", signals.wiring_of("", "amp: {kind: amplifier, draws: 20 A}", run, head=head)), parts)


@pytest.mark.parametrize(
    ("speakers", "joints", "effect"),
    [
        # two coils of one cone; two drivers of one channel, either of them reversed
        ("SUB: {coils: 2 x 4 ohm separate}", "amp.out1: spk.SUB.c1; amp.out2: spk.SUB.c2 reversed",
         "its coils work against each other, the cone hardly moves and the coils heat up."),
        ("FL FL-TW: {nominal: 4 ohm}", "amp.out1: spk.FL; amp.out2: spk.FL-TW reversed",
         "it works against FL, with a hole where both play."),
        ("FL-WF FL-TW: {nominal: 4 ohm}", "amp.out1: spk.FL-WF reversed; amp.out2: spk.FL-TW",
         "it works against FL-TW, with a hole where both play."),
    ],
)  # fmt: skip
def test_one_of_two_is_reversed(speakers: str, joints: str, effect: str) -> None:
    amp = "amp: {kind: amplifier, inputs: {in1..2: 1..9 V}, outputs: {out1..2: 50 W}, routes: {out1: in1, out2: in2}}"
    wiring = signals.wiring_of(f"radio.FL: [amp.in1, amp.in2]; {joints}", amp, speakers=f"speakers: {{{speakers}}}\n")
    (message,) = told("B05", wiring)
    assert message.endswith(f": {effect}")
    assert told("B01", wiring) == []


@pytest.mark.parametrize(
    ("run", "do"),
    [
        # 5 % of 4 ohm leave 0.2105 ohm to both wires: 30 ft of 18 AWG, 20.95 mohm/m, are 0.192, of 20 AWG 0.304
        ("15 ft 22 AWG", "Lay 18 AWG."),
        # 300 ft of 8 AWG, 2.061 mohm/m, are 0.188, of 10 AWG 0.300; 18,000 ft of 4/0 AWG, 0.1608 mohm/m, are 0.88
        ("150 ft 22 AWG", "Lay 8 AWG."), ("9000 ft 22 AWG", "Move the amplifier nearer to the speaker."),
    ],
)  # fmt: skip
def test_which_speaker_wire_is_offered(run: str, do: str) -> None:
    units = "units: {amp: {kind: amplifier, outputs: {out1: 50 W @ 4 ohm}, draws: 1 A}}\n"
    text = f"{units}speakers: {{FL: {{nominal: 4 ohm}}}}\nruns:\n  - amp.out1 > {run} > spk.FL\n"
    (finding,) = found("D06", supplied(text))
    assert finding.do == do


@pytest.mark.parametrize(
    ("code", "job", "record", "parts"),
    [
        # on the car's side of a plug it is wires; on the unit's side, and at a unit's terminals, what is inside
        ("H15", READ, "ohm: dash.car.3/9", ["dash cavity 3 (orange, ILL), car side and dash cavity 9 (red, ACC), car"]),
        ("H15", READ, "ohm: dash.unit.3/9", []), ("H15", READ, "ohm: dash.unit.3/9, unplugged: dash", []),
        ("H15", JOB, "ohm: amp.in1+/in2+", []), ("H15", JOB, "ohm: amp.in1+/in2+, unplugged: dash", []),
        # but where the unit's own leads were off
        ("H15", JOB, "ohm: amp.in1+/in2+, unplugged: amp", ["amp in1+ and amp in2+ read 0.1 ohm to each other"]),
        ("A18", JOB, "ohm: dash.car.1", ["dash cavity 1 (white, FL+), car side reads 0.1 ohm to the car's body"]),
        ("A18", JOB, "ohm: dash.unit.1", []), ("A18", JOB, "ohm: amp.in1+", []),
        ("A18", JOB, "ohm: amp.in1+, unplugged: amp", ["amp in1+ reads 0.1 ohm to the car's body"]),
    ],
)  # fmt: skip
def test_a_reading_into_a_unit(tmp_path: Path, code: str, job: str, record: str, parts: list[str]) -> None:
    findings = recorded(tmp_path, code, (f"{record}, reads: 0.1 ohm",), job)
    alike([each.message for each in findings], parts)


@pytest.mark.parametrize(
    ("joints", "parts"),
    [
        # a ground of the radio's that is cut off from the body is a ground of its own
        ("radio.FL+: spk.FL+; spk.FL-: dash.unit.2", ["and drives speaker FL+, whose other wire is on dash cavity 2"]),
        ("radio.FL+: spk.FL+; spk.FL-: gnd.G1", ["and drives speaker FL+, whose other wire is on ground point G1"]),
        # the output's own short is told, and not the speaker behind it once more: by one ground, by two
        (
            "radio.FL+: [spk.FL+, gnd.G1]; spk.FL-: gnd.G1",
            ["radio FL+ is live at about 6 V and reaches ground point G1"],
        ),
        ("radio.FL+: [spk.FL+, dash.unit.2]; spk.FL-: gnd.G1", ["radio FL+ is live at about 6 V and reaches dash"]),
    ],
)
def test_a_speaker_between_an_output_and_ground(joints: str, parts: list[str]) -> None:
    plug = PAIRS.replace("1/2: FL WH WH/BK", "1: AMP-ON BU, 2: GND BK")
    more = f"{plug}grounds: {{G1: {{place: floor, metal: bare}}}}\ncut: [dash.2]\n"
    alike(told("C03", signals.wiring_of(joints, "", more)), parts)


@pytest.mark.parametrize(("key", "parts"), [("found", []), ("runs", ["The 8 AWG cable goes through bulkhead bare"])])
def test_a_cable_that_the_car_laid_through_metal(key: str, parts: list[str]) -> None:
    text = f"units: {{amp: {{kind: amplifier, draws: 5 A}}}}\n{key}:\n"
    text += "  - battery.+ > fuse 9 A > 1 m 8 AWG via bulkhead bare > amp.B+\n"
    alike(told("F15", supplied(text)), parts)
