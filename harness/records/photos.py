"""Pictures that belong to a record, copied beside the evidence file under their digest and never changed there."""

from __future__ import annotations

import contextlib
import os
import stat
from typing import NamedTuple

from harness.disk import put, sync_names
from harness.records.names import EVIDENCE

MOST_MEGABYTES = 25

# The first bytes of a file of each kind: ISO/IEC 10918-1 (JPEG, marker SOI and the next one), ISO/IEC 15948 (PNG)
_KINDS = ((b"\xff\xd8\xff", "jpg"), (b"\x89PNG\r\n\x1a\n", "png"))


class Unfit(Exception):
    """A photo that can't go with a record; says why, without its path."""


class Picture(NamedTuple):
    """A picture that was looked at: where it is, and its name from the evidence file, `hazel.photos/0123….jpg`."""

    source: str
    name: str


def photo_folder(evidence: str) -> str:
    """`hazel.evidence.yaml` has its photos in `hazel.photos`; the name only, the folder stands beside the file."""
    name = os.path.basename(evidence)
    stem = name.removesuffix(EVIDENCE) if name.endswith(EVIDENCE) else os.path.splitext(name)[0]
    return f"{stem}.photos"


def look_at(source: str, evidence: str) -> Picture:
    """The picture and the name that it gets. Raises OSError, and Unfit for what is no picture or too big."""
    raw = bytes_of(source)
    kind = kind_of(raw)
    if not kind:
        raise Unfit("it is no JPEG or PNG picture")
    return Picture(source, f"{photo_folder(evidence)}/{digest_of(raw)}.{kind}")


def kind_of(raw: bytes) -> str:
    """`jpg` or `png` by its first bytes; empty for everything else."""
    return next((ending for first, ending in _KINDS if raw.startswith(first)), "")


def bytes_of(source: str) -> bytes:
    """A picture's bytes. Raises OSError, and Unfit for what is no file or too big."""
    if not stat.S_ISREG(os.stat(source).st_mode):
        raise Unfit("it is not an ordinary file")
    with open(source, "rb") as stream:
        raw = stream.read(MOST_MEGABYTES * 1_000_000 + 1)
    if len(raw) > MOST_MEGABYTES * 1_000_000:
        raise Unfit(f"it has more than {MOST_MEGABYTES} MB")
    return raw


def digest_of(raw: bytes) -> str:
    """Sixteen hex digits of its SHA-256, which its name says."""
    import hashlib

    return hashlib.sha256(raw).hexdigest()[:16]


def keep(picture: Picture, evidence: str) -> None:
    """The picture and its name on the disk, beside the evidence file, whose lock the caller holds.

    Written aside, synced, renamed, then the folder synced: the name is there only when all of the picture is. Raises
    OSError, and Unfit where the picture is another one than when it was looked at.
    """
    beside = os.path.dirname(evidence)
    target = os.path.join(beside, *picture.name.split("/"))
    folder_name = os.path.dirname(target)
    raw = bytes_of(picture.source)
    if not os.path.basename(target).startswith(digest_of(raw)):
        raise Unfit("it changed while it was copied")
    with contextlib.suppress(FileExistsError):
        os.mkdir(folder_name)
    # also where the folder was there: whoever made it may have ended before its name was on the disk
    sync_names(beside)
    if not _is_kept(target, raw):
        # under a name of its own: one of a killed writer is written over, as the lock lets one in at a time
        put(target, raw, aside=f"{target}.part")
    sync_names(folder_name)


def _is_kept(target: str, raw: bytes) -> bool:
    try:
        if not stat.S_ISREG(os.stat(target).st_mode):
            return False  # a pipe would never end
        with open(target, "rb") as stream:
            return stream.read(len(raw) + 1) == raw
    except FileNotFoundError:
        return False
