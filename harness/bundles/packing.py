"""Files into one: a zip without compression, with fixed dates, modes and order, so that the bytes depend on nothing
but the files. (What compresses well here is small, and compressors differ from one machine to the next.)
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping

from harness.bundles import manifest

_DATE = (1980, 1, 1, 0, 0, 0)  # the first that a zip can hold
_MODE = 0o100644 << 16


def pack(job: str, title: str, files: Mapping[str, tuple[str, bytes]]) -> bytes:
    """The bytes of a bundle. `files` are kind and bytes by path in the bundle; `job` is the path of one of them."""
    listed = tuple(
        manifest.Listed(path, kind, len(data), manifest.digest(data)) for path, (kind, data) in sorted(files.items())
    )
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_STORED) as archive:
        _put(archive, manifest.NAME, manifest.written(manifest.Manifest(job, title, listed)))
        for file in listed:
            _put(archive, file.path, files[file.path][1])
    return held.getvalue()


def _put(archive: zipfile.ZipFile, path: str, data: bytes) -> None:
    info = zipfile.ZipInfo(path, _DATE)
    info.create_system = 3  # else it says on which system it was made
    info.external_attr = _MODE
    archive.writestr(info, data)
