"""What each record says against the plan, in the words of the paper: read off a small job's text by hand.

A coil of 4 ohm reads 2.48 to 4.0 ohm and 0.8 ohm of wire besides; less than 1 V is asleep, no more than 0.1 V is on a
ground or on wires that nothing feeds, no wire of a 12 V car has more than 18 V; a battery, on a charger or not, is
right from 12.0 to 15.0 V, ACC and a turn-on wire from 10 to 15 V; more than 100 kohm to the body is damp and no
contact.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import contrary
from harness.graph.wiring import Wiring
from harness.read.job import read_job
from harness.read.troubles import Troubles

JOB = """\
ringout: 1
title: Records against the plan
car: {name: Bench hatch, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 6, view: wire, latch: top, first: top left, count: across}
    cavities:
      1/2: FL WH WH/BK
      3/4: FR GY GY/BK
      5/6: RL GN GN/BK
      7/8: RR
      9: ACC RD
      10: AMP-ON BU
      11: GND BK
looms:
  T1: {ends: {unit: 4-way, car: 4-way}, leads: {1/2: C OG OG/BK}}
units:
  radio: {kind: radio, outputs: {FL FR RL RR: btl 8 V}, gives: {AMP-ON: 100 mA}}
  amp:
    kind: amplifier
    inputs: {in1..2: 2..20 V differential}
    outputs: {out1..2: 50 W @ 4 ohm least 2 ohm}
    routes: {out1: in1, out2: in2}
    wakes: rem 20 mA
  eye: {kind: interface, wakes: on 5 mA}
speakers:
  FL RL RR C: {nominal: 4 ohm}
  FR: {nominal: 4 ohm, capacitor: 47 uF}
grounds: {G1: {place: floor, metal: bare}}
cut: [dash.FL, dash.FR]
joints:
  crimp with heat shrink:
    dash.unit.FL: amp.in1
    dash.unit.FR: amp.in2
    dash.car.FL: amp.out1
    dash.car.FR: amp.out2
    dash.car.10: amp.rem
    dash.9: eye.on
    T1.car.C: spk.C
runs:
  - battery.+ > 12 in 8 AWG > fuse 30 A > 11 ft 8 AWG via bulkhead grommet > amp.B+
  - amp.GND > 18 in 8 AWG > gnd.G1
