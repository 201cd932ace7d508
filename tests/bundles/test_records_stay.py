"""What is in an evidence file stays there, whoever takes what in, and whenever."""

from __future__ import annotations

import hashlib
import io
import json
import sys
import threading
import time
import zipfile
from pathlib import Path

import pytest

from harness.bundles import laying
from harness.bundles.arrival import NotTaken, arrive
from harness.bundles.laying import lay
from harness.records.append import append

FIRST = b"- {by: RK, handover: paused}\n"
COMES = {"hazel.yaml": b"a: 1\n", "hazel.evidence.yaml": FIRST + b"- {by: RK, handover: taken}\n"}


def _bundle(files: list[tuple[str, str, bytes]]) -> bytes:
    listed = [
        {"path": path, "kind": kind, "size": len(data), "sha256": hashlib.sha256(data).hexdigest()}
        for path, kind, data in files
    ]
    whole = {"ringout-bundle": 1, "job": "hazel.yaml", "title": "t", "files": listed}
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as archive:
        archive.writestr("ringout-bundle.json", json.dumps(whole))
        for path, _, data in files:
            archive.writestr(path, data)
    return held.getvalue()


@pytest.mark.parametrize("there", [FIRST, None])
def test_a_record_added_while_the_files_are_written(
    there: bytes | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It was acknowledged after the first look: nothing is laid down, and it is there."""
    path = tmp_path / "hazel.evidence.yaml"
    if there is not None:
        path.write_bytes(there)
    write = laying._write

    def slow(at: Path, data: bytes) -> None:
        write(at, data)
        if at.name == "hazel.yaml":
            append(path, [("by", "MID"), ("handover", "paused")])

    monkeypatch.setattr(laying, "_write", slow)
    with pytest.raises((NotTaken, FileExistsError)):
        lay(COMES, tmp_path, replace=True, records="hazel.evidence.yaml")
    raw = path.read_bytes()
    assert raw.startswith(there or b"")
    assert b"by: MID" in raw
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


@pytest.mark.skipif(sys.platform == "win32", reason="an open file can't be renamed over there")
@pytest.mark.parametrize("fails", [False, True])
@pytest.mark.parametrize("there", [FIRST, None])
def test_a_record_added_while_they_are_laid(
    there: bytes | None, fails: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever adds meanwhile waits, and what is acknowledged stands in the file that is there in the end."""
    path = tmp_path / "hazel.evidence.yaml"
    if there is not None:
        path.write_bytes(there)
    done: list[int] = []
    adding: list[threading.Thread] = []
    sync = laying.sync_names

    def add() -> None:
        append(path, [("by", "MID"), ("handover", "paused")])
        done.append(1)

    def slow(folder: str) -> None:
        if Path(folder) == tmp_path:  # all of it stands in its place here
            assert path.read_bytes() == COMES["hazel.evidence.yaml"]
            adding.append(threading.Thread(target=add))
            adding[0].start()
            time.sleep(0.3)
            assert not done
            if fails:
                raise OSError(5, "the disk is broken")
        sync(folder)

    monkeypatch.setattr(laying, "sync_names", slow)
    if fails:
        with pytest.raises(OSError, match="broken"):
            lay(COMES, tmp_path, replace=True, records="hazel.evidence.yaml")
    else:
        lay(COMES, tmp_path, replace=True, records="hazel.evidence.yaml")
    adding[0].join(30)
    assert done == [1]
    before = (there or b"") if fails else COMES["hazel.evidence.yaml"]
    raw = path.read_bytes()
    assert raw.startswith(before)
    assert raw[len(before) :].startswith(b"- {by: MID, handover: paused, seal: ")


@pytest.mark.parametrize("name", ["larch.evidence.yaml", "Larch.EVIDENCE.yaml", "deep/x.evidence.yaml"])
@pytest.mark.parametrize("kind", ["settings", "part"])
def test_nothing_else_comes_under_the_name_of_records(name: str, kind: str) -> None:
    with pytest.raises(NotTaken, match="would be a job's records"):
        arrive(_bundle([("hazel.yaml", "job", b"a: 1\n"), (name, kind, b"x\n")]))


def test_another_jobs_records_dont_give_way(tmp_path: Path) -> None:
    path = tmp_path / "larch.evidence.yaml"
    path.write_bytes(FIRST)
    with pytest.raises(NotTaken, match="would be lost"):
        lay({"larch.evidence.yaml": b"x\n"}, tmp_path, replace=True, records="hazel.evidence.yaml")
    assert path.read_bytes() == FIRST


def test_a_photo_that_was_recorded_doesnt_give_way(tmp_path: Path) -> None:
    """One that was changed since does: its name says the first 16 hex digits of its SHA-256 (FIPS 180-4)."""
    photo = b"\x89PNG\r\n\x1a\n"
    name = f"larch.photos/{hashlib.sha256(photo).hexdigest()[:16]}.png"
    path = tmp_path / name
    path.parent.mkdir()
    path.write_bytes(photo)
    with pytest.raises(NotTaken, match="is the one that was recorded"):
        lay({name: b"another"}, tmp_path, replace=True)
    assert path.read_bytes() == photo
    path.write_bytes(b"changed")
    assert lay({name: photo}, tmp_path, replace=True).replaced == (name,)
