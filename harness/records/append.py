"""A record put behind the others. It is on the disk when `append` comes back; when it raises, nothing was promised."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Sequence
from typing import NamedTuple

from harness.disk import open_folder, sync, sync_folder, write_all
from harness.records.flow import Fields, flow_line
from harness.records.opening import open_to_append, read_all
from harness.records.photos import Picture, Unfit, keep, look_at
from harness.records.seal import last_seal, seal_of, sealed
from harness.records.shape import odd_line
from harness.records.torn import TORN, is_half, lines_in, rest_of_character, whole_characters, without_torn

__all__ = ["Appended", "NotRecorded", "append", "mended", "without_torn"]

MOST_BYTES = 32_000_000  # the reader takes no bigger file

_UTF_16 = (b"\xff\xfe", b"\xfe\xff")
_Path = str | os.PathLike[str]


class NotRecorded(Exception):
    """Nothing was recorded: which file was in the way, and why in a few words."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{path}: {why}")
        self.path = path
        self.why = why


class Appended(NamedTuple):
    """A record that is on the disk."""

    number: int  # of its line, from 1; lines are only added, so it stays
    line: str  # as it stands in the file, with its seal, without line end
    torn: str  # the half line that was found at the end and set aside, or ""


def append(path: _Path, fields: Fields, photos: Sequence[_Path] = ()) -> Appended:
    """Put one record behind the others, and come back when it is on the disk.

    The file is made where it isn't there; a link is followed. The old bytes are never touched: a last line without
    line end gets one, a half one is marked ` #torn` before it. Photos are copied first, into `STEM.photos/` beside
    the path, and named in the field `photo`. All of it happens under the file's lock.

    Raises ValueError for a value that can't be written (nothing was touched then), and NotRecorded for everything
    that the disk or a photo refuses. Where the disk failed after the line was written, the line may stand in the file
    all the same; `why` says so. So does a file that couldn't be read any more with a record behind it.
    """
    path = os.fspath(path)
    if any(key.lower() == "seal" for key, _ in fields):
        raise ValueError("seal: is put in by the tool")
    pictures = [_looked_at(os.fspath(photo), path) for photo in photos]
    line = flow_line([*fields, *_photo_field(pictures)])
    written = False
    folder = file = None
    try:
        real = _real(path)
        folder = open_folder(os.path.dirname(real))
        file = open_to_append(real)
        old = read_all(file)
        before, torn = mended(old)
        lines = _checked(old, before)
        for picture in pictures:
            _keep(picture, path)
        line = sealed(line, seal_of(last_seal(lines), line))
        new = before + line.encode() + b"\n"
        if len(old) + len(new) > MOST_BYTES:
            raise OSError(None, f"it would have more than {MOST_BYTES // 1_000_000} MB, which is not read any more")
        write_all(file, new)
        written = True
        sync(file)
        # Each time, not only when the file was made here: who made it may have ended before its name was on the disk.
        sync_folder(folder)
    except (OSError, _NoName) as wrong:
        more = "; the line may stand in the file all the same" if written else ""
        raise NotRecorded(path, _why(wrong) + more) from wrong
    finally:
        for opened in (file, folder):
            if opened is not None:
                with contextlib.suppress(OSError):  # what was promised is on the disk already
                    os.close(opened)
    return Appended(len(lines), line, torn)


def unfit(photos: Sequence[_Path], path: _Path) -> list[str]:
    """What is wrong with each of these photos that can't go with a record: `append` stops at the first one."""
    made = []
    for photo in photos:
        try:
            _looked_at(os.fspath(photo), os.fspath(path))
        except NotRecorded as wrong:
            made.append(str(wrong))
    return made


class _NoName(Exception):
    """A path that no file can have."""


def _real(path: str) -> str:
    try:
        return os.path.realpath(path)
    except ValueError as wrong:  # a NUL character in it
        raise _NoName("the name can't be one") from wrong


def _looked_at(photo: str, path: str) -> Picture:
    try:
        return look_at(photo, path)
    except (OSError, ValueError, Unfit) as wrong:
        raise NotRecorded(photo, _why(wrong)) from wrong


def _keep(picture: Picture, path: str) -> None:
    try:
        keep(picture, path)
    except (OSError, Unfit) as wrong:
        raise NotRecorded(picture.source, _why(wrong)) from wrong


def _photo_field(pictures: Sequence[Picture]) -> Fields:
    names = list(dict.fromkeys(picture.name for picture in pictures))
    if not names:
        return ()
    return [("photo", names[0] if len(names) == 1 else names)]


def mended(old: bytes) -> tuple[bytes, str]:
    """What must stand between the old bytes and a new line, and the half line that it sets aside, or ""."""
    if not old or old[-1:] in (b"\n", b"\r"):
        return b"", ""
    start = max(old.rfind(b"\n"), old.rfind(b"\r")) + 1
    last = whole_characters(old[start:]).decode("utf-8", "replace")
    if not is_half(last.removeprefix("\ufeff")):
        return b"\n", ""
    mark = b"" if last.endswith(TORN) else TORN.encode()
    return rest_of_character(old) + mark + b"\n", last.removesuffix(TORN)


def _checked(old: bytes, before: bytes) -> list[str]:
    """The lines that the file will have before the new one. Raises OSError where it couldn't be read with one more."""
    if old.startswith(_UTF_16):
        raise OSError(None, "it is saved as UTF-16; save it again as UTF-8")
    lines = lines_in((old + before).decode("utf-8", "replace").removeprefix("\ufeff"))
    odd = odd_line(lines)
    if odd is not None:
        raise OSError(
            None,
            f"line {odd} is no closed record that begins with “- ” at the line's beginning, so that the file couldn't "
            "be read with one more; write each record there as one line, - {…}, then record this again",
        )
    return lines


def _why(wrong: Exception) -> str:
    if isinstance(wrong, OSError):
        words = wrong.strerror or str(wrong)
        return words[:1].lower() + words[1:]
    return str(wrong)
