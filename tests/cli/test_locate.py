"""`ringout locate` as a command: by options, by keys, and what it refuses."""

from __future__ import annotations

import json
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


def test_first_question_by_options(bay: Path, ringout) -> None:
    answer = ringout("locate", str(bay / "hatch-plug-in.yaml"), "--symptom", "FL silent")
    assert answer.code == 0
    assert "Taken as working: FR RL RR SUB." in answer.out
    assert "Test 1 (" in answer.out
    assert "common practice, no source" in answer.out


def test_one_place_in_the_end(bay: Path, ringout) -> None:
    """Answers given one by one until there is no test more; four at most for a dozen of places."""
    given: list[str] = []
    for _ in range(5):
        arguments = [word for each in given for word in ("--answer", each)]
        told = ringout("locate", str(bay / "hatch-plug-in.yaml"), "--symptom", "FL silent", "--json", *arguments)
        assert told.code == 0
        whole = json.loads(told.out)
        if whole["next"] is None:
            break
        given.append("1")
    assert whole["next"] is None
    assert len(given) <= 4
    assert len(whole["suspects"]) >= 1


def test_several_symptoms_put_what_they_share_first(bay: Path, ringout) -> None:
    """Both rears silent and the fronts right: no single lead does that; what is asked or suspected first is shared."""
    answer = ringout("locate", str(bay / "hatch-plug-in.yaml"), "--symptom", "FL FR RL RR SUB silent", "--json")
    assert answer.code == 0
    first = json.loads(answer.out)["suspects"][0]
    assert not any(channel in json.dumps(first) for channel in ("FL,", "FR,", "RL,", "RR,"))


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--symptom", "XX silent"), "XX"),
        (("--symptom", "FL purple"), "purple"),
        (("--symptom", "FL silent", "--answer", "maybe"), "maybe"),
        ((), "--symptom"),
    ],
)
def test_refused(bay: Path, ringout, arguments: tuple[str, ...], words: str) -> None:
    answer = ringout("locate", str(bay / "hatch-plug-in.yaml"), *arguments)
    assert answer.code == 2
    assert words in answer.err + answer.out
    assert "Traceback" not in answer.err + answer.out


def test_unreadable_job(tmp_path: Path, ringout) -> None:
    (tmp_path / "x.yaml").write_text("ringout: [1\n")
    assert ringout("locate", str(tmp_path / "x.yaml"), "--symptom", "FL silent").code == 2


def test_by_keys_back_and_stop(bay: Path) -> None:
    """Symptom and speaker by number, an answer, back, another answer, stop: what is known is said."""
    shown = session(bay, "locate", "hatch-plug-in.yaml", keys="1|1|1|1|-|2|.")
    assert shown.code == 0, shown.text
    assert "Stopped after 1 tests" in shown.text
    assert "Traceback" not in shown.text


def test_end_of_input_and_ctrl_c(bay: Path) -> None:
    for end, code in (("\x04", 0), ("\x03", 130)):
        shown = session(bay, "locate", "hatch-plug-in.yaml", "--symptom", "FL silent", keys=f"1|{end}")
        assert shown.code == code, shown.text
        assert "Traceback" not in shown.text
