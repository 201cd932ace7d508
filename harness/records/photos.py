"""Photos of a record: copied beside the evidence file under a name made of their bytes."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Sequence

MOST_BYTES = 25_000_000
_MAGIC = {b"\xff\xd8\xff": "jpg", b"\x89PNG\r\n\x1a\n": "png"}


def kept(evidence: str, photos: Sequence[str]) -> list[str]:
    """Copies of the photos, as paths from the evidence file's folder. Looks at all before it copies any.

    Raises ValueError for one that isn't there, is too big, or is no JPEG or PNG; OSError where it can't be written.
    """
    found = [_looked_at(path) for path in photos]
    if not found:
        return []
    folder, name = os.path.split(os.path.abspath(evidence))
    stem = name.removesuffix(".evidence.yaml")
    beside = f"{stem}.photos"
    os.makedirs(os.path.join(folder, beside), exist_ok=True)
    made = []
    for data, ending in found:
        target = f"{hashlib.sha256(data).hexdigest()[:16]}.{ending}"
        _copy(os.path.join(folder, beside), target, data)
        made.append(f"{beside}/{target}")
    return made


def _looked_at(path: str) -> tuple[bytes, str]:
    try:
        if os.path.getsize(path) > MOST_BYTES:
            raise ValueError(f"the photo “{path}” has more than {MOST_BYTES // 1_000_000} MB")
        with open(path, "rb") as stream:
            data = stream.read()
    except OSError as wrong:
        raise ValueError(f"the photo “{path}” can't be read ({wrong.strerror or wrong})") from None
    for magic, ending in _MAGIC.items():
        if data.startswith(magic):
            return data, ending
    raise ValueError(f"“{path}” is no JPEG and no PNG picture")


def _copy(folder: str, name: str, data: bytes) -> None:
    """Whole or not at all; a photo that is there already is the same one."""
    target = os.path.join(folder, name)
    if os.path.exists(target):
        return
    handle, beside = tempfile.mkstemp(dir=folder, prefix=".ringout-")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        os.replace(beside, target)
    except BaseException:
        os.unlink(beside)
        raise
    if os.name != "nt":
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
