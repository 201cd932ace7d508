"""As-built, handover and the owner's page, read off the printed text; every word expected is by hand from the job."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.planning.customer import back_to_stock, fitted, functions, fuse_places
from harness.planning.left_open import left_open
from harness.prove import Proof, prove
from render.documents import documents
from render.documents.masthead import masthead
from render.writers.text import write_text
from tests.graph.test_drivers import BESIDE, tone
from tests.session.hazel import JOB, hazel

TONES = tuple(
    f"tone: dash.car.{pair}, charted: {name}, heard: {name}, plus: {pair[0]}, unplugged: [dash, radio]"
    for pair, name in (("1/7", "FL"), ("2/8", "FR"), ("3/9", "RL"))
)
PLAYS = tuple(f"plays: radio.{name}, heard: {name}, follows: both" for name in ("FL", "FR", "RL"))
WORKED = ("before: reverse beep, result: works", "before: hands-free, result: works")
AGAIN = ("after: reverse beep, result: works", "after: hands-free, result: works")
LOST = "signed: lost, lost: hands-free, reason: agreed, who: owner"


def printed(proof: Proof, name: str) -> str:
    """The text of one kind of sheet, its lines joined; empty where nothing is printed."""
    (kind,) = (each for each in documents() if each.name == name)
    sheets = list(kind.sheets(proof))
    return " ".join(write_text(sheets, masthead(proof)).split()) if sheets else ""


# --- as built ---------------------------------------------------------------------------------------------------


def test_nothing_built_nothing_printed(tmp_path: Path) -> None:
    assert printed(hazel(tmp_path, *TONES), "as-built") == ""


def test_as_built(tmp_path: Path) -> None:
    built = ("T1.aerial, is: capped", "T1.unit.4, is: capped", "T1.car.FL, is: nicely done")
    text = printed(hazel(tmp_path, *(f"built: {each}" for each in built)), "as-built")
    assert "3 records of what was built: 1 as planned, 1 not, 1 in words that can’t be compared." in text
    differs = text[text.index("Differs from the plan") : text.index("As planned, and what is not compared")]
    assert "joined to amp rem" in differs
    assert "capped" in differs
    assert "DIFFERS" in differs
    assert "JM" in differs
    assert "aerial" in text[text.index("As planned, and") :]
    assert "not compared" in text[text.index("As planned, and") :]


def test_of_what_is_not_compared_the_plan_is_printed(tmp_path: Path) -> None:
    """By hand: T1's car-side FL is crimped to amp.out1, and `nicely done` says nothing of that."""
    text = printed(hazel(tmp_path, "built: T1.car.FL, is: nicely done"), "as-built")
    row = text[text.index("As planned, and what is not compared") :]
    assert "joined to amp out1" in row
    assert "look" not in row


def test_the_splice_list_tells_of_an_end_that_was_built_otherwise(tmp_path: Path) -> None:
    """The plan joins T1's car-side FR to amp.out2; somebody recorded that it went to out1."""
    proof = hazel(tmp_path, "built: T1.car.FR, is: amp.out1")
    (sheet,) = (each for kind in documents() for each in kind.sheets(proof) if each.name == "splice-list")
    assert "T1.car.2 and T1.car.8 built otherwise: amp.out1 (JM 2026-03-02)" in str(sheet.blocks)
    same = hazel(tmp_path, "built: T1.car.FR, is: amp.out2")
    (sheet,) = (each for kind in documents() for each in kind.sheets(same) if each.name == "splice-list")
    assert "built otherwise" not in str(sheet.blocks)


# --- also recorded ----------------------------------------------------------------------------------------------

BESIDES = (
    "volts: dash.4, reads: 12.2 V, key: run",
    "volts: amp.rem, reads: 0.1 V, key: locked",
    "ohm: dash.1, reads: open, unplugged: dash",
    "seen: amp, shows: green",
    "seen: dash.car.10, colour: PK",
    "tone: dash.4/10, heard: none, unplugged: [dash, radio]",
    "response: radio.FL, from: 25 Hz, levels: 0 0 -3",
    "checked: T1.car.1, found: position lock tug",
)
# Each has a blank on a sheet: toning, turn-on, output, features, as built, handover.
ASKED = (
    *TONES, *PLAYS, *WORKED, "volts: amp.rem, reads: 12.3 V, key: run", "volts: amp.B+, reads: 12.5 V, key: out",
    "ohm: dash.1/7, reads: 3.5 ohm, unplugged: dash", "ohm: dash.1, reads: 0.4 ohm, unplugged: dash",
    "polarity: dash.2/8, plus: 2, how: cone", "built: T1.aerial, is: capped", "built: J1", "checked: J1, found: tug",
    "handover: paused, done: front",
)  # fmt: skip


