"""`ringout locate`: answers on the line and by keys, JSON, mistakes, and leaving on the way."""

from __future__ import annotations

import json
import os
import re
import select
import shutil
import signal
import sys
import time
from pathlib import Path

import pytest

from harness.cli.group import run
from harness.locate.session import Session
from harness.locate.symptoms import read_symptoms
from harness.locate.telling import Told
from harness.prove import prove
from tests.conftest import ROOT

JOB = "samples/hatch-plug-in.yaml"


@pytest.fixture
def sample(root: Path) -> str:
    return str(root / JOB)


def test_the_next_test_and_what_is_taken_for_granted(sample: str, ringout) -> None:
    answer = ringout("locate", sample, "--symptom", "FL silent")

    assert answer.code == 0
    assert "Taken as working: FR RL RR SUB." in answer.out
    assert "13 suspects" in answer.out
    assert "Test 1 (about" in answer.out
    assert "Caution: " in answer.out
    assert answer.err == ""


def test_answers_on_the_line_lead_to_a_place(sample: str, ringout) -> None:
    """By word and by number; each answer stands beside its test."""
    given: list[str] = []
    for turn in range(1, 9):
        told = json.loads(ringout("locate", sample, "--symptom", "FL silent", "--json", *given).out)
        if told["next"] is None:
            break
        likely = max(told["next"]["answers"], key=lambda each: each["left"])
        given += ["--answer", likely["result"] if turn % 2 else str(likely["key"])]
    plain = ringout("locate", sample, "--symptom", "FL silent", *given)

    assert len(told["answers"]) <= 5  # thirteen places halved, a third to spare: 2 ** 5 is over 13 * 4 / 3
    assert len(told["suspects"]) == 1
    assert plain.code == 0
    assert re.search(rf"Found(, if every answer was right)?: {re.escape(told['suspects'][0]['words'])}\.", plain.out)
    assert "Do now: " in plain.out
    assert plain.out.count("Test ") == len(told["answers"])


@pytest.mark.parametrize(("symptom", "word"), [("FR reversed", "right way round"), ("FL noise", "clean")])
def test_an_answer_may_be_given_as_it_is_shown(symptom: str, word: str, sample: str, ringout) -> None:
    shown = ringout("locate", sample, "--symptom", symptom).out
    answer = ringout("locate", sample, "--symptom", symptom, "--answer", word)

    assert f"  {word}: " in shown
    assert answer.code == 0
    assert "\nTest 2 (about" in answer.out


def test_json_has_all_of_it(sample: str, ringout) -> None:
    told = json.loads(ringout("locate", sample, "--symptom", "FL RL silent", "--double", "--json").out)

    assert told["plan"] == "consistent-not-verified"
    assert told["symptoms"] == [{"subject": name, "symptom": "silent"} for name in ("FL", "RL")]
    assert told["double"] is True
    assert sum(each["share"] for each in told["suspects"]) == pytest.approx(1.0, abs=0.02)
    assert {"kind", "contacts", "where", "do", "minutes", "caution", "answers"} == set(told["next"])
    assert all("~" not in name for name in told["next"]["contacts"])


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["--symptom", "ZZ silent"], "there is no speaker ZZ"),
        (["--symptom", "FL silent", "--answer", "maybe"], "“maybe” is no answer to test 1; there are: 1 "),
        (["--symptom", "FL silent", "--answer", "7"], "is no answer to test 1"),
        (["--symptom", "FL FR RL RR silent", "--answer", "1"], "the search has ended"),
        ([], "say what is wrong"),
        (["--symptom"], "requires an argument"),
    ],
)
def test_mistakes(arguments: list[str], words: str, sample: str, ringout) -> None:
    answer = ringout("locate", sample, *arguments)

    assert answer.code == 2
    assert words in answer.err
    assert "Traceback" not in answer.err


def test_a_job_that_does_not_read(tmp_path: Path, ringout) -> None:
    (tmp_path / "bad.yaml").write_text("ringout: 1\nplugs: [\n", encoding="utf-8")
    answer = ringout("locate", "bad.yaml", "--symptom", "FL silent")

    assert answer.code == 2
    assert "UNREADABLE" in answer.out
    assert "bad.yaml:" in answer.out


