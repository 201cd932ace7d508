"""Runs and plug ends by the names that the splice list prints beside their boxes. By hand from tests/session/hazel.py:
RUN 1 battery to amp.B+, RUN 2 amp.GND to ground; T1 has a unit end and a car end to mate.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from harness.prove import prove
from render.documents import documents
from render.documents.masthead import masthead
from render.writers.text import write_text
from tests.cli.conftest import Answer
from tests.session.hazel import JOB

Ringout = Callable[..., Answer]
Record = Callable[..., Answer]


@pytest.fixture
def record(ringout: Ringout, tmp_path: Path) -> Record:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    return lambda *words: ringout("record", "job.yaml", "--by", "RK", "--when", "2026-03-02 09:40", *words)


def sheet(folder: Path, name: str) -> str:
    """A sheet's words, one blank between each."""
    proof = prove(folder / "job.yaml")
    (kind,) = (each for each in documents() if each.name == name)
    return " ".join(write_text(list(kind.sheets(proof)), masthead(proof)).split())


def of_run(text: str, name: str) -> str:
    """The words of a run's row, up to the next one or the end of the table."""
    return text[text.rindex(name) :].split("RUN 2" if name == "RUN 1" else "How each joint")[0]


def test_the_boxes_fill(record: Record, tmp_path: Path) -> None:
    before = sheet(tmp_path, "splice-list")
    assert "[ ] laid" in of_run(before, "RUN 1")
    assert before.count("[ ] seated") == before.count("[ ] latched") == 2
    for words in (("built:", "RUN", "1"), ("built: run 2", "is: not laid"), ("checked: T1 unit end",),
                  ("checked:", "T1", "car", "end", "found:", "seated")):  # fmt: skip
        assert record(*words).code == 0
    after = sheet(tmp_path, "splice-list")
    assert "laid RK" in of_run(after, "RUN 1")
    assert "NOT laid" in of_run(after, "RUN 2")
    assert after.count("[ ] seated") == 0
    assert after.count("[ ] latched") == 1  # of the car end, only seated was seen
    (also,) = (kind for kind in documents() if kind.name == "also-recorded")
    assert not list(also.sheets(prove(tmp_path / "job.yaml")))


def test_a_name_that_is_not_printed_is_refused(record: Record, tmp_path: Path) -> None:
    for words in (("built: RUN 9",), ("checked: T2 car end",), ("built: RUN 1", "is: fine"), ("checked: RUN 1",),
                  ("checked: T1 car end", "found: shiny")):  # fmt: skip
        answer = record(*words)
        assert answer.code == 2, words
        assert "nothing was recorded" in answer.err
    assert not (tmp_path / "job.evidence.yaml").exists()


def test_a_run_of_that_name_that_is_another_one_now_is_not_ticked(record: Record, tmp_path: Path) -> None:
    """A run written before the first makes that RUN 1: what was laid is RUN 2 now, and what wasn't RUN 3."""
    record("built: RUN 1")
    (fact,) = (each["fact"] for each in yaml.load((tmp_path / "job.evidence.yaml").read_text(), Loader=yaml.BaseLoader))
    assert fact == "lays battery.+ to amp.B+"
    job = JOB.replace("runs:\n", "runs:\n  - amp.rem > 2 m 18 AWG > gnd.G1\n")
    (tmp_path / "job.yaml").write_text(job, encoding="utf-8")
    paper = sheet(tmp_path, "splice-list")
    assert "[ ] laid" in of_run(paper, "RUN 1")
    assert "laid RK" in paper[paper.rindex("RUN 2") : paper.rindex("RUN 3")]
    record("built: RUN 3", "is: not laid")
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")
    (told,) = (each for each in prove(tmp_path / "job.yaml").report.findings if each.code == "J31")
    assert told.places[0].name == "RUN 2"
    (tmp_path / "job.yaml").write_text(JOB.replace("  - amp.GND > 18 in 8 AWG > gnd.G1\n", ""), encoding="utf-8")
    assert "J31" not in {each.code for each in prove(tmp_path / "job.yaml").report.findings}


