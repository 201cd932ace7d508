"""What is acknowledged is on disk: by a trace of system calls, by killing, by full disks, by writers at once.

The order of write, fsync of the file and fsync of the folder is what a POSIX system asks of whoever wants a new file
to survive (fsync(2): the entry in the directory needs an fsync of its own).
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from harness.records.append import NotRecorded, append
from harness.records.seal import broken
from harness.records.torn import without_torn

ROOT = Path(__file__).parents[2]
LINE = [("when", "2026-03-02 09:40"), ("by", "JM"), ("seen", "dash.7"), ("colour", "GN/YE")]
OLD = "# records of the shop\n- {when: 2026-03-01 10:00, by: AK, seen: dash.99, colour: WH}\n"


def _strace() -> str:
    found = shutil.which("strace")
    if found is None and "CI" not in os.environ:
        pytest.skip("strace is not installed; CI installs it")
    assert found is not None, "CI must install strace: apt-get install strace"
    return found


def _child(*arguments: str, before: Sequence[str] = (), **more: object) -> subprocess.CompletedProcess[str]:
    command = [*before, sys.executable, "-m", "tests.records.child", *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60, check=False, **more)  # type: ignore[call-overload]


def _seen(path: Path) -> list[str]:
    """What the whole records of a file saw, in order."""
    text, _ = without_torn(path.read_text(encoding="utf-8"))
    return re.findall(r"^- \{.*seen: (dash\.[0-9]+).*\}$", text, re.MULTILINE)


# -- the order of system calls --------------------------------------------------------------------------------


def _calls(tmp_path: Path, path: Path, *photos: str) -> list[str]:
    """The calls on the evidence file, its folder and the photo's, and the acknowledgement, by names given here."""
    trace = tmp_path / "trace"
    answer = _child(
        str(path), "JM", "0", "1", *photos,
        before=[_strace(), "-f", "-y", "-e", "trace=openat,write,fsync,rename,close", "-o", str(trace)],
    )  # fmt: skip
    assert "ack JM 0" in answer.stdout, answer.stderr
    named = []
    for line in trace.read_text().splitlines():
        call = re.search(r"(write|fsync)\([0-9]+<([^>]*)>(.*)", line)
        moved = re.search(r'rename\("[^"]*", "([^"]*)"\)', line)
        if moved and str(path.parent) in moved[1]:
            named.append("photo renamed")
        if not call:
            continue
        where = call[2]
        if where == str(path):
            named.append(f"{call[1]} file")
        elif where == str(path.parent):
            named.append(f"{call[1]} folder")
        elif where.startswith(f"{path.parent}/larch.photos"):
            named.append(f"{call[1]} {'photo' if '/.ringout-' in where else 'photo folder'}")
        elif "ack JM 0" in call[3]:
            named.append("acknowledged")
    return named


def test_trace_of_the_first_record(tmp_path: Path) -> None:
    assert _calls(tmp_path, tmp_path / "larch.evidence.yaml") == [
        "write file",
        "fsync file",
        "fsync folder",
        "acknowledged",
    ]


def test_trace_of_a_later_record(tmp_path: Path) -> None:
    path = tmp_path / "larch.evidence.yaml"
    path.write_text(OLD)
    assert _calls(tmp_path, path) == ["write file", "fsync file", "acknowledged"]


def test_trace_with_a_photo(tmp_path: Path) -> None:
    """The picture is whole on disk before the line that speaks of it."""
    (tmp_path / "a.jpg").write_bytes(b"\xff\xd8\xff" + b"x" * 100)
    calls = _calls(tmp_path, tmp_path / "larch.evidence.yaml", str(tmp_path / "a.jpg"))
    assert calls == [
        "write photo", "fsync photo", "photo renamed", "fsync photo folder", "write file", "fsync file", "fsync folder",
        "acknowledged",
    ]  # fmt: skip