def test_nothing_plays_at_all(tmp_path: Path, ringout) -> None:
    (tmp_path / "bare.yaml").write_text("ringout: 1\ntitle: Bare\nspeakers: {FL: {nominal: 4 ohm}}\n", encoding="utf-8")
    answer = ringout("locate", "bare.yaml", "--symptom", "FL silent")

    assert answer.code == 2
    assert "gives FL no signal" in answer.err


def test_a_plan_with_a_stop_says_so(root: Path, ringout) -> None:
    answer = ringout("locate", str(root / "samples" / "saloon-fifteen-faults.yaml"), "--symptom", "SUB silent")

    assert answer.code == 0
    assert "STOP: the plan itself can do damage" in answer.out
    assert "Test 1" in answer.out
    assert ": Key off;" in answer.out


def test_the_same_bytes_in_any_process(sample: str, process) -> None:
    outs = {
        process("locate", sample, "--symptom", "dsp silent", PYTHONHASHSEED=seed).stdout for seed in ("0", "1", "77")
    }

    assert len(outs) == 1


# -- at a terminal --------------------------------------------------------------------------------------------


def at_terminal(arguments: list[str], keys: list[str]) -> tuple[str, int]:
    """What a terminal shows, each key pressed when the tool waits; and the exit code."""
    import pty

    child, terminal = pty.fork()
    if child == 0:
        signal.signal(signal.SIGINT, signal.SIG_DFL)  # where the tests run in the background it is ignored
        environment = {**os.environ, "TERM": "dumb", "PYTHONPATH": str(ROOT)}
        os.execve(sys.executable, [sys.executable, "-m", "harness", *arguments], environment)
    shown = b""

    def read_until_quiet(wait_s: float) -> None:
        nonlocal shown
        end = time.monotonic() + wait_s
        while time.monotonic() < end:
            if select.select([terminal], [], [], 0.05)[0]:
                try:
                    piece = os.read(terminal, 65536)
                except OSError:
                    return
                if not piece:
                    return
                shown += piece
                # the prompt, and nothing behind it
                if re.search(rb"\n[0-9]( to \d+|( or \d+)*)(; .* (stops|ends))?: $", shown[-90:]):
                    time.sleep(0.05)  # it sets the terminal to single keys after it has written the prompt
                    return

    for key in keys:
        read_until_quiet(120)  # on a busy machine it takes long to start
        # a key pressed before the terminal takes single keys is dropped: nothing comes back, it is pressed again
        for _ in range(3):
            os.write(terminal, key.encode())
            if select.select([terminal], [], [], 5)[0]:
                break
    while select.select([terminal], [], [], 120)[0]:  # a tool that goes on waiting for a key must not hold the run
        try:
            piece = os.read(terminal, 65536)
        except OSError:
            break
        if not piece:
            break
        shown += piece
    else:
        os.kill(child, signal.SIGKILL)
    os.close(terminal)
    return shown.decode(), os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals there")
class TestTerminal:
    def test_keys_from_symptom_to_place(self, sample: str) -> None:
        """silent, FL, that is all; nothing each time, a wrong key and one step back; at last the test to be sure."""
        shown, code = at_terminal(["locate", sample], ["1", "1", "1", "2", "-", "9", "2", "2", "2", "2", "2"])

        assert code == 0
        assert "What is wrong?" in shown
        assert "FL silent. Anything else?" in shown
        assert "That is none of the keys" in shown
        assert shown.count("Test 1 (about") == 2
        assert "To be sure before you work on it" in shown
        assert "Found, and borne out: " in shown
        assert "Traceback" not in shown

    @pytest.mark.parametrize(("key", "code"), [("\x04", 0), ("\x03", 130), (".", 0)])
    def test_leaving_on_the_way_tells_what_is_known(self, key: str, code: int, sample: str) -> None:
        shown, left = at_terminal(["locate", sample, "--symptom", "FL silent"], ["1", key])

        assert left == code
        assert "Stopped after 1 test" in shown
        assert "suspects left" in shown
        assert "--answer" in shown
        assert "Traceback" not in shown

    @pytest.mark.parametrize(("key", "code"), [("\x04", 0), ("\x03", 130)])
    def test_leaving_before_anything_is_known(self, key: str, code: int, sample: str) -> None:
        shown, left = at_terminal(["locate", sample], ["1", key])

        assert left == code
        assert "nothing is known yet" in shown
        assert "Traceback" not in shown


