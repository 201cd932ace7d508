"""Which files belong to a job, and what each is called in its bundle."""

from __future__ import annotations

import os
from pathlib import PurePath
from typing import NamedTuple

from harness.bundles import manifest
from harness.bundles.names import clashes, faults_of
from harness.model.job import Job
from harness.place import Place
from harness.read.evidence import evidence_path, read_records
from harness.read.nodes import Node, Rows, Table, Text, read_file
from harness.read.plugs import texts_of
from harness.read.shop import read_shop
from harness.read.troubles import Troubles
from harness.records.names import is_evidence

PHOTO_KEYS = ("photo", "photos")  # of a record: names of files, from the job's folder


class File(NamedTuple):
    """One file that goes along: where it lies, what it is called in the bundle, and who names it (None: the job)."""

    there: str
    path: str
    kind: str
    named: Place | None


class Fault(NamedTuple):
    """Something that keeps the job from travelling, or something that doesn't travel; with the place that names it."""

    message: str
    place: Place | None


class Gathered(NamedTuple):
    """The files by their paths in the bundle; `faults` forbid it, `missing` is only to be said."""

    job: str
    files: tuple[File, ...]
    faults: tuple[Fault, ...]
    missing: tuple[Fault, ...]


class _Named(NamedTuple):
    there: str
    kind: str
    place: Place | None


def gather(job: Job) -> Gathered:
    """The job's file, the part files over any number of steps, its records, their photos, and settings files; the shop
    file that it names, with part files of its own.

    They keep their places to each other: where a part lies above the job's folder, the bundle begins there. A photo,
    settings or shop file that isn't there is missing and no fault; so are the folders of maps that a shop file names.
    """
    faults: list[Fault] = []
    missing: list[Fault] = []
    named = [_Named(job.file, "job", None)]
    named += _parts((job.file, *job.part_files), job.part_files, faults)
    named += _shop(job, faults, missing)
    named += _records(job, faults, missing)
    named += _settings(job, missing)
    held: dict[str, _Named] = {}
    for each in named:
        held.setdefault(os.path.abspath(each.there), each)
    base = _base(list(held), faults)
    files = [File(there, _inside(there, base), each.kind, each.place) for there, each in held.items()]
    for file in files:
        ending = manifest.ending_fault(file.path, file.kind)
        for fault in [*faults_of(file.path), *([ending] if ending else [])]:
            faults.append(Fault(f"{file.path} can't travel: {fault}", file.named))
        if file.kind != "evidence" and is_evidence(file.path):
            faults.append(
                Fault(f"{file.path} can't travel as {file.kind}: it is called as a job's records", file.named)
            )
        if file.path == manifest.NAME:
            faults.append(Fault(f"{file.path} is the name of the bundle's own list", file.named))
    for one, two in clashes(sorted(file.path for file in files)):
        faults.append(Fault(f"{two} is the same as {one} on some systems", None))
    if len(files) > manifest.MOST_FILES:
        faults.append(Fault(f"{len(files)} files; a bundle takes at most {manifest.MOST_FILES}", None))
    return Gathered(files[0].path, tuple(sorted(files, key=lambda file: file.path)), tuple(faults), tuple(missing))


def _base(paths: list[str], faults: list[Fault]) -> str:
    """The lowest folder that holds all of them."""
    try:
        return os.path.commonpath([os.path.dirname(path) for path in paths])
    except ValueError:
        faults.append(Fault("the job's files lie on several drives", None))
        return os.path.dirname(paths[0])


def _inside(path: str, base: str) -> str:
    return PurePath(os.path.relpath(path, base)).as_posix()


def _travels(text: str) -> str:
    """Why a path as written leads nowhere in another bay; empty where it does."""
    if os.path.isabs(text) or text[:1] in "/\\" or text[1:2] == ":":
        return f"“{text}” is a path of this machine alone; write it from the folder of the file that names it"
    if "\\" in text:
        return f"“{text}” has \\ between its folders, which other systems don't know; write /"
    return ""


def _stays(text: str) -> str:
    """As `_travels`, for what lies in the job's folder: a record that came from elsewhere fetches nothing outside."""
    if ".." in text.replace("\\", "/").split("/"):
        return f"“{text}” leads out of the job's folder"
    return _travels(text)


