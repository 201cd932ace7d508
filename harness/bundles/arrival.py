"""A bundle that came from anywhere: everything about it is checked before a byte of it is laid down."""

from __future__ import annotations

import io
import stat
import struct
import zipfile
import zlib
from typing import NamedTuple

from harness.bundles import manifest
from harness.bundles.manifest import Listed, Manifest, NoManifest, digest, ending_fault
from harness.bundles.names import clashes, faults_of
from harness.read.evidence import evidence_path
from harness.records.names import is_evidence

MOST_BUNDLE = 300_000_000  # bytes of the bundle itself
MOST_FILE = 64_000_000
MOST_TOTAL = 300_000_000
MOST_RATIO = 100  # bytes laid down for one that came; a bundle of ours has 1
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)  # the second where somebody packed it again
SEND_AGAIN = "Have the bundle sent again, and compare its digest over the telephone before you take it."
# whatever a damaged zip makes the library raise
_BROKEN = (
    zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, OverflowError, NotImplementedError, RuntimeError,
    IndexError, KeyError, MemoryError, struct.error,
)  # fmt: skip


class NotTaken(Exception):
    """The bundle isn't laid down; `told` has every reason that was met, each beginning with the file meant."""

    def __init__(self, told: list[str]) -> None:
        super().__init__(told[0])
        self.told = tuple(told)


class Arrived(NamedTuple):
    """A bundle that holds what it says: its list, the bytes by path, and the digest of the list."""

    manifest: Manifest
    files: dict[str, bytes]
    digest: str


def arrive(raw: bytes) -> Arrived:
    """Checks a bundle's bytes. Raises NotTaken.

    In this order, each step only where the one before found nothing: the zip itself and its names, links and sizes;
    the list; the files against the list; bytes against sizes and digests.
    """
    try:
        archive = zipfile.ZipFile(io.BytesIO(raw))
        infos = archive.infolist()
    except _BROKEN as wrong:
        raise NotTaken([f"this is no bundle: {_words(wrong)}"]) from None
    with archive:
        entries = _checked(infos, len(raw))
        listed, data = _list(archive, entries)
        _against_list(listed, entries)
        files = _bytes(archive, listed, entries)
    return Arrived(listed, files, digest(data))


def _checked(infos: list[zipfile.ZipInfo], came: int) -> dict[str, zipfile.ZipInfo]:
    """The files by their names. Folders are left out; what lies in them says that they are wanted."""
    told: list[str] = []
    if len(infos) > 2 * manifest.MOST_FILES:
        raise NotTaken([f"the bundle holds {len(infos)} entries; at most {manifest.MOST_FILES} files are taken"])
    names: list[str] = []
    made: dict[str, zipfile.ZipInfo] = {}
    folders: list[str] = []
    for info in infos:
        name = info.orig_filename
        folder = name.endswith("/") and len(name) > 1
        bare = name[:-1] if folder else name
        told += [f"{_shown(name)}: {fault}" for fault in faults_of(bare)]
        if info.filename != name:
            told.append(f"{_shown(name)}: the name is read in two ways")
        told += [f"{_shown(name)}: {fault}" for fault in _entry_faults(info, folder)]
        (folders if folder else names).append(bare)
        if not folder:
            made[name] = info
    told += [f"{_shown(two)}: the same as {_shown(one)} on some systems" for one, two in clashes(names)]
    for folder_name in folders:
        if not any(name.startswith(f"{folder_name}/") for name in names):
            told.append(f"{_shown(folder_name)}/: a folder without a file")
    total = sum(info.file_size for info in made.values())
    if total > MOST_TOTAL:
        told.append(f"the files have {total / 1e6:.0f} MB together; at most {MOST_TOTAL / 1e6:.0f} are taken")
    if sum(info.compress_size for info in made.values()) > came:
        told.append("the files share bytes of the bundle")
    if told:
        raise NotTaken(list(dict.fromkeys(told)))
    return made