def test_without_a_terminal_nothing_is_asked(sample: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["locate", sample]) == 2
    assert "say what is wrong" in capsys.readouterr().err


@pytest.mark.parametrize("said", ["left rear silent", "rear left silent", "Left-Rear, dead", "RL silent"])
def test_a_place_in_words(said: str, sample: str, ringout) -> None:
    """Left rear is RL, whichever word comes first."""
    told = json.loads(ringout("locate", sample, "--symptom", said, "--json").out)
    assert told["symptoms"] == [{"subject": "RL", "symptom": "silent"}]


def test_two_places_in_words(sample: str, ringout) -> None:
    told = json.loads(ringout("locate", sample, "--symptom", "left front right rear subwoofer silent", "--json").out)
    assert [each["subject"] for each in told["symptoms"]] == ["FL", "RR", "SUB"]


# What an answer says by the trade's sense: it is there, whole, quiet; it isn't; it is something between.
AS_IT_SHOULD = {
    "signal",
    "as expected",
    "moves",
    "plays",
    "12 V",
    "under 0.1 V",
    "whole",
    "goes",
    "goes off",
    "under 1 V",
    "clear",
}
NOT_THERE = {
    "nothing",
    "open",
    "stays",
    "0 V",
    "more",
    "stays on",
    "over 1 V",
    "noise",
    "reversed",
    "drops out",
    "to the body",
}


@pytest.mark.parametrize(
    "symptom", ["FL silent", "FL weak", "FL noise", "FR reversed", "dsp noise", "RL intermittent", "dsp protects"]
)
def test_keys_are_one_to_n_and_one_is_as_it_should_be(symptom: str, sample: str, ringout) -> None:
    """Down the first answer each time, then down the last."""
    asked_for = 0
    for turn in (0, -1):
        given: list[str] = []
        for _ in range(5):
            told = json.loads(ringout("locate", sample, "--symptom", symptom, "--json", *given).out)
            asked = told["next"] or told["to_be_sure"]
            if asked is None:
                break
            asked_for += 1
            assert [each["key"] for each in asked["answers"]] == list(range(1, len(asked["answers"]) + 1))
            good = [each["result"] in AS_IT_SHOULD for each in asked["answers"] if each["result"] != "no change"]
            assert good == sorted(good, reverse=True), "what should be comes first"
            others = [each["result"] for each in asked["answers"] if each["result"] not in (*AS_IT_SHOULD, "no change")]
            bad = [result in NOT_THERE for result in others]
            assert bad == sorted(bad, reverse=True), "nothing or the fault comes next"
            if told["next"] is None:
                break
            given += ["--answer", str(asked["answers"][turn]["key"])]
    assert asked_for


def test_to_be_sure_before_anybody_works(sample: str, ringout) -> None:
    """Silence at every point up to the radio's plug leads to the radio's output; what is likelier than each of them
    being right is one key mistaken. Silence in front of the plug too bears it out; a signal there doesn't.
    """
    given = ["--answer", "2"] * 4
    found = ringout("locate", sample, "--symptom", "FL silent", *given)
    borne = ringout("locate", sample, "--symptom", "FL silent", *given, "--answer", "2")
    against = ringout("locate", sample, "--symptom", "FL silent", *given, "--answer", "1")

    assert "Found, if every answer was right: radio’s output FL: dead." in found.out
    assert "To be sure before you work on it (about " in found.out
    assert "1  signal: speaks against it" in found.out
    assert "Found, and borne out: radio’s output FL: dead." in borne.out
    assert "To be sure" not in borne.out
    assert "That speaks against an answer before" in against.out
    assert "Found" not in against.out


def test_an_answer_has_one_shape_in_json(sample: str, ringout) -> None:
    """Of the next test and of the one to be sure: the same keys, in the same order."""
    first = json.loads(ringout("locate", sample, "--symptom", "FL silent", "--json").out)["next"]
    given = ["--answer", "2"] * 8
    for count in range(1, 8):
        told = json.loads(ringout("locate", sample, "--symptom", "FL silent", "--json", *given[: 2 * count]).out)
        if told["to_be_sure"]:
            break
    sure = told["to_be_sure"]

    assert list(sure) == list(first)
    assert {tuple(each) for each in (*first["answers"], *sure["answers"])} == {
        ("result", "key", "means", "left", "of", "bears_out")
    }
    assert {each["bears_out"] for each in first["answers"]} == {None}
    assert {each["bears_out"] for each in sure["answers"]} == {True, False}


