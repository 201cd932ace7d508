"""The command, run inside the test's own process or in one of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest


class Answer(NamedTuple):
    code: int
    out: str
    err: str


@pytest.fixture
def ringout(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> Callable[..., Answer]:
    """Runs one command line from an empty folder."""
    from harness.cli.group import run

    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("RINGOUT_TRACEBACK", raising=False)

    def call(*arguments: str) -> Answer:
        capsys.readouterr()
        code = run(list(arguments))
        out, err = capsys.readouterr()
        return Answer(code, out, err)

    return call


@pytest.fixture
def process(root: Path) -> Callable[..., subprocess.CompletedProcess[bytes]]:
    """Runs one command line as a process of its own."""

    def call(*arguments: str, cwd: Path | None = None, **variables: str) -> subprocess.CompletedProcess[bytes]:
        environment = {**os.environ, "PYTHONPATH": str(root), **variables}
        environment.pop("RINGOUT_TRACEBACK", None)
        return subprocess.run(
            [sys.executable, "-m", "harness", *arguments],
            cwd=cwd, env=environment, stdin=subprocess.DEVNULL, capture_output=True, check=False, timeout=120,
        )  # fmt: skip

    return call
