"""`ringout locate` by keys, at a pseudo-terminal."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.session.terminal import ROOT, session


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "samples" / "parts", tmp_path / "parts")
    for name in ("hatch-plug-in", "estate-bus-amplifier"):
        shutil.copy(ROOT / "samples" / f"{name}.yaml", tmp_path)
    return tmp_path


def test_by_keys_back_and_stop(bay: Path) -> None:
    """Symptom and speaker by number, an answer, back, another answer, stop: what is known is said."""
    shown = session(bay, "locate", "hatch-plug-in.yaml", keys="1|1|1|1|-|2|.")
    assert shown.code == 0, shown.text
    assert "Stopped after 1 test" in shown.text
    assert "Traceback" not in shown.text


def test_end_of_input_and_ctrl_c(bay: Path) -> None:
    for end, code in (("\x04", 0), ("\x03", 130)):
        shown = session(bay, "locate", "hatch-plug-in.yaml", "--symptom", "FL silent", keys=f"1|{end}")
        assert shown.code == code, shown.text
        assert "Traceback" not in shown.text
