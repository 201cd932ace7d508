"""Terminals that can't, pipes that close, and names with blanks."""

from __future__ import annotations

import io
import subprocess
import sys
from pathlib import Path

import pytest

from harness.cli.screen import as_argument, columns, harmless


def test_a_terminal_without_the_signs_gets_words() -> None:
    """Nothing is lost and nothing raises."""
    assert "4 Ω ± 1, − → °".encode("ascii", "ringout-plain") == b"4 ohm +/- 1, - -> deg"
    assert "語".encode("ascii", "ringout-plain") == b"?"


@pytest.mark.parametrize(("text", "number"), [("abc", 3), ("Ω", 1), ("語", 2), ("e\N{COMBINING ACUTE ACCENT}", 1)])
def test_columns(text: str, number: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """A caret stands under its sign, also behind wide ones."""
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(io.BytesIO(), encoding="utf-8"))

    assert columns(text) == number


def test_columns_after_the_fallback(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where Ω is shown as `ohm` it takes three columns."""
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(io.BytesIO(), encoding="ascii"))

    assert columns("4 Ω") == 5


def test_harmless_keeps_the_length() -> None:
    """Places stay right."""
    assert harmless("a\tb\x1bc") == "a b·c"


def test_as_argument() -> None:
    """A path with a blank can be typed as shown."""
    assert as_argument(Path("out") / "a.yaml") == str(Path("out") / "a.yaml")
    assert as_argument("my jobs") == '"my jobs"'


def test_bytes_are_utf8_in_a_pipe(process, tmp_path: Path) -> None:
    """Whatever the locale says, a pipe gets UTF-8 unless somebody asked for another encoding by name."""
    missing = "–Ω.yaml"
    plain = process("check", missing, cwd=tmp_path, LC_ALL="C", PYTHONUTF8="0", PYTHONCOERCECLOCALE="0")
    asked = process("check", missing, cwd=tmp_path, PYTHONIOENCODING="ascii", PYTHONUTF8="1")

    assert b"Traceback" not in plain.stderr + asked.stderr
    assert asked.returncode == 2
    assert (asked.stdout + asked.stderr).isascii()


@pytest.mark.skipif(sys.platform == "win32", reason="a closed pipe is another error there")
def test_closed_pipe(root: Path) -> None:
    """`ringout schema | head -1` ends without a word about the pipe."""
    first = subprocess.Popen(
        [sys.executable, "-m", "harness", "explain", "--list"],
        cwd=root, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    assert first.stdout is not None
    first.stdout.close()
    assert first.stderr is not None
    with first.stderr:
        words = first.stderr.read()

    assert first.wait(timeout=60) == 0
    assert words == b""
