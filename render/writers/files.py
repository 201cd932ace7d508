"""Files that are whole or absent."""

from __future__ import annotations

import os
import tempfile
from contextlib import suppress
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Write `data` aside in the same folder, bring it to disk, then rename it to `path`.

    A reader sees the old file or the new one, and a crash leaves no half of either. A link at `path` is
    replaced, not followed. Raises OSError as the system gives it, with nothing left behind.
    """
    handle, aside = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        # mkstemp makes files private; paper for the shop gets the mode any new file would have
        os.chmod(aside, 0o666 & ~_umask())
        os.replace(aside, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(aside)
        raise
    _sync_folder(path.parent)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _sync_folder(folder: Path) -> None:
    """Bring the rename itself to disk, where folders can be opened (not on Windows)."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
