"""Photos that records name: there, whole, and the ones that were recorded. Pictures are made here byte by byte."""

from __future__ import annotations

import hashlib
import os
import struct
import zlib
from pathlib import Path

import pytest

from harness.records.append import append
from harness.records.shown import copy_of


def chunk(kind: bytes, body: bytes) -> bytes:
    """ISO/IEC 15948, 5.3: length, type, data, and a CRC-32 over type and data."""
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def png(width: int, height: int, rgb: tuple[int, int, int]) -> bytes:
    """A picture of one colour: ISO/IEC 15948, 8 bits a sample, colour type 2, no filter."""
    rows = b"".join(b"\0" + bytes(rgb) * width for _ in range(height))
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    signature = bytes.fromhex("89504e470d0a1a0a")
    return signature + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


GREEN = png(40, 30, (0, 160, 60))


@pytest.fixture
def recorded(tmp_path: Path) -> tuple[Path, str]:
    """A folder with a record whose photo was copied in, and the copy's name."""
    (tmp_path / "7.png").write_bytes(GREEN)
    append(tmp_path / "larch.evidence.yaml", [("by", "JM"), ("seen", "dash")], photos=[tmp_path / "7.png"])
    name = f"larch.photos/{hashlib.sha256(GREEN).hexdigest()[:16]}.png"
    assert (tmp_path / name).read_bytes() == GREEN
    return tmp_path, name


def test_the_copy_as_it_was_recorded(recorded: tuple[Path, str]) -> None:
    folder, name = recorded
    assert copy_of(name, str(folder)) == (str(folder / name), "")
    (folder / "by hand.png").write_bytes(GREEN)
    assert copy_of("by hand.png", str(folder)).why == ""


def test_another_picture_under_the_copys_name(recorded: tuple[Path, str]) -> None:
    folder, name = recorded
    (folder / name).write_bytes(png(40, 30, (0, 161, 60)))
    assert "changed" in copy_of(name, str(folder)).why
    # under a name that says no digest nobody can tell
    os.replace(folder / name, folder / "x.png")
    assert copy_of("x.png", str(folder)).why == ""
    assert "isn't there" in copy_of(name, str(folder)).why


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"", "no JPEG or PNG"), (b"%PDF-1.4", "no JPEG or PNG"),
        (GREEN[:-1], "breaks off"), (GREEN[:60], "breaks off"), (GREEN[:8], "breaks off"),
        # one bit of the packed rows turned over: the chunk's CRC no longer agrees
        (GREEN[:45] + bytes([GREEN[45] ^ 1]) + GREEN[46:], "breaks off"),
        # ISO/IEC 10918-1: a picture ends with the marker EOI, FF D9
        (bytes.fromhex("ffd8ffe000104a46494600"), "breaks off"), (bytes.fromhex("ffd8ffe000104a46494600ffd9"), ""),
        (b"\x89PNG\r\n\x1a\n" + b"\xff" * 40, "breaks off"),
    ],
)  # fmt: skip
def test_what_its_bytes_say(raw: bytes, words: str, tmp_path: Path) -> None:
    (tmp_path / "p").write_bytes(raw)
    why = copy_of("p", str(tmp_path)).why
    assert words in why
    assert bool(words) == bool(why)


@pytest.mark.parametrize("name", ["../up.png", "/etc/motd", "a/../../b.png", "C:x.png", "a\\..\\b.png", "..", "a\0b"])
def test_a_name_that_leads_out_is_not_followed(name: str, tmp_path: Path) -> None:
    (tmp_path.parent / "up.png").write_bytes(GREEN)
    assert copy_of(name, str(tmp_path)).why
    (tmp_path.parent / "up.png").unlink()


def test_a_folder_and_a_file_for_a_folder(tmp_path: Path) -> None:
    (tmp_path / "folder.png").mkdir()
    assert "ordinary file" in copy_of("folder.png", str(tmp_path)).why
    (tmp_path / "x").write_bytes(GREEN)
    assert copy_of("x/y.png", str(tmp_path)).why