# -- killed ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("old", ["", OLD])
@pytest.mark.parametrize("call", ["openat", "flock", "lseek", "read", "write", "fsync", "close"])
def test_killed_at_every_call(tmp_path: Path, old: str, call: str) -> None:
    """Killed at the first, second … call of a kind: what was acknowledged is there, old bytes are a prefix."""
    path = tmp_path / "larch.evidence.yaml"
    for number in range(1, 8):
        if old:
            path.write_text(old)
        else:
            path.unlink(missing_ok=True)
        before = [_strace(), "-qq", "-o", os.devnull, "-P", str(path)]
        inject = ["-e", f"trace={call}", "-e", f"inject={call}:signal=KILL:when={number}"]
        answer = _child(str(path), "JM", "0", "2", before=[*before, *inject])
        now = path.read_text() if path.exists() else ""
        assert now.startswith(old)
        acknowledged = {f"dash.{each}" for each in re.findall(r"ack JM ([0-9]+)", answer.stdout)}
        assert acknowledged <= set(_seen(path) if now else [])
        append(path, LINE)
        assert _seen(path)[-1] == "dash.7"
        assert broken(path.read_text().splitlines()) == []
        if answer.returncode == 0:
            break


def test_killed_at_random_200_times(tmp_path: Path) -> None:
    """Nothing acknowledged is lost, however the writer ends."""
    path = tmp_path / "larch.evidence.yaml"
    path.write_text(OLD)
    said: list[str] = []
    before = OLD
    kills = 0
    while kills < 200:
        with subprocess.Popen(
            [sys.executable, "-c", _MANY, str(path)], cwd=ROOT, stdout=subprocess.PIPE, text=True
        ) as child:  # fmt: skip
            assert child.stdout is not None
            said.append(child.stdout.readline().strip())  # it has begun
            # forks that are killed in the middle, so that Python starts once for many
            said += [line.strip() for line in child.stdout]
            child.wait()
        kills += 25
        now = path.read_text()
        assert now.startswith(before)
        before = now
    seen = set(re.findall(r"seen: (dash\.[0-9]+)", without_torn(path.read_text())[0]))
    acknowledged = {f"dash.{line.split()[1]}" for line in said if line.startswith("ack")}
    assert len(acknowledged) > 200
    assert acknowledged <= seen
    append(path, LINE)
    assert broken(path.read_text().splitlines()) == []


# Twenty-five writers one after the other, each killed after a random time.
_MANY = """
import os, random, signal, sys, time
from harness.records.append import append
path = sys.argv[1]
print("begun", flush=True)
for kill in range(25):
    child = os.fork()
    if not child:
        number = random.SystemRandom().randrange(10**9)
        while True:
            number += 1
            append(path, [("by", "JM"), ("seen", f"dash.{number}")])
            os.write(1, f"ack {number}\\n".encode())
    time.sleep(random.SystemRandom().uniform(0.002, 0.02))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
"""


# -- disks that fail -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [("write", "ENOSPC", "No space left"), ("write", "EIO", "Input/output error"), ("fsync", "EIO", "Input/output"),
     ("fsync", "ENOSPC", "No space left"), ("openat", "EACCES", "Permission denied")],
)  # fmt: skip
def test_errors_of_the_disk(tmp_path: Path, call: str, error: str, words: str) -> None:
    """Not acknowledged, said why, old bytes kept, and the next record goes in."""
    path = tmp_path / "larch.evidence.yaml"
    path.write_text(OLD)
    before = [
        _strace(),
        "-qq",
        "-o",
        os.devnull,
        "-P",
        str(path),
        "-e",
        f"trace={call}",
        "-e",
        f"inject={call}:error={error}:when=1",
    ]
    answer = _child(str(path), "JM", "5", "6", before=before)
    assert answer.stdout.startswith("refused")
    assert words in answer.stdout
    assert path.read_text().startswith(OLD)
    append(path, LINE)
    assert _seen(path)[-1] == "dash.7"


