"""Files that are whole or absent, and the ones of an earlier packet that no longer belong."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from harness.disk import put, sync_names

_MARK_WITHIN = 1024  # bytes from a picture's start


def write_all(files: Sequence[tuple[Path, bytes]]) -> None:
    """Each file whole or absent, in the order given; their folders are brought to disk once, at the end."""
    for path, data in files:
        put(str(path), data)
    for folder in dict.fromkeys(path.parent for path, _ in files):
        sync_names(str(folder))


def write_whole(path: Path, data: bytes) -> None:
    """Write `data` aside in the same folder, bring it to disk, then rename it to `path`.

    A reader sees the old file or the new one, and a crash leaves no half of either. A link at `path` is
    replaced, not followed. Raises OSError as the system gives it, with nothing left behind.
    """
    write_all([(path, data)])


def marked(svg: str, name: str) -> str:
    """A picture's text with a note to ourselves, below its first line, that a packet made it under this name."""
    first, _, rest = svg.partition("\n")
    return f"{first}\n{_mark(name)}\n{rest}"


def remove_earlier(folder: Path, keep: set[str]) -> list[Path]:
    """Remove pictures that an earlier packet left in the folder, except those to `keep`; what was removed.

    Only a plain file that carries our mark with its own name: a stranger's file, a link, a copy under
    another name stay. One that can't be read or removed stays too.
    """
    removed = []
    for path in sorted(folder.glob("*-*.svg")):
        if path.name in keep or path.is_symlink() or not path.is_file():
            continue
        with suppress(OSError):
            with open(path, "rb") as stream:
                start = stream.read(_MARK_WITHIN)
            if _mark(path.name).encode("utf-8") in start.splitlines():
                path.unlink()
                removed.append(path)
    return removed


def _mark(name: str) -> str:
    # no comment, since a sheet's name may hold two hyphens, which end one
    return f"<?ringout-packet {name}?>"
