"""What must not stand anywhere in the tree, and what must stand at its top."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

TOP = {"pyproject.toml", "README.md", "DEVELOPERS.md", "LICENSE"}
TOP |= {"harness", "render", "tests", "samples", "templates"}


def _versioned(root: Path) -> list[str] | None:
    """The files under version control or about to be; None in an unpacked sdist."""
    if not (root / ".git").exists():
        return None
    asked = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=root, capture_output=True, check=True,
    )  # fmt: skip
    return [name for name in asked.stdout.decode().split("\0") if name and (root / name).is_file()]


@pytest.fixture(scope="module")
def files(root: Path) -> list[Path]:
    """Every file of the project, without what tools leave behind."""
    names = _versioned(root)
    if names is not None:
        return [root / name for name in sorted(names)]
    below = [path for top in sorted(TOP) for path in sorted((root / top).rglob("*"))]
    flat = [root / top for top in sorted(TOP)]
    return [path for path in flat + below if path.is_file() and "__pycache__" not in path.parts]


def _lines_with(files: list[Path], pattern: str) -> list[str]:
    found = []
    for path in files:
        try:
            text = path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue  # a font or a picture
        found += [f"{path.name}: {line.strip()}" for line in text.splitlines() if re.search(pattern, line)]
    return found


def test_no_registry_host(files: list[Path]) -> None:
    """Where packages come from is the installer's business."""
    hosts = ["pypi" + ".org", "python" + "hosted", "npm" + "js.", "deb." + "debian"]

    assert len(files) > 20
    assert _lines_with(files, "|".join(map(re.escape, hosts))) == []


def test_no_machine_path(files: list[Path]) -> None:
    """Nothing points into one person's machine."""
    assert _lines_with(files, r"(^|[^\w.])/(work|farm|tmp|opt|root|home|Users)/\w") == []
    assert _lines_with(files, r"\b[A-Z]:\\Users") == []


def test_top_level(root: Path) -> None:
    """Fixed, so that everybody knows where to look."""
    names = _versioned(root)
    if names is None:
        pytest.skip("an unpacked sdist has the environments of its user in it")
    tops = {name.partition("/")[0] for name in names}

    assert {name for name in tops if not name.startswith(".")} <= TOP


def test_small_files(files: list[Path], root: Path) -> None:
    """A file of more than about four hundred lines is two subjects."""
    long = {
        path.relative_to(root).as_posix(): count
        for path in files
        if path.suffix == ".py" and path.relative_to(root).parts[0] in ("harness", "render")
        and (count := len(path.read_text(encoding="utf-8").splitlines())) > 450
    }  # fmt: skip

    assert long == {}
