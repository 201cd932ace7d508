"""Files laid into a folder: all of them or none."""

from __future__ import annotations

import glob
import os
import shutil
import stat
import sys
from collections.abc import Collection, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from harness.bundles.arrival import NotTaken
from harness.disk import open_folder, put_new, sync_names
from harness.records.names import is_evidence
from harness.records.opening import open_to_append, read_all
from harness.records.shown import is_as_recorded

OLD = "old"  # what gave way, in the folder of a take at work
_TAKE = "ringout-take"


class Laid(NamedTuple):
    """Paths that were laid down anew, that were there already as they are, and that gave way to another.

    `cut_off` are folders that earlier takes left when they were cut off: what they didn't lay, and what gave way.
    """

    new: tuple[str, ...]
    same: tuple[str, ...]
    replaced: tuple[str, ...]
    cut_off: tuple[str, ...] = ()


def lay(
    files: Mapping[str, bytes],
    folder: Path,
    *,
    replace: bool = False,
    records: str = "",
    growing: Collection[str] = (),
) -> Laid:
    """Lays files, by path with `/`, into a folder that need not exist.

    A folder that isn't there appears whole by one rename. In one that is, each file is renamed into its place, and an
    error on the way puts everything back. A file that says something else stays, and nothing is laid, unless `replace`
    or it is one of `growing`; the `records` of a job, and what is called as such, only ever give way to what begins
    with them, and that is looked at again when nobody else can write them any more. Raises NotTaken, or OSError as the
    system gives it, with the folder as it was.

    Killed on the way, a new folder isn't there at all; in one that is, each file is the old one or the new one, whole,
    and the next time `cut_off` says where what gave way lies.
    """
    if os.path.lexists(folder) and not folder.is_dir():
        raise NotTaken([f"{folder}: it is a file, not a folder"])
    if not folder.exists():
        cut_off = _cut_off(folder)
        _lay_new(files, folder)
        return Laid(tuple(sorted(files)), (), (), cut_off)
    with _alone(folder):
        cut_off = _cut_off(folder)
        try:
            laid = _looked_at(files, folder, replace, records, growing)._replace(cut_off=cut_off)
        except NotTaken as wrong:
            raise NotTaken([*wrong.told, *(f"{each}: {CUT_OFF}" for each in cut_off)]) from None
        _lay_into(files, folder, laid, {path for path in files if path == records or is_evidence(path)})
    return laid


@contextmanager
def _alone(folder: Path) -> Iterator[None]:
    """One take into a folder at a time: what another one undoes could else be what this one laid.

    The system lets go when a holder ends, however it ends. Windows, and file systems that lock no folder, do without.
    """
    held = open_folder(str(folder))
    try:
        if held is not None and sys.platform != "win32":
            import fcntl

            with suppress(OSError):
                fcntl.flock(held, fcntl.LOCK_EX)
        yield
    finally:
        if held is not None:
            os.close(held)


LOST = "the records there would be lost; take the bundle into another folder"
CUT_OFF = (
    "a take into this folder was cut off, or is at work now. Cut off: files here are of the earlier state and of that "
    f"bundle; take it again, with --replace as then. What gave way lies in {OLD}/ there"
)


def _cut_off(folder: Path) -> tuple[str, ...]:
    """What earlier takes left when they were cut off, beside the folder and in it."""
    beside = folder.parent.glob(f".{glob.escape(folder.name)}.*.part") if folder.name else ()
    inside = folder.glob(f".{_TAKE}.*.part")
    return tuple(str(each) for each in sorted((*beside, *inside)) if each.is_dir() and not each.is_symlink())


def _lay_new(files: Mapping[str, bytes], folder: Path) -> None:
    folder.parent.mkdir(parents=True, exist_ok=True)
    aside = _aside(folder.parent, folder.name)
    laid = aside
    try:
        for path, data in sorted(files.items()):
            _write(aside / path, data)
        for inside in sorted({above for path in files for above in PurePosixPath(path).parents}):
            sync_names(str(aside / inside))
        os.rename(aside, folder)  # fails where somebody else made the folder meanwhile, and put something in it
        laid = folder
        sync_names(str(folder.parent))
    except BaseException:
        shutil.rmtree(laid, ignore_errors=True)
        raise


