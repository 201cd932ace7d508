"""The contract of imports, and that it would notice a breach."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path


def _lint(where: Path) -> subprocess.CompletedProcess[str]:
    tool = shutil.which("lint-imports", path=str(Path(sys.executable).parent))
    assert tool, "lint-imports belongs to the extra `dev`"
    return subprocess.run(
        [tool, "--no-cache"], cwd=where, capture_output=True, encoding="utf-8", check=False, timeout=120
    )


def test_ladder_is_kept(root: Path) -> None:
    answer = _lint(root)

    assert answer.returncode == 0, answer.stdout
    assert "0 broken" in answer.stdout


def test_ladder_notices(root: Path, tmp_path: Path) -> None:
    """Each contract breaks when one wrong import is put in, so none of them is empty."""
    for name in ("harness", "render"):
        shutil.copytree(root / name, tmp_path / name, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(root / "pyproject.toml", tmp_path)
    place = tmp_path / "harness" / "place.py"
    wrong = "import click\nimport networkx\nimport reportlab\nimport yaml\nimport harness.model\n"
    place.write_text(wrong + place.read_text(encoding="utf-8"), encoding="utf-8")
    answer = _lint(tmp_path)

    assert answer.returncode == 1, answer.stdout + answer.stderr
    for contract in (
        "the ladder",
        "what draws and prints is for render only",
        "networkx is for harness.graph only",
        "yaml is for harness.read only",
        "click is for harness.cli only",
    ):
        assert f"{contract} BROKEN" in answer.stdout