def test_what_has_a_blank_elsewhere_is_not_printed_again(tmp_path: Path) -> None:
    assert printed(hazel(tmp_path, *ASKED), "also-recorded") == ""


@pytest.mark.parametrize("record", BESIDES)
def test_what_has_no_blank_is_printed(tmp_path: Path, record: str) -> None:
    """No reading that somebody took is lost on paper: what was read, and who says so."""
    text = printed(hazel(tmp_path, *ASKED, record), "also-recorded")
    text = text.partition("Before: said again")[0]
    assert text.count("JM 2026-03-02") == 1, text
    verb, _, what = record.split(",")[0].partition(": ")
    assert what in text, verb
    said = {"reads: 12.2 V; key: run", "reads: 0.1 V; key: locked", "reads: open", "shows: green", "colour: pink"}
    said |= {"heard: none", "levels: 0 0 -3", "found: position lock tug"}
    assert sum(each in text.replace("\N{NO-BREAK SPACE}", " ") for each in said) == 1, text


def test_the_last_word_counts_and_what_speaks_against_the_plan_is_told(tmp_path: Path) -> None:
    """The light was looked at twice; red is no light of an amplifier that works (common practice, no source)."""
    twice = ("seen: amp, shows: green", "seen: amp, shows: red")
    text = printed(hazel(tmp_path, *twice), "also-recorded")
    last, _, before = text.partition("Before: said again")
    assert "shows: green" not in last
    assert "shows: red" in last
    assert "AGAINST THE PLAN" in last
    # the first look isn't lost
    assert before.index("shows: green") < before.index("shows: red")


def test_a_colour_that_the_chart_does_not_have_is_marked(tmp_path: Path) -> None:
    """Charted at cavity 2: grey, at 8 grey with a black stripe."""
    text = printed(hazel(tmp_path, "seen: dash.car.2, colour: GN"), "also-recorded")
    assert "OTHER" in text
    assert "charted grey" in text
    assert "OTHER" not in printed(hazel(tmp_path, "seen: dash.car.2/8, colour: GY GY/BK"), "also-recorded")


# Every verb, each first and then otherwise, and some that only one sheet or none has a blank for.
TWICE = (
    "printed: toning, revision: C",
    "before: hands-free, result: silent", "before: hands-free, result: works", "before: rear lamp, result: works",
    "tone: dash.car.1/7, charted: FL, heard: FR, plus: 7, dc: 0 V, reads: 3.4 ohm, body: open, unplugged: dash",
    "tone: dash.car.1/7, charted: FL, heard: FL, plus: 1, dc: 0.01 V, reads: 3.5 ohm, body: open, unplugged: dash",
    "polarity: dash.car.1/7, plus: 7, how: cone", "polarity: dash.car.1/7, plus: 1, how: cone",
    "ohm: dash.car.1/7, reads: 3.6 ohm, unplugged: dash", "ohm: dash.car.7, reads: 0.5 ohm, unplugged: dash",
    "ohm: dash.car.7, reads: open, unplugged: dash", "ohm: dash.unit.1/7, reads: 9 ohm",
    "ohm: amp.out1, reads: 3.5 ohm, body: open, unplugged: amp", "ohm: amp.out1, reads: 3.6 ohm, unplugged: amp",
    "volts: amp.B+, reads: 12.1 V, key: out", "volts: amp.B+, reads: 12.4 V, key: out",
    "volts: amp.B+, reads: 12.0 V, key: locked", "volts: dash.unit.FL, reads: 4 V, signal: 1 kHz, step: 20, key: run",
    "volts: dash.unit.FL, reads: 8 V, signal: 1 kHz, step: 31, clean: last, key: run",
    "response: radio.FL, from: 25 Hz, levels: 0 -3", "response: radio.FL, from: 25 Hz, levels: 0 -1",
    "seen: dash.car.2, colour: GN", "seen: dash.car.2, colour: GY", "seen: amp, shows: red", "seen: amp, shows: green",
    "built: J1, is: not made", "built: J1", "checked: J1, found: loose", "checked: J1, found: tug",
    "built: T1.aerial, is: bare", "built: T1.aerial, is: capped", "checked: T1.car.1, found: tug",
    "checked: T1.car.1, found: position lock tug",
    "plays: radio.FL, heard: FR, follows: both", "plays: radio.FL, heard: FL, follows: both",
    "after: hands-free, result: wrong", "after: hands-free, result: works",
    "handover: paused, done: front", "handover: taken", "handover: paused, done: all but rear", "handover: taken",
    "handover: closed, odd: nothing", "signed: released, reason: leaves today", "signed: released, reason: leaves now",
    "signed: lost, lost: rear lamp, reason: agreed, who: owner", "signed: lost, lost: reverse beep, reason: quiet",
    "signed: released",
)  # fmt: skip