@pytest.mark.parametrize(("word", "code"), [("turned", 0), ("as marked", 0), ("upside down", 2)])
def test_how_a_speakers_leads_lie(record: Record, word: str, code: int) -> None:
    assert record("polarity: spk.FL", f"found: {word}").code == code


def test_turned_stands_on_three_sheets(record: Record, tmp_path: Path) -> None:
    record("polarity: spk.FL", "found: turned", "how: seen at the speaker")
    assert "NOT turned back by the plan" in sheet(tmp_path, "as-built")
    (tmp_path / "job.yaml").write_text(JOB.replace("T1.car.FL: amp.out1", "T1.car.FL: amp.out1 reversed"))
    assert "turned back at joint J3" in sheet(tmp_path, "as-built")
    assert "as FL is turned" in sheet(tmp_path, "splice-list")
    words = sheet(tmp_path, "toning").split()  # three pairs, cell + on +: of FL the cone goes in
    assert [word for word in words if word in ("IN", "OUT")].count("IN") == 1


@pytest.mark.parametrize(("found", "code"), [("not seated", ["J28"]), ("not latched", ["J28"]), ("seated latched", [])])
def test_a_plug_end_that_does_not_sit_is_told(found: str, code: list[str], record: Record, tmp_path: Path) -> None:
    assert record("checked: T1 car end", f"found: {found}").code == 0
    report = prove(tmp_path / "job.yaml").report
    assert [each.code for each in report.findings if each.code[0] == "J"] == code


def test_a_run_that_lies_turned_at_a_new_speaker(record: Record, tmp_path: Path) -> None:
    """A box that only a run of ours feeds: its leads turned are the run's, until the run is written as reversed."""
    end = "  - amp.GND > 18 in 8 AWG > gnd.G1\n"
    job = JOB.replace("outputs: {out1..2: 60", "outputs: {out1..3: 60").replace(
        "out2: in2}", "out2: in2, out3: in1 + in2}"
    )
    doors = "  FL FR RL: {place: doors, nominal: 4 ohm}\n"
    job = job.replace(doors, f"{doors}  SUB: {{place: boot, nominal: 4 ohm, new: a box}}\n")
    job = job.replace("lacks: [SUB, C]", "lacks: [C]")
    path = tmp_path / "job.yaml"
    for how, words, codes in (
        ("", "NOT turned back by the plan", ["B01"]),
        (" reversed", "comes out right by the plan", []),
    ):
        path.write_text(job.replace(end, f"{end}  - amp.out3 > 9 ft 12 AWG > spk.SUB{how}\n"), encoding="utf-8")
        if not how:
            assert record("polarity: spk.SUB", "found: turned").code == 0
        assert [each.code for each in prove(path).report.findings if each.code[0] == "B"] == codes
        assert words in sheet(tmp_path, "as-built")


@pytest.mark.parametrize(("what", "kind"), [("amp", "unit"), ("dash", "plug"), ("T1", "loom"), ("G1", "ground point")])
def test_a_look_at_a_whole_thing_is_offered_as_seen(what: str, kind: str, record: Record, tmp_path: Path) -> None:
    """It has no contact to be checked; as offered it is recorded, and `rusty` is something wrong (J28)."""
    answer = record(f"checked: {what}", "found: rusty")
    assert answer.code == 2
    assert f'{what} is a whole {kind}; a look at it is: "seen: {what}" "shows: rusty"' in answer.err
    assert "There is no" not in answer.err
    assert record(f"seen: {what}", "shows: rusty").code == 0
    assert "J28" in {each.code for each in prove(tmp_path / "job.yaml").report.findings}


def test_a_look_at_a_run_is_offered_as_seen(record: Record) -> None:
    answer = record("checked: RUN 1", "found: chafed")
    assert 'a look at it is: "seen: RUN 1" "shows: chafed"' in answer.err
