"""The evidence file opened for one writer at a time, and read."""

from __future__ import annotations

import errno
import os
import stat
import sys

READ_AT_ONCE = 1 << 20
TRIES = 20


def open_to_append(path: str) -> int:
    """The file, made where it isn't there, never cut short, and locked against every other writer.

    Raises OSError, also where the name is no ordinary file. A link is followed. Closing the file unlocks it.
    """
    flags = os.O_RDWR | os.O_APPEND | os.O_CREAT | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOCTTY", 0)
    for _ in range(TRIES):
        file = os.open(path, flags, 0o666)
        try:
            about = os.fstat(file)
            if not stat.S_ISREG(about.st_mode):
                raise OSError(errno.EINVAL, "it is not an ordinary file")
            _lock(file)
            if _is_there(path, about):
                return file
        except BaseException:
            os.close(file)
            raise
        os.close(file)  # an editor put another file in its place while we waited; a record in this one would be lost
    raise OSError(errno.EBUSY, "another program goes on replacing it")


def _is_there(path: str, about: os.stat_result) -> bool:
    try:
        return os.path.samestat(os.stat(path), about)
    except FileNotFoundError:
        return False


if sys.platform == "win32":
    import msvcrt

    def _lock(file: int) -> None:
        """One byte far behind every end of the file, since a locked byte can't be read by others there."""
        os.lseek(file, 0x7FFF_0000, os.SEEK_SET)
        msvcrt.locking(file, msvcrt.LK_LOCK, 1)
        os.lseek(file, 0, os.SEEK_SET)

else:
    import fcntl

    def _lock(file: int) -> None:
        """Waits until no other process holds the file; the system lets go when a holder ends, however it ends."""
        fcntl.flock(file, fcntl.LOCK_EX)


def read_all(file: int) -> bytes:
    """Every byte from where the file stands."""
    parts = []
    while part := os.read(file, READ_AT_ONCE):
        parts.append(part)
    return b"".join(parts)