def test_no_record_is_lost_on_paper(tmp_path: Path) -> None:
    """Each record has a hand of its own, and each hand stands somewhere in the packet."""
    path = tmp_path / "hazel.yaml"
    path.write_text(JOB, encoding="utf-8")
    hands = [f"Q{at:02}" for at in range(len(TWICE))]
    lines = [f"- {{when: 2026-03-02 09:{at:02}, by: {hand}, {each}}}\n"
             for at, (hand, each) in enumerate(zip(hands, TWICE, strict=True))]  # fmt: skip
    path.with_name("hazel.evidence.yaml").write_text("".join(lines), encoding="utf-8")
    proof = prove(path, mends=False)
    assert proof.wiring is not None
    sheets = [sheet for kind in documents() for sheet in kind.sheets(proof)]
    text = write_text(sheets, masthead(proof))
    assert [(hand, each) for hand, each in zip(hands, TWICE, strict=True) if hand not in text] == []


@pytest.mark.parametrize(
    ("first", "then", "words"),
    [
        ("volts: amp.B+, reads: 12.1 V, key: out", "volts: amp.B+, reads: 12.4 V, key: out", ("12.1 V", "12.4 V")),
        ("ohm: dash.1/7, reads: 3.1 ohm", "ohm: dash.7/1, reads: 3.5 ohm", ("3.1 ohm", "3.5 ohm")),
        ("polarity: dash.1/7, plus: 7, how: cone", "polarity: dash.1/7, plus: 1, how: meter", ("plus: 7", "plus: 1")),
        ("before: hands-free, result: silent", "before: hands-free, result: works", ("silent", "works")),
        ("checked: J1, found: loose", "checked: J1, found: tug", ("found: loose", "found: tug")),
        ("built: T1.aerial, is: bare", "built: T1.aerial, is: capped", ("is: bare", "is: capped")),
        ("plays: radio.FL, heard: FR", "plays: radio.FL, heard: FL", ("heard: FR", "heard: FL")),
    ],
)  # fmt: skip
def test_what_was_said_before_stands_beside_what_is_said_now(
    first: str, then: str, words: tuple[str, str], tmp_path: Path
) -> None:
    assert "Before: said again" not in printed(hazel(tmp_path, first), "also-recorded")
    text = printed(hazel(tmp_path, first, then), "also-recorded").replace("\N{NO-BREAK SPACE}", " ")
    before = text[text.index("Before: said again") :]
    assert before.index(words[0]) < before.index(words[1])
    # the other way round too: the later one counts, whatever it says
    text = printed(hazel(tmp_path, then, first), "also-recorded").replace("\N{NO-BREAK SPACE}", " ")
    before = text[text.index("Before: said again") :]
    assert before.index(words[1]) < before.index(words[0])


def test_two_levels_at_two_steps_are_two_readings(tmp_path: Path) -> None:
    low, high = ("volts: dash.unit.FL, reads: 4 V, signal: 1 kHz, step: 20, key: run",
                 "volts: dash.unit.FL, reads: 8 V, signal: 1 kHz, step: 31, key: run")  # fmt: skip
    text = printed(hazel(tmp_path, low, high), "also-recorded")
    assert "Before" not in text
    assert "reads: 4 V" in text
    assert "reads: 8 V" in text


# --- the checklists go by the same word as the checks --------------------------------------------------------------


