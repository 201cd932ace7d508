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


def file_to_write(text: str, replace: bool = True) -> Path:
    """Where something new may be written. Raises Refused.

    Not a folder, nor a pipe or a device (which would never end, or be turned into a file), nor what is called as a
    job's records are: those only ever grow. Without `replace` nothing may be there, not even a link.
    """
    from harness.records.names import is_evidence

    path = Path(text)
    if not text:
        raise Refused("-o names no file")
    if not path.name or path.is_dir():
        raise Refused(f"{text} is a folder; -o wants a file")
    if is_evidence(path.name):
        raise Refused(f"{text} is the name of a job's records, which nothing else is written to; name another file")
    if path.exists() and not path.is_file():
        raise Refused(f"{text} is no ordinary file; name another file")
    if not path.parent.is_dir():
        raise Refused(f"there is no folder {path.parent}")
    if not replace:
        from harness.read.evidence import evidence_path

        for taken in (str(path), evidence_path(str(path))):
            if os.path.lexists(taken):
                raise Refused(f"{taken} is there already; name another file")
    return path