def test_disk_full_in_the_middle_of_a_line(tmp_path: Path) -> None:
    """A limit on the file's size cuts the write short: half a line, not acknowledged, set aside by the next one."""
    import resource

    path = tmp_path / "larch.evidence.yaml"
    path.write_text(OLD)
    limit = len(OLD) + 40

    def small() -> None:
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    answer = _child(str(path), "JM", "5", "6", preexec_fn=small)
    assert answer.stdout.startswith("refused File too large")
    assert len(path.read_bytes()) == limit

    made = append(path, LINE)

    assert made.torn == path.read_text().splitlines()[2].removesuffix(" #torn") != ""
    assert _seen(path) == ["dash.99", "dash.7"]


# -- several writers, torn lines -----------------------------------------------------------------------------------


@pytest.mark.parametrize("writers", [2, 8])
def test_writers_at_once(tmp_path: Path, writers: int) -> None:
    """Nothing is lost, no line is mixed into another, and the chain of seals holds."""
    path = tmp_path / "larch.evidence.yaml"
    each = 120 // writers
    children = [
        subprocess.Popen(
            [sys.executable, "-m", "tests.records.child", str(path), f"W{at}", str(at * 1000), str(at * 1000 + each)],
            cwd=ROOT, stdout=subprocess.DEVNULL,
        )
        for at in range(writers)
    ]  # fmt: skip
    assert [child.wait(timeout=60) for child in children] == [0] * writers
    expected = sorted(f"dash.{at * 1000 + number}" for at in range(writers) for number in range(each))
    assert sorted(_seen(path)) == expected
    assert broken(path.read_text().splitlines()) == []


def test_torn_after_every_byte(tmp_path: Path) -> None:
    """The last record cut after each of its bytes: the others are read, the half one is told, the next goes in."""
    path = tmp_path / "larch.evidence.yaml"
    append(path, LINE)
    whole = path.read_bytes()
    append(path, [*LINE[:2], ("seen", "dash.8")])
    second = path.read_bytes()[len(whole) :]
    for cut in range(len(second)):
        path.write_bytes(whole + second[:cut])
        made = append(path, [*LINE[:2], ("seen", "dash.9")])
        lines = path.read_text().splitlines()
        half = second[:cut].decode()
        if cut in (0, len(second) - 1):  # nothing of it, or all but the line end
            assert made.torn == ""
        else:
            assert made.torn == half
            assert without_torn(path.read_text())[1] == [(2, half)]
        assert path.read_bytes().startswith(whole + second[:cut])
        assert broken(lines) == [], cut
        assert _seen(path)[-1] == "dash.9"


def test_hand_written_last_line(tmp_path: Path) -> None:
    """Saved by an editor without a line end: it is a record, not half of one."""
    path = tmp_path / "larch.evidence.yaml"
    path.write_text("- {by: JM, seen: dash.1}")
    assert append(path, LINE).torn == ""
    assert _seen(path) == ["dash.1", "dash.7"]


@pytest.mark.parametrize(
    ("name", "data", "words"),
    [
        ("no.jpg", None, "can't be read"), ("text.jpg", b"hello", "no JPEG"),
        ("big.png", b"\x89PNG\r\n\x1a\n" + bytes(25_000_001), "25 MB"),
    ],
)  # fmt: skip
def test_photos_refused_before_anything(tmp_path: Path, name: str, data: bytes | None, words: str) -> None:
    photo = tmp_path / name
    if data is not None:
        photo.write_bytes(data)
    with pytest.raises(NotRecorded, match=words):
        append(tmp_path / "larch.evidence.yaml", LINE, [str(photo)])
    assert not (tmp_path / "larch.evidence.yaml").exists()
    assert not (tmp_path / "larch.photos").exists()


def test_one_photo_twice(tmp_path: Path) -> None:
    """Named by the first sixteen digits of its SHA-256; the second time it is there already."""
    import hashlib

    data = b"\xff\xd8\xff" + bytes(range(200))
    (tmp_path / "a.jpg").write_bytes(data)
    name = f"larch.photos/{hashlib.sha256(data).hexdigest()[:16]}.jpg"
    for _ in range(2):
        assert f"photo: {name}" in append(tmp_path / "larch.evidence.yaml", LINE, [str(tmp_path / "a.jpg")]).line
    assert (tmp_path / name).read_bytes() == data
    assert len(list((tmp_path / "larch.photos").iterdir())) == 1