def test_a_look_for_plus_by_itself_stands_on_the_toning_list(tmp_path: Path) -> None:
    """The last one counts: the tone found + on 1, the cone then on 7, charted on 1."""
    look = "polarity: dash.car.1/7, plus: 7, how: cone"
    text = printed(hazel(tmp_path, TONES[0], look), "toning")
    assert "+ on 7" in text
    assert "cone, JM" in text
    assert "OTHER" in text
    assert "+ on 1" not in text
    assert "plus: 1" in printed(hazel(tmp_path, TONES[0], look), "also-recorded")


def test_one_wire_on_the_body_is_printed_though_both_were_open_before(tmp_path: Path) -> None:
    """Wire by wire under one another, for the pair's first reading doesn't hold of both any more."""
    both, one = "ohm: dash.1/7, reads: 3.5 ohm, body: open", "ohm: dash.7, reads: 0.4 ohm"
    (sheet,) = (
        each for kind in documents() for each in kind.sheets(hazel(tmp_path, both, one)) if each.name == "toning"
    )
    said = str(sheet.blocks)
    assert said.index("1:\\xa0open") < said.index("7:\\xa00.4\\xa0Ω") < said.index("OTHER")


def test_heard_as_the_checks_hear_it(tmp_path: Path) -> None:
    """A comma between two, another spelling and small letters mean the same speakers: nothing is OTHER."""
    tone = "tone: dash.car.1/7, charted: FL, heard: lf, plus: 1, unplugged: [dash, radio]"
    text = printed(hazel(tmp_path, tone, "plays: radio.FL, heard: fl, follows: both"), "toning")
    assert "OTHER" not in text


# --- struck ---------------------------------------------------------------------------------------------------------


def test_a_struck_record_is_told_with_what_it_said_who_struck_it_and_why(tmp_path: Path) -> None:
    """Both are written by JM; the first stands on line 1 of the file."""
    strike = "struck: 1, was: ohm dash.car.1/7, reason: wrong cavity"
    text = printed(hazel(tmp_path, "ohm: dash.car.1/7, reads: 9.9 ohm, body: open", strike), "handover")
    struck = text[text.index("Struck: taken back") :]
    for words in ("ohm dash.car.1/7", "reads: 9.9 ohm; body: open", "wrong cavity", "JM 2026-03-02"):
        assert words in struck.replace("\N{NO-BREAK SPACE}", " "), words


# --- features ---------------------------------------------------------------------------------------------------


def test_a_function_that_only_records_name_is_on_the_feature_sheet(tmp_path: Path) -> None:
    text = printed(hazel(tmp_path, "before: rear lamp, result: works", "after: rear lamp, result: wrong"), "toning")
    row = text[text.index("rear lamp") :]
    assert row.index("works") < row.index("WRONG") < 200
    assert "tried at the car" in row
    none = "".join(JOB.partition("features:")[::2]).replace(
        "  reverse beep: {from: radio, to: [spk.RL], kind: warning, key: run}\n", ""
    )
    none = none.replace("\n  hands-free: {from: radio, to: [spk.FL], kind: voice}", "")
    text = printed(hazel(tmp_path, "before: rear lamp, result: works", job=none), "toning")
    assert "rear lamp" in text


# --- handover ---------------------------------------------------------------------------------------------------


def test_before_the_first_record_there_is_no_handover(tmp_path: Path) -> None:
    assert printed(hazel(tmp_path), "handover") == ""


def test_paused_with_what_is_open(tmp_path: Path) -> None:
    """Two of three pairs toned, one output of three heard, one function of two tried again."""
    paused = "handover: paused, done: front wired, left: rear to tone, parts: two rings, odd: fuse 12 warm"
    text = printed(hazel(tmp_path, *WORKED, *TONES[:1], PLAYS[0], AGAIN[0], paused), "handover")
    for words in (
        "Paused by JM 2026-03-02.", "front wired", "rear to tone", "two rings", "fuse 12 warm",
        "Pair dash.2/8: charted, not toned", "Output radio.FR: not heard yet", "Output radio.RL: not heard yet",
        "hands-free: worked before, not tried since", "Read and taken over by",
    ):  # fmt: skip
        assert words in text, words
    # what is proved, and the pair that the plan only passes on, isn't open
    for words in ("dash.1/7:", "dash.3/9:", "radio.FL:", "reverse beep:"):
        assert words not in text, words


