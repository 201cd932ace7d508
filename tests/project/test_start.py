"""What a command loads: the heavy libraries belong to the verb that needs them."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from harness.assets import folder

PROBE = """
import sys
from harness.cli import main
sys.argv = ["ringout", *sys.argv[1:]]
try:
    main()
except SystemExit as end:
    sys.stdout.flush()
    tops = sorted({name.partition(".")[0] for name in sys.modules})
    print("LOADED", end.code or 0, *tops, file=sys.stderr)
"""

# What is not allowed to be there when the command ends.
DRAWING = {"reportlab", "jinja2", "graphviz", "graphviz_pure", "PIL"}
NUMBERS = {"numpy", "scipy", "pandas"}
WEB = {"starlette", "uvicorn", "http", "sqlalchemy", "sqlite3"}
GRAPH = {"networkx", "yaml"}


def _loaded(root: Path, cwd: Path, *arguments: str) -> tuple[int, set[str]]:
    answer = subprocess.run(
        [sys.executable, "-c", PROBE, *arguments],
        cwd=cwd, env={**os.environ, "PYTHONPATH": str(root)}, stdin=subprocess.DEVNULL,
        capture_output=True, encoding="utf-8", check=False, timeout=120,
    )  # fmt: skip
    last = answer.stderr.strip().splitlines()[-1].split()
    assert last[0] == "LOADED", answer.stderr
    assert "harness" in last, "the probe sees what is loaded"
    return int(last[1]), set(last[2:])


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["explain", "C01"], ["explain", "--list"]])
def test_light_commands(arguments: list[str], root: Path, tmp_path: Path) -> None:
    """Help and explanations need no graph, no reader and no paper."""
    code, loaded = _loaded(root, tmp_path, *arguments)

    assert code == 0
    assert loaded & (GRAPH | DRAWING | NUMBERS | WEB) == set()


def test_check_loads_no_paper(root: Path, tmp_path: Path) -> None:
    """Proving reads and computes; it neither draws nor serves."""
    code, loaded = _loaded(root, tmp_path, "check", str(folder("samples") / "hatch-plug-in.yaml"))

    assert code in (0, 1)
    assert "yaml" in loaded, "the probe would see a library if it were there"
    assert loaded & (DRAWING | NUMBERS | WEB) == set()


def test_help_loads_no_verb(root: Path, tmp_path: Path) -> None:
    """A verb's module is loaded when the verb is called, and no other's."""
    script = (
        "import sys; from harness.cli.group import VERBS, run; code = run(sys.argv[1:]);"
        "print('LOADED', code, *(v for v in VERBS if f'harness.cli.{v}' in sys.modules), file=sys.stderr)"
    )

    def verbs(*arguments: str) -> list[str]:
        answer = subprocess.run(
            [sys.executable, "-c", script, *arguments],
            cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(root)}, capture_output=True, encoding="utf-8",
            check=True, timeout=120,
        )  # fmt: skip
        return answer.stderr.split()[2:]

    assert verbs("--help") == []
    assert verbs("explain", "--help") == ["explain"]
