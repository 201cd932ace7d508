"""At a terminal `ringout record` asks for what a record lacks; elsewhere one line shows what to type.

Expected words are read off the job in tests/session/hazel.py by hand, and off the README's table of verbs.
"""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tests.session.hazel import JOB

if sys.platform == "win32":
    pytest.skip("no pseudo-terminal there", allow_module_level=True)

from tests.session.terminal import Shown, session

CTRL_C = "\x03"


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    return tmp_path


def _record(bay: Path, *words: str, keys: str) -> tuple[Shown, str]:
    """What was shown, and the evidence file."""
    shown = session(bay, "record", "job.yaml", *words, keys=keys)
    path = bay / "job.evidence.yaml"
    return shown, path.read_text(encoding="utf-8") if path.exists() else ""


def test_all_that_is_missing_is_asked_for(bay: Path) -> None:
    shown, written = _record(bay, "tone:", "dash.car.1/7", "heard:", "FL", "plus:", "1", keys="RK\n|dash\n")
    assert shown.code == 0, shown.text
    assert "Who says it?" in shown.text
    assert "unplugged (the plugs or units parted while it was toned, or none)" in shown.text
    assert "by: RK, tone: dash.car.1/7" in written
    assert "unplugged: dash" in written


def test_a_wrong_answer_is_asked_again(bay: Path) -> None:
    shown, written = _record(bay, "--by", "RK", "volts: amp.rem", "reads: 12.1 V", keys="maybe\n|acc\n")
    assert shown.code == 0, shown.text
    assert "“maybe” is not a state of the key" in shown.text
    assert "key: accessory" in written


def test_nothing_given_at_all(bay: Path) -> None:
    shown, written = _record(bay, keys="seen\n|seen: dash.car.1 colour: WH\n|RK\n")
    assert shown.code == 0, shown.text
    assert "by: RK, seen: dash.car.1" in written


@pytest.mark.parametrize("keys", [f"RK\n|{CTRL_C}", CTRL_C, "RK\n|dash|" + CTRL_C])
def test_ctrl_c_ends_it_and_nothing_is_written(bay: Path, keys: str) -> None:
    shown, written = _record(bay, "tone: dash.car.1/7", "heard: FL", "plus: 1", keys=keys)
    assert (shown.code, written) == (130, ""), shown.text


def test_no_answer_is_refused(bay: Path) -> None:
    shown, written = _record(bay, "--by", "RK", "handover: paused", "done: front", keys="rear\n|\n|\n")
    assert (shown.code, written) == (2, ""), shown.text
    assert "Missing with “handover: paused”: parts, odd." in shown.text


@pytest.mark.parametrize(
    ("answer", "struck"), [("yes\n", True), ("perhaps\n|y\n", True), ("no\n", False), ("\n", False)]
)
def test_strike_asks_first(bay: Path, answer: str, struck: bool) -> None:
    (bay / "job.evidence.yaml").write_text("- {when: 2026-03-02 09:40, by: JM, handover: taken}\n", encoding="utf-8")
    shown, written = _record(bay, "--by", "RK", "strike", "last", keys=f"slip\n|{answer}")
    assert "Strike it? yes or no" in shown.text
    assert ("struck: 1, was: handover taken, reason: slip" in written) is struck, shown.text
    assert shown.code == (0 if struck else 2)
