"""Photos that go with a record."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from harness.records import append as module
from harness.records.append import NotRecorded, append
from harness.records.flow import record_end

# First bytes: JPEG's SOI and APP0 markers (ISO/IEC 10918-1 and -5), PNG's signature (ISO/IEC 15948, 5.2)
JPEG = bytes.fromhex("ffd8ffe000104a46494600") + b"picture"
PNG = bytes.fromhex("89504e470d0a1a0a") + b"picture"


def _name(raw: bytes, ending: str) -> str:
    return f"{hashlib.sha256(raw).hexdigest()[:16]}.{ending}"


def test_one_and_two(tmp_path: Path) -> None:
    (tmp_path / "car").mkdir()
    (tmp_path / "IMG 1.JPEG").write_bytes(JPEG)
    (tmp_path / "b").write_bytes(PNG)
    path = tmp_path / "car" / "larch.evidence.yaml"
    jpeg, png = _name(JPEG, "jpg"), _name(PNG, "png")
    one = append(path, [("by", "JM"), ("seen", "dash")], photos=[tmp_path / "IMG 1.JPEG"])
    assert one.line.startswith(f"- {{by: JM, seen: dash, photo: larch.photos/{jpeg}, seal: ")
    two = append(path, [("by", "JM")], photos=[str(tmp_path / "b"), str(tmp_path / "IMG 1.JPEG"), tmp_path / "b"])
    assert two.line.startswith(f"- {{by: JM, photo: [larch.photos/{png}, larch.photos/{jpeg}], seal: ")
    assert record_end(two.line) == len(two.line)
    folder = tmp_path / "car" / "larch.photos"
    assert sorted(os.listdir(folder)) == sorted([jpeg, png])
    assert (folder / jpeg).read_bytes() == JPEG
    assert (folder / png).read_bytes() == PNG
    assert (tmp_path / "b").read_bytes() == PNG
    assert sorted(os.listdir(tmp_path / "car")) == ["larch.evidence.yaml", "larch.photos"]


def test_a_name_with_a_comma_and_no_ending(tmp_path: Path) -> None:
    (tmp_path / "p").write_bytes(PNG)
    done = append(tmp_path / "a, b", [("by", "JM")], photos=[tmp_path / "p"])
    assert f'photo: "a, b.photos/{_name(PNG, "png")}"' in done.line
    assert (tmp_path / "a, b.photos" / _name(PNG, "png")).read_bytes() == PNG


def test_a_damaged_copy_is_put_right(tmp_path: Path) -> None:
    """Also a half copy that a killed writer left aside."""
    (tmp_path / "p").write_bytes(PNG)
    folder = tmp_path / "e.photos"
    folder.mkdir()
    copy = folder / _name(PNG, "png")
    copy.write_bytes(PNG[:-1])
    (folder / f"{copy.name}.part").write_bytes(PNG + PNG)
    append(tmp_path / "e.evidence.yaml", [("by", "JM")], photos=[tmp_path / "p"])
    assert copy.read_bytes() == PNG
    assert os.listdir(folder) == [copy.name]


@pytest.mark.parametrize(
    ("make", "why"),
    [
        (lambda path: None, "no such file"),
        (lambda path: path.mkdir(), "not an ordinary file"),
        (lambda path: os.mkfifo(path), "not an ordinary file"),
        (lambda path: path.write_bytes(b""), "no JPEG or PNG"),
        (lambda path: path.write_bytes(b"GIF89a" + PNG), "no JPEG or PNG"),
        (lambda path: path.write_bytes(PNG[:7]), "no JPEG or PNG"),
        (lambda path: path.write_bytes(PNG + bytes(25_000_001 - len(PNG))), "more than 25 MB"),
    ],
)  # fmt: skip
def test_unfit_photos_come_before_anything_is_written(make: Callable[[Path], object], why: str, tmp_path: Path) -> None:
    (tmp_path / "good.png").write_bytes(PNG)
    bad = tmp_path / "bad.png"
    make(bad)
    before = sorted(os.listdir(tmp_path))
    with pytest.raises(NotRecorded, match=why) as told:
        append(tmp_path / "e.evidence.yaml", [("by", "JM")], photos=[tmp_path / "good.png", bad])
    assert told.value.path == str(bad)
    assert sorted(os.listdir(tmp_path)) == before


def test_a_photo_that_changes_meanwhile(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """While another writer was waited for, say: its name would no longer be its digest."""
    photo = tmp_path / "p"
    photo.write_bytes(PNG)
    open_to_append = module.open_to_append

    def late(path: str) -> int:
        photo.write_bytes(PNG + b"other")
        return open_to_append(path)

    monkeypatch.setattr(module, "open_to_append", late)
    with pytest.raises(NotRecorded, match="changed"):
        append(tmp_path / "e", [("by", "JM")], photos=[photo])
    assert (tmp_path / "e").read_bytes() == b""


def test_just_small_enough(tmp_path: Path) -> None:
    raw = PNG + bytes(25_000_000 - len(PNG))
    (tmp_path / "p").write_bytes(raw)
    append(tmp_path / "e", [("by", "JM")], photos=[tmp_path / "p"])
    assert (tmp_path / "e.photos" / _name(raw, "png")).stat().st_size == 25_000_000


def test_a_bad_value_leaves_no_photo(tmp_path: Path) -> None:
    (tmp_path / "p").write_bytes(PNG)
    for fields in ([("by", "a\nb")], [("photo", "x.jpg")]):
        with pytest.raises(ValueError):
            append(tmp_path / "e", fields, photos=[tmp_path / "p"])
    assert os.listdir(tmp_path) == ["p"]


def test_a_photo_that_has_no_place(tmp_path: Path) -> None:
    """A file stands where the folder should be: no record, and the next one without photo goes in."""
    (tmp_path / "p").write_bytes(PNG)
    (tmp_path / "e.photos").write_bytes(b"")
    with pytest.raises(NotRecorded):
        append(tmp_path / "e", [("by", "JM")], photos=[tmp_path / "p"])
    assert (tmp_path / "e").read_bytes() == b""
    assert append(tmp_path / "e", [("by", "JM")]).number == 1
