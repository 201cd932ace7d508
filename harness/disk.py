"""Files whole or absent, and on the disk when it is said so.

The order is that of POSIX `fsync`: the bytes of a file are on the disk when `fsync` of the file came back without
error, and its name when `fsync` of its folder did. Knows nothing but the system.
"""

from __future__ import annotations

import contextlib
import errno
import os
import sys

TRIES = 1000

# Of a folder: systems and file systems that know no `fsync` of one keep names safe in their own way, or not at all.
_NO_SUCH_SYNC = frozenset((errno.EINVAL, errno.ENOSYS, errno.ENOTSUP, errno.EOPNOTSUPP))


def put(path: str, raw: bytes, *, aside: str = "", mode: int | None = None) -> None:
    """A file with these bytes: written beside its place, brought to the disk, renamed.

    Who reads it finds the old file or the new one, also after a crash. A link at `path` is replaced, not followed. The
    name is on the disk once `sync_names` of its folder came back. `aside` is the name to write under, which what is
    there gives way to; else one that nothing has. The mode is `mode`, else that of any new file. Raises OSError as the
    system gives it, with nothing left behind.
    """
    file, beside = _beside(path, aside)
    try:
        try:
            write_all(file, raw)
            if mode is not None:
                os.chmod(beside, mode)
            sync(file)
        finally:
            os.close(file)
        os.replace(beside, path)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beside)
        raise


def put_new(path: str, raw: bytes) -> None:
    """As `put`, straight at its place, where nothing may be; a crash may leave half of it. Raises OSError."""
    file = os.open(path, _WRITE | os.O_EXCL, 0o666)
    try:
        write_all(file, raw)
        sync(file)
    finally:
        os.close(file)


_WRITE = os.O_WRONLY | os.O_CREAT | getattr(os, "O_BINARY", 0)


def _beside(path: str, aside: str) -> tuple[int, str]:
    if aside:
        return os.open(aside, _WRITE | os.O_TRUNC, 0o666), aside
    folder, name = os.path.split(path)
    for number in range(TRIES):
        beside = os.path.join(folder, f".{name}.{number}.part")
        with contextlib.suppress(FileExistsError):
            return os.open(beside, _WRITE | os.O_EXCL, 0o666), beside
    raise FileExistsError(errno.EEXIST, "too many half-written files are there; remove them", path)


def write_all(file: int, raw: bytes) -> None:
    """All the bytes in one call where the system takes them at once, else in as many as it needs."""
    rest = memoryview(raw)
    while rest:
        done = os.write(file, rest)
        if done == 0:
            raise OSError(errno.EIO, "the disk takes no more bytes")
        rest = rest[done:]


def sync(file: int) -> None:
    """Waits until the file's bytes are on the disk; on a Mac also until the drive has emptied its own memory."""
    if sys.platform == "darwin":
        try:
            import fcntl

            fcntl.fcntl(file, fcntl.F_FULLFSYNC)
            return
        except OSError as wrong:
            if wrong.errno not in _NO_SUCH_SYNC:
                raise
    os.fsync(file)


def open_folder(path: str) -> int | None:
    """The folder for `sync_folder`; None on Windows, where a folder can't be opened and its names are kept at once."""
    if sys.platform == "win32":
        return None
    return os.open(path or ".", os.O_RDONLY | os.O_DIRECTORY)


def sync_folder(folder: int | None) -> None:
    """Waits until the names in the folder are on the disk.

    Where the file system has no such thing (some network and phone drives) the answer is taken for a yes: more than
    the file's own `fsync` can't be had there.
    """
    if folder is None:
        return
    try:
        os.fsync(folder)
    except OSError as wrong:
        if wrong.errno not in _NO_SUCH_SYNC:
            raise


def sync_names(path: str) -> None:
    """Waits until the names in a folder are on the disk; "" is the working folder."""
    folder = open_folder(path)
    try:
        sync_folder(folder)
    finally:
        if folder is not None:
            os.close(folder)
