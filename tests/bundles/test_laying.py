"""All of a bundle is laid down or none of it."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from harness.bundles.arrival import NotTaken
from harness.bundles.laying import lay

FILES = {"job.yaml": b"job", "parts/a.yaml": b"a", "parts/deep/b.yaml": b"b", "job.evidence.yaml": b"- one\n- two\n"}


def held(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def tree(folder: Path) -> list[str]:
    """Everything there is, folders and links too."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


def test_into_a_new_folder(tmp_path: Path) -> None:
    laid = lay(FILES, tmp_path / "jobs" / "x")

    assert held(tmp_path / "jobs" / "x") == FILES
    assert laid.new == tuple(sorted(FILES))
    assert tree(tmp_path / "jobs")[:2] == ["x", "x/job.evidence.yaml"]


def test_into_a_folder_with_other_things(tmp_path: Path) -> None:
    """They stay; what is there already as it is needs nothing."""
    (tmp_path / "mine.txt").write_bytes(b"mine")
    (tmp_path / "job.yaml").write_bytes(b"job")
    laid = lay(FILES, tmp_path)

    assert held(tmp_path) == {**FILES, "mine.txt": b"mine"}
    assert laid.same == ("job.yaml",)
    assert lay(FILES, tmp_path).new == ()


def test_what_says_something_else_stays(tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "a.yaml").write_bytes(b"other")
    (tmp_path / "job.yaml").write_bytes(b"longer than the one that comes")
    before = tree(tmp_path)
    with pytest.raises(NotTaken) as wrong:
        lay(FILES, tmp_path)

    assert len(wrong.value.told) == 2
    assert tree(tmp_path) == before
    assert lay(FILES, tmp_path, replace=True).replaced == ("job.yaml", "parts/a.yaml")
    assert held(tmp_path) == FILES


@pytest.mark.parametrize(
    ("there", "fine"), [(b"- one\n", True), (b"", True), (b"- other\n", False), (b"- one\n- two\n- 3\n", False)]
)
def test_records_are_never_lost(there: bytes, fine: bool, tmp_path: Path) -> None:
    """They only grow: replaced by what begins with them, and never by anything else."""
    (tmp_path / "job.evidence.yaml").write_bytes(there)
    if fine:
        lay(FILES, tmp_path, replace=True, records="job.evidence.yaml")
    else:
        with pytest.raises(NotTaken, match="would be lost"):
            lay(FILES, tmp_path, replace=True, records="job.evidence.yaml")

    assert (tmp_path / "job.evidence.yaml").read_bytes() == (FILES["job.evidence.yaml"] if fine else there)


@pytest.mark.parametrize("link", ["parts", "job.yaml", "parts/deep"])
def test_links_are_not_followed(link: str, tmp_path: Path) -> None:
    """Neither to a folder elsewhere nor to a file, also where it leads nowhere."""
    outside, inside = tmp_path / "outside", tmp_path / "inside"
    outside.mkdir()
    (inside / link).parent.mkdir(parents=True)
    (inside / link).symlink_to(outside)
    with pytest.raises(NotTaken, match="a link is in the way"):
        lay(FILES, inside, replace=True)

    assert tree(outside) == []
    (inside / link).unlink()
    (inside / link).symlink_to(tmp_path / "nowhere")
    with pytest.raises(NotTaken, match="a link is in the way"):
        lay(FILES, inside, replace=True)


def test_other_things_in_the_way(tmp_path: Path) -> None:
    (tmp_path / "parts").write_bytes(b"a file")
    (tmp_path / "job.yaml").mkdir()
    with pytest.raises(NotTaken) as wrong:
        lay(FILES, tmp_path, replace=True)

    assert len(wrong.value.told) == 3
    with pytest.raises(NotTaken, match="not a folder"):
        lay(FILES, tmp_path / "parts")


@pytest.mark.parametrize("call", ["open", "write", "fsync", "replace", "rename", "mkdir"])
@pytest.mark.parametrize("new", [True, False])
def test_an_error_anywhere_leaves_the_folder_as_it_was(
    call: str, new: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The n-th call of each kind fails, for every n, with no space left."""
    failed = 0
    for number in range(1, 40):
        folder = tmp_path / f"{call}{number}"
        if not new:
            (folder / "parts").mkdir(parents=True)
            (folder / "parts" / "a.yaml").write_bytes(b"old a")
            (folder / "job.yaml").write_bytes(b"old job")
        before = (folder.exists(), held(folder))
        real, left = getattr(os, call), [number]

        def failing(*arguments: object, real=real, left=left, **named: object) -> object:
            left[0] -= 1
            if left[0] == 0:
                raise OSError(errno.ENOSPC, "No space left on device")
            return real(*arguments, **named)

        with monkeypatch.context() as patched:
            patched.setattr(os, call, failing)
            try:
                lay(FILES, folder, replace=True)
            except OSError:
                failed += 1
            else:  # all calls are through, or it was one that doesn't matter (a folder that is there already)
                # what can't be removed of the folder beside is told the next time
                assert {path: raw for path, raw in held(folder).items() if not path.startswith(".ringout")} == FILES
                if left[0] > 0:
                    break
                continue
        assert (folder.exists(), held(folder)) == before
        assert [path.name for path in tmp_path.iterdir() if path.name.endswith(".part")] == []
        assert not any(name.endswith(".part") for name in tree(folder))
        assert new or tree(folder) == ["job.yaml", "parts", "parts/a.yaml"]
    assert left[0] > 0, "not every call was reached"
    assert failed >= 1 or call == ("replace" if new else "rename")
