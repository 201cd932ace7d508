"""Looks, terminals put in and pairs, each by a record of a few words on one small job, read off by hand.

No outside source: the rules are those that `ringout explain` and the README say of records.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import contrary, looks, pairs, put_in, ticked
from tests.graph.test_contrary_rules import JOB, recorded
from tests.graph.test_tones_of_a_pair import TWO


@pytest.mark.parametrize(
    ("record", "wrong"),
    [
        ("checked: gnd.G1, found: painted", True),
        ("checked: gnd.G1, found: bare", False),
        ("checked: gnd.G1, found: who knows", False),
        ("checked: gnd.G1, result: wrong", True),
        ("checked: gnd.G1", False),
        ("seen: carpet, found: wet", True),
        ("seen: carpet", False),
        # a joint by its name is told as a joint; only what was looked at was found
        ("checked: J1, found: loose", False),
        ("built: gnd.G1, is: loose", False),
        ("volts: amp.rem, reads: 12 V, shows: red", False),
        ("volts: dash.9, reads: 12 V, found: wet", False),
        # of a unit its light, by the light's own words, unless the unit itself is hot
        ("seen: amp, shows: red", True), ("seen: amp, shows: green", False), ("seen: amp, shows: purple", False),
        ("seen: amp, shows: hot", True), ("seen: amp, shows: not hot", False), ("seen: amp, shows: blinks", True),
        ("seen: boot, shows: wet", True),
    ],
)  # fmt: skip
def test_whether_a_record_found_something_wrong(record: str, wrong: bool, tmp_path: Path) -> None:
    wiring = recorded(tmp_path, record)
    assert looks.found_wrong(wiring, wiring.job.records[0]) is wrong


@pytest.mark.parametrize(
    ("records", "lines"),
    [
        # 1 and 3 are wires of two pairs; 9 of none; 1 and 2 are one
        (("polarity: dash.car.1/3, plus: 1",), [1]),
        (("polarity: dash.unit.1/9, plus: 1",), [1]),
        (("polarity: dash.car.1/2, plus: 1", "polarity: dash.car.2/1, plus: 1", "polarity: dash.car.7/9"), [3]),
        # behind one wire, one that was taken in another car, a look at a loom, a tone
        (
            (
                "polarity: dash.car.1, plus: 1", "polarity: dash.car.1/3, plus: 1, car: Larch van",
                "polarity: T1.car.1/2, plus: 1", "tone: dash.car.1/3, heard: FL", "polarity: dash.car.1/9, plus: 1",
            ),
            [5],
        ),
        # of a plug that only the car's own wires pass there is no chart
        (("polarity: C204.car.1/2, plus: 1", "polarity: dash.car.1/3, plus: 1"), [2]),
    ],
)  # fmt: skip
def test_looks_for_plus_at_what_is_no_pair(records: tuple[str, ...], lines: list[int], tmp_path: Path) -> None:
    job = JOB.replace("grounds:", "inline: {C204: pillar}\nfound: [dash.RL > C204.1/2 > spk.RL]\ngrounds:")
    made = pairs.looks_at_no_pair(recorded(tmp_path, *records, job=job))
    assert [each.place.line for each in made] == lines


# 7 is pulled out of the plug, T1's 1 is moved to 3
PULLED = JOB.replace("grounds:", "depinned: [dash.car.7]\nmoved: {T1.car.1: T1.car.3}\ngrounds:")
ALL = ("position", "lock", "tug")


@pytest.mark.parametrize(
    ("records", "first", "back"),
    [
        ((), ALL, None),
        # that it stays out, or nothing of it, is no word that it was put back
        (("built: dash.car.7, is: pulled",), ALL, None),
        (("built: dash.car.7, is: capped",), ALL, None),
        (("built: dash.car.7, is: used, car: Larch van",), ALL, None),
        (("built: dash.car.8, is: used",), ALL, None),
        (("checked: dash.car.7, found: position",), ALL, None),
        (("built: dash.car.7, is: used",), ALL, ALL),
        (("built: dash.car.7, is: pulled", "built: dash.car.7, is: put back"), ALL, ALL),
        (("built: dash.car.7, is: put back", "built: dash.car.7, is: pulled"), ALL, None),
        (("built: dash.car.7, is: used", "checked: dash.car.7, found: 'Lock, tug'"), ALL, ("position",)),
        (("checked: T1.car.1, found: position lock tug",), (), None),
        (("checked: T1.car.1, found: position", "checked: T1.car.1, found: lock"), ("position", "tug"), None),
        (("checked: T1.car.1, found: position lock tug, result: wrong",), ALL, None),
        (("checked: T1.car.1, found: position lock tug, result: not tried",), ALL, None),
        (("seen: T1.car.1, found: position lock tug",), ALL, None),
    ],
)
def test_terminals_put_in(
    records: tuple[str, ...], first: tuple[str, ...], back: tuple[str, ...] | None, tmp_path: Path
) -> None:
    made = put_in.put_in(recorded(tmp_path, *records, job=PULLED))
    expected = [("T1.car.1", first), *([] if back is None else [("dash.car.7", back)])]
    assert [(each.contact, each.missing) for each in made] == expected


def test_a_terminal_moved_to_where_it_was_or_pulled_is_not_put_in(tmp_path: Path) -> None:
    for old, new in (
        ("moved: {T1.car.1: T1.car.3}", "moved: {T1.car.1: T1.car.1}"),
        ("[dash.car.7]", "[dash.car.7, T1.car.1]"),
    ):
        assert put_in.put_in(recorded(tmp_path, job=PULLED.replace(old, new))) == []


# -- readings --------------------------------------------------------------------------------------------------------

COMMON = JOB.replace("grounds:", "found: [dash.7 > spk.RR+, spk.RR- > gnd.G1]\ngrounds:")
RELAY = JOB.replace("  eye:", "  k1: {kind: relay, coil: 150 mA}\n  eye:").replace(
    "dash.9:", "dash.10: k1.86\n    dash.9:"
)
REM = "    T1.car.C: spk.C\n"
BESIDE = JOB.replace("  eye:", "  ear: {kind: processor, inputs: {in1: 2..20 V}}\n  eye:")
BESIDE = BESIDE.replace(REM, f"{REM}    amp.out1: ear.in1\n")


@pytest.mark.parametrize(
    ("job", "record", "kinds"),
    [
        # a tone may hold a reading too: volts there are its level
        (JOB, "tone: dash.car.7/8, heard: RR, reads: 3 V", []),
        (JOB, "ohm: dash.car.7/8, reads: 3 V", ["sense"]),
        (JOB, "ohm: dash.car.7/8, reads: 3 V, car: Larch van", []),
        (JOB, "volts: amp.out1, reads: 25 V, signal: 1 kHz", []),
        (JOB, "volts: amp.out1, reads: 25 V", ["sense"]),
        # below the body is no feed of the car; a signal is so half of the time
        (JOB, "volts: amp.B+, reads: -12 V", ["sense"]),
        (JOB, "volts: amp.B+, reads: -12 V, signal: 1 kHz", []),
        # DC beside another reading, on the car's wires of a pair and nowhere else
        (JOB, "ohm: dash.car.7/8, reads: 3 ohm, dc: 5 V", ["dc"]),
        (JOB, "ohm: dash.unit.7/8, reads: 3 ohm, dc: 5 V", []),
        (JOB, "ohm: dash.car.7/9, reads: open, dc: 5 V", []),
        (JOB, "volts: dash.car.7/8, reads: 3 V, signal: 1 kHz", []),
        # its speaker lies between RR's wire and the body, as the car was built: 2.48 to 4.8 ohm is right there
        (COMMON, "ohm: dash.car.7, reads: 3 ohm", []),
        (JOB, "ohm: dash.car.7, reads: 3 ohm", ["body"]),
        # an output with its leads on lowers a reading and never raises it; with its leads off it is out of it
        (JOB, "ohm: amp.out1, reads: 1 ohm", []),
        (JOB, "ohm: amp.out1, reads: 9 ohm", ["ohms"]),
        (JOB, "ohm: amp.out1, reads: 1 ohm, unplugged: amp", ["ohms"]),
        (JOB, "ohm: amp.out1, reads: 1 ohm, unplugged: 'eye, AMP'", ["ohms"]),
        (JOB, "ohm: amp.out1, reads: 1 ohm, unplugged: eye", []),
        # behind its capacitor FR is open: anything else is read through the output
        (JOB, "ohm: amp.out2, reads: 5 ohm", []),
        (JOB, "ohm: amp.out2, reads: 5 ohm, unplugged: amp", ["ohms"]),
        (JOB, "ohm: amp.out2, reads: open, unplugged: amp", []),
        # a turn-on lead that the plan has on the body reads so, which is the plan's fault and not the car's
        (JOB, "ohm: amp.rem, reads: 0.3 ohm, unplugged: amp", ["body"]),
        (JOB.replace(REM, f"{REM}    amp.rem: gnd.G1\n"), "ohm: amp.rem, reads: 0.3 ohm, unplugged: amp", []),
        (JOB, "ohm: amp.rem, reads: 1 ohm, unplugged: amp", []),
        # so is one with a name of its own; a terminal that wakes nothing and no supply may read anything
        (JOB, "ohm: eye.on, reads: 0.3 ohm", ["body"]),
        (JOB, "ohm: eye.on, reads: 1 ohm", []),
        (JOB.replace("wakes: on 5 mA", "terminals: on, wakes: signal"), "ohm: eye.on, reads: 0.3 ohm", []),
        (JOB.replace("dash.9: eye.on", "gnd.G1: eye.on"), "ohm: eye.on, reads: 0.3 ohm", []),
        # the car's lamps are cold filaments to the body, many side by side
        (JOB.replace("9: ACC RD", "9: ILL OG"), "ohm: eye.on, reads: 0.3 ohm, unplugged: eye", []),
        # a supply with its leads off, and between its two terminals; an input's − may be on the ground inside
        (JOB, "ohm: amp.B+, reads: 0.99 ohm, unplugged: amp", ["body"]),
        (JOB, "ohm: amp.B+, reads: 1 ohm, unplugged: amp", []),
        (JOB, "ohm: amp.B+/GND, reads: 0.99 ohm", ["body"]),
        (JOB, "ohm: amp.B+/GND, reads: 1 ohm", []),
        (JOB, "ohm: amp.in1-/GND, reads: 0.5 ohm", []),
        # a ground with its ring on bare metal reads less than 1 ohm
        (JOB, "ohm: amp.GND, reads: 1 ohm", ["grounding"]),
        (JOB, "ohm: amp.GND, reads: 0.99 ohm", []),
        # which end of a coil is fed is the plan's; it reads some 80 ohm, and 0.3 ohm is told of a terminal alone
        (RELAY, "ohm: k1.86, reads: 0.3 ohm", []),
        # what else hangs on a feed of the car's is read with it
        (JOB, "ohm: dash.car.9, reads: 0.5 ohm", []),
        (JOB.replace("9: ACC RD", "9: B+ RD"), "ohm: dash.car.9/11, reads: 0.5 ohm", []),
        # an input beside the speaker is no 1 ohm
        (BESIDE, "ohm: amp.out1, reads: 1 ohm, unplugged: amp", ["ohms"]),
        (BESIDE, "ohm: amp.out1, reads: 1 ohm", []),
    ],
)
def test_readings_that_speak_against_the_plan(job: str, record: str, kinds: list[str], tmp_path: Path) -> None:
    assert [each.kind for each in contrary.contrary(recorded(tmp_path, record, job=job))] == kinds


@pytest.mark.parametrize(
    "record",
    [
        "volts: amp.GND, reads: 1 V, key: run", "volts: dash.car.1/2, reads: 2 V", "volts: dash.car.9, reads: 19 V",
        "volts: dash.car.9, reads: 3 ohm", "tone: dash.car.1/2, charted: FL, heard: FL, dc: 2 V",
        "tone: dash.car.1/2, charted: FL, heard: RL", "polarity: dash.car.1/2, plus: 2",
        "ohm: dash.car.1/2, reads: 9 ohm",
        "ohm: amp.out1, reads: 9 ohm", "ohm: dash.car.7, reads: 3 ohm", "ohm: amp.GND, reads: 5 ohm, unplugged: amp",
        "ohm: amp.B+/GND, reads: 0.5 ohm", "seen: amp, shows: red", "seen: amp, shows: hot", "seen: carpet, found: wet",
        "checked: gnd.G1, found: painted", "checked: J1, found: loose", "built: dash.car.1, is: capped",
        "built: RUN 1, is: not laid", "handover: closed, odd: it hums", "ohm: dash.car.9, reads: 3 V",
    ],
)  # fmt: skip
def test_what_was_taken_in_another_car_speaks_against_nothing(record: str, tmp_path: Path) -> None:
    """Beside a record of this car; without `car:` each of them is told."""
    assert len(contrary.contrary(recorded(tmp_path, "seen: carpet", record))) == 1
    assert contrary.contrary(recorded(tmp_path, "seen: carpet", f"{record}, car: Larch van")) == ()


@pytest.mark.parametrize(
    ("records", "boxes"),
    [
        (("built: RUN 1",), {("RUN 1", "laid"): True}),
        (("built: run 1, is: not laid",), {("RUN 1", "laid"): False}),
        # what is no answer to the box, no box at all, a look at a run, and what was done in another car
        (("built: RUN 1, is: blue",), {}),
        (("built: RUN 9", "built: RUN 1"), {("RUN 1", "laid"): True}),
        (("checked: RUN 1", "built: RUN 2"), {("RUN 2", "laid"): True}),
        (("built: RUN 1, car: Larch van",), {}),
        (("seen: RUN 1", "built: RUN 2"), {("RUN 2", "laid"): True}),
        (("checked: RUN 1, found: blue", "built: RUN 2"), {("RUN 2", "laid"): True}),
        (("built: RUN 1", "built: RUN 1, is: not laid"), {("RUN 1", "laid"): False}),
    ],
)
def test_which_runs_are_laid(records: tuple[str, ...], boxes: dict[tuple[str, str], bool], tmp_path: Path) -> None:
    made = ticked.ticked(recorded(tmp_path, *records))
    assert {box: seen.yes for box, seen in made.items()} == boxes


@pytest.mark.parametrize(
    ("records", "boxes"),
    [
        # a plug end is seated and latched where nothing else is said; a word alone says only that
        (("checked: T1 car end",), {"seated": True, "latched": True}),
        (("checked: t1 CAR  end, found: seated",), {"seated": True}),
        (("checked: T1 car end, is: latched",), {"latched": True}),
        (("checked: T1 car end, found: seated and not latched",), {"seated": True, "latched": False}),
        (("checked: T1 car end, found: 'not seated, latched'",), {"seated": False, "latched": True}),
        (("checked: T1 car end, found: latched seated",), {"seated": True, "latched": True}),
        (("checked: T1 car end, found: seated but dirty",), {}),
        (("built: T1 car end, is: seated", "checked: T1 car end, found: not seated"), {"seated": False}),
        (("checked: T1 car end, is: dirty",), {}),
        (("checked: T1 car end, is: latched dirty",), {}),
        (("checked: T1 unit end, found: seated",), {}),
        (("seen: T1 car end, found: seated",), {}),
        # what the record rested on: another plug has that loom's end now
        (("checked: T1 car end, fact: 'mates dash, car side'",), {"seated": True, "latched": True}),
        (("checked: T1 car end, fact: 'mates boot, car side'",), {}),
    ],
)
def test_which_plug_ends_are_seated(records: tuple[str, ...], boxes: dict[str, bool], tmp_path: Path) -> None:
    loom = "looms: {T1: {ends: {unit: 4-way, car: 4-way}, through: 1..4}}\n"
    job = TWO.replace("units:", f"{loom}units:") + "joints: {mate: {T1: dash}}\n"
    made = ticked.ticked(recorded(tmp_path, *records, job=job))
    assert {box: seen.yes for (name, box), seen in made.items() if name == "T1 car end"} == boxes


def test_a_run_that_has_another_number_now(tmp_path: Path) -> None:
    """By what it laid, whatever its name; laid twice over, or no more, it is none."""
    ground, feed = "lays amp.GND to gnd.G1", "lays battery.+ to amp.B+"
    for record, name in (
        (f"built: RUN 1, fact: {ground}", "RUN 2"), (f"built: RUN 2, fact: {ground}", "RUN 2"),
        (f"built: RUN 9, fact: {feed}", "RUN 1"), ("built: RUN 1, fact: lays amp.GND to gnd.G9", ""),
        ("built: RUN 1", "RUN 1"),
    ):  # fmt: skip
        made = ticked.ticked(recorded(tmp_path, record))
        assert [each for each, _ in made] == ([name] if name else []), record
        (said,) = recorded(tmp_path, f"{record}, is: not laid").job.records
        wiring = recorded(tmp_path, f"{record}, is: not laid")
        assert ticked.says_not_laid(wiring, said) is bool(name)
        assert [each.name for each in ticked.not_laid(wiring)] == ([name] if name else [])
        assert not ticked.says_not_laid(wiring, recorded(tmp_path, record).job.records[0])


def test_two_runs_between_the_same_two_ends(tmp_path: Path) -> None:
    """Which of them was laid is known by its name, where that still means one of them."""
    job = f"{JOB}  - amp.GND > 24 in 8 AWG > gnd.G1\n"
    for name, known in (("RUN 2", ["RUN 2"]), ("RUN 3", ["RUN 3"]), ("RUN 9", [])):
        made = ticked.ticked(recorded(tmp_path, f"built: {name}, fact: lays amp.GND to gnd.G1", job=job))
        assert [each for each, _ in made] == known


def test_only_what_was_built_says_that_a_run_is_not_laid(tmp_path: Path) -> None:
    wiring = recorded(tmp_path, "checked: RUN 1, is: not laid", "built: RUN 2")
    assert not ticked.says_not_laid(wiring, wiring.job.records[0])
    assert ticked.not_laid(wiring) == ()


@pytest.mark.parametrize(
    ("records", "odd"),
    [
        (("handover: closed, odd: it hums",), "it hums"),
        (("handover: paused, odd: it hums", "seen: carpet, found: dry"), "it hums"),
        # who takes over says nothing of it; who hands over the next time does
        (("handover: paused, odd: it hums", "handover: taken"), "it hums"),
        (("handover: paused, odd: it hums", "handover: taken", "handover: closed, odd: nothing"), ""),
        (("handover: paused, odd: it hums", "handover: closed"), ""),
        (("handover: closed, odd: Nothing.",), ""),
        (("handover: closed, odd: No",), ""),
        (("seen: carpet, odd: it hums",), ""),
        (("handover: taken, odd: it hums",), ""),
    ],
)
def test_what_was_left_odd(records: tuple[str, ...], odd: str, tmp_path: Path) -> None:
    assert [each.reads for each in contrary.contrary(recorded(tmp_path, *records))] == ([odd] if odd else [])


def test_a_job_without_boxes_has_none_ticked(tmp_path: Path) -> None:
    job = JOB[: JOB.index("runs:")]
    assert ticked.ticked(recorded(tmp_path, "checked: dash.car.1, found: dry", job=job)) == {}