def photo_fault(name: str, folder: str) -> str:
    """Why a photo that a record in `folder` would name can't travel with it, or isn't one; empty where it can."""
    from harness.records.shown import copy_of

    fault = _stays(name) or next(iter(faults_of(name)), "") or manifest.ending_fault(name, "photo")
    return fault or copy_of(name, folder).why


def _parts(files: tuple[str, ...], part_files: tuple[str, ...], faults: list[Fault]) -> list[_Named]:
    """The part files, each with the place that names it first in one of `files`."""
    named: dict[str, Place] = {}
    aside = Troubles()  # the job was read already; here only the entries are looked at
    for file in files:
        root = read_file(file, aside)
        entries = root.get("parts") if isinstance(root, Table) else None
        for entry in entries.items if isinstance(entries, Rows) else ():
            if not isinstance(entry, Text):
                continue
            named.setdefault(os.path.normpath(os.path.join(os.path.dirname(file), entry.value)), entry.place)
            if fault := _travels(entry.value):
                faults.append(Fault(fault, entry.place))
    return [_Named(path, "part", named.get(os.path.normpath(path))) for path in part_files]


def _shop(job: Job, faults: list[Fault], missing: list[Fault]) -> list[_Named]:
    """The shop file that the job names and its part files. One that merely lies beside the job is the shop's own."""
    if not job.shop:
        return []
    root = read_file(job.file, Troubles())
    node = root.get("shop") if isinstance(root, Table) else None
    at = node.place if node is not None else None
    path = os.path.normpath(os.path.join(os.path.dirname(job.file), job.shop))
    if fault := _travels(job.shop):
        faults.append(Fault(fault, at))
        return []
    if not os.path.isfile(path):
        missing.append(Fault(f"the shop file {job.shop} isn't there", at))
        return []
    made = [_Named(path, "shop", at)]
    aside = Troubles()
    shop = read_shop(path, aside, maps=False)
    if shop is None or aside.refused:
        missing.append(Fault("the shop file can't be read, so its part files may not be with it", Place(path, 1, 1)))
    if shop is not None:
        made += _parts((path, *shop.part_files), shop.part_files, faults)
        for folder in shop.maps:
            missing.append(Fault(f"the folder of maps {folder.path}; only a scope asks for it", folder.place))
    return made


def _records(job: Job, faults: list[Fault], missing: list[Fault]) -> list[_Named]:
    path = evidence_path(job.file)
    if not os.path.lexists(path):
        return []
    made = [_Named(path, "evidence", None)]
    aside = Troubles()  # torn lines are told by a check; they name no photo, since nobody was told that they are there
    root, _ = read_records(path, aside)
    if root is None and not aside.refused:
        return made  # it says nothing
    if not isinstance(root, Rows):
        missing.append(Fault("the records can't be read, so it isn't known which photos they name", Place(path, 1, 1)))
        return made
    for record in root.items:
        for key in PHOTO_KEYS if isinstance(record, Table) else ():
            made += _files_of(record.get(key), job, "photo", faults, missing)  # type: ignore[union-attr]
    return made


def _settings(job: Job, missing: list[Fault]) -> list[_Named]:
    """Files that units name as their settings, where one of that name lies beside the job."""
    made = []
    for unit in job.parts.units.values():
        if not unit.settings:
            continue
        there = os.path.join(os.path.dirname(job.file), unit.settings)
        if not _stays(unit.settings) and os.path.isfile(there):
            made.append(_Named(there, "settings", unit.place))
        else:
            missing.append(Fault(f"{unit.name}: no file “{unit.settings}” lies beside the job", unit.place))
    return made


def _files_of(node: Node | None, job: Job, kind: str, faults: list[Fault], missing: list[Fault]) -> list[_Named]:
    made = []
    for text in texts_of(node):
        there = os.path.join(os.path.dirname(job.file), text.value)
        fault = _stays(text.value)
        if fault:
            faults.append(Fault(fault, text.place))
        elif os.path.isfile(there):
            made.append(_Named(there, kind, text.place))
        else:
            missing.append(Fault(f"the {kind} {text.value} isn't there", text.place))
    return made
