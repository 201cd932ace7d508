"""A record appended: the file only grows, and what is acknowledged is on disk."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import NamedTuple

from harness.records.flow import flow_line
from harness.records.photos import kept
from harness.records.seal import seal_of, sealed, unsealed
from harness.records.torn import TORN, whole

_TAIL = 65_536  # bytes of the end of the file that are looked at for the seal before


class NotRecorded(Exception):
    """A record that was not written, and why. What the file held before is still there."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{path}: not recorded: {why}")
        self.path, self.why = path, why


class Appended(NamedTuple):
    """What was written, and half a line that was found at the end and set aside; empty where there was none."""

    number: int
    line: str
    torn: str


def append(
    path: str | os.PathLike[str], fields: Sequence[tuple[str, str | Sequence[str]]], photos: Sequence[str] = ()
) -> Appended:
    """Write one record behind the others. Once this returns, it is on disk.

    Photos are copied first, into a folder beside the file. Raises NotRecorded, with the old bytes untouched.
    """
    file = os.fspath(path)
    try:
        names = kept(file, photos)
        more = [("photo", names if len(names) > 1 else names[0])] if names else []
        line = flow_line([*fields, *more])
        return _written(file, line)
    except ValueError as wrong:
        raise NotRecorded(file, f"{wrong}.") from None
    except OSError as wrong:
        raise NotRecorded(file, f"{wrong.strerror or wrong}.") from None


def _written(file: str, line: str) -> Appended:
    new = not os.path.exists(file)
    handle = os.open(file, os.O_RDWR | os.O_APPEND | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o666)
    try:
        with _alone(handle):
            text = _tail(handle)
            lines = text.split("\n")
            torn, close = "", ""
            if lines[-1]:
                if whole(lines[-1]):
                    close = "\n"
                else:
                    torn, close = lines[-1], f"{TORN}\n"
            before = next((seal for each in reversed(lines) if (seal := _seal(each, torn))), "")
            text = sealed(line, seal_of(before, line))
            _write(handle, f"{close}{text}\n".encode())
            os.fsync(handle)
            number = _lines(handle)
    finally:
        os.close(handle)
    if new:
        _sync_folder(os.path.dirname(os.path.abspath(file)))
    return Appended(number, text, torn)


def _seal(line: str, torn: str) -> str:
    return "" if line == torn or line.rstrip().endswith(TORN) else unsealed(line)[1]


def _tail(handle: int) -> str:
    """The end of the file; all of it where no seal stands in the last part."""
    size = os.fstat(handle).st_size
    start = max(0, size - _TAIL)
    while True:
        os.lseek(handle, start, os.SEEK_SET)
        raw = _read(handle, size - start)
        text = raw[raw.find(b"\n") + 1 :] if start else raw
        if not start or b", seal: " in text:
            return text.decode("utf-8", "replace")
        start = 0


def _read(handle: int, size: int) -> bytes:
    made = bytearray()
    while len(made) < size:
        piece = os.read(handle, size - len(made))
        if not piece:
            break
        made += piece
    return bytes(made)


def _write(handle: int, data: bytes) -> None:
    while data:
        data = data[os.write(handle, data) :]


def _lines(handle: int) -> int:
    """The number of the last line."""
    os.lseek(handle, 0, os.SEEK_SET)
    return _read(handle, os.fstat(handle).st_size).count(b"\n")


@contextmanager
def _alone(handle: int) -> Iterator[None]:
    """Nobody else writes meanwhile. Windows locks the first byte, other systems the file."""
    if sys.platform == "win32":
        import msvcrt

        os.lseek(handle, 0, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)
        try:
            yield
        finally:
            os.lseek(handle, 0, os.SEEK_SET)
            msvcrt.locking(handle, msvcrt.LK_UNLCK, 1)
        return
    import fcntl

    fcntl.flock(handle, fcntl.LOCK_EX)
    try:
        yield
    finally:
        fcntl.flock(handle, fcntl.LOCK_UN)


def _sync_folder(folder: str) -> None:
    """The folder's own entry for a new file. Where a system can't sync a folder, it keeps entries by itself."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        with suppress(OSError):
            os.fsync(handle)
    finally:
        os.close(handle)
