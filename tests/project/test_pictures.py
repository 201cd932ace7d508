"""The README's pictures are what the tool prints today."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove
from render.documents import packet

PICTURES = {"plug-face.svg": "plug-sheet-sound-1.svg", "route.svg": "route-picture-1.svg"}


@pytest.fixture(scope="module")
def printed(root: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("paper")
    packet(prove(root / "samples" / "hatch-plug-in.yaml"), folder, None)
    return folder


@pytest.mark.parametrize("picture", PICTURES)
def test_the_picture_is_printed_so(picture: str, printed: Path, root: Path) -> None:
    """Byte for byte; after a change of the drawing, look at the new picture and put it in its place."""
    kept = root / "tests" / "project" / "pictures" / picture

    assert kept.read_bytes() == (printed / PICTURES[picture]).read_bytes()
    assert f"tests/project/pictures/{picture}" in (root / "README.md").read_text(encoding="utf-8")