def _entry_faults(info: zipfile.ZipInfo, folder: bool) -> list[str]:
    made = []
    kind = stat.S_IFMT(info.external_attr >> 16)
    if kind == stat.S_IFLNK:
        made.append("it is a link")
    elif kind not in (0, stat.S_IFDIR if folder else stat.S_IFREG):
        made.append("it is no ordinary file")
    if info.flag_bits & 1:
        made.append("it is locked with a password")
    if info.compress_type not in _METHODS:
        made.append("it is packed in a way that isn't taken")
    if folder and info.file_size:
        made.append("a folder with bytes of its own")
    if info.file_size > MOST_FILE:
        made.append(f"it has {info.file_size / 1e6:.0f} MB; at most {MOST_FILE / 1e6:.0f} are taken")
    if info.file_size > MOST_RATIO * max(info.compress_size, 1):
        made.append(f"{info.compress_size} bytes would become {info.file_size}")
    return made


def _list(archive: zipfile.ZipFile, entries: dict[str, zipfile.ZipInfo]) -> tuple[Manifest, bytes]:
    info = entries.get(manifest.NAME)
    if info is None:
        raise NotTaken([f"there is no {manifest.NAME} in it, so it is no bundle"])
    if info.file_size > manifest.MOST_BYTES:
        raise NotTaken([f"{manifest.NAME}: it has {info.file_size / 1e6:.0f} MB; at most 1 is taken"])
    try:
        data = _read(archive, info)
        return manifest.read(data), data
    except NoManifest as wrong:
        raise NotTaken([f"{manifest.NAME}: {wrong}"]) from None
    except _BROKEN as wrong:
        raise NotTaken([f"{manifest.NAME}: damaged on the way: {_words(wrong)}", SEND_AGAIN]) from None


def _against_list(listed: Manifest, entries: dict[str, zipfile.ZipInfo]) -> None:
    """Names, kinds and sizes of the list against the zip's. Raises NotTaken."""
    told = []
    known = {file.path: file for file in listed.files}
    for path in entries:
        if path not in known and path != manifest.NAME:
            told.append(f"{_shown(path)}: it isn't in the bundle's list")
    for file in listed.files:
        info = entries.get(file.path)
        if info is None or file.path == manifest.NAME:
            told.append(f"{_shown(file.path)}: it is in the list and not in the bundle")
        elif info.file_size != file.size:
            told.append(f"{_shown(file.path)}: {info.file_size} bytes, and {file.size} in the list")
        fault = ending_fault(file.path, file.kind)
        if fault:
            told.append(f"{_shown(file.path)}: {fault}")
        if file.kind == "evidence" and file.path != evidence_path(listed.job):
            told.append(f"{_shown(file.path)}: the records of {_shown(listed.job)} have another name")
        if file.kind != "evidence" and is_evidence(file.path):
            told.append(f"{_shown(file.path)}: these would be a job's records, and the list has it as {file.kind}")
    if told:
        raise NotTaken(told)


def _bytes(archive: zipfile.ZipFile, listed: Manifest, entries: dict[str, zipfile.ZipInfo]) -> dict[str, bytes]:
    told: list[str] = []
    made: dict[str, bytes] = {}
    for file in listed.files:
        try:
            data = _read(archive, entries[file.path])
        except _BROKEN as wrong:
            told.append(f"{_shown(file.path)}: damaged on the way: {_words(wrong)}")
            continue
        fault = _changed(file, data)
        if fault:
            told.append(f"{_shown(file.path)}: {fault}")
            continue
        made[file.path] = data
    if told:
        told.append(f"unharmed: {', '.join(_shown(path) for path in made) or 'no other file'}")
        told.append(SEND_AGAIN)
        raise NotTaken(told)
    return made


def _changed(file: Listed, data: bytes) -> str:
    if len(data) != file.size:
        return f"{len(data)} bytes, and {file.size} in the list"
    return "" if digest(data) == file.sha256 else "its digest is another than in the list: it was changed or damaged"


def _read(archive: zipfile.ZipFile, info: zipfile.ZipInfo) -> bytes:
    """At most the bytes that the entry says, whatever it would unpack to."""
    with archive.open(info) as stream:
        return stream.read(info.file_size + 1)


def _words(wrong: BaseException) -> str:
    return " ".join(str(wrong).split())[:100] or type(wrong).__name__


def _shown(name: str) -> str:
    short = name if len(name) <= 100 else name[:97] + "..."
    return "".join(sign if sign.isprintable() else "·" for sign in short) or "(no name)"