def test_a_function_that_fails_after_the_work_is_not_said_to_be_untried(tmp_path: Path) -> None:
    """All worked; the beep is silent now, the lamp, which the job doesn't list, is wrong."""
    records = (*WORKED, "before: rear lamp, result: works", "after: reverse beep, result: silent",
               "after: rear lamp, result: wrong")  # fmt: skip
    text = printed(hazel(tmp_path, *records), "handover")
    assert "reverse beep: worked before, silent since the work (JM 2026-03-02)" in text
    assert "rear lamp: worked before, wrong since the work (JM 2026-03-02)" in text
    assert "hands-free: worked before, not tried since" in text


def test_taken_over(tmp_path: Path) -> None:
    paused = "handover: paused, done: front, left: rear, parts: none, odd: nothing"
    taken = "handover: taken"
    assert "Read and taken over by JM 2026-03-02." in printed(hazel(tmp_path, paused, taken), "handover")
    # a later pause is to be read again
    again = printed(hazel(tmp_path, paused, taken, paused.replace("front", "rear too")), "handover")
    assert "taken over by JM" not in again
    assert "rear too" in again


def test_released_although_not_all_is_proved(tmp_path: Path) -> None:
    signed = "signed: released, reason: customer leaves today"
    text = printed(hazel(tmp_path, TONES[0], signed), "handover")
    assert "Released by JM 2026-03-02 although not all is proved: customer leaves today." in text
    assert "Pair dash.2/8: charted, not toned" in text


def test_a_record_that_no_longer_holds(tmp_path: Path) -> None:
    text = printed(hazel(tmp_path, "ohm: dash.car.1/7, reads: 3.4 ohm, fact: 1 FL+ GY"), "handover")
    assert "Record of dash.car.1/7 (JM 2026-03-02) no longer holds" in text


# --- the owner's page -------------------------------------------------------------------------------------------


def test_what_was_fitted_and_its_fuse(tmp_path: Path) -> None:
    """One amplifier under the left seat, one loom behind the radio; 12 in is 30.48 cm from the battery."""
    wiring = hazel(tmp_path).wiring
    assert wiring is not None
    assert fitted(wiring) == [("amplifier", "under the left seat"), ("plug-in adapter cable", "behind the radio")]
    assert fuse_places(wiring) == [(30.0, "amplifier", "30 cm from the battery")]
    assert back_to_stock(wiring) == [
        "Battery: negative off first. Take the new cable off the battery, and its fuse out.",
        "Unplug and take out what was fitted: amplifier.",
        "Unplug the adapter (behind the radio) and put the car's own plug back together.",
        "Try every lamp, warning, voice and button afterwards.",
    ]


def test_cut_wires_and_taps_are_counted(tmp_path: Path) -> None:
    """Without the loom: a pair cut is two wires; the turn-on wire is tapped once; a new speaker goes out again."""
    job = JOB.replace("  mate: {T1: dash}\n", "").replace("capped: [T1.aerial]\n", "cut: [dash.FL]\n")
    start, end = job.index("looms:"), job.index("units:\n  radio")
    job = job[:start] + job[end:]
    start, end = job.index("    T1.unit.FL: amp.in1"), job.index("cut: [dash.FL]")
    joints = "    dash.unit.FL: amp.in1\n    dash.car.FL: amp.out1\n    dash.unit.4: amp.rem\n"
    job = (job[:start] + joints + job[end:]).replace(
        "FL FR RL: {place: doors, nominal: 4 ohm}", "FL FR RL: {place: doors, nominal: 4 ohm, new: a 6.5 in pair}"
    )
    wiring = hazel(tmp_path, job=job).wiring
    assert wiring is not None
    lines = back_to_stock(wiring)
    assert lines[2:] == [
        "2 wires of the car were cut behind the radio: each has two ends, to be joined again and covered.",
        "1 joint on the car's own wires comes off; cover the bare places.",
        "Put the old speakers back where new ones replaced them.",
        "Try every lamp, warning, voice and button afterwards.",
    ]