def test_a_whine_is_hunted_by_the_trades_tries(sample: str, ringout) -> None:
    """The sample grounds dsp at G1 and bass at G2, which takes its signal: F10 of `ringout check`, told first and, G2
    being bare metal, the likeliest. Noise at bass's input, gone with the engine off and with a player on its own
    battery on the cable, is the loop: the cable itself would pick it up all the same.
    """
    first = ringout("locate", sample, "--symptom", "SUB noise").out
    found = ringout(
        "locate", sample, "--symptom", "SUB noise", *["--answer", "2", "--answer", "1", "--answer", "1"]
    ).out

    assert "dsp and bass share a signal and are grounded at two points (F10)" in first
    assert first.index("(F10)") < first.index("Test 1")
    assert "% dsp on ground G1 and bass on G2, with the signal cables between: a ground loop" in first
    assert "F10" not in ringout("locate", sample, "--symptom", "FL silent").out
    assert re.search(r"Found[^:]*: dsp on ground G1 and bass on G2, .*: a ground loop\.", found)
    assert "ground both at one point" in found


def test_the_tries_are_safe(root: Path) -> None:
    """Each that takes a plug off begins with the power off; a short goes on a grounded input only, a player where no
    output is, and what is moved to another ground keeps one.
    """
    wiring = prove(root / JOB, mends=False).wiring
    assert wiring is not None
    session = Session(wiring, read_symptoms(wiring, ["SUB noise"]))
    told = Told(session)
    done = {test.kind: told.do(test) for test in session.tests}

    assert {"mute", "feed", "one ground", "engine"} <= set(done)
    for kind in ("mute", "feed", "one ground"):
        assert done[kind].startswith("Power off; ")
    assert "bass in1, a shorting plug on the input;" in done["mute"]
    assert "dsp rca1, a player on its own battery on them;" in done["feed"]
    assert "bass GND" in done["one ground"]
    assert "ground point G1" in done["one ground"]
    for test in session.tests:
        if test.kind == "mute":
            assert ("shorting" in told.do(test)) == test.plus.startswith("bass.")  # dsp's inputs are speaker-level


def test_records_are_answers_given(sample: str, ringout, tmp_path: Path) -> None:
    """13 places may be silent (above); a tone at the plug that FL answers clears the two wires, the plug and the
    speaker behind it.
    """
    job = tmp_path / "samples" / "hatch.yaml"
    shutil.copytree(Path(sample).parent, job.parent)
    shutil.copy(sample, job)
    tone = "- {when: 2026-03-02 09:40, by: RK, tone: sound.car.5/6, charted: FL, heard: FL, unplugged: sound}\n"
    job.with_name("hatch.evidence.yaml").write_text(tone, encoding="utf-8")
    told = ringout("locate", str(job), "--symptom", "FL silent")
    older = ringout("locate", str(job), "--symptom", "FL silent", "--since", "2026-03-03")
    without = ringout("locate", str(job), "--symptom", "FL silent", "--without-records", "--json")
    data = json.loads(ringout("locate", str(job), "--symptom", "FL silent", "--json").out)
    wrong = ringout("locate", str(job), "--symptom", "FL silent", "--since", "yesterday")

    assert "From records, as answers given (--without-records leaves them aside):" in told.out
    assert "line 1, RK 2026-03-02: tone sound.car.5/6: FL answers: rules out 4 of 13" in told.out
    assert "9 suspects left of 13" in told.out
    assert "Records left aside:" in older.out
    assert "it is from before 2026-03-03" in older.out
    assert "13 suspects, likeliest first" in older.out
    assert (len(json.loads(without.out)["suspects"]), json.loads(without.out)["from_records"]) == (13, [])
    assert len(data["suspects"]) == 9
    assert [(each["line"], each["left"], each["bad"]) for each in data["from_records"]] == [(1, 9, False)]
    assert wrong.code == 2
    assert "is no day" in wrong.err
