"""What records leave open, as the lines of what was not checked say it: jobs of a few lines and their records."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.checks.alone import alike, proved, recorded
from tests.checks.marks import FOLDER
from tests.checks.test_alone_records import JOB
from tests.checks.test_alone_trials import VOICES

HOLD = "whether joints J1, J2, J3, J4, J5 and J6 hold: no `checked` record"
TURNS = "what answers radio with {}: no `faded` or `balanced` is written".format
ALL = TURNS("fader full front, fader full rear, balance full left and balance full right")
NAVIGATION, PHONE = (f"{{}}: {name} voice, result: works".format for name in ("navigation", "phone"))
LOST = "signed: lost, lost: [phone voice]"
STILL = "whether {} still work{}: it worked before; no `after` says so".format
UNTRIED = "whether {} worked before: no `before` says so".format
OUTPUTS = "what answers {}: no `plays` record is written".format


def left_open(folder: Path, job: str, records: tuple[str, ...]) -> list[str]:
    """What is listed, but for the supply and the order of work, which neither job has."""
    report = proved(folder, job, records)
    listed = [f"{each.what}: {each.why}" for each in report.unchecked]
    return [line for line in listed if not line.startswith(("supply and ground:", "the order of work:"))]


@pytest.mark.parametrize(
    ("records", "told"),
    [
        ((), []),
        # an output that was played counts, whatever is said of it; once one was played, so do fader and balance
        (("plays: radio.FL",),
         [OUTPUTS("radio.FR and radio.RL"), "what answers radio.FL: the record doesn't say what was `heard`", HOLD,
          ALL]),
        (("plays: radio.FL, heard: XX YY", "plays: dash.FL, heard: FL", "plays: radio.FR, heard: FR"),
         [OUTPUTS("radio.RL"), "what answers radio.FL: “XX YY” names no speaker of the job",
          "what answers dash.FL: it is no output of the job", HOLD, ALL]),
        # two of the four ends, of which one says nothing and one names nobody; an end that is said of an output
        (("plays: radio, faded: front", "plays: radio, balanced: left, heard: XX",
          "plays: radio.FL, faded: rear, heard: FL"),
         [OUTPUTS("radio.FL and radio.FR and radio.RL"),
          "what answers radio with fader full front: the record doesn't say what was `heard`",
          "what answers radio with balance full left: “XX” names no speaker of the job",
          "what answers radio.FL: fader and balance are said of a source: `plays: radio`", HOLD,
          TURNS("fader full rear and balance full right")]),
        # a light that shows what no unit's light means
        (("seen: amp, shows: purple stripes",),
         [OUTPUTS("radio.FL and radio.FR and radio.RL"),
          "what the light of amp says: “purple stripes” is none of its words"]),
        (("seen: amp, shows: on",), [OUTPUTS("radio.FL and radio.FR and radio.RL")]),
        # of another car
        (("plays: radio.FL, faded: rear, heard: FL, car: Hazel van", "plays: radio, faded: front, car: Hazel van"),
         [OUTPUTS("radio.FL and radio.FR and radio.RL")]),
        # nothing was played; a record struck with its reason, and without one; the words of a fate
        (("built: dash.car.1/5, is: odd words", "checked: J1, found: loose", "struck: 2, reason: typed wrongly",
          "struck: 1"),
         [OUTPUTS("radio.FL and radio.FR and radio.RL"),
          "the record on line 1, built dash.car.1/5: struck by JM 2026-03-02",
          "the record on line 2, checked J1: struck by JM 2026-03-02: typed wrongly"]),
        (("built: dash.car.1/5, is: odd words",),
         [OUTPUTS("radio.FL and radio.FR and radio.RL"), HOLD,
          "whether dash.car.1/5 was built as planned: “odd words” says no fate"]),
    ],
)  # fmt: skip
def test_what_was_played_built_and_struck(tmp_path: Path, records: tuple[str, ...], told: list[str]) -> None:
    assert left_open(tmp_path, JOB, records) == told


@pytest.mark.parametrize(
    ("records", "told"),
    [
        ((), []),
        ((NAVIGATION("before"),), [STILL("navigation voice", "s"), UNTRIED("phone voice")]),
        ((NAVIGATION("before"), PHONE("before")), [STILL("navigation voice and phone voice", "")]),
        # once one was tried after the work J06 tells the others; one that is signed for as lost isn't asked for there
        ((NAVIGATION("before"), PHONE("before"), NAVIGATION("after")), []),
        ((NAVIGATION("before"), PHONE("before"), NAVIGATION("after"), LOST), [STILL("phone voice", "s")]),
        ((NAVIGATION("before"), NAVIGATION("after"), LOST), [UNTRIED("phone voice")]),
        (("before: navigation voice, result: silent", "before: phone voice, result: silent"), []),
    ],
)  # fmt: skip
def test_what_was_tried(tmp_path: Path, records: tuple[str, ...], told: list[str]) -> None:
    listed = left_open(tmp_path, VOICES, records)
    assert [line for line in listed if "voice" in line] == told


MOVED = (FOLDER / "H10/bad_no_tug.yaml").read_text(encoding="utf-8")
SITS = "whether T1 unit end 3 (blue with white stripe, AMP-ON), moved to 2, sits ({}): no `checked` record; "
SITS += "asked for once the work is recorded"


@pytest.mark.parametrize(
    ("records", "told"),
    [
        ((), [SITS.format("position, lock, tug")]),
        (("checked: T1.unit.2, found: position and lock",), [SITS.format("tug")]),
        (("checked: T1.unit.2, found: position lock tug",), []),
        # once the work is recorded H10 tells it
        (("handover: closed, done: all of it",), []),
        (("handover: paused, done: half of it",), [SITS.format("position, lock, tug")]),
    ],
)  # fmt: skip
def test_a_terminal_that_nobody_saw_sit(tmp_path: Path, records: tuple[str, ...], told: list[str]) -> None:
    assert [line for line in left_open(tmp_path, MOVED, records) if "sits" in line] == told


CLOSED = "handover: closed, done: all of it"
MOVED_PIN = "T1 unit end 3 (blue with white stripe, AMP-ON)"


@pytest.mark.parametrize(
    ("code", "records", "parts"),
    [
        # a moved terminal that was found loose: one look gone wrong, and once the work is done one that doesn't sit
        ("J28", ("checked: T1.unit.3, found: loose",), [f"{MOVED_PIN}: found loose"]),
        ("J28", ("checked: T1.unit.3, found: loose", CLOSED), []),
        ("H10", ("checked: T1.unit.3, found: loose",), []),
        ("H10", ("checked: T1.unit.3, found: loose", CLOSED), ["position, lock and tug are not recorded as right"]),
        ("H10", ("checked: T1.unit.3, found: position lock", CLOSED), ["moved to 2: tug is not recorded as right"]),
        ("H10", ("checked: T1.unit.3, found: position", CLOSED), ["lock and tug are not recorded as right"]),
        ("H10", ("checked: T1.unit.3, found: position lock tug", CLOSED), []),
        # of what else was found wrong there is no other word
        ("J28", ("checked: dash.car.2, found: burnt", CLOSED), ["dash cavity 2 (blue with white stripe, AMP-ON)"]),
        ("J28", ("checked: dash.car.2, found: burnt", "checked: T1.unit.3, found: loose", CLOSED), ["dash cavity 2"]),
    ],
)  # fmt: skip
def test_a_terminal_that_was_found_loose(tmp_path: Path, code: str, records: tuple[str, ...], parts: list[str]) -> None:
    alike([each.message for each in recorded(tmp_path, code, records, MOVED)], parts)


WITH_TWEETER = JOB.replace(
    "speakers: {FL FR RL: {nominal: 4 ohm}}",
    "speakers: {FL FR RL FL-TW: {nominal: 4 ohm}}\nfound:\n  - dash.FL > spk.FL\n  - dash.FL > spk.FL-TW",
)
NO_OHMS = JOB.replace("FL FR RL: {nominal: 4 ohm}", "FL FR RL: {place: door}")
BLIND = "whether FL-TW answers: no `signal` is written with the tone: it proves no tweeter"
FITS = (
    "whether 3.5 ohm fits dash cavities 1 and 5 (white and white with black stripe, FL): the ohms of FL are not written"
)
NO_PAIR = "what polarity of dash.car.1/6 says: the two are no pair of the chart, so it is held against nothing"


@pytest.mark.parametrize(
    ("job", "record", "told"),
    [
        # a look that says right, wrong, or neither
        (JOB, "checked: dash.car.1, found: tug", []), (JOB, "checked: dash.car.1, found: loose", []),
        (JOB, "checked: dash.car.1, found: purple",
         ["whether dash.car.1 is right: “purple” says neither good nor bad"]),
        # a tweeter on a toned pair: not named, named, or the tone is one that it plays
        (WITH_TWEETER, "tone: dash.car.1/5, charted: FL, heard: FL", [BLIND]),
        (WITH_TWEETER, "tone: dash.car.1/5, charted: FL, heard: FL FL-TW", []),
        (WITH_TWEETER, "tone: dash.car.1/5, charted: FL, heard: FL FL-TW, signal: 5 kHz", []),
        # a tone that names no channel; + of two wires that are no pair
        (JOB, "tone: dash.car.1/5, charted: FL, heard: zzz",
         ["what the tone of dash 1/5 says of the chart: “zzz” is no channel"]),
        (JOB, "polarity: dash.car.1/6, plus: 1", [NO_PAIR]), (JOB, "polarity: dash.car.1/5, plus: 1", []),
        # a reading of a speaker whose ohms are known, or not
        (JOB, "ohm: dash.car.1/5, reads: 3.5 ohm", []),
        (NO_OHMS, "ohm: dash.car.1/5, reads: 3.5 ohm",
         [FITS]),
    ],
)  # fmt: skip
def test_what_a_record_leaves_open(tmp_path: Path, job: str, record: str, told: list[str]) -> None:
    listed = [line for line in left_open(tmp_path, job, (record,)) if not line.startswith(("what answers", "the load"))]
    assert listed == told