def _looked_at(files: Mapping[str, bytes], folder: Path, replace: bool, records: str, growing: Collection[str]) -> Laid:
    """What would become of each file. Raises NotTaken with everything that stands in the way."""
    told, new, same, replaced = [], [], [], []
    for path, data in sorted(files.items()):
        blocked = _blocked(folder, path)
        if blocked:
            told.append(blocked)
            continue
        there = folder / path
        if not os.path.lexists(there):
            new.append(path)
            continue
        held = there.read_bytes() if there.stat().st_size <= len(data) else None
        if held == data:
            same.append(path)
        elif (path == records or is_evidence(path)) and (held is None or not data.startswith(held)):
            told.append(f"{there}: {LOST}")
        elif is_as_recorded(path, there):
            told.append(f"{there}: the photo there is the one that was recorded, and the bundle has another")
        elif replace or path in growing:
            replaced.append(path)
        else:
            told.append(f"{there}: it is there already and says something else; --replace puts this one in its place")
    if told:
        raise NotTaken(told)
    return Laid(tuple(new), tuple(same), tuple(replaced))


def _blocked(folder: Path, path: str) -> str:
    """Why a path can't be reached in the folder without following a link or going through a file; empty if it can."""
    here = folder
    parts = path.split("/")
    for number, part in enumerate(parts, 1):
        here = here / part
        try:
            mode = os.lstat(here).st_mode
        except FileNotFoundError:
            return ""
        except NotADirectoryError:
            return f"{here}: a file is in the way"
        if stat.S_ISLNK(mode):
            return f"{here}: a link is in the way"
        if not (stat.S_ISREG(mode) if number == len(parts) else stat.S_ISDIR(mode)):
            return f"{here}: something else of that name is in the way"
    return ""


def _lay_into(files: Mapping[str, bytes], folder: Path, laid: Laid, growing: Collection[str]) -> None:
    """`growing` are files of records: others may be adding to them, so they are held from here on and laid last."""
    aside = _aside(folder, _TAKE)
    undo: list[tuple[str, Path, Path]] = []
    wanted = sorted([*laid.new, *laid.replaced], key=lambda path: path in growing)
    with ExitStack() as held:
        try:
            for path in wanted:
                _write(aside / "new" / path, files[path])
            for path in wanted:
                there = folder / path
                for above in reversed(there.relative_to(folder).parents[:-1]):
                    if not (folder / above).is_dir():
                        os.mkdir(folder / above)
                        undo.append(("folder", folder / above, there))
            for path in wanted:
                if path in growing:
                    _hold(folder / path, aside / "new" / path, files[path], held, undo)
            for path in laid.replaced:
                _keep(folder / path, aside / OLD / path)
            for path in wanted:
                there = folder / path
                if path in laid.replaced:
                    undo.append(("old", aside / OLD / path, there))
                elif path not in growing and os.path.lexists(there):
                    raise FileExistsError(17, "it has come into being meanwhile", str(there))
                os.replace(aside / "new" / path, there)
                if path in laid.new and path not in growing:
                    undo.append(("new", there, there))
            for inside in sorted({above for path in wanted for above in PurePosixPath(path).parents}):
                sync_names(str(folder / inside))
        except BaseException:
            for what, one, there in reversed(undo):
                with suppress(OSError):
                    if what == "folder":
                        os.rmdir(one)
                    elif what == "old":
                        os.replace(one, there)
                    else:
                        os.unlink(there)
            raise
        finally:
            shutil.rmtree(aside, ignore_errors=True)


def _hold(there: Path, new: Path, data: bytes, held: ExitStack, undo: list[tuple[str, Path, Path]]) -> None:
    """Nobody adds to these records, nor to those that come, until `held` lets go. Raises NotTaken if they'd be lost.

    Who waits for the old ones finds by itself that others stand in their place, and adds to those. Where there were
    none, an empty file keeps the place meanwhile.
    """
    fresh = not os.path.lexists(there)
    with ExitStack() as opened:
        opened.callback(os.close, open_to_append(str(new)))
        file = open_to_append(str(there))
        opened.callback(os.close, file)
        if there.is_symlink() or not data.startswith(read_all(file)):
            raise NotTaken([f"{there}: {LOST}"])
        if fresh:
            undo.append(("new", there, there))
        if sys.platform != "win32":  # a file that is open can't give way there: it is only looked at right before
            held.push(opened.pop_all())


def _keep(there: Path, kept: Path) -> None:
    """The file that gives way under a second name, whole and on the disk before it does."""
    kept.parent.mkdir(parents=True, exist_ok=True)
    try:
        os.link(there, kept)
    except OSError:  # a file system without second names
        put_new(str(kept), there.read_bytes())
        shutil.copystat(there, kept)
    sync_names(str(kept.parent))


def _aside(folder: Path, name: str) -> Path:
    """A new folder beside what is there, with the mode that any new folder would have."""
    for number in range(1000):
        made = folder / f".{name}.{number}.part"
        with suppress(FileExistsError):
            os.mkdir(made)
            return made
    raise FileExistsError(17, "too many half-laid folders are there; remove them", str(folder))


def _write(path: Path, data: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    put_new(str(path), data)
