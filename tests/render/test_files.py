"""Files are whole or absent."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from render.writers.files import write_whole


def test_new_and_replaced(tmp_path: Path) -> None:
    path = tmp_path / "packet.pdf"
    for data in (b"one", b"two longer", b""):
        write_whole(path, data)
        assert path.read_bytes() == data
    assert os.listdir(tmp_path) == ["packet.pdf"]


def test_a_failure_leaves_the_old_file_and_nothing_else(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "packet.pdf"
    write_whole(path, b"old")

    def fail(handle: int) -> None:
        raise OSError("disk full")

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(OSError, match="disk full"):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["packet.pdf"]


@pytest.mark.skipif(os.name != "posix", reason="modes and links are POSIX's")
def test_mode_is_that_of_any_new_file_and_links_are_replaced(tmp_path: Path) -> None:
    plain, link, target = tmp_path / "plain", tmp_path / "link", tmp_path / "target"
    plain.write_bytes(b"")
    target.write_bytes(b"keep")
    link.symlink_to(target)
    write_whole(link, b"new")
    assert not link.is_symlink()
    assert target.read_bytes() == b"keep"
    assert link.stat().st_mode == plain.stat().st_mode


def test_missing_folder_is_the_systems_error(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        write_whole(tmp_path / "no" / "file", b"x")