"""
FL = "dash cavities 1 and 2 (white and white with black stripe, FL)"
FR = "dash cavities 3 and 4 (grey and grey with black stripe, FR)"
COIL, CAPACITOR, RED = "planned 2.5 to 4.0 ohm", "planned open, behind a capacitor", "planned steady, green or blue"
# as the record's line, the kind and the words
Told = list[tuple[int, str, str]]


def recorded(folder: Path, *records: str, job: str = JOB) -> Wiring:
    """The job with these records, each `verb: what, key: word …`, from the first line of its evidence on."""
    path, troubles = folder / "job.yaml", Troubles()
    path.write_text(job, encoding="utf-8")
    path.with_name("job.evidence.yaml").write_text("".join(f"- {{{each}}}\n" for each in records), encoding="utf-8")
    made = read_job(path, troubles)
    assert made is not None, troubles.findings
    assert not troubles.refused, troubles.findings
    return Wiring(made)


def told(wiring: Wiring) -> Told:
    return [(each.record.place.line, each.kind, each.words) for each in contrary.contrary(wiring)]


VOLTS: list[tuple[tuple[str, ...], Told]] = [
    (("volts: amp.GND, reads: 1 V, key: run",), [(1, "live ground", "amp GND, key run: 1 V, planned 0 V")]),
    (("volts: amp.GND, reads: 0.99 V, key: run",), [(1, "volts", "amp GND, key run: 0.99 V, planned 0 V")]),
    (("volts: amp.GND, reads: 0.1 V, key: run",), []),
    (("volts: amp.GND, reads: -0.1 V, key: run",), []),
    # a supply that is too high is no live ground; 18 V may be, more is a meter set wrong
    (("volts: amp.B+, reads: 18 V, key: out",), [(1, "volts", "amp B+, key out: 18 V, planned 12.4 to 12.7 V")]),
    (
        ("volts: amp.B+, reads: 18.1 V, key: out",),
        [(1, "sense", "amp B+: 18.1 V, planned at most 18 V in a 12 V car")],
    ),
    (
        ("volts: dash.car.9, reads: -19 V",),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: -19 V, planned nothing below the body, which is minus")],
    ),
    (("volts: amp.B+, reads: 13 V, key: run",), []),
    (("volts: amp.B+, reads: 15.1 V, key: run",), [(1, "volts", "amp B+, key run: 15.1 V, planned 12.4 to 12.7 V")]),
    (("volts: amp.B+, reads: 12 V, key: accessory",), []),
    (("volts: amp.B+, reads: 9 V, key: crank",), []),  # what it must be while cranking isn't known
    (
        ("volts: eye.on, reads: 9.9 V, key: accessory",),
        [(1, "volts", "eye on, key accessory: 9.9 V, planned 10 to 14 V")],
    ),
    (("volts: eye.on, reads: 15 V, key: run",), []),
    (("volts: eye.on, reads: 15.1 V, key: run",), [(1, "volts", "eye on, key run: 15.1 V, planned 10 to 14 V")]),
    # asleep: told by another finding where somebody waited
    (("volts: eye.on, reads: 0.99 V, key: out",), []),
    (("volts: eye.on, reads: 1 V, key: out",), [(1, "asleep", "eye on, key out: 1 V, planned below 1 V")]),
    (
        ("volts: eye.on, reads: 1 V, key: locked, waited: 5 min",),
        [(1, "retained", "eye on, key locked: 1 V, planned below 1 V")],
    ),
    (
        ("volts: amp.rem, reads: -12 V, key: out",),
        [
            (1, "asleep", "amp rem, key out: -12 V, planned below 1 V"),
            (1, "sense", "amp rem: -12 V, planned nothing below the body, which is minus"),
        ],
    ),
    # the last word in one state of the key counts, key out and locked are one; another state is another subject
    (("volts: eye.on, reads: 3 V, key: out", "volts: eye.on, reads: 0 V, key: locked"), []),
    (
        ("volts: eye.on, reads: 3 V, key: out", "volts: eye.on, reads: 12 V, key: run"),
        [(1, "asleep", "eye on, key out: 3 V, planned below 1 V")],
    ),
    # a word that is no reading, a reading of one that needs no supply, and one behind them
    (
        ("volts: amp.B+, reads: unknown, key: out", "volts: amp.GND, reads: 0.5 V, key: out"),
        [(2, "volts", "amp GND, key out: 0.5 V, planned 0 V")],
    ),
    # levels of a signal are no supply
    (("volts: amp.rem, reads: 3 V, key: out, step: 30",), []),
    (("volts: amp.rem, reads: 3 V, key: out, clean: last",), []),
    (("volts: amp.rem, reads: 3 V, key: out, signal: 1 kHz",), []),
    (("volts: dash.car.7/8, reads: 20 V, step: 30",), []),
    # of two units, in the order of the records
    (
        ("volts: eye.on, reads: 3 V, key: out", "volts: amp.B+, reads: 9 V, key: out"),
        [
            (1, "asleep", "eye on, key out: 3 V, planned below 1 V"),
            (2, "volts", "amp B+, key out: 9 V, planned 12.4 to 12.7 V"),
        ],
    ),
]
DC: list[tuple[tuple[str, ...], Told]] = [
    (("volts: dash.car.1/2, reads: 0.1 V",), []),
    (("volts: dash.car.1/2, reads: -0.11 V",), [(1, "dc", f"{FL}: -0.11 V DC, planned 0 V")]),
    (("volts: dash.car.1/2, reads: 18 V",), [(1, "dc", f"{FL}: 18 V DC, planned 0 V")]),
    (("volts: dash.car.7/8, reads: 2 V",), [(1, "dc", "dash cavities 7 and 8 (RR): 2 V DC, planned 0 V")]),
    # between a feed and a speaker's wire there may be volts; on the radio's half it may feed them
    (("volts: dash.car.9/1, reads: 11 V",), []),
    (("volts: dash.car.1/9, reads: 11 V",), []),
    (("volts: dash.unit.1/2, reads: 11 V",), []),
    # by the way, with a tone or ohms; the last one counts, and another verb's reading is none of DC
    (
        ("tone: dash.car.1/2, charted: FL, heard: FL, dc: 2 V",),
        [(1, "dc", f"{FL}: 2 V DC, planned 0 V")],
    ),
    (
        ("ohm: dash.car.3/4, reads: open, dc: 3 V", "volts: dash.car.1/2, reads: 2 V"),
        [(1, "dc", f"{FR}: 3 V DC, planned 0 V"), (2, "dc", f"{FL}: 2 V DC, planned 0 V")],
    ),
    (("volts: dash.car.1/2, reads: 2 V", "ohm: dash.car.2/1, reads: 3 ohm, dc: 0 V"), []),
    (
        ("volts: dash.car.1/2, reads: 2 V", "ohm: dash.car.1/2, reads: 3 ohm"),
        [(1, "dc", f"{FL}: 2 V DC, planned 0 V")],
    ),
    (("volts: dash.car.1/2, reads: 8 V, step: 30, dc: 0 V",), []),
]
OHMS: list[tuple[tuple[str, ...], Told]] = [
    (
        ("ohm: dash.car.7/8, reads: 9 ohm",),
        [(1, "ohms", "dash cavities 7 and 8 (RR): 9 ohm, planned 2.5 to 4.0 ohm")],
    ),
    (("ohm: dash.car.7/8, reads: 4.8 ohm",), []),
    (("ohm: dash.car.7/8, reads: 2.4 ohm",), [(1, "ohms", f"dash cavities 7 and 8 (RR): 2.4 ohm, {COIL}")]),
    (("ohm: dash.car.3/4, reads: 9 ohm",), [(1, "ohms", f"{FR}: 9 ohm, {CAPACITOR}")]),
    (("ohm: dash.car.3/4, reads: open",), []),
    # the loom's wires and a speaker's own
    (
        ("ohm: T1.car.1/2, reads: 9 ohm",),
        [(1, "ohms", f"T1 car end 1 and 2 (orange and orange with black stripe, C): 9 ohm, {COIL}")],
    ),
    (("ohm: spk.C, reads: 9 ohm",), [(1, "ohms", f"C leads C+ and C- (C): 9 ohm, {COIL}")]),
    # at an output with its leads on: too much and open speak against the plan, too little may be the output itself
    (("ohm: amp.out1, reads: open",), [(1, "ohms", f"the leads at amp out1: open, {COIL}")]),
    (("ohm: amp.out1, reads: 4.9 ohm",), [(1, "ohms", f"the leads at amp out1: 4.9 ohm, {COIL}")]),
    (("ohm: amp.out1, reads: 4.8 ohm",), []),
    (("ohm: amp.out1, reads: 2 ohm",), []),
    (("ohm: amp.out2, reads: 3 ohm",), []),  # behind a capacitor, and what the output itself reads isn't known
    # with its leads off, however that is written, it is told once
    (
        ("ohm: amp.out1, reads: 2 ohm, unplugged: amp",),
        [(1, "ohms", f"the leads at amp out1+ and out1-: 2 ohm, {COIL}")],
    ),
    (
        ("ohm: amp.out2, reads: 3 ohm, unplugged: [dash, AMP]",),
        [(1, "ohms", f"the leads at amp out2+ and out2-: 3 ohm, {CAPACITOR}")],
    ),
    (("ohm: amp.out1, reads: 9 ohm", "ohm: amp.out1, reads: 3 ohm"), []),
    (
        ("ohm: amp.out1, reads: 3 ohm", "ohm: amp.out1, reads: open", "seen: amp"),
        [(2, "ohms", f"the leads at amp out1: open, {COIL}")],
    ),
    # the first of two outputs is as it should be
    (
        ("ohm: amp.out1, reads: 3 ohm", "ohm: amp.out2, reads: 3 ohm, unplugged: amp"),
        [(2, "ohms", f"the leads at amp out2+ and out2-: 3 ohm, {CAPACITOR}")],
    ),
]
BODY: list[tuple[tuple[str, ...], Told]] = [
    (
        ("ohm: dash.car.7/8, reads: 3 ohm, body: 2 kohm",),
        [
            (
                1,
                "body",
                "dash cavity 7 (RR+), car side and dash cavity 8 (RR−), car side to the body: 2 kohm, planned open",
            )
        ],
    ),
    (
        ("ohm: dash.car.7, reads: 100 kohm",),
        [(1, "damp", "dash cavity 7 (RR+), car side to the body: 100 kohm, planned open")],
    ),
    (
        ("ohm: dash.car.7, reads: 99.9 kohm",),
        [(1, "body", "dash cavity 7 (RR+), car side to the body: 99.9 kohm, planned open")],
    ),
    # what is no wire of a speaker, the half on which the radio sits, and what belongs on the body
    (("ohm: dash.car.9, reads: 3 ohm",), []),
    # on a factory supply wire lamps and motors of the car may well read as little
    (("ohm: dash.car.9, reads: 0.5 ohm",), []),
    (("ohm: dash.unit.7, reads: 3 ohm",), []),
    (("ohm: dash.car.11, reads: 0.1 ohm",), []),
    (("ohm: amp.GND, reads: 0.1 ohm, unplugged: amp",), []),
    (("ohm: T1.car.1/2, reads: 3 ohm, body: 3 ohm",), []),
    (("ohm: amp.in1+, reads: 3 ohm, unplugged: amp",), []),
    # the leads of an output, where they were off
    (
        ("ohm: amp.out1+, reads: 3 ohm, unplugged: amp",),
        [(1, "body", "amp out1+ to the body: 3 ohm, planned open")],
    ),
    (("ohm: amp.out1+, reads: 3 ohm",), []),
    # each wire has its own last word
    (
        ("ohm: dash.car.7/8, reads: 3 ohm, body: 2 kohm", "ohm: dash.car.8, reads: open"),
        [(1, "body", "dash cavity 7 (RR+), car side to the body: 2 kohm, planned open")],
    ),
]
LOOKS: list[tuple[tuple[str, ...], Told]] = [
    (("seen: AMP, shows: red steady",), [(1, "light", f"the light of amp: red steady, {RED}")]),
    (('seen: amp, shows: "Dark, then green"',), [(1, "light", f"the light of amp: Dark, then green, {RED}")]),
    (
        ("seen: amp, shows: green red",),
        [(1, "light", "the light of amp: green red, planned steady, green or blue")],
    ),
    (("seen: amp, shows: red", "seen: amp, shows: green"), []),
    # hot and burnt are said of the unit and not of its light; a later look at it answers it
    (
        ("seen: amp, shows: green", "seen: amp, shows: smells burnt"),
        [(2, "look", "amp: found smells burnt, planned nothing wrong there")],
    ),
    (
        ("seen: amp, shows: red", "seen: amp, shows: hot"),
        [(1, "light", f"the light of amp: red, {RED}"), (2, "look", "amp: found hot, planned nothing wrong there")],
    ),
    (("seen: amp, shows: hot", "seen: amp, shows: green"), []),
    (("seen: amp, shows: not hot",), []),
    (("seen: amp, shows: red", "seen: amp"), [(1, "light", f"the light of amp: red, {RED}")]),
    (("seen: boot, shows: red", "seen: eye, shows: blinks"), [(2, "light", f"the light of eye: blinks, {RED}")]),
]
SENSE: list[tuple[tuple[str, ...], Told]] = [
    # only a reading in volts or in ohms says in which it is
    (("tone: dash.car.1/2, charted: FL, heard: FL, reads: 3 V",), []),
    (
        ("ohm: dash.car.9, reads: 3 V",),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: 3 V, planned ohms")],
    ),
    (
        ("volts: dash.car.9, reads: 3 ohm",),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: 3 ohm, planned volts")],
    ),
    (
        ("volts: dash.car.9, reads: open",),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: open, planned volts")],
    ),
    (("volts: dash.car.9, reads: over",), []),
    (("volts: dash.car.9, reads: 18 V",), []),
    # read again under the same condition, or under another one
    (("volts: dash.car.9, reads: 19 V", "volts: dash.car.9, reads: 12 V"), []),
    (
        ("volts: dash.car.9, reads: 19 V, key: run", "volts: dash.car.9, reads: 12 V, key: out"),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: 19 V, planned at most 18 V in a 12 V car")],
    ),
    (
        ("volts: dash.car.9, reads: 3 ohm, step: 3", "volts: dash.car.9, reads: 12 V"),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: 3 ohm, planned volts")],
    ),
    (
        ("ohm: dash.car.9, reads: 3 V", "volts: dash.car.9, reads: 12 V"),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: 3 V, planned ohms")],
    ),
    (
        ("ohm: dash.car.9, reads: 3 V", "ohm: dash.car.9"),
        [(1, "sense", "dash cavity 9 (red, ACC), car side: 3 V, planned ohms")],
    ),
]
TONES: list[tuple[tuple[str, ...], Told]] = [
    # of a pair that is only passed on, by a tone or a look for +
    (
        ("tone: dash.car.7/8, charted: RR, heard: RL",),
        [(1, "heard", "dash cavities 7 and 8 (RR): heard RL, planned RR")],
    ),
    (
        ("tone: dash.car.7/8, charted: RR, heard: RL RR",),
        [(1, "heard", "dash cavities 7 and 8 (RR): heard RL RR, planned RR")],
    ),
    (("tone: dash.car.7/8, charted: RR, heard: RR RR-TW",), []),
    (("tone: dash.car.7/8, charted: RR, heard: hum",), []),
    (("polarity: dash.car.7/8, plus: 8",), [(1, "plus", "dash cavities 7 and 8 (RR): found + 8, planned + on 7")]),
    (("polarity: dash.car.7/8, plus: 7",), []),
    # at the half toward the unit it is the radio's +, and no speaker's
    (("polarity: dash.unit.7/8, plus: 8",), []),
    # the cone's + was found as charted and the radio's on the other wire: one of the two comes out reversed
    (
        ("polarity: dash.car.7/8, plus: 7, how: cone", "polarity: dash.unit.7/8, plus: 8"),
        [(2, "radio plus", "dash cavities 7 and 8 (RR), at the radio's side: + on 8, planned + on 7")],
    ),
    (
        (
            "polarity: dash.car.7/8, plus: 7, how: cone",
            "polarity: dash.unit.7/8, plus: 8",
            "polarity: dash.unit.7/8, plus: 7",
        ),
        [],
    ),
    (
        ("tone: dash.car.7/8, charted: RR, heard: none",),
        [(1, "heard", "dash cavities 7 and 8 (RR): heard none, planned RR")],
    ),
    # of a pair in use
    (("tone: dash.car.1/2, charted: FL, heard: none",), [(1, "heard", f"{FL}: heard none, planned FL")]),
    # another channel beside its own is another pair on its wires; a further driver of its own is none
    (("tone: dash.car.1/2, charted: FL, heard: FL FR",), [(1, "heard", f"{FL}: heard FL FR, planned FL")]),
    (("tone: dash.car.1/2, charted: FL, heard: FL FL-TW",), []),
    # which of them the last record is about
    (
        ("tone: dash.car.1/2, charted: FL, heard: FR", "polarity: dash.car.3/4, plus: 4"),
        [(1, "heard", f"{FL}: heard FR, planned FL"), (2, "plus", f"{FR}: found + 4, planned + on 3")],
    ),
    (
        ("tone: dash.car.1/2, charted: FL, heard: FR, plus: 1", "polarity: dash.car.1/2, plus: 1"),
        [(2, "heard", f"{FL}: heard FR, planned FL")],
    ),
]
BUILT: list[tuple[tuple[str, ...], Told]] = [
    (
        ("built: dash.car.1/2, is: capped",),
        [
            (
                1, "built",
                ("dash cavity 1 (white, FL+), car side and dash cavity 2 (white with black stripe, FL−), car side: "
                "built capped, planned joined to amp out1+"),
            )
        ],
    ),
    (("built: dash.car.1/2, is: amp.out1",), []),
    # a look at a joint: what was found, else what came out
    (("checked: J1, found: loose",), [(1, "loose", "joint J1: found loose, planned holding when tugged")]),
    (("checked: J1, result: wrong",), [(1, "loose", "joint J1: found wrong, planned holding when tugged")]),
    (("checked: J1, found: tight",), []),
    (("checked: J1, found: 'firm and tight, no play'",), []),
    (("checked: J1, found: 'tugged, not loose'",), []),
    (("checked: J1, found: 'tugged, wobbly'",),
     [(1, "loose", "joint J1: found tugged, wobbly, planned holding when tugged")]),
    (("checked: J1, found: not tight",), [(1, "loose", "joint J1: found not tight, planned holding when tugged")]),
    (("checked: J1, found: does not hold",),
     [(1, "loose", "joint J1: found does not hold, planned holding when tugged")]),
    (("built: J1, is: joined",), []),
    (("checked: J1, found: loose, car: Larch van",), []),
    (("checked: J1, found: loose", "checked: J1, found: tight again"), []),
    (("checked: J1, found: loose", "built: J1"), []),
    (("built: J1", "checked: J2, found: loose"), [(2, "loose", "joint J2: found loose, planned holding when tugged")]),
]  # fmt: skip


@pytest.mark.parametrize(("records", "expected"), [*VOLTS, *DC, *OHMS, *BODY, *LOOKS, *SENSE, *TONES, *BUILT])
def test_what_a_record_says_against_the_plan(records: tuple[str, ...], expected: Told, tmp_path: Path) -> None:
    assert told(recorded(tmp_path, *records)) == expected


def test_where_no_speaker_is_drawn_none_need_answer(tmp_path: Path) -> None:
    job = JOB.replace("FL RL RR C: {", "FL RL C: {")
    assert told(recorded(tmp_path, "tone: dash.car.7/8, charted: RR, heard: none", job=job)) == []
    assert len(told(recorded(tmp_path, "tone: dash.car.7/8, charted: RR, heard: RL", job=job))) == 1


@pytest.mark.parametrize(
    ("records", "pairs"),
    [
        (("ohm: dash.car.3/4, reads: 9 ohm",), {"dash.3/4": "contradicted: 9 ohm read"}),
        # a wire of it alone counts, a pair that is only passed on doesn't, and the last of two is said
        (("ohm: dash.car.3, reads: 5 kohm",), {"dash.3/4": "contradicted: 5 kohm read"}),
        (("ohm: dash.car.7/8, reads: 9 ohm",), {}),
        (
            ("ohm: dash.car.3, reads: 5 kohm", "ohm: dash.car.3/4, reads: 9 ohm"),
            {"dash.3/4": "contradicted: 9 ohm read"},
        ),
        (("volts: dash.car.1/3, reads: 5 V",), {}),
        (("ohm: dash.car.3, reads: 200 kohm",), {}),
        # one that is toned is toned, and stands before the other
        (
            (
                "tone: dash.car.1/2, charted: FL, heard: FL", "ohm: dash.car.1/2, reads: 9 ohm",
                "volts: dash.car.3/4, reads: 5 V",
            ),
            {"dash.3/4": "contradicted: 5 V DC read"},
        ),
        (("tone: dash.car.1/2, charted: FL, heard: FR",), {"dash.1/2": "contradicted: FR heard"}),
        (
            ("tone: dash.car.1/2, charted: FL, heard: FR", "ohm: dash.car.1/2, reads: 9 ohm"),
            {"dash.1/2": "contradicted: FR heard"},
        ),
    ],
)  # fmt: skip
def test_pairs_that_a_record_speaks_against(records: tuple[str, ...], pairs: dict[str, str], tmp_path: Path) -> None:
    assert contrary.pairs_against(recorded(tmp_path, *records)) == pairs
