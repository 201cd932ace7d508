"""Several processes at once, killed at random, and a file that may not grow: nothing promised is lost."""

from __future__ import annotations

import hashlib
import json
import subprocess
import threading
from pathlib import Path

import pytest

from harness.records.append import append, without_torn
from harness.records.flow import is_whole
from harness.records.seal import broken, unsealed
from harness.records.torn import lines_in
from tests.records.tracing import arguments


@pytest.mark.parametrize("writers", [2, 8])
def test_writers_at_once(writers: int, tmp_path: Path) -> None:
    """They begin together on a file that isn't there; each line is where its writer was told, in one chain of seals."""
    path, each = tmp_path / "e.yaml", 25
    running = [
        subprocess.Popen(
            arguments("writer", path, f"W{number}", each),
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8",
        )
        for number in range(writers)
    ]  # fmt: skip
    for process in running:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
    for process in running:
        assert process.stdin is not None
        process.stdin.write("go\n")
        process.stdin.flush()
    told = []
    for process in running:
        out, wrong = process.communicate(timeout=120)
        assert (process.returncode, wrong) == (0, "")
        told.append([json.loads(line) for line in out.splitlines()])
    lines = lines_in(path.read_text(encoding="utf-8"))
    assert lines.pop() == ""
    assert len(lines) == writers * each
    assert broken(lines) == []
    for number, promises in enumerate(told):
        assert len(promises) == each
        assert [place for place, _, _ in promises] == sorted(place for place, _, _ in promises)
        for n, (place, line, torn) in enumerate(promises):
            assert lines[place - 1] == line
            assert unsealed(line)[0] == f"- {{by: W{number}, n: {n}}}"
            assert torn == ""
    turns = [line[: line.index(",")] for line in lines]
    assert len({at for at in range(1, len(turns)) if turns[at] != turns[at - 1]}) >= writers, "they took turns"


def test_threads_at_once(tmp_path: Path) -> None:
    path = tmp_path / "e.yaml"
    threads = [
        threading.Thread(target=lambda name=f"T{number}": [append(path, [("by", name)]) for _ in range(10)])
        for number in range(8)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    lines = lines_in(path.read_text(encoding="utf-8"))[:-1]
    assert broken(lines) == []
    assert sorted(unsealed(line)[0] for line in lines) == sorted(f"- {{by: T{n}}}" for n in range(8) for _ in range(10))


@pytest.mark.parametrize("seed", [1, 2])
def test_killed_at_random(seed: int, tmp_path: Path) -> None:
    """Twice a hundred processes that append one record after the other, half of them with a photo, each killed."""
    path = tmp_path / "e.yaml"
    answer = subprocess.run(
        arguments("killed", path, seed, 100), capture_output=True, encoding="utf-8", check=False, timeout=120
    )
    assert (answer.returncode, answer.stderr) == (0, "")
    rounds = [json.loads(line) for line in answer.stdout.splitlines()]
    assert len(rounds) == 100
    text = path.read_text(encoding="utf-8")
    lines = lines_in(text)
    promised = 0
    for old_is_prefix, said in rounds:
        assert old_is_prefix
        for line in said.splitlines(keepends=True):
            assert not line.startswith("failed"), line
            number, _, record = line.partition(" ")
            promised += 1
            assert lines[int(number) - 1] == record.removesuffix("\n")
    assert promised >= 99
    assert broken(lines) == []
    assert without_torn(text)[1] == []  # a kill doesn't tear one call of `write`; test_append.py does
    for line in lines[:-1]:
        assert is_whole(line)
        if "photo" in line:
            name = line.partition("photo: ")[2].partition(",")[0]
            raw = (tmp_path / name).read_bytes()
            assert hashlib.sha256(raw).hexdigest().startswith(Path(name).stem)


def test_a_file_that_may_not_grow(tmp_path: Path) -> None:
    """At the limit of RLIMIT_FSIZE (getrlimit(2)) the system takes a part of the line and then nothing."""
    path = tmp_path / "e.yaml"
    for most in range(700, 720):
        path.unlink(missing_ok=True)
        answer = subprocess.run(
            arguments("limited", path, most), capture_output=True, encoding="utf-8", check=False, timeout=60
        )
        assert (answer.returncode, answer.stderr) == (0, "")
        *promised, last = answer.stdout.splitlines()
        assert last == "not recorded: file too large"
        raw = path.read_bytes()
        assert len(raw) == most
        half = raw.decode().split("\n")[-1]
        assert raw.decode().split("\n")[:-1] == promised
        assert len(promised) >= 5
        done = append(path, [("by", "RK")])
        now = path.read_bytes()
        assert now.startswith(raw)
        assert done.torn == ("" if is_whole(half) else half)
        kept = [line for line in lines_in(without_torn(now.decode())[0]) if line.strip()]
        assert kept == [*promised, *([half] if is_whole(half) else []), done.line]
        assert broken(lines_in(now.decode())) == []
