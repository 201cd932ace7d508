"""`ringout packet`: what it writes and what it refuses."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path

import pytest

from harness.assets import folder
from harness.prove import Proof
from render import documents
from render.blocks import Sheet

SAMPLE = str(folder("samples") / "hatch-plug-in.yaml")


def test_writes_pdf_and_text(ringout, tmp_path: Path) -> None:
    """Exit code and verdict as for check; every file named is there."""
    checked = ringout("check", SAMPLE)
    answer = ringout("packet", SAMPLE, "-o", "paper/new")
    named = [Path(line.strip()) for line in answer.out.splitlines() if line.startswith("  ")]

    assert answer.code == checked.code
    assert answer.out.splitlines()[0] == checked.out.splitlines()[0]
    assert (tmp_path / "paper/new/packet.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "paper/new/packet.txt").read_text(encoding="utf-8").strip()
    assert named
    assert all(path.is_file() for path in named)


def test_unknown_sheet(ringout) -> None:
    answer = ringout("packet", SAMPLE, "-o", "paper", "--sheet", "wallpaper")

    assert answer.code == 2
    assert "wallpaper" in answer.err
    assert "a fault of ringout" not in answer.err


def test_a_sheet_with_nothing_on_it_writes_no_file(ringout, tmp_path: Path) -> None:
    """The sample has no records, so nobody read anything beyond the checklists; its cover is printed all the same."""
    answer = ringout("packet", SAMPLE, "-o", "paper", "--sheet", "also-recorded")

    assert "There is nothing to print on also-recorded in this job, so no file was written." in answer.out
    assert answer.code == ringout("check", SAMPLE).code
    assert not (tmp_path / "paper").exists()

    answer = ringout("packet", SAMPLE, "-o", "paper", "--sheet", "also-recorded", "--sheet", "cover")
    assert "There is nothing to print on also-recorded in this job.\n" in answer.out
    assert (tmp_path / "paper" / "packet.pdf").exists()


def test_each_sheet_is_made_once(ringout, monkeypatch: pytest.MonkeyPatch) -> None:
    """A sheet of a large job takes its time: named twice or alone, empty or not, it is asked for once."""
    asked: list[str] = []

    def counted(kind: documents.Document) -> documents.Document:
        def sheets(proof: Proof) -> Iterable[Sheet]:
            asked.append(kind.name)
            return kind.sheets(proof)

        return kind._replace(sheets=sheets)

    kinds = tuple(counted(kind) for kind in documents.documents())
    monkeypatch.setattr(documents, "documents", lambda: kinds)
    ringout("packet", SAMPLE, "-o", "one", "--sheet", "cover", "--sheet", "also-recorded", "--sheet", "cover")
    assert sorted(asked) == ["also-recorded", "cover"]
    asked.clear()
    ringout("packet", SAMPLE, "-o", "two", "--sheet", "also-recorded")
    assert asked == ["also-recorded"]


def test_unreadable_job_prints_nothing(ringout, tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("ringout: [1\n", encoding="utf-8")
    answer = ringout("packet", "job.yaml", "-o", "paper")

    assert answer.code == 2
    assert "no paper was printed" in answer.err
    assert not (tmp_path / "paper").exists()


@pytest.mark.parametrize("out", ["taken", os.path.join("taken", "below")])
def test_a_file_in_the_way(out: str, ringout, tmp_path: Path) -> None:
    """A file is never replaced by a folder."""
    (tmp_path / "taken").write_text("mine", encoding="utf-8")
    answer = ringout("packet", SAMPLE, "-o", out)

    assert answer.code == 2
    assert "is a file" in answer.err
    assert (tmp_path / "taken").read_text(encoding="utf-8") == "mine"


def test_a_folder_that_refuses(ringout, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same, whoever runs the test: one line that names the folder."""

    def refuse(self: Path, *_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", str(self))

    monkeypatch.setattr(Path, "mkdir", refuse)
    answer = ringout("packet", SAMPLE, "-o", "shut")

    assert (answer.code, answer.err) == (2, "ringout: shut: Permission denied\n")


@pytest.mark.parametrize("seconds", ["x", "-1", "1e9", "9" * 13, "253402300800"])
def test_a_date_of_the_paper_that_is_none(
    ringout, seconds: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """SOURCE_DATE_EPOCH, from the specification of reproducible-builds.org: an ASCII decimal of seconds."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", seconds)
    (tmp_path / "hazel.yaml").write_text("ringout: 1\ntitle: A job\n", encoding="utf-8")
    answer = ringout("packet", "hazel.yaml", "-o", "paper")

    assert (answer.code, "SOURCE_DATE_EPOCH" in answer.err, "fault of ringout" in answer.err) == (2, True, False)
    assert not (tmp_path / "paper").exists()
