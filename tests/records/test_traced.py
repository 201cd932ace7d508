"""Acknowledged means on disk: traces of system calls, a kill and a fault at every one of them.

The order that must be seen is that of POSIX.1 `fsync` and of Linux' fsync(2): bytes are safe when `fsync` of the file
came back, a name when `fsync` of its folder did.
"""

from __future__ import annotations

import hashlib
import shutil
from pathlib import Path

import pytest

from harness.read.nodes import Rows, Table, read_text
from harness.read.troubles import Troubles
from harness.records.append import append, without_torn
from harness.records.seal import broken
from tests.records.children import PNG
from tests.records.tracing import Call, Run, of_the_append, to_the_acknowledgement, traced

OLD = b"- {by: me, tone: dash.1/2}\n- {by: JM, ton"
STARTS = ["first", "torn", "photo"]  # a new file; behind a half line; a new file and a photo


def _start(folder: Path, start: str) -> tuple[Path, tuple[Path, ...]]:
    """The evidence file as it is before the append, and the photos that go with it."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    path = folder / "e.evidence.yaml"
    if start == "torn":
        path.write_bytes(OLD)
    photo = folder / "p.png"
    photo.write_bytes(PNG + b"picture")
    return path, (photo,) if start == "photo" else ()


def _changing(run: Run) -> list[tuple[str, str]]:
    """What matters of a run: each call that puts something on the disk, with the file it is about."""
    return [
        (call.name, call.file)
        for call in to_the_acknowledgement(run)
        if call.name in ("write", "fsync", "rename", "renameat2", "mkdir", "flock", "ftruncate", "unlink", "pwrite64")
        or "O_TRUNC" in call.words
    ]


def test_trace_of_the_first_record(tmp_path: Path) -> None:
    path, _ = _start(tmp_path / "car", "first")
    run = traced(path)
    assert run.said == "recorded 1\n"
    assert [(name, file.partition(":")[0]) for name, file in _changing(run)] == [
        ("flock", "e.evidence.yaml"), ("write", "e.evidence.yaml"), ("fsync", "e.evidence.yaml"),
        ("fsync", "car"), ("write", "pipe"),
    ]  # fmt: skip
    opened = [call.words for call in of_the_append(run) if call.name == "openat" and "e.evidence" in call.words]
    assert len(opened) == 1
    assert all(flag in opened[0] for flag in ("O_RDWR", "O_APPEND", "O_CREAT"))
    assert all(call.answer == "0" for call in of_the_append(run) if call.name in ("fsync", "flock"))


def test_trace_of_a_later_record(tmp_path: Path) -> None:
    """One write for the end of the half line and the new one; read under the lock."""
    path, _ = _start(tmp_path / "car", "torn")
    run = traced(path)
    assert run.said == "recorded 3\n"
    assert [(name, file.partition(":")[0]) for name, file in _changing(run)] == [
        ("flock", "e.evidence.yaml"), ("write", "e.evidence.yaml"), ("fsync", "e.evidence.yaml"),
        ("fsync", "car"), ("write", "pipe"),
    ]  # fmt: skip
    names = [call.name for call in of_the_append(run) if call.file == "e.evidence.yaml"]
    assert names.index("flock") < names.index("read") < names.index("write")
    assert names.count("flock") == 1, "held until the file is closed"
    assert names[-1] == "close"
    assert path.read_bytes().startswith(OLD + b" #torn\n- {by: JM, tone: dash.car.1/11, ")


def test_trace_of_a_photo(tmp_path: Path) -> None:
    """Its bytes, its name and its folder's name are on the disk before the line that names it is written."""
    path, photos = _start(tmp_path / "car", "photo")
    run = traced(path, *photos)
    assert run.said == "recorded 1\n"
    name = f"{hashlib.sha256(PNG + b'picture').hexdigest()[:16]}.png"
    # openat's first argument is the working folder
    kept = [(call, "part" if call == "openat" else file.partition(":")[0]) for call, file in _changing(run)]
    assert kept == [
        ("flock", "e.evidence.yaml"), ("mkdir", "e.photos"), ("fsync", "car"), ("openat", "part"),
        ("write", f"{name}.part"), ("fsync", f"{name}.part"), ("rename", f"{name}.part"), ("fsync", "e.photos"),
        ("write", "e.evidence.yaml"), ("fsync", "e.evidence.yaml"), ("fsync", "car"), ("write", "pipe"),
    ]  # fmt: skip


