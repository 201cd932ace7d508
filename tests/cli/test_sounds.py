"""`ringout sounds`: what it leaves in the folder."""

from __future__ import annotations

import json
from pathlib import Path


def _held(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_sounds(ringout, tmp_path: Path) -> None:
    """Ten files and the sheet; the caution about DC comes first; again gives the same bytes."""
    answer = ringout("sounds", "-o", "out")
    first = _held(tmp_path / "out")

    assert answer.code == 0
    assert answer.out.startswith("Measure DC first")
    assert len([name for name in first if name.endswith(".wav")]) == 10
    assert "read-this-first.txt" in first
    assert len(first) == 11
    ringout("sounds", "-o", "out")
    assert _held(tmp_path / "out") == first


def test_json(ringout, tmp_path: Path) -> None:
    answer = ringout("sounds", "-o", "out", "--json", "--side", "left", "--level", "-30")
    told = json.loads(answer.out)

    assert [Path(row["file"]).is_file() for row in told["files"]] == [True] * 10
    assert {row["level_dbfs"] for row in told["files"]} == {-50, -30}
    assert told["cautions"][0].startswith("Measure DC first")


def test_refused(ringout, tmp_path: Path) -> None:
    """Nothing is written."""
    loud = ringout("sounds", "-o", "out", "--level", "-3")
    (tmp_path / "file").write_text("", encoding="utf-8")
    file = ringout("sounds", "-o", "file")

    assert (loud.code, file.code) == (2, 2)
    assert "--level -3" in loud.err
    assert "-40 and -12" in loud.err
    assert "file is a file" in file.err
    assert not (tmp_path / "out").exists()
