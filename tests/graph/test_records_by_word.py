"""Small rules by which records are read, each on records of a word or two; the plan is read by hand off the job's text.

No outside source: the rules are those that `ringout explain` and the README say of records.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import answers, as_built, contrary, handed_over, joints_made, looks
from tests.graph.test_contrary_rules import COIL, FL, JOB, RED, Told, recorded, told

# In the job: J1 and J2 dash.unit.FL and FR to amp.in1 and in2, J3 and J4 dash.car.FL and FR to amp.out1 and out2,
# J5 dash.car.10 to amp.rem, J6 dash.9 to eye.on, J7 T1.car.C to spk.C.


# -- what was built ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("record", "words"),
    [
        # of a joint what is said of it as a whole, in either key; nothing said is that it was made
        ("built: J1, is: nicely done", ("nicely done",)),
        ("built: J1, found: so so", ("so so",)),
        ("built: J1, is: made", ()),
        ("built: J1, found: loose", ()),
        ("built: J1", ()),
        # of contacts each word for itself, as written; a comma too many is no word
        ("built: dash.car.1, is: 'amp.out1+, Nicely done,'", ("Nicely done",)),
        ("built: dash.car.1/2, is: 'bad, worse'", ("bad", "worse")),
        ("built: dash.car.1, is: capped", ()),
        ("built: dash.car.1, is: FL", ()),
        ("built: dash.car.1, is: SUB", ()),
        ("built: dash.car.1, is: unknown", ("unknown",)),
        ("built: dash.car.1, is: empty", ()),  # a fate
        ("built: dash.car.1, is: as planned", ()),
        # turned round can be a joint of a pair, and no single wire
        ("built: dash.car.1/2, is: reversed", ()),
        ("built: dash.car.1/2, is: 'reversed, odd'", ("odd",)),
        ("built: dash.car.1, is: reversed", ("reversed",)),
        ("built: dash.car.7/8, is: reversed", ("reversed",)),
    ],
)
def test_words_that_say_nothing_of_the_plan(record: str, words: tuple[str, ...], tmp_path: Path) -> None:
    wiring = recorded(tmp_path, record)
    assert as_built.uncompared(wiring, wiring.job.records[0]) == words


@pytest.mark.parametrize(
    ("record", "ends"),
    [
        ("built: dash.car.1/2, is: amp.out2", [("dash.car.1", "amp.out2+"), ("dash.car.2", "amp.out2-")]),
        ("built: dash.car.1/2, is: joined to AMP.out2", [("dash.car.1", "amp.out2+"), ("dash.car.2", "amp.out2-")]),
        # each wire by its own sign, whatever order they are named in
        ("built: dash.car.2, is: amp.out2", [("dash.car.2", "amp.out2-")]),
        ("built: dash.car.1, is: 'capped, amp.out2-'", [("dash.car.1", "amp.out2-")]),
        ("built: dash.car.1, is: capped", []),
        ("built: dash.car.1", []),
        # what has no sign of its own: the first is +
        ("built: dash.car.10, is: amp.out2", [("dash.car.10", "amp.out2+")]),
        ("built: dash.car.10, is: eye.on", [("dash.car.10", "eye.on")]),
        ("built: dash.car.9/10, is: amp.out2", [("dash.car.9", "amp.out2+"), ("dash.car.10", "amp.out2-")]),
        ("built: dash.car.1, is: 'amp.out1+, amp.out2+'", [("dash.car.1", "amp.out1+"), ("dash.car.1", "amp.out2+")]),
    ],
)
def test_what_a_record_says_it_is_joined_to(record: str, ends: list[tuple[str, str]], tmp_path: Path) -> None:
    wiring = recorded(tmp_path, record)
    assert list(as_built.targets(wiring, wiring.job.records[0])) == ends


@pytest.mark.parametrize(
    ("record", "joint"),
    [
        ("built: J3, is: reversed", "J3"),
        ("built: J3, is: Reversed", "J3"),
        ("built: J3, is: made", ""),
        ("built: J5, is: reversed", ""),  # one wire
        ("built: dash.car.3/4, is: reversed", "J4"),
        ("built: amp.out2, is: reversed", "J4"),
        ("built: dash.car.3/4, is: 'reversed, odd'", "J4"),
        ("built: dash.car.3/4, is: amp.out1", ""),
        ("built: dash.car.7/8, is: reversed", ""),  # no joint of ours
        ("built: dash.car.3, is: reversed", ""),
    ],
)
def test_a_joint_built_the_other_way_round(record: str, joint: str, tmp_path: Path) -> None:
    wiring = recorded(tmp_path, record)
    found = as_built.turned_joint(wiring, wiring.job.records[0])
    assert (found.name if found is not None else "") == joint


@pytest.mark.parametrize(
    ("rows", "record"),
    [
        # one wire to two has two links and three ends, one to three has four ends: no pair is there to be turned
        ("dash.car.1: [amp.out1+, amp.out2+, eye.on]", "built: J1, is: reversed"),
        ("dash.car.1: [amp.out1+, amp.out2+]", "built: J1, is: reversed"),
        ("dash.car.FL: [amp.out1, amp.out2]", "built: J1, is: reversed"),
        # both wires of it are one net
        ("dash.car.FL: amp.out1; dash.car.1: dash.car.2", "built: dash.car.1/2, is: reversed"),
    ],
)
def test_what_could_not_be_built_the_other_way_round(rows: str, record: str, tmp_path: Path) -> None:
    head, _, runs = JOB.partition("joints:\n")
    made = "".join(f"    {row}\n" for row in rows.split("; "))
    job = f"{head}joints:\n  crimp with heat shrink:\n{made}runs:{runs.partition('runs:')[2]}"
    wiring = recorded(tmp_path, record, job=job)
    assert as_built.turned_joint(wiring, wiring.job.records[0]) is None


@pytest.mark.parametrize(
    ("record", "gone"),
    [
        ("built: J3, is: not made", True), ("built: J3, is: loose", True), ("built: J3, is: made", False),
        ("built: J3", False), ("built: J3, result: wrong", True), ("built: J3, is: who knows", False),
        ("built: dash.car.1, is: not joined", True), ("built: dash.car.1, is: 'capped, Left out'", True),
        # the plan joins dash.car.1: capped there it isn't
        ("built: dash.car.1, is: capped", True), ("built: dash.car.1", False),
    ],
)  # fmt: skip
def test_a_joint_that_is_not_there(record: str, gone: bool, tmp_path: Path) -> None:
    wiring = recorded(tmp_path, record)
    assert as_built.not_made(wiring, wiring.job.records[0]) is gone


RIGHT = "dash cavity 1 (white, FL+), car side"
LEFT = "dash cavity 2 (white with black stripe, FL−), car side"
BUILT: list[tuple[str, str, Told]] = [
    # a joint of a pair, turned in the plan or not
    (
        "built: dash.car.1/2, is: reversed", "",
        [(1, "built", f"{RIGHT} and {LEFT}: built reversed, planned joined to amp out1+")],
    ),
    ("built: dash.car.1/2, is: reversed", "dash.car.FL: amp.out1 reversed", []),
    ("built: dash.car.1/2, is: 'reversed, used'", "dash.car.FL: amp.out1 reversed", []),
    (
        "built: dash.car.1/2, is: 'reversed, capped'", "dash.car.FL: amp.out1 reversed",
        [(1, "built", f"{RIGHT} and {LEFT}: built reversed, capped, planned joined to amp out1−")],
    ),
    # a function: of a pair that of the wire's own sign is meant, of one wire the one said
    ("built: dash.car.1/2, is: FL", "", []),
    ("built: dash.car.1/2, is: FL+", "", []),
    ("built: dash.car.1, is: FL-", "", [(1, "built", f"{RIGHT}: built FL-, planned joined to amp out1+")]),
    ("built: dash.car.1, is: FL", "", []),
    ("built: dash.car.1/2, is: FR", "", [(1, "built", f"{RIGHT} and {LEFT}: built FR, planned joined to amp out1+")]),
    ("built: dash.car.9, is: ACC", "", []),
    # leads and cavities that nothing is done with: a branch of the loom, what only goes through, an empty end
    ("built: T1.unit.1, is: bare", "", []),
    ("built: T1.unit.1, is: used", "", [(1, "built", "T1 unit end 1 (orange, C+): built used, planned loose")]),
    ("built: T1.unit.3, is: empty", "", []),
    ("built: dash.car.7, is: pass", "", []),
    (
        "built: dash.car.7, is: joined", "",
        [(1, "built", "dash cavity 7 (RR+), car side: built joined, planned passed")],
    ),
    ("built: dash.car.9, is: tap", "", []),
    ("built: dash.car.1, is: intercept", "", []),
    ("built: dash.car.1, is: connected", "", []),
    ("built: eye.on, is: used", "", []),
    ("built: amp.in1+, is: used", "", []),
    ("built: spk.FL+, is: used", "", []),
]  # fmt: skip


@pytest.mark.parametrize(("record", "joint", "expected"), BUILT)
def test_what_was_built_against_the_plan(record: str, joint: str, expected: Told, tmp_path: Path) -> None:
    job = JOB.replace("dash.car.FL: amp.out1", joint) if joint else JOB
    assert told(recorded(tmp_path, record, job=job)) == expected


# -- joints by name ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("records", "lines"),
    [
        # the lines of the last record of its making and of the last look since
        (("built: J3",), (1, 0)),
        (("checked: J3, found: tight",), (0, 1)),
        (("built: J3", "checked: J3, found: loose"), (1, 2)),
        (("checked: J3, found: loose", "built: J3"), (2, 0)),
        (("built: J3, car: Larch van", "checked: J3, found: tight"), (0, 2)),
        # one of its ends was built otherwise since; another joint's end says nothing of it
        (("built: J3", "built: dash.car.1, is: capped"), (0, 0)),
        (("built: J3", "built: dash.car.3, is: capped"), (1, 0)),
        (("built: J3", "built: dash.car.1, is: amp.out1+"), (1, 0)),
    ],
)
def test_what_is_recorded_of_a_joint(records: tuple[str, ...], lines: tuple[int, int], tmp_path: Path) -> None:
    made = joints_made.joints_made(recorded(tmp_path, *records))["J3"]
    assert tuple(each.place.line if each is not None else 0 for each in made) == lines


@pytest.mark.parametrize(
    ("record", "made"),
    [
        ("built: J3, is: made", True), ("built: J3", True), ("built: J3, is: not made", False),
        ("built: J3, is: made, result: not tried", False), ("checked: J3, found: tight", False),
    ],
)  # fmt: skip
def test_whether_a_joint_is_said_to_be_made(record: str, made: bool, tmp_path: Path) -> None:
    assert joints_made.joints_made(recorded(tmp_path, record))["J3"].made is made


@pytest.mark.parametrize(
    ("words", "holds"),
    [
        ("found: tight", True), ("found: 'Tight, holds'", True), ("", True), ("is: firm", True), ("shows: good", True),
        ("found: loose", False), ("found: tight but hot", False), ("is: hot", False), ("shows: hot", False),
        ("found: tight, result: wrong", False), ("result: not tried", False), ("result: works", True),
    ],
)  # fmt: skip
def test_whether_a_joint_holds(words: str, holds: bool, tmp_path: Path) -> None:
    wiring = recorded(tmp_path, "checked: J3" + (f", {words}" if words else ""))
    assert joints_made.joints_made(wiring)["J3"].holds is holds


# -- looks ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("record", "expected"),
    [
        # what is wrong with a unit's light is told of the light alone
        ("seen: amp, shows: fault", [(1, "light", f"the light of amp: fault, {RED}")]),
        ("seen: AMP, found: loose", []),
        # a thing that is no unit, and a contact
        ("seen: carpet, found: wet", [(1, "look", "carpet: found wet, planned nothing wrong there")]),
        ("seen: dash.car.9, found: burnt",
         [(1, "look", "dash cavity 9 (red, ACC), car side: found burnt, planned nothing wrong there")]),
        ("checked: amp.GND, found: loose", [(1, "look", "amp GND: found loose, planned nothing wrong there")]),
        ("checked: amp.GND, result: wrong", [(1, "look", "amp GND: found wrong, planned nothing wrong there")]),
        ("checked: amp.GND, is: painted", [(1, "look", "amp GND: found painted, planned nothing wrong there")]),
        ("checked: amp.GND, found: dry", []), ("checked: amp.GND", []),
        ("before: carpet, found: wet", []),
        ("seen: carpet, found: wet, car: Larch van", []),
    ],
)  # fmt: skip
def test_what_a_look_says_against_the_plan(record: str, expected: Told, tmp_path: Path) -> None:
    assert told(recorded(tmp_path, record)) == expected


def test_what_was_built_anew_answers_a_look_at_the_same_contact(tmp_path: Path) -> None:
    wet, dry, anew = "seen: carpet, found: wet", "seen: carpet, found: dry", "built: amp.rem, is: used"
    loose, other = "checked: amp.rem, found: loose", "checked: eye.on, found: loose"
    for records, lines in (
        ((loose, anew), []), ((anew, loose), [2]), ((loose, other, anew), [2]), ((wet, dry), []), ((dry, wet), [2]),
        ((wet, anew), [1]), ((loose, "checked: amp.rem"), [1]),
    ):  # fmt: skip
        found = [each.record.place.line for each in looks.looks(recorded(tmp_path, *records)) if each.right is False]
        assert found == lines, records


@pytest.mark.parametrize(
    ("shows", "right"),
    [
        ("green", True), ("Blue; steady", True), ("not green", False), ("no fault", True), ("never off", True),
        ("purple", None), ("green, no protect", True), ("lit, then off", False), ("not lit", False), ("", None),
        ("fault removed", True), ("fault not removed", False), ("fault to be removed", False),
    ],
)  # fmt: skip
def test_whether_a_light_is_right(shows: str, right: bool | None) -> None:
    assert looks.light_is_right(shows) is right


# -- readings against the plan -------------------------------------------------------------------------------------

OPEN = [(1, "ohms", f"the leads at amp out1: open, {COIL}")]
CAPPED = [(1, "built", f"{RIGHT}: built capped, planned joined to amp out1+")]
DC_OF_FL = [(2, "dc", f"{FL}: 2 V DC, planned 0 V")]


@pytest.mark.parametrize(
    ("records", "expected"),
    [
        # what was read in ohms stands until it is read in ohms again, in this car
        (("ohm: amp.out1, reads: open", "volts: amp.out1, reads: 0 V"), OPEN),
        (("ohm: amp.out1, reads: open", "ohm: amp.out1"), OPEN),
        (("ohm: amp.out1, reads: open", "ohm: amp.out1, reads: 3 ohm, car: Larch van"), OPEN),
        (("ohm: amp.out1, reads: open, car: Larch van",), []),
        # a level of a signal is no supply: each of the words that say so
        (("volts: dash.car.1/2, reads: 3 V, signal: 1 kHz",), []),
        (("volts: dash.car.1/2, reads: 3 V, step: 30",), []),
        (("volts: dash.car.1/2, reads: 3 V, clean: last",), []),
        # what was read in another car; of one wire, or right, before what is wrong
        (("volts: amp.GND, reads: 1 V, key: run, car: Larch van",), []),
        (("volts: dash.car.1/2, reads: 2 V, car: Larch van",), []),
        (("tone: dash.car.1/2, charted: FL, heard: FL, dc: 2 V, car: Larch van",), []),
        (("volts: dash.car.9, reads: 12 V", "volts: dash.car.1/2, reads: 2 V"), DC_OF_FL),
        (("volts: dash.car.3/4, reads: 0 V", "volts: dash.car.1/2, reads: 2 V"), DC_OF_FL),
        # what was built stands until it is built anew
        (("built: dash.car.1, is: capped", "ohm: dash.car.1/2, reads: 3 ohm"), CAPPED),
        (("built: dash.car.1, is: capped", "built: dash.car.1, is: used, car: Larch van"), CAPPED),
        (("built: dash.car.1, is: capped, car: Larch van",), []),
    ],
)
def test_which_reading_counts(records: tuple[str, ...], expected: Told, tmp_path: Path) -> None:
    assert told(recorded(tmp_path, *records)) == expected


@pytest.mark.parametrize(
    ("joint", "found", "kinds"),
    [
        ("", "", ["body"]),
        # on the body by the plan, or as the car came: then that is what a meter must read
        ("    dash.car.8: gnd.G1\n", "", []),
        ("", "found: [dash.car.8 > gnd.G1]\n", []),
    ],
)
def test_a_wire_that_belongs_on_the_body(joint: str, found: str, kinds: list[str], tmp_path: Path) -> None:
    job = JOB.replace("    T1.car.C: spk.C\n", f"    T1.car.C: spk.C\n{joint}") + found
    made = contrary.contrary(recorded(tmp_path, "ohm: dash.car.8, reads: 0.5 ohm", job=job))
    assert [each.kind for each in made] == kinds


@pytest.mark.parametrize("first", ["3 ohm", "2 ohm"])  # as planned; too little, which the output itself may read
def test_the_second_output_that_reads_wrong(first: str, tmp_path: Path) -> None:
    job = JOB.replace("FR: {nominal: 4 ohm, capacitor: 47 uF}", "FR: {nominal: 4 ohm}")
    wiring = recorded(tmp_path, f"ohm: amp.out1, reads: {first}", "ohm: amp.out2, reads: open", job=job)
    assert told(wiring) == [(2, "ohms", f"the leads at amp out2: open, {COIL}")]


@pytest.mark.parametrize(
    ("records", "lines"),
    [
        # a ground wire that isn't on the body, and a supply wire that is
        (("ohm: amp.GND, reads: 1 ohm, unplugged: amp",), [(1, "grounding")]),
        (("ohm: amp.GND, reads: 0.9 ohm, unplugged: amp",), []),
        (("ohm: amp.B+, reads: 0.9 ohm, unplugged: amp",), [(1, "body")]),
        (("ohm: amp.B+, reads: 1 ohm, unplugged: amp",), []),
        (("ohm: amp.rem, reads: 0.5 ohm, unplugged: amp",), [(1, "body")]),
        (("ohm: amp.in1+, reads: 0.5 ohm, unplugged: amp",), []),
        # B+ and GND of a unit that touch each other
        (("ohm: amp.B+/GND, reads: 0.9 ohm",), [(1, "body")]),
        (("ohm: amp.B+/GND, reads: 1 ohm",), []),
        (("ohm: amp.B+/rem, reads: 0.5 ohm",), []),
        (("ohm: dash.car.9/11, reads: 0.5 ohm",), []),
    ],
)
def test_grounds_and_feeds_that_read_wrong(
    records: tuple[str, ...], lines: list[tuple[int, str]], tmp_path: Path
) -> None:
    made = contrary.contrary(recorded(tmp_path, *records))
    assert [(each.record.place.line, each.kind) for each in made] == lines


# -- what was heard ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("words", "heard", "odd"),
    [
        ("FL", ("FL",), ()), ("'fl, RL'", ("FL", "RL"), ()), ("none", (), ()), ("FL FL", ("FL",), ()),
        ("none FL", ("FL",), ()),
        # a channel of which this car has no speaker, a function that is none, and a word that is nothing
        ("SUB", (), ("SUB",)), ("ACC", (), ("ACC",)), ("hum", (), ("hum",)), ("FL hum", ("FL",), ("hum",)),
    ],
)  # fmt: skip
def test_which_speakers_were_heard(words: str, heard: tuple[str, ...], odd: tuple[str, ...], tmp_path: Path) -> None:
    wiring = recorded(tmp_path, f"plays: amp.out1, heard: {words}")
    assert answers.heard_speakers(wiring, wiring.job.records[0]) == (heard, odd)


@pytest.mark.parametrize(
    ("words", "heard"), [("FL", ("FL-TW", "FL-WF")), ("LF", ("FL-TW", "FL-WF")), ("FL-WF", ("FL-WF",)), ("RL", ("RL",))]
)
def test_a_channel_of_two_speakers_means_both(words: str, heard: tuple[str, ...], tmp_path: Path) -> None:
    job = JOB.replace("  FL RL RR C: {", "  FL-TW FL-WF RL RR C: {")
    wiring = recorded(tmp_path, f"plays: amp.out1, heard: {words}", job=job)
    assert answers.heard_speakers(wiring, wiring.job.records[0]) == (heard, ())


# -- handovers -----------------------------------------------------------------------------------------------------

PAUSED = "handover: paused, by: JM"


@pytest.mark.parametrize(
    ("records", "lines"),
    [
        # the lines of the pause and of the first who went on without it; none where it is past
        ((PAUSED,), (1, 0)),
        ((PAUSED, "handover: closed, by: JM"), None),
        ((PAUSED, "handover: closed, by: KL"), None),
        ((PAUSED, "handover: taken, by: KL", "seen: carpet, by: KL"), None),
        ((PAUSED, "handover: closed, by: KL", PAUSED), (3, 0)),
        (("handover: taken, by: KL", PAUSED), (2, 0)),
        ((PAUSED, "seen: carpet, by: KL", "seen: floor, by: MN"), (1, 2)),
        ((PAUSED, "seen: carpet, by: jm", "seen: floor, by: MN"), (1, 3)),
        ((PAUSED, "seen: carpet", "seen: floor, by: MN"), (1, 3)),
        ((PAUSED, "printed: all, by: KL", "seen: floor, by: MN"), (1, 3)),
        ((PAUSED, "seen: carpet, by: KL", PAUSED), (3, 0)),
        ((PAUSED, "seen: carpet, by: KL, car: Larch van", "seen: floor, by: MN"), (1, 3)),
        (("handover: paused", "seen: carpet, by: KL"), (1, 0)),
        (("seen: carpet, by: KL",), None),
    ],
)
def test_who_went_on(records: tuple[str, ...], lines: tuple[int, int] | None, tmp_path: Path) -> None:
    made = handed_over.handed_over(recorded(tmp_path, *records))
    assert (made and (made.paused.place.line, made.went_on.place.line if made.went_on else 0)) == lines


def test_what_a_pause_does_not_say(tmp_path: Path) -> None:
    made = handed_over.handed_over(recorded(tmp_path, "handover: paused, by: JM, done: dash, parts: none"))
    assert made is not None
    assert made.missing == ("left", "odd")


# -- what was played -----------------------------------------------------------------------------------------------

FULL, BAND = "routes: {out1: in1, out2: in2}", "routes: {out1: in1 100..200 Hz, out2: in2}"


@pytest.mark.parametrize(
    ("record", "planned", "silent", "astray", "as_planned"),
    [
        ("amp.out1, heard: FL", "FL", "", "", True),
        ("AMP.out1, heard: fl", "FL", "", "", True),
        ("amp.out1+/out1-, heard: FL", "FL", "", "", True),
        ("radio.FL, heard: FL", "FL", "", "", True),
        # who wrote not what was heard, or a word that nobody knows, says of no speaker that it was silent
        ("amp.out1", "FL", "", "", False),
        ("amp.out1, heard: hum", "FL", "", "", False),
        ("amp.out1, heard: FL hum", "FL", "", "", False),
        ("amp.out1, heard: none", "FL", "FL", "", False),
        ("amp.out1, heard: RL", "FL", "FL", "RL", False),
        ("amp.out1, heard: FL RL", "FL", "", "RL", False),
        # FR is behind a capacitor: below 1 kHz it may stay silent (common practice, no source)
        ("amp.out2, heard: none", "FR", "FR", "", False),
        ("amp.out2, heard: none, signal: 999 Hz", "", "", "", True),
        ("amp.out2, heard: none, signal: 1 kHz", "FR", "FR", "", False),
        ("amp.out2, heard: FR, signal: 999 Hz", "", "", "", True),
    ],
)
def test_what_answers_an_output(
    record: str, planned: str, silent: str, astray: str, as_planned: bool, tmp_path: Path
) -> None:
    (made,) = answers.answers(recorded(tmp_path, f"plays: {record}"))
    assert (made.planned, made.silent, made.astray) == tuple(tuple(each.split()) for each in (planned, silent, astray))
    assert made.as_planned is as_planned
    assert made.differs is bool(silent or astray)


@pytest.mark.parametrize(
    ("signal", "comes"),
    [
        ("99 Hz", False), ("100 Hz", True), ("200 Hz", True), ("201 Hz", False), ("0.15 kHz", True), ("1 kHz", False),
        ("sweep", True),
    ],
)  # fmt: skip
def test_a_tone_outside_of_a_route(signal: str, comes: bool, tmp_path: Path) -> None:
    wiring = recorded(tmp_path, f"plays: amp.out1, heard: none, signal: {signal}", job=JOB.replace(FULL, BAND))
    assert [each.planned for each in answers.answers(wiring)] == [("FL",) if comes else ()]
    # what the output itself is for counts as well
    narrow = JOB.replace("50 W @ 4 ohm least 2 ohm", "50 W @ 4 ohm least 2 ohm 100..200 Hz")
    wiring = recorded(tmp_path, f"plays: amp.out1, heard: none, signal: {signal}", job=narrow)
    assert [each.planned for each in answers.answers(wiring)] == [("FL",) if comes else ()]


@pytest.mark.parametrize(
    ("words", "kind", "loud"),
    [
        ("follows: nothing", "radio", True), ("follows: fader", "radio", True), ("follows: volume", "radio", False),
        ("heard: FL", "radio", False),
        # a chime has no volume
        ("follows: nothing", "cluster", False), ("follows: nothing", "control unit", False),
    ],
)  # fmt: skip
def test_what_does_not_follow_the_volume(words: str, kind: str, loud: bool, tmp_path: Path) -> None:
    job = JOB.replace("kind: radio,", f"kind: {kind},")
    (made,) = answers.answers(recorded(tmp_path, f"plays: radio.FL, {words}", job=job))
    assert (made.loud, made.differs) == (loud, loud)


def test_what_is_taken_before_its_volume_is_another_fault(tmp_path: Path) -> None:
    """An output of fixed level, on an amplifier of ours behind which nothing turns it down: C12 tells that."""
    job = JOB.replace("btl 8 V}", "btl 8 V fixed}")
    (made,) = answers.answers(recorded(tmp_path, "plays: radio.FL, follows: nothing", job=job))
    assert (made.loud, made.differs) == (False, False)


def test_an_output_on_which_nothing_hangs_has_no_volume_to_follow(tmp_path: Path) -> None:
    job = JOB.replace("    dash.car.FR: amp.out2\n", "")
    (made,) = answers.answers(recorded(tmp_path, "plays: amp.out2, follows: nothing", job=job))
    assert (made.planned, made.loud, made.way) == ((), False, None)


def test_the_way_to_the_one_that_is_silent(tmp_path: Path) -> None:
    """Of two on one output; where both answer, the first."""
    job = JOB.replace("T1.car.C: spk.C", "amp.out1: spk.C")
    for heard, silent, way in (("FL", ("C",), "spk.C"), ("C", ("FL",), "spk.FL"), ("none", ("FL", "C"), "spk.FL")):
        (made,) = answers.answers(recorded(tmp_path, f"plays: amp.out1, heard: {heard}", job=job))
        assert made.silent == silent
        assert made.way is not None
        assert made.way.hops[-1].feed.receiver.name == way


def test_the_last_word_on_each_output_and_what_is_none(tmp_path: Path) -> None:
    wiring = recorded(
        tmp_path, "plays: amp.out2, heard: FR", "plays: amp.out1, heard: RL", "plays: Amp.out1, heard: FL",
        "plays: horn", "plays: amp.out2, heard: RL, car: Larch van", "plays: horn, car: Larch van", "seen: carpet",
    )  # fmt: skip
    assert [each.record.place.line for each in answers.answers(wiring)] == [3, 1]
    assert [each.place.line for each in answers.no_outputs(wiring)] == [4]
    assert answers.answers(recorded(tmp_path, "seen: horn")) == ()
    assert answers.no_outputs(recorded(tmp_path, "plays: amp.out1+/out1-", "plays: AMP.out2")) == []
