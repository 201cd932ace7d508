"""Where something may be written: never a pipe, a device or a job's records, and nothing that goes on for ever."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

JOB = "ringout: 1\ntitle: A job\nunits:\n  radio: {kind: radio}\n"
CHART = "pin,function\n1,FL+\n2,FL-\n"
RECORD = "- {when: 2026-02-12 09:40, by: RK, seen: radio, shows: on}\n"


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    (tmp_path / "hazel.yaml").write_text(JOB, encoding="utf-8")
    (tmp_path / "c.csv").write_text(CHART, encoding="utf-8")
    (tmp_path / "larch.evidence.yaml").write_text(RECORD, encoding="utf-8")
    return tmp_path


def run(where: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """In a process of its own: one that hangs is ended, and the test fails."""
    command = [sys.executable, "-c", "import sys; from harness.cli import main; sys.exit(main())", *words]
    return subprocess.run(command, cwd=where, capture_output=True, text=True, stdin=subprocess.DEVNULL, timeout=60)


@pytest.mark.skipif(sys.platform == "win32", reason="no pipes by name there")
@pytest.mark.parametrize("more", [(), ("--replace",)])
@pytest.mark.parametrize("words", [("bundle", "hazel.yaml"), ("chart", "c.csv")])
def test_a_pipe_stays_one_and_isnt_read(bay: Path, words: tuple[str, ...], more: tuple[str, ...]) -> None:
    os.mkfifo(bay / "ff")
    for name in ("ff", os.devnull):
        done = run(bay, *words, "-o", name, *more)
        assert (done.returncode, "no ordinary file" in done.stderr) == (2, True), done
    assert not (bay / "ff").is_file()


@pytest.mark.parametrize("name", ["larch.evidence.yaml", "Larch.EVIDENCE.Yaml", "new.evidence.yaml"])
@pytest.mark.parametrize(
    "words",
    [("bundle", "hazel.yaml", "--replace"), ("chart", "c.csv", "--replace"), ("again", "hazel.yaml", "--car", "X")],
)
def test_records_are_nothings_target(ringout, bay: Path, words: tuple[str, ...], name: str) -> None:
    """The name alone decides, in any capitals, since some systems take those for the same file."""
    before = sorted(os.listdir(bay))
    answer = ringout(*words, "-o", name)

    assert answer.code == 2
    assert "records" in answer.err
    assert sorted(os.listdir(bay)) == before
    assert (bay / "larch.evidence.yaml").read_text(encoding="utf-8") == RECORD


@pytest.mark.parametrize(
    ("old", "new"),
    [(".yaml", ".yaml-2"), ("jobs.d/hazel", "jobs.d/hazel-2"), ("hazel.", "hazel-2."), ("a.b.yaml", "a.b-2.yaml")],
)
def test_the_next_car_of_a_job_without_ending(bay: Path, old: str, new: str) -> None:
    (bay / "jobs.d").mkdir()
    os.rename(bay / "hazel.yaml", bay / old)
    assert run(bay, "record", old, "--by", "RK", "handover: taken", "odd: nothing").returncode == 0
    done = run(bay, "again", old, "--car", "X")
    assert done.returncode == 0, done
    assert (bay / new).is_file()


def test_records_dont_travel_as_settings(ringout, bay: Path) -> None:
    text = "ringout: 1\ntitle: A job\nunits:\n  radio: {kind: radio, settings: larch.evidence.yaml}\n"
    (bay / "hazel.yaml").write_text(text, encoding="utf-8")
    answer = ringout("bundle", "hazel.yaml", "-o", "h.zip")

    assert answer.code == 2
    assert "larch.evidence.yaml can't travel as settings" in answer.err
    assert not (bay / "h.zip").exists()


def test_a_name_like_an_option_is_told_as_a_path(ringout, bay: Path) -> None:
    os.rename(bay / "hazel.yaml", bay / "-rf.yaml")
    assert ringout("bundle", "./-rf.yaml", "-o", "b.zip").code == 0
    answer = ringout("take", "b.zip")
    told = next(line for line in answer.out.splitlines() if line.startswith("Look at it"))

    assert told.endswith("ringout check ./-rf/-rf.yaml")
    assert ringout("check", told.split()[-1]).code == 0
