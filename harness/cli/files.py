"""Files that a command line names: read where they are files of a fair size, else refused in one line."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from harness.cli.screen import Refused


def bytes_of(path: Path, most_bytes: int) -> bytes:
    """What is in the file. Raises Refused for what is no ordinary file or too big, OSError as the system gives it."""
    about = os.stat(path)
    if stat.S_ISDIR(about.st_mode):
        raise Refused(f"{path} is a folder, not a file")
    if not stat.S_ISREG(about.st_mode):  # a pipe or a device might never end
        raise Refused(f"{path} is no ordinary file")
    if about.st_size > most_bytes:
        raise Refused(f"{path} has {about.st_size / 1e6:.0f} MB; at most {most_bytes / 1e6:.0f} are read")
    return path.read_bytes()
