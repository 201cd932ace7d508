"""Joints by the names that the paper gives them: their boxes on the splice list, as built, and what they rest on.

The job of tests/session/hazel.py has five joints, numbered in the order written: J1 T1.unit.FL to amp.in1, J2
T1.unit.FR to amp.in2, J3 T1.car.FL to amp.out1, J4 T1.car.FR to amp.out2, J5 T1.unit.AMP-ON to amp.rem.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from harness.prove import prove
from render.documents import documents
from render.documents.masthead import masthead
from render.writers.text import write_text
from tests.cli.conftest import Answer
from tests.session.hazel import JOB

Ringout = Callable[..., Answer]
Record = Callable[..., Answer]
BOXES = "[ ] made [ ] tugged"
FIRST = "    T1.unit.FL: amp.in1\n"


@pytest.fixture
def record(ringout: Ringout, tmp_path: Path) -> Record:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    return lambda *words: ringout("record", "job.yaml", "--by", "RK", "--when", "2026-03-02 09:40", *words)


@pytest.fixture
def rows(tmp_path: Path) -> Callable[[str], dict[str, str]]:
    """The words of each joint's rows on a sheet, by its name."""

    def ask(sheet: str) -> dict[str, str]:
        proof = prove(tmp_path / "job.yaml")
        (kind,) = (each for each in documents() if each.name == sheet)
        text = write_text(list(kind.sheets(proof)), masthead(proof))
        made: dict[str, str] = {}
        for block in text.split("\n\n"):
            words = " ".join(block.split())
            for name in ("J1", "J2", "J3", "J4", "J5"):
                if f" {name} " in f" {words} " and "--" not in words.rpartition(f" {name} ")[2]:
                    made[name] = words[words.rindex(name) :]
        return made

    return ask


def _contrary(ringout: Ringout) -> list[str]:
    told: list[str] = json.loads(ringout("check", "job.yaml", "--json").out)["open"]["contrary"]
    return told


def test_boxes_of_the_splice_list(record: Record, rows: Callable[[str], dict[str, str]]) -> None:
    assert [record(*each).code for each in (("built:", "J1"), ("checked:", "j1"), ("built: J3", "is: made"))] == [0] * 3
    found = rows("splice-list")
    assert "made RK 2026-03-02" in found["J1"]
    assert "tugged RK 2026-03-02" in found["J1"]
    assert "[ ]" not in found["J1"]
    assert "made RK 2026-03-02" in found["J3"]
    assert "[ ] tugged" in found["J3"]
    assert "[ ] made" in found["J2"] or BOXES in found["J2"]
    assert "RK" not in found["J2"]


def test_as_built(record: Record, rows: Callable[[str], dict[str, str]]) -> None:
    for words in (("built: J1",), ("checked: J1", "found: tug"), ("built: J2", "is: not made")):
        record(*words)
    found = rows("as-built")
    assert ("made, tugged" in found["J1"], "as planned" in found["J1"]) == (True, True)
    assert ("not made" in found["J2"], "DIFFERS" in found["J2"]) == (True, True)
    assert "J3" not in found


def test_left_out_is_told(ringout: Ringout, record: Record) -> None:
    record("built: J2", "is: not made")
    assert "FIX J26" in ringout("check", "job.yaml").out


def test_one_found_loose_speaks_against_the_plan(
    ringout: Ringout, record: Record, rows: Callable[[str], dict[str, str]]
) -> None:
    record("built: J1")
    assert _contrary(ringout) == []
    record("checked: J1", "found: loose")
    assert _contrary(ringout) == ["joint J1: found loose, planned holding when tugged"]
    assert "loose RK" in rows("splice-list")["J1"]
    record("checked: J1", "found: holds now")
    assert _contrary(ringout) == []
    record("checked: J1", "found: tug pulled it out")
    assert _contrary(ringout) == ["joint J1: found tug pulled it out, planned holding when tugged"]


def test_made_anew_it_wants_another_look(record: Record, rows: Callable[[str], dict[str, str]]) -> None:
    for words in (("built: J1",), ("checked: J1",), ("built: J1",)):
        record(*words)
    assert "[ ] tugged" in rows("splice-list")["J1"]


def test_an_end_changed_since(record: Record, rows: Callable[[str], dict[str, str]]) -> None:
    record("built: J3")
    record("built: T1.car.1/7", "is: capped")
    row = rows("splice-list")["J3"]
    assert "made RK" not in row
    assert "capped (RK" in row
    record("built: J3")
    assert "made RK" in rows("splice-list")["J3"]


def test_another_row_before_it_makes_it_stale(
    ringout: Ringout, record: Record, rows: Callable[[str], dict[str, str]], tmp_path: Path
) -> None:
    """With the first row gone, J1 is what was J2: nobody said that it was made."""
    record("built: J1")
    job = tmp_path / "job.yaml"
    job.write_text(job.read_text(encoding="utf-8").replace(FIRST, ""), encoding="utf-8")
    assert "RK" not in rows("splice-list")["J1"]
    said = " ".join(ringout("check", "job.yaml").out.split())
    assert "the joint of that name now joins T1.unit.2 to amp.in2+, joins T1.unit.8 to amp.in2-" in said


def test_struck(record: Record, rows: Callable[[str], dict[str, str]]) -> None:
    record("built: J1")
    record("strike", "last", "reason: was J2", "--yes")
    assert "RK" not in rows("splice-list")["J1"]


@pytest.mark.parametrize(
    ("words", "note"), [("nicely done", True), ("capped", False), ("joined to amp.out1", False), ("FL", False)]
)
def test_words_of_its_own_are_said_not_to_be_compared(words: str, note: bool, record: Record) -> None:
    answer = record("built: T1.car.FL", f"is: {words}")
    assert answer.code == 0
    assert ("is in words of its own" in answer.out) is note
