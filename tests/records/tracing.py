"""One append under strace: which system calls it makes, and what happens when one of them fails or is the last."""

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

CHILDREN = Path(__file__).with_name("children.py")
ROOT = CHILDREN.parents[2]
BEGIN, END = "the append begins", "the append ended"
# Calls about memory and signals leave files alone, and how many there are differs from run to run.
_OTHERS = {"brk", "mmap", "munmap", "mremap", "madvise", "mprotect", "rt_sigaction", "rt_sigprocmask", "futex"}
_CALL = re.compile(r"^(\w+)\((.*)\) += (-?\d+|\?)(.*)$")


class Call(NamedTuple):
    """A system call as strace wrote it, and which of its name it was since the process began, from 1."""

    name: str
    words: str
    answer: str
    ordinal: int

    @property
    def file(self) -> str:
        """The last part of the path that the first argument is about."""
        found = re.search(r'<([^>]*)>|"([^"]*)"', self.words)
        return os.path.basename(found[1] or found[2]) if found else ""


class Run(NamedTuple):
    """What one append said, all the calls from its begin on, and whether it was killed."""

    said: str
    calls: list[Call]
    killed: bool


def arguments(job: str, *words: object) -> list[str]:
    return [sys.executable, "-I", "-S", "-B", str(CHILDREN), str(ROOT), job, *map(str, words)]


def traced(path: Path, *photos: Path, inject: str = "") -> Run:
    """One append under strace, with a fault injected where one is given. Skips the test where strace isn't there."""
    program = shutil.which("strace")
    if program is None and not os.environ.get("CI"):
        pytest.skip("strace is not installed; CI installs it")
    assert program is not None, "CI must install strace: apt-get install strace"
    trace = path.with_name("trace")
    answer = subprocess.run(
        [program, "-qq", "-y", "-s", "400", "-o", str(trace), *(["-e", f"inject={inject}"] if inject else []),
         *arguments("one", path, *photos)],
        capture_output=True, encoding="utf-8", check=False, timeout=60, stdin=subprocess.DEVNULL,
    )  # fmt: skip
    assert answer.stderr == "", answer.stderr
    text = trace.read_text(encoding="utf-8")
    trace.unlink()
    counts: Counter[str] = Counter()
    calls: list[Call] = []
    begun = False
    for line in text.splitlines():
        found = _CALL.match(line)
        if found is None:
            continue
        counts[found[1]] += 1
        begun = begun or BEGIN in found[2]
        if begun and found[1] not in _OTHERS:
            calls.append(Call(found[1], found[2], found[3], counts[found[1]]))
    assert calls, text[-2000:]
    assert calls[0].name in ("access", "faccessat", "faccessat2")
    return Run(answer.stdout, calls[1:], "+++ killed by SIGKILL" in text)


def of_the_append(run: Run) -> list[Call]:
    """The calls before the append came back."""
    end = next(at for at, call in enumerate(run.calls) if END in call.words)
    return run.calls[:end]


def to_the_acknowledgement(run: Run) -> list[Call]:
    """The calls up to and with the one that prints the acknowledgement."""
    told = next(at for at, call in enumerate(run.calls) if call.name == "write" and "recorded" in call.words)
    return run.calls[: told + 1]