@pytest.mark.parametrize(
    ("records", "states"),
    [
        ((), ("not tried after the work", "not tried after the work")),
        (AGAIN, ("works", "works")),
        (("after: reverse beep, result: silent", AGAIN[1]), ("silent", "works")),
        (("before: hands-free, result: silent",), ("not tried after the work", "did not work before either (silent)")),
        # signed for, and it works all the same; nobody can sign away a warning
        ((LOST, AGAIN[1]), ("not tried after the work", "works")),
        ((LOST,),
         ("not tried after the work", "given up, agreed by owner: agreed")),
        (("signed: lost, lost: reverse beep, reason: agreed, who: owner", "after: reverse beep, result: silent"),
         ("silent", "not tried after the work")),
    ],
)  # fmt: skip
def test_how_functions_were_left(records: tuple[str, ...], states: tuple[str, str], tmp_path: Path) -> None:
    wiring = hazel(tmp_path, *records).wiring
    assert wiring is not None
    assert functions(wiring) == [("reverse beep", states[0]), ("hands-free", states[1])]


def test_a_function_that_only_records_name_stands_there_too(tmp_path: Path) -> None:
    wiring = hazel(tmp_path, "before: rear lamp, result: works", "after: rear lamp, result: wrong").wiring
    assert wiring is not None
    assert ("rear lamp", "wrong") in functions(wiring)


def test_the_page_says_no_more_than_the_evidence(tmp_path: Path) -> None:
    planned = printed(hazel(tmp_path), "customer")
    # the plan opens two pairs, FL and FR; RL goes through
    assert "not finished by this page. 2 wire pairs not tried." in planned
    assert "was tried on this car" not in planned
    released = printed(hazel(tmp_path, TONES[0], "signed: released, reason: customer leaves today"), "customer")
    assert "JM signed to let the car go before everything was tried (2026-03-02, customer leaves today);" in released
    assert "agree" not in released
    assert "1 wire pair not tried." in released
    proof = hazel(tmp_path, *WORKED, *TONES, *PLAYS, *AGAIN)
    verified = printed(proof, "customer")
    assert proof.report.verdict == "verified", [(f.code, f.message) for f in proof.report.findings]
    assert "Every wire pair that was used was tried on this car, every output was heard, and every function" in verified
    assert "What is still open" not in verified
    assert "not tried" not in verified
    for words in ("30 A", "30 cm from the battery", "under the left seat", "airbags", "orange"):
        assert words in verified.replace("\N{NO-BREAK SPACE}", " "), words


def test_what_is_open_is_named_in_plain_words(tmp_path: Path) -> None:
    """FR of the two pairs in use is untoned; FL is played and another answers, FR and RL nobody heard; J1 is loose."""
    records = (TONES[0], "plays: radio.FL, heard: FR", "built: J1", "checked: J1, found: loose")
    wiring = hazel(tmp_path, *records).wiring
    assert wiring is not None
    assert left_open(wiring) == [
        "Wires not tried: right front.",
        "Not listened to: right front, left rear.",
        "Listened to, not the right speakers were heard, or not as they should: left front.",
        "A joint (behind the radio) was found loose and not looked at again since.",
    ]
    assert "found loose" in printed(hazel(tmp_path, *records), "customer")
    # looked at again, and it holds
    wiring = hazel(tmp_path, *records, "checked: J1, found: tug").wiring
    assert wiring is not None
    assert not any("loose" in line for line in left_open(wiring))
    wiring = hazel(tmp_path, *TONES, "built: RUN 2, is: not laid").wiring
    assert wiring is not None
    assert "1 cable was not laid." in left_open(wiring)


def test_a_fuse_is_told_from_the_end_that_feeds_it(tmp_path: Path) -> None:
    """The same chain written from the amplifier to the battery: the same fuse, 30.48 cm from the same battery."""
    run = "battery.+ > 12 in 8 AWG > fuse 30 A > 11 ft 8 AWG via bulkhead grommet > amp.B+"
    assert run in JOB
    turned = "amp.B+ > 11 ft 8 AWG via bulkhead grommet > fuse 30 A > 12 in 8 AWG > battery.+"
    wiring = hazel(tmp_path, job=JOB.replace(run, turned)).wiring
    assert wiring is not None
    assert fuse_places(wiring) == [(30.0, "amplifier", "30 cm from the battery")]


