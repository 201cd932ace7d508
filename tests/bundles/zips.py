"""Zips as an ill-meaning or careless person makes them, by the zipfile module alone."""

from __future__ import annotations

import hashlib
import io
import json
import zipfile
from collections.abc import Mapping

JOB = b"ringout: 1\ntitle: A job\n"
LIST = "ringout-bundle.json"


def entry(path: str, data: bytes, kind: str = "") -> dict[str, object]:
    kind = kind or ("job" if path == "job.yaml" else "part")
    return {"path": path, "kind": kind, "size": len(data), "sha256": hashlib.sha256(data).hexdigest()}


def listing(held: Mapping[str, bytes], **other: object) -> bytes:
    whole = {
        "ringout-bundle": 1,
        "job": "job.yaml",
        "title": "A job",
        "files": [entry(*pair) for pair in held.items()],
    }
    return json.dumps(whole | other).encode()


def zipped(
    files: Mapping[str, bytes], list_bytes: bytes | None = None, method: int = zipfile.ZIP_STORED, mode: int = 0o100644
) -> bytes:
    """Files as they are given, and a list that fits them or is given."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", method) as archive:
        archive.writestr(LIST, listing(files) if list_bytes is None else list_bytes)
        for path, data in files.items():
            info = zipfile.ZipInfo(path)
            info.filename = path  # the constructor makes it another where it holds a NUL
            info.external_attr = mode << 16
            info.compress_type = method
            archive.writestr(info, data)
    return held.getvalue()
