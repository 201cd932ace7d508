"""The list of what is in a bundle: every file with its kind, size and digest."""

from __future__ import annotations

import hashlib
import json
import re
from typing import Any, NamedTuple

NAME = "ringout-bundle.json"
VERSION = 1
MOST_FILES = 1000
MOST_BYTES = 1_000_000  # of the list itself
# kind -> how its names may end; empty: anything but what a computer would run
KINDS: dict[str, tuple[str, ...]] = {
    "job": (".yaml", ".yml"),
    "part": (".yaml", ".yml"),
    "shop": (".yaml", ".yml"),
    "evidence": (".evidence.yaml",),
    "photo": (".jpg", ".jpeg", ".png", ".gif", ".webp", ".heic", ".tif", ".tiff", ".bmp"),
    "settings": (),
}
_RUN = (
    ".exe", ".com", ".bat", ".cmd", ".ps1", ".vbs", ".js", ".jse", ".wsf", ".msi", ".scr", ".lnk", ".url", ".jar",
    ".hta", ".sh", ".desktop", ".app", ".command", ".py", ".dll", ".so", ".dylib", ".reg", ".html", ".htm", ".svg",
)  # fmt: skip
_DIGEST = re.compile("[0-9a-f]{64}")


class Listed(NamedTuple):
    """One file: its path in the bundle, with `/`."""

    path: str
    kind: str
    size: int
    sha256: str


class Manifest(NamedTuple):
    """What a bundle says it holds, in the order of the paths."""

    job: str
    title: str
    files: tuple[Listed, ...]


class NoManifest(Exception):
    """The list can't be read; the words say why."""


def digest(data: bytes) -> str:
    """SHA-256 in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def ending_fault(path: str, kind: str) -> str:
    """Why a file of this kind isn't named so; empty where it may be."""
    low = path.lower()
    endings = KINDS[kind]
    if endings and not low.endswith(endings):
        return f"a file of the kind {kind} ends in {' or '.join(endings[:3])}"
    return "a computer would run it" if not endings and low.endswith(_RUN) else ""


def written(manifest: Manifest) -> bytes:
    """The list as a file: the same bytes for the same files."""
    whole = {
        "ringout-bundle": VERSION,
        "job": manifest.job,
        "title": manifest.title,
        "files": [file._asdict() for file in sorted(manifest.files)],
    }
    return (json.dumps(whole, indent=1) + "\n").encode("ascii")


def read(data: bytes) -> Manifest:
    """The list from its file. Raises NoManifest for anything that `written` doesn't write the like of."""
    try:
        whole = json.loads(data.decode("utf-8"), object_pairs_hook=_once)
    except (ValueError, RecursionError) as wrong:
        raise NoManifest(f"it is no JSON ({str(wrong)[:80]})") from None
    if not isinstance(whole, dict) or set(whole) != {"ringout-bundle", "job", "title", "files"}:
        raise NoManifest("its keys are others than a bundle's")
    if type(whole["ringout-bundle"]) is not int or whole["ringout-bundle"] != VERSION:
        raise NoManifest(f"it is of version {str(whole['ringout-bundle'])[:20]}, and this ringout reads {VERSION}")
    if not isinstance(whole["job"], str) or not isinstance(whole["title"], str) or not isinstance(whole["files"], list):
        raise NoManifest("what stands behind its keys is of another kind")
    if len(whole["files"]) > MOST_FILES:
        raise NoManifest(f"it names more than {MOST_FILES} files")
    files = tuple(_listed(entry) for entry in whole["files"])
    if len({file.path for file in files}) != len(files):
        raise NoManifest("it names a file twice")
    jobs = [file.path for file in files if file.kind == "job"]
    if jobs != [whole["job"]]:
        raise NoManifest("it doesn't name exactly one job")
    return Manifest(whole["job"], whole["title"], tuple(sorted(files)))


def _listed(entry: Any) -> Listed:
    if not isinstance(entry, dict) or set(entry) != set(Listed._fields):
        raise NoManifest("an entry has other keys than path, kind, size and sha256")
    path, kind, size, sha256 = (entry[field] for field in Listed._fields)
    if not isinstance(path, str) or not isinstance(kind, str) or kind not in KINDS:
        raise NoManifest("an entry has no path, or a kind that isn't known")
    if type(size) is not int or size < 0:
        raise NoManifest(f"the size of {path[:60]} is none")
    if not isinstance(sha256, str) or not _DIGEST.fullmatch(sha256):
        raise NoManifest(f"the digest of {path[:60]} is none")
    return Listed(path, kind, size, sha256)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made = dict(pairs)
    if len(made) != len(pairs):
        raise ValueError("a key stands twice")
    return made
