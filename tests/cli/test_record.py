"""`ringout record` refuses what the job shows to be wrong, whole and at once, and writes nothing then.

Every expected word is read off the job in tests/session/hazel.py: FL FR RL, reverse beep, hands-free.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Answer
from tests.session.hazel import JOB

Ringout = Callable[..., Answer]
ROW = "fact: [1 FL+ WH 0.75 mm2, seen from wire]"  # what the record rests on, as the chart of the job says
TONE = ("tone: dash.car.1/7", "plus: 1", "unplugged: dash")


@pytest.fixture
def record(ringout: Ringout, tmp_path: Path) -> Callable[..., Answer]:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    return lambda *words: ringout("record", "job.yaml", "--by", "RK", *words)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        # XX is near to no speaker: the three of the job are named
        ((*TONE, "heard: XX"), ["“XX” is no speaker of this job", "FL, FR, RL; or none", "  heard: XX\n         ^"]),
        ((*TONE, "heard: FL FLL"), ["“FLL” is no speaker", "Is “FL” meant?", "  heard: FL FLL\n            ^"]),
        # one letter is missing
        (("before: revers beep", "result: works"), ["Is “reverse beep” meant?", 'Type: "before: reverse beep"']),
        (("after: handsfree", "result: works"), ["Is “hands-free” meant?"]),
        (("before: reverse beep result: works",), ['Type: "before: reverse beep" "result: works"', "holds one key"]),
        (("signed: released",), ["Missing with “signed: released”: reason.", '"reason: …"']),
        (("handover: paused", "done: front"), ["Missing with “handover: paused”: left, parts, odd."]),
        (("tone: dash.car.1/7", "heard: FL"), ["Missing with “tone: dash.car.1/7”: unplugged."]),
        (("volts: amp.rem", "reads: 12.1 V"), ["Missing with “volts: amp.rem”: key."]),
        (("signed: lost",), ["Missing with “signed: lost”: lost."]),
        # its own number and unit, with the space that is missing
        (("volts: amp.rem", "reads: 12.4V", "key: run"), ["A space parts a number", "reads: 12.4 V"]),
        (("ohm: amp.out1", "reads: 3.5ohm"), ["reads: 3.5 ohm"]),
        # both faults in one go
        (("tone: dash.car.1/7", "heard: XX"), ["“XX” is no speaker", "Missing with “tone: dash.car.1/7”: unplugged."]),
        (("seen: amp", "shows: steady", "--when", "2099-01-01 10:00"), ["2099-01-01 10:00 is still to come"]),
        # no verb: the nearest one before all of them
        (("ton: dash.car.1/7", "heard: FL"), ['Is “tone” meant? Type: "tone: dash.car.1/7". What was done is one of']),
        (("foo: 1",), ["“foo” is nothing that can be recorded", "What was done is one of: tone,"]),
        (("colour: YE",), ["“colour” says how, and not what was done"]),
        # a number alone
        (("volts: amp.rem", "reads: 12.6", "key: run"), ["12.6 has no unit", 'Type: "reads: 12.6 V"']),
        (("ohm: dash.car.1/7", "reads: 3.6"), ['Type: "reads: 3.6 ohm"']),
        (("plays: radio.FLL", "heard: FL"), ["There is no “radio.FLL”", "Is “radio.FL”"]),
        (("volts: amb.rem", "reads: 12.1 V", "key: run"), ["There is no “amb.rem”", "Is “amp.rem” meant?"]),
        (("plays: FL", "heard: FL"), ["“FL” is no output", "Is “radio.FL” meant?"]),
        # fader and balance are the radio's, which has three outputs, and each has two ends
        (("plays: radio", "heard: FL"), ["“radio” is no output: it has 3", 'or say how it was turned: "faded: front"']),
        (("plays: radio.FL", "faded: rear", "heard: none"), ["“radio.FL” is no such unit", 'Type: "plays: radio"']),
        (("plays: amp", "balanced: left", "heard: FL"), ["“amp” is no such unit", "Type one of: radio"]),
        (("plays: radio", "faded: back", "heard: FL"), ["“back” is not front or rear"]),
        (("seen: dash.car.1 YE",), ['Type: "seen: dash.car.1" "colour: YE"']),
        (("handover: taken", "replaces: revers tone"), ["No record here is about “revers tone”", "Leave it out."]),
        (("before: hands-free",), ["Missing with “before: hands-free”: result."]),
        (("plays: radio.FL",), ["Missing with “plays: radio.FL”: heard."]),
        # what was built: a slip in a fate, a function or a contact
        (("built: T1.car.FL", "is: joned to amp.out2"), ["“joned to amp.out2” is no fate", 'Type: "is: amp.out2"']),
        (("built: T1.car.FL", "is: amp.uot2"), ["“amp.uot2” is no fate", "Is “amp.out2”"]),
        (("built: T1.car.FL", "is: cappd"), ["Is “capped” meant?"]),
        (("built: T1.car.FL", "is: used, FLL"),
         ["“FLL” is no fate", "Is “FL” meant?", "  is: used, FLL\n            ^"]),
        # a reading without what was read is none
        (("tone: dash.car.1/7", "unplugged: dash"), ["Missing with “tone: dash.car.1/7”: heard."]),
        (("volts: amp.rem", "key: run"), ["Missing with “volts: amp.rem”: reads."]),
        (("ohm: dash.car.1/7", "unplugged: dash"), ["Missing with “ohm: dash.car.1/7”: reads."]),
        # a word that is right elsewhere isn't offered as its own mend
        (("built: amp.rem", "is: reversed"), ["“reversed” can’t be held against the plan at amp.rem", "is: amp.in1"]),
        # joints by the names on the paper: the job has five
        (("built: J9",), ["There is no “J9”", "The joints are J1, J2, J3, J4, J5."]),
        (("checked: J11",), ["There is no “J11”", "Is “J1” meant?"]),
        (("built: J1", "is: amp.out2"), ["“amp.out2” can’t be said of a whole joint"]),
        (("tone: J1", "unplugged: dash"), ["“J1” is not a contact"]),
        # everything in one go, the date too, and each photo
        (("seen: amp", "foo: 1", "key: maybe", "--when", "2026-02-30 09:40", "--photo", "a.png", "--photo", "b.png"),
         ["no key “foo”", "“maybe”", "There is no 2026-02-30", "a.png: no such file", "b.png: no such file"]),
    ],
)  # fmt: skip
def test_refused_and_nothing_written(
    words: tuple[str, ...], said: list[str], record: Callable[..., Answer], tmp_path: Path
) -> None:
    answer = record(*words)

    assert answer.code == 2
    for each in said:
        assert each in answer.err
    assert answer.err.rstrip().endswith("nothing was recorded")
    assert not (tmp_path / "job.evidence.yaml").exists()


@pytest.mark.parametrize(
    "words",
    [
        # a channel that the car lacks may be what was heard; `none` and a tweeter too
        (*TONE, "heard: SUB"), (*TONE, "heard: none"), (*TONE, "heard: FL-TW"), (*TONE, "heard: fl"),
        ("after: Reverse Beep", "result: works"), ("volts: radio.FL", "reads: 8 V", "step: 31"),
        ("plays: radio", "faded: front", "heard: FL FR"),
        ("plays: Radio", "faded: rear", "balanced: left", "heard: RL"),
        ("handover: taken",), ("signed: released", "reason: customer waits: rear toned on Monday"),
    ],
)  # fmt: skip
def test_taken(words: tuple[str, ...], record: Callable[..., Answer]) -> None:
    answer = record(*words)

    assert (answer.code, answer.err) == (0, "")
    assert answer.out.endswith("recorded\n")


@pytest.mark.parametrize(
    ("words", "written"),
    [
        # as a shell hands them over without quotes; the same record as with them
        (("seen:", "dash.car.1", "colour:", "WH"), f"seen: dash.car.1, {ROW}, colour: WH"),
        (("seen", "dash.car.1", "colour:", "WH"), f"seen: dash.car.1, {ROW}, colour: WH"),
        (("Seen:dash.car.1", "colour:WH"), f"seen: dash.car.1, {ROW}, colour: WH"),
        (("ohm:", "amp.out1", "reads:", "3.6", "ohm"), "ohm: amp.out1, reads: 3.6 ohm"),
        (("volts:", "amp.rem", "reads:", "-0.2", "V", "key:", "out"), "volts: amp.rem, reads: -0.2 V, key: out"),
        # a comma for the point, as a meter or a hand writes it
        (("volts: amp.rem", "reads: 12,6 V", "key: run"), "reads: 12.6 V, key: run"),
        (("tone:", "dash.car.1/7", "heard:", "FL", "FR", "unplugged:", "[dash,", "radio]"),
         "heard: FL FR, unplugged: [dash, radio]"),
        (("plays:", "radio", "faded:", "front", "heard:", "FL", "FR"), "plays: radio, faded: front, heard: FL FR"),
        # a function whose name has a key's word in it
        (("before:", "beep", "tone", "result:", "works"), "before: beep tone, result: works"),
        # words that are keys elsewhere, and a time, inside what is a person's own
        (("handover:", "taken", "odd:", "is", "left", "open", "at", "16:40", "see", "here:there"),
         "odd: is left open at 16:40 see here:there"),
    ],
)  # fmt: skip
def test_words_of_the_shell(
    words: tuple[str, ...], written: str, record: Callable[..., Answer], tmp_path: Path
) -> None:
    answer = record(*words)

    assert (answer.code, answer.err) == (0, "")
    assert written in (tmp_path / "job.evidence.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("“seen:", "dash.car.1”"), "straight double quotes"),
        (("'seen:", "dash.car.1'"), "straight double quotes"),
        (("seen:", "dash.car.1", "colour", "WH"), "“colour” wants a colon behind it"),
        (("seen: dash.car.1", "colour", "WH"), "'colour' belongs to no key"),
        (("seen:", "dash.car.1", "--wen", "2026-03-02"), "there is no option '--wen'"),
        (("seen:",), "“seen:” has no value"),
        ((), "what was done is missing"),
        # three digits behind a comma may be thousands
        (("ohm: amp.out1", "reads: 1,234 ohm"), "1,234 ohm"),
    ],
)
def test_words_that_are_none(words: tuple[str, ...], said: str, record: Callable[..., Answer], tmp_path: Path) -> None:
    answer = record(*words)

    assert (answer.code, said in answer.err) == (2, True), answer
    assert not (tmp_path / "job.evidence.yaml").exists()


def test_who_is_asked_for_in_one_line(ringout: Ringout, tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    answer = ringout("record", "job.yaml", "seen: dash.car.1", "colour: WH")
    assert (answer.code, answer.err) == (
        2, "ringout: who says it is missing: add --by NAME, for instance --by RK; nothing was recorded\n",
    )  # fmt: skip


def test_a_new_name_is_taken_and_said_to_be_new_once(record: Callable[..., Answer]) -> None:
    first = record("before: clock", "result: works")
    again = record("after: clock", "result: works")

    assert (first.code, again.code) == (0, 0)
    assert "“clock” is a new name" in first.out
    assert "new name" not in again.out
