"""Whether a photo that a record names is there, whole, and the one that was recorded."""

from __future__ import annotations

import os
import re
import zlib
from typing import NamedTuple

from harness.records.photos import Unfit, bytes_of, digest_of, kind_of

# A copy's name says its digest: `hazel.photos/0123456789abcdef.jpg`. One that was put in by hand says none.
_COPY = re.compile(r"\.photos/([0-9a-f]{16})\.(?:jpg|png)$")
_END_OF_JPEG = b"\xff\xd9"  # marker EOI, ISO/IEC 10918-1
_HEAD_OF_PNG = 8  # its signature; then chunks of length, type, data, CRC-32: ISO/IEC 15948, 5.3


class Copy(NamedTuple):
    """A photo where it must lie, and why it can't be shown: empty where it can, as far as its bytes tell."""

    path: str
    why: str


def copy_of(name: str, folder: str) -> Copy:
    """The photo of that name, as a record in `folder` writes it. Never raises for what the disk or the name is."""
    if os.path.isabs(name) or "\\" in name or name[1:2] == ":" or ".." in name.split("/"):
        return Copy("", "its name leads out of the job's folder")
    path = os.path.join(folder, *name.split("/"))
    try:
        raw = bytes_of(path)
    except FileNotFoundError:
        return Copy(path, "it isn't there")
    except Unfit as wrong:
        return Copy(path, str(wrong))
    except (OSError, ValueError) as wrong:
        return Copy(path, f"it can't be read: {getattr(wrong, 'strerror', None) or wrong}")
    return Copy(path, _why(name, raw))


def is_as_recorded(name: str, there: str | os.PathLike[str]) -> bool:
    """Whether the file there is a photo that a record put in, unchanged: its name says its digest."""
    said = _COPY.search(name)
    if said is None:
        return False
    try:
        return digest_of(bytes_of(os.fspath(there))) == said[1]
    except (OSError, Unfit):
        return False


def _why(name: str, raw: bytes) -> str:
    kind = kind_of(raw)
    if not kind:
        return "it is no JPEG or PNG picture"
    said = _COPY.search(name)
    if said is not None and digest_of(raw) != said[1]:
        return "it was changed: it is another picture than the one that was recorded"
    whole = _whole_png(raw) if kind == "png" else raw.rstrip(b"\0").endswith(_END_OF_JPEG) or _END_OF_JPEG in raw[2:]
    return "" if whole else "it breaks off: half of its file is missing"


def _whole_png(raw: bytes) -> bool:
    """Whether every chunk is there and says what its check sum says, up to the last one."""
    at = _HEAD_OF_PNG
    while at + 12 <= len(raw):
        end = at + 12 + int.from_bytes(raw[at : at + 4], "big")
        body = raw[at + 4 : end - 4]
        if end > len(raw) or zlib.crc32(body) != int.from_bytes(raw[end - 4 : end], "big"):
            return False
        if body[:4] == b"IEND":
            return True
        at = end
    return False