def test_fuses_in_a_case_and_in_a_block_are_told_too(tmp_path: Path) -> None:
    job = JOB.replace("    wakes: rem 20 mA\n", "    wakes: rem 20 mA\n    fuses: 2 x 15 A\n").replace(
        "speakers:\n", "  block: {kind: fuse block, place: boot, ways: 2, fuses: {1: 20 A}}\nspeakers:\n"
    )
    run = "battery.+ > 12 in 8 AWG > fuse 30 A > 11 ft 8 AWG via bulkhead grommet > amp.B+"
    job = job.replace(run, run.replace("amp.B+", "block.in") + "\n  - block.1 > 3 ft 8 AWG > amp.B+")
    wiring = hazel(tmp_path, job=job).wiring
    assert wiring is not None
    own = (15.0, "amplifier", "in its own case, under the left seat")
    assert sorted(fuse_places(wiring), key=str) == sorted(
        [
            (30.0, "fuse block", "30 cm from the battery"),
            (20.0, "amplifier", "way 1 of the fuse block, boot"),
            own, own,
        ],
        key=str,
    )  # fmt: skip


def test_a_speaker_that_the_car_never_had_goes_out_and_none_goes_back(tmp_path: Path) -> None:
    """The van lacks a SUB; a new one is added to it, and no old one lies anywhere."""
    job = JOB.replace("features:", "  SUB: {place: boot, nominal: 4 ohm, new: one 10 in box}\nfeatures:")
    wiring = hazel(tmp_path, job=job).wiring
    assert wiring is not None
    lines = back_to_stock(wiring)
    assert "Take out the speakers that the car did not have: boot." in lines
    assert not any("old speakers" in line for line in lines)


def test_nothing_is_taken_off_a_battery_that_nothing_is_on(tmp_path: Path) -> None:
    job = JOB.replace("  - battery.+ > 12 in 8 AWG > fuse 30 A > 11 ft 8 AWG via bulkhead grommet > amp.B+\n", "")
    wiring = hazel(tmp_path, job=job).wiring
    assert wiring is not None
    assert back_to_stock(wiring)[0] == "Battery: negative off first. Take off the cables that were laid."


def test_who_signed_is_not_said_to_be_the_owner(tmp_path: Path) -> None:
    wiring = hazel(tmp_path, "signed: lost, lost: hands-free, reason: no plug").wiring
    assert wiring is not None
    assert functions(wiring)[1] == ("hands-free", "given up; JM signed for it: no plug")


def test_a_plan_is_not_told_as_done(tmp_path: Path) -> None:
    assert "What is to be fitted" in printed(hazel(tmp_path), "customer")
    assert "What was fitted" in printed(hazel(tmp_path, "built: J1"), "customer")


# --- two tones of one pair --------------------------------------------------------------------------------------


def test_two_tones_of_a_pair_stand_side_by_side(tmp_path: Path) -> None:
    """By hand: a door speaker and a tweeter on one pair; each tone says its own, and none of them is said to be old."""
    low, high = tone("FL", "500 Hz"), tone("FL-TW", "9 kHz")

    def row(*records: str) -> str:
        sheets = (sheet for kind in documents() for sheet in kind.sheets(hazel(tmp_path, *records, job=BESIDE)))
        return str(next(each for each in sheets if each.name == "toning").blocks)

    assert "'FL: left front, doors (500 Hz)', 'FL-TW: left front tweeter, dash (8.5 to 9.5 kHz)'" in row()
    assert "not heard: play" not in row()
    assert row().count("'500 Hz:', Room") == row().count("'8.5 to 9.5 kHz:', Room") == 1  # room for both, of this pair
    assert "(Strong(text='FL', then=''), '500 Hz', 'as said', '8.5 to 9.5 kHz:', Room" in row(low)
    assert "'and nothing else', Strong(text='FL-TW not heard: play 8.5 to 9.5 kHz', then='')" in row(low)
    assert "'500 Hz', 'as said', Strong(text='FL-TW', then=''), '9 kHz', 'as said')" in row(low, high)
    assert "not heard: play" not in row(low, high)
    # silence at a tweeter's tone leaves the door speaker to be toned
    assert "'9 kHz', 'says nothing', '500 Hz:', Room" in row(
        tone("none", "9 kHz").replace("1/7", "2/8").replace("FL", "FR")
    )
    both = hazel(tmp_path, low, high, job=BESIDE)
    assert printed(both, "also-recorded") == ""
    again = hazel(tmp_path, low, high, tone("FL-TW FL", "9 kHz"), job=BESIDE)
    assert "heard: FL-TW" in printed(again, "also-recorded")
