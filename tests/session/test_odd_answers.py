"""What a dirty hand presses beside the keys meant: nothing of it becomes an answer, or a record that can't be read."""

from __future__ import annotations

import os
import pty
import re
import select
import shutil
import signal
import subprocess
import sys
import termios
import time
from pathlib import Path

import pytest
import yaml

from tests.session.terminal import ROOT, session

WHEN = ("--when", "2026-03-02 09:40")
TONE = ("tone", "hatch-plug-in.yaml", "--by", "JM", *WHEN)


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "samples" / "parts", tmp_path / "parts")
    shutil.copy(ROOT / "samples" / "hatch-plug-in.yaml", tmp_path)
    return tmp_path


def records(folder: Path) -> list[dict[str, str]]:
    """The evidence file by a reader of its own."""
    path = folder / "hatch-plug-in.evidence.yaml"
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader) if path.is_file() else []


def readable(folder: Path) -> bool:
    command = [sys.executable, "-m", "harness", "check", "hatch-plug-in.yaml"]
    done = subprocess.run(command, cwd=folder, env={"PYTHONPATH": str(ROOT)}, capture_output=True, check=False)
    return done.returncode in (0, 1)


@pytest.mark.parametrize(
    "key",
    ["\x1b[3~", "\x1b[1~", "\x1b[15~", "\x1b[6~", "\x1b[A", "\x1b[1;5C", "\x1bOP", "\x1bOH"],
    ids=["Delete", "Home", "F5", "PgDn", "up", "Ctrl-right", "F1", "Home of a keypad"],
)
def test_editing_keys_answer_nothing(bay: Path, key: str) -> None:
    """ECMA-48 5.4: ESC [, parameters 0-9 : ; < = > ?, a letter from @ to ~. The digits in it are no answers."""
    shown = session(bay, *TONE, "--section", "before", keys=f"{key}|.")
    assert records(bay) == []
    assert shown.code == 0


@pytest.mark.parametrize("typed", ["-5", "9" * 400])
def test_a_reading_that_could_not_be_read_again_is_asked_once_more(bay: Path, typed: str) -> None:
    shown = session(bay, *TONE, "--section", "tones", keys=f"1|{typed}\n|1|1|1|1|.")
    assert "Not recorded" in shown.text
    assert "Traceback" not in shown.text
    assert records(bay) == []
    assert readable(bay)


@pytest.mark.parametrize(("typed", "kept"), [("1000000", "1000000 ohm"), ("3,40", "3.4 ohm"), ("-0", "0 ohm")])
def test_numbers_are_kept_as_typed(bay: Path, typed: str, kept: str) -> None:
    session(bay, *TONE, "--section", "tones", keys=f"1|{typed}\n|1|1|1|1|.")
    assert [each["reads"] for each in records(bay)] == [kept]
    assert readable(bay)


@pytest.mark.parametrize("when", ["2026-3-2 9:40", "0999-03-02 09:40", "2026-02-30 09:40", "tomorrow"])
def test_a_time_that_could_not_be_read_again_is_refused(bay: Path, when: str) -> None:
    shown = session(bay, "tone", "hatch-plug-in.yaml", "--by", "JM", "--when", when, keys=".")
    assert shown.code == 2
    assert "no date and time" in shown.text


def test_a_name_that_is_too_long_is_refused(bay: Path) -> None:
    shown = session(bay, "tone", "hatch-plug-in.yaml", "--by", "J" * 600, *WHEN, keys="|.")
    assert shown.code == 2
    assert records(bay) == []


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGQUIT])
def test_the_terminal_is_left_as_it_was(bay: Path, number: signal.Signals) -> None:
    """Whoever ends the session gets echo and lines back."""
    master, slave = pty.openpty()
    before = termios.tcgetattr(slave)
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "harness", *TONE]
    child = subprocess.Popen(
        command, cwd=bay, stdin=slave, stdout=slave, stderr=slave, env=environment, start_new_session=True
    )
    try:
        shown, end = "", time.monotonic() + 60
        while "Which one?" not in shown and time.monotonic() < end:
            if select.select([master], [], [], 0.1)[0]:
                shown += os.read(master, 65_536).decode("utf-8", "replace")
        assert termios.tcgetattr(slave)[3] != before[3]
        child.send_signal(number)
        assert child.wait(timeout=30) == 128 + number
        assert termios.tcgetattr(slave) == before
        assert not re.search("Traceback", shown)
    finally:
        if child.poll() is None:
            child.kill()
            child.wait()
        os.close(master)
        os.close(slave)
