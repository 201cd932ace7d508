"""What is installed is what is in the tree."""

from __future__ import annotations

import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from harness import __version__
from harness.assets import folder

PACKAGES = ("harness", "render")
SHIPPED = ("templates", "samples")


@pytest.fixture(scope="module")
def built(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the sdist, and the wheel built from that sdist."""
    out = tmp_path_factory.mktemp("dist")
    subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", "--outdir", str(out), str(root)],
        capture_output=True, check=True, timeout=300,
    )  # fmt: skip
    return out


def _files(root: Path, name: str) -> dict[str, bytes]:
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in (root / name).rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def test_wheel_holds_every_file_and_nothing_else(built: Path, root: Path) -> None:
    """Byte for byte; templates and samples lie inside the package, where they can't meet a stranger's."""
    with zipfile.ZipFile(next(built.glob("*.whl"))) as wheel:
        held = {name: wheel.read(name) for name in wheel.namelist()}
    expected = {name: data for package in PACKAGES for name, data in _files(root, package).items()}
    for name in SHIPPED:
        expected |= {f"harness/_shipped/{path}": data for path, data in _files(root, name).items()}
    info = f"ringout-{__version__}.dist-info/"

    assert {name: data for name, data in held.items() if not name.startswith(info)} == expected
    assert f"{info}licenses/LICENSE" in held
    assert b"ringout = harness.cli:main" in held[f"{info}entry_points.txt"]


def test_sdist_can_be_tested(built: Path, root: Path) -> None:
    """The sdist holds the tests and all that they need."""
    with tarfile.open(next(built.glob("*.tar.gz"))) as sdist:
        names = {member.name.partition("/")[2] for member in sdist.getmembers() if member.isfile()}
    folders = (*PACKAGES, *SHIPPED, "tests")
    expected = {name for each in folders for name in _files(root, each)}

    assert expected | {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"} <= names


def test_assets_are_found(root: Path) -> None:
    """In a checkout they are the checkout's own, so that an edit shows at once."""
    for name in SHIPPED:
        assert folder(name) == root / name

    with pytest.raises(ValueError, match="no folder 'tests' travels"):
        folder("tests")