def _read(path: Path) -> list[list[str]]:
    """Keys of every record as the job's reader sees it; a word from it fails. Photos named are there and whole."""
    text = path.read_text(encoding="utf-8")
    assert broken(text.split("\n")) == []
    troubles = Troubles()
    root = read_text(without_torn(text)[0], "x.yaml", troubles)
    assert not list(troubles.findings)
    assert isinstance(root, Rows)
    keys = []
    for record in root:
        assert isinstance(record, Table)
        keys.append([key.value for key, _ in record])
        photo = record.get("photo")
        if photo is not None:
            raw = (path.parent / photo.value).read_bytes()  # type: ignore[union-attr]
            assert hashlib.sha256(raw).hexdigest().startswith(Path(photo.value).stem)  # type: ignore[union-attr]
    return keys


def _goes_on(path: Path, old: bytes, photos: tuple[Path, ...]) -> None:
    """Old bytes are a prefix of what is there, and the next record goes in behind it."""
    now = path.read_bytes() if path.exists() else b""
    assert now.startswith(old)
    before = len(_read(path)) if now.strip(b"\n") and old else now.count(b"\n")
    append(path, [("by", "RK"), ("last", "yes")], photos)
    assert path.read_bytes().startswith(now)
    records = _read(path)
    assert "last" in records[-1]
    assert len(records) == before + 1


@pytest.mark.parametrize("start", STARTS)
def test_killed_at_every_call(start: str, tmp_path: Path) -> None:
    """Killed on entering each call from the append's first to the acknowledgement's: after each one before it."""
    path, photos = _start(tmp_path / "car", start)
    old = path.read_bytes() if path.exists() else b""
    traced(path, *photos)  # the first run may write what Python keeps of modules
    _start(tmp_path / "car", start)
    calls = to_the_acknowledgement(traced(path, *photos))
    assert len(calls) > 12
    seen_line = 0
    for at, call in enumerate(calls):
        _start(tmp_path / "car", start)
        run = traced(path, *photos, inject=f"{call.name}:signal=SIGKILL:when={call.ordinal}")
        assert run.killed
        assert [each.name for each in run.calls] == [each.name for each in calls[: at + 1]], "another call was meant"
        assert run.said == "", "nothing was promised"
        seen_line += b"car.1/11" in path.read_bytes() if path.exists() else 0
        _goes_on(path, old, photos)
    assert 3 <= seen_line < len(calls), "some kills came after the write and some before"


def _must_fail(call: Call) -> bool:
    """Calls without which nobody may promise anything."""
    return call.name in ("flock", "write", "fsync", "mkdir", "rename") or (
        call.name in ("openat", "read") and not call.file.endswith(".png") and "ENOENT" not in call.words
    )


@pytest.mark.parametrize("start", STARTS)
def test_every_call_fails_once(start: str, tmp_path: Path) -> None:
    """No space, or an input/output error, at each call: no promise, no traceback, and the next record goes in."""
    path, photos = _start(tmp_path / "car", start)
    old = path.read_bytes() if path.exists() else b""
    traced(path, *photos)
    _start(tmp_path / "car", start)
    calls = of_the_append(traced(path, *photos))
    refused = 0
    for call in calls:
        _start(tmp_path / "car", start)
        error = "ENOSPC" if call.name in ("write", "mkdir") or "O_CREAT" in call.words else "EIO"
        run = traced(path, *photos, inject=f"{call.name}:error={error}:when={call.ordinal}")
        what = f"{call.name}({call.words}): {run.said}"
        if _must_fail(call):
            assert run.said.startswith("not recorded: "), what
            assert ("no space left" if error == "ENOSPC" else "input/output error") in run.said, what
            refused += 1
        if run.said.startswith("recorded"):
            assert b"car.1/11" in path.read_bytes(), what
            assert run.said == f"recorded {path.read_bytes().count(bytes([10]))}\n", what
        else:
            assert run.said.startswith("not recorded: "), what
            assert ("may stand" in run.said) == (path.exists() and b"car.1/11" in path.read_bytes()), what
        assert list(path.parent.rglob("*.part")) == [], what
        _goes_on(path, old, photos)
    assert refused >= 7


def test_a_folder_that_knows_no_sync(tmp_path: Path) -> None:
    """Such a file system answers EINVAL for the folder, which is passed over; for the file it is no promise."""
    path, _ = _start(tmp_path / "car", "first")
    assert traced(path, inject="fsync:error=EINVAL:when=2").said == "recorded 1\n"
    assert traced(path, inject="fsync:error=EINVAL:when=1").said.startswith("not recorded: invalid argument")
    assert traced(path, inject="fsync:error=EIO:when=2").said.startswith("not recorded: input/output error")


def test_a_disk_that_takes_nothing_at_all(tmp_path: Path) -> None:
    """`write` answering 0 for ever would be an endless loop."""
    path, _ = _start(tmp_path / "car", "first")
    said = traced(path, inject="write:retval=0:when=1").said
    assert said == "not recorded: the disk takes no more bytes\n"
    assert path.read_bytes() == b""
