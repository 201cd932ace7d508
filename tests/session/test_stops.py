"""Stops at the car: a live ground, the middle of a pair, bytes that are no text. By hand from the keys pressed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from tests.session.hazel import JOB
from tests.session.terminal import ROOT, session

WHEN = ("--when", "2026-03-02 09:40")
VOLTS = ("tone", "hazel.yaml", "--by", "JM", *WHEN, "--section", "volts")
TONES = ("tone", "hazel.yaml", "--by", "JM", *WHEN, "--section", "tones")


@pytest.fixture
def van(tmp_path: Path) -> Path:
    (tmp_path / "hazel.yaml").write_text(JOB, encoding="utf-8")
    return tmp_path


def records(folder: Path) -> list[dict[str, str]]:
    path = folder / "hazel.evidence.yaml"
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader) if path.is_file() else []


def test_after_a_live_ground_nothing_is_asked_before_it_is_off(van: Path) -> None:
    """B+ 12.5 V, then 12.6 V at the ground, key out: what was done is asked; Enter and a number of volts are no answer;
    then the same ground comes again, and its 0 V is taken only with the power back on: a 2 says that it is off.
    """
    shown = session(van, *VOLTS, keys="12.5\n|12.6\n|9|2|2|1|0\n|.\n").text
    stop = shown.index("STOP: amp GND is a ground and shows 12.6 V")
    asked = shown.index("What did you do?", stop)
    again = shown.index("Volts at amp GND", stop)
    assert stop < asked < again
    assert "Volts at" not in shown[stop:asked]
    assert "Without power 0 V says nothing" in shown[asked:again]
    assert shown.count("power back on as it was") == 2
    assert "Not read: without power" in shown[asked:again]
    assert "Volts at amp rem" not in shown[:again]
    live, safe, dead = records(van)[1:4]
    assert (live["volts"], live["reads"]) == ("amp.GND", "12.6 V")
    assert (safe["seen"], safe["shows"]) == ("amp.GND", "made safe: key off, battery negative off")
    assert dead["reads"] == "0 V"
    assert "STOP on record" not in shown[shown.rindex("recorded (line 4)") :]


def test_a_stop_left_open_is_on_the_record_and_first_in_the_resume(van: Path) -> None:
    shown = session(van, *VOLTS, keys="12.5\n|12.6\n|.").text
    assert "!! STOP on record: amp GND showed 12.6 V (JM 2026-03-02)" in shown[shown.index("2 recorded") :]
    for section in ("volts", "lights", "outputs"):
        again = session(van, *VOLTS[:-1], section, keys=".").text
        assert again.index("STOP on record") < again.index("What did you do?")
        assert not any(each in again for each in ("Volts at", "The light of", "Play only"))
    assert len(records(van)) == 2
    later = session(van, *VOLTS, keys="1|1|1|.\n|2").text  # what was done; the plan's STOP; power on; the ground first
    assert later.index("Go on?") < later.index("] amp GND, key out, fed by gnd.G1.") < later.index("Volts at amp GND")
    assert "Volts at amp rem" not in later
    assert "made safe: key off, fuses out" in later[later.rindex("recorded.") :]


def test_stopped_in_the_middle_keeps_what_is_complete(van: Path) -> None:
    """0 V, 3.4 ohm, free of the body, then stop: volts and ohms are a record, the pair is still to be toned."""
    shown = session(van, *TONES, keys="1|3.4\n|1|.").text
    assert "what was answered is kept" in shown
    (kept,) = records(van)
    assert (kept["ohm"], kept["reads"], kept["dc"]) == ("dash.car.1/7", "3.4 ohm", "0 V")
    assert "open: Tone the pairs, 3" in shown


def test_the_0_that_the_meter_shows_is_an_answer(van: Path) -> None:
    session(van, *TONES, keys="0|3.4\n|1|.")
    (kept,) = records(van)
    assert (kept["ohm"], kept["reads"], kept["dc"]) == ("dash.car.1/7", "3.4 ohm", "0 V")


def test_stopped_after_the_tone_keeps_the_tone(van: Path) -> None:
    shown = session(van, *TONES, keys="1|3.4\n|1|1|1|.").text
    assert "what was answered is kept" in shown
    (kept,) = records(van)
    assert (kept["tone"], kept["heard"]) == ("dash.car.1/7", "FL")
    assert "plus" not in kept


def test_what_is_too_little_is_named_and_asked_about(van: Path) -> None:
    """Two levels of a response are none: said, and gone on with on a 1; with a third it is a record."""
    shown = session(van, *TONES[:-1], "response", keys="-1\n|-2\n|.\n|1|-3\n|\n|.\n").text
    assert "Not recorded of radio.FL: -1, -2." in shown
    assert records(van)[0]["levels"] == "-1 -2 -3"
    gone = session(van, *TONES[:-1], "response", keys="0\n|.\n|2").text
    assert "Not recorded of radio.FR: 0." in gone
    assert len(records(van)) == 1


def test_the_end_of_the_input_keeps_it_too(van: Path) -> None:
    session(van, *TONES, keys="1|3.4\n|1|\x04")
    assert [each["reads"] for each in records(van)] == ["3.4 ohm"]


def test_arrow_keys_at_the_name(van: Path) -> None:
    shown = session(
        van, "tone", "hazel.yaml", *WHEN, "--section", "tones", keys="\x1b[A\x1b[D|J\x1b[CM\n|1|3.4\n|."
    ).text
    assert "Keys: a number answers" in shown
    assert [each["by"] for each in records(van)] == ["JM"]


def fed(folder: Path, *arguments: str | bytes, given: bytes) -> subprocess.CompletedProcess[bytes]:
    """A session fed from a pipe."""
    command = [sys.executable, "-m", "harness", *arguments]
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run(command, cwd=folder, env=environment, input=given, capture_output=True, check=False)


def test_bytes_that_are_no_text_are_shown_as_such_and_asked_again(van: Path) -> None:
    """0xFF begins no sign of UTF-8 (RFC 3629): shown as U+FFFD, and the name is asked for again. A sequence goes."""
    told = fed(van, "tone", "hazel.yaml", *WHEN, "--section", "tones", given=b"J\xffM\n\x1b[AJM\n1\n3\xff4\n3.4\n.\n")
    text = told.stdout.decode("utf-8")
    assert "J�M can't be written as a name" in text
    assert "3�4 is no answer here" in text
    assert "udcff" not in text + told.stderr.decode("utf-8")
    (kept,) = records(van)
    assert (kept["by"], kept["reads"]) == ("JM", "3.4 ohm")


def test_a_name_given_in_bytes_that_are_no_text(van: Path) -> None:
    told = fed(van, "tone", "hazel.yaml", "--by", b"J\xff", *WHEN, "--section", "tones", given=b"RK\n1\n\n\n\n.\n")
    assert "udcff" not in told.stdout.decode("utf-8")
    assert told.returncode == 0, told.stderr
    assert [each["by"] for each in records(van)] == ["RK"]


def test_what_fits_and_what_differs_look_different_in_words(van: Path) -> None:
    """As charted, but 9.9 ohm: the first line is ok, the alarm stands before the ohms alone."""
    shown = session(van, *TONES, keys="1|9.9\n|1|1|1|1|.").text
    assert "   ok dash 1/7: as charted, FL." in shown
    assert "   !! 9.9 ohm, NOT as expected" in shown
    assert "!! dash 1/7: as charted" not in shown
