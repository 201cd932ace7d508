"""A take that is cut off: killed at each of its system calls, and each failing once, under strace.

Bytes are safe when `fsync` of the file came back, a name when `fsync` of its folder did (POSIX.1 `fsync`, fsync(2)).
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import NamedTuple

import pytest

from harness.bundles.arrival import NotTaken
from harness.bundles.laying import lay
from tests.bundles.child import COMES, THERE

CHILD = Path(__file__).with_name("child.py")
ROOT = CHILD.parents[2]
_CALL = re.compile(r"^(\w+)\((.*)\) += (-?\d+|\?)(.*)$")
# Calls that change what is on the disk, or bring it there; the others can leave nothing half done.
CHANGING = ("write", "fsync", "link", "linkat", "mkdir", "rename", "renameat2", "unlink", "unlinkat", "rmdir", "openat")


class Call(NamedTuple):
    name: str
    words: str
    ordinal: int  # which of its name it was since the process began, from 1


class Run(NamedTuple):
    said: str
    calls: list[Call]  # of the take, those that change something
    killed: bool


def traced(folder: Path, inject: str = "") -> Run:
    """A take into the folder under strace, with a fault where one is given."""
    program = shutil.which("strace")
    if program is None and not os.environ.get("CI"):
        pytest.skip("strace is not installed; CI installs it")
    assert program is not None, "CI must install strace: apt-get install strace"
    trace = folder.with_name("trace")
    words = [*(["-e", f"inject={inject}"] if inject else []), sys.executable, "-I", "-S", "-B", str(CHILD), str(ROOT)]
    answer = subprocess.run(
        [program, "-qq", "-y", "-s", "300", "-o", str(trace), *words, str(folder)],
        capture_output=True, encoding="utf-8", check=False, timeout=60, stdin=subprocess.DEVNULL,
    )  # fmt: skip
    assert answer.stderr == "", answer.stderr
    counts: Counter[str] = Counter()
    calls: list[Call] = []
    within = False
    text = trace.read_text(encoding="utf-8")
    for found in filter(None, map(_CALL.match, text.splitlines())):
        counts[found[1]] += 1
        within = (within or "the take begins" in found[2]) and "the take ended" not in found[2]
        if within and found[1] in CHANGING and (found[1] != "openat" or "O_CREAT" in found[2]):
            calls.append(Call(found[1], found[2], counts[found[1]]))
    return Run(answer.stdout, calls, "+++ killed by SIGKILL" in text)


def begin(folder: Path) -> Path:
    shutil.rmtree(folder, ignore_errors=True)
    for path, raw in THERE.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(raw)
    return folder


def state(folder: Path) -> dict[str, bytes]:
    """Every file that is no leftover."""
    found = {path.relative_to(folder).as_posix(): path for path in folder.rglob("*") if path.is_file()}
    return {name: path.read_bytes() for name, path in found.items() if not name.startswith(".ringout-take")}


def leftovers(folder: Path) -> list[str]:
    return sorted(str(path) for path in folder.glob(".ringout-take*"))


AFTER = {**THERE, **COMES}


def test_the_order_of_its_calls(tmp_path: Path) -> None:
    """What comes and what gives way are on the disk before the first file changes, and the names at the end."""
    run = traced(begin(tmp_path / "car"))
    assert run.said == "laid 1 1 2\n"
    assert state(tmp_path / "car") == AFTER
    names = [call.name for call in run.calls]
    first = names.index("rename")
    last = len(names) - 1 - names[::-1].index("rename")
    assert names[:first].count("link") + names[:first].count("linkat") == 2
    # three files of the bundle, and the two folders that hold the second names
    assert names[:first].count("fsync") == 5
    assert names[first : last + 1].count("rename") == 3
    assert "fsync" not in names[first : last + 1]
    # at the end the folder, parts and parts/deep
    assert names[last:].count("fsync") == 3


def test_killed_at_every_call(tmp_path: Path) -> None:
    folder = tmp_path / "car"
    traced(begin(folder))  # the first run may write what Python keeps of modules
    calls = traced(begin(folder)).calls
    assert len(calls) > 20
    mixed = told = 0
    for call in calls:
        begin(folder)
        run = traced(folder, f"{call.name}:signal=SIGKILL:when={call.ordinal}")
        assert run.killed
        assert run.said == ""
        now = state(folder)
        # whole, old or new; what is new whole or absent
        assert now.keys() >= THERE.keys()
        for path, raw in now.items():
            assert raw in (THERE.get(path), COMES.get(path)), (call, path)
        mixed += THERE != now != AFTER
        left = leftovers(folder)
        told += bool(left)
        for path in COMES:  # what has given way already is still to be had
            if path in THERE and now[path] != THERE[path]:
                kept = [Path(each) / "old" / path for each in left]
                gone = now == AFTER  # while the folder beside is taken away, all of it is laid
                assert gone or [each.read_bytes() for each in kept] == [THERE[path]], (call, path)
        if now != AFTER:
            with pytest.raises(NotTaken) as wrong:  # as it says something else
                lay(COMES, folder)
            assert [each for each in wrong.value.told if "cut off" in each and "--replace" in each] == [
                each for each in wrong.value.told if each.startswith(tuple(left))
            ]
            assert state(folder) == now
        assert lay(COMES, folder, replace=True).cut_off == tuple(left)
        assert state(folder) == AFTER
    assert mixed == 2  # before the second of three files gets its name, and before the third
    assert told >= 10


def test_each_call_fails_once(tmp_path: Path) -> None:
    """No space, or an input/output error: all as it was, until the files are laid; then all of them are."""
    folder = tmp_path / "car"
    traced(begin(folder))
    calls = traced(begin(folder)).calls
    refused = 0
    for call in calls:
        begin(folder)
        error = "ENOSPC" if call.name in ("write", "mkdir", "openat") else "EIO"
        run = traced(folder, f"{call.name}:error={error}:when={call.ordinal}")
        if run.said.startswith("laid"):
            assert state(folder) == AFTER, call
        else:
            assert run.said.startswith("not laid: "), run.said
            assert state(folder) == THERE, call
            assert not (folder / "parts" / "deep").exists(), call
            refused += 1
        assert lay(COMES, folder, replace=True).cut_off == tuple(leftovers(folder))
    assert refused >= 12


# by hand: a first take that was cut off leaves its folder beside the one that it was to become
def test_a_first_take_that_was_cut_off(tmp_path: Path) -> None:
    (tmp_path / ".car.0.part" / "parts").mkdir(parents=True)
    (tmp_path / ".other.0.part").mkdir()
    assert lay(COMES, tmp_path / "car").cut_off == (str(tmp_path / ".car.0.part"),)
    assert state(tmp_path / "car") == COMES
