"""From a path to text: everything that can be wrong with a file before its first line is looked at."""

from __future__ import annotations

import os
import stat
from collections.abc import Callable

from harness.finding import Spot
from harness.place import Place
from harness.read.folding import CONTROL
from harness.read.troubles import Troubles

MOST_BYTES = 32_000_000


def load(
    path: str, troubles: Troubles, named: Spot | None = None, mended: Callable[[bytes], bytes] | None = None
) -> str | None:  # fmt: skip
    """The text of a file without BOM, or None (and told).

    `named` is where another file names this one; it is then the first place of what is told. `mended` is asked for the
    bytes to read in the place of those found.
    """
    here = Place(path, 1, 1)

    def refuse(code: str, message: str, do: str) -> None:
        if named:
            troubles.add(code, named.place, named.name, message, do, (Spot(here, path),))
        else:
            troubles.add(code, here, path, message, do)

    try:
        about = os.stat(path)
        if stat.S_ISDIR(about.st_mode):
            refuse("R10", f"“{path}” is a folder, not a file.", "Name the file in it that is meant.")
            return None
        if not stat.S_ISREG(about.st_mode):
            refuse("R10", f"“{path}” is not an ordinary file.", "Name a text file.")
            return None
        if about.st_size > MOST_BYTES:
            size = about.st_size / 1e6
            refuse(
                "R12",
                f"“{path}” has {size:.0f} MB; a job file has at most 32.",
                "Look whether it is the right file.",
            )
            return None
        with open(path, "rb", buffering=0) as stream:
            raw = stream.readall()  # the size was looked at: asking for 32 MB would make room for them each time
    except FileNotFoundError:
        if os.path.islink(path):
            what = f"“{path}” is a link, and the file that it leads to isn't there."
            refuse("R10", what, "Put that file back, or its folder within reach; or remove the link.")
            return None
        refuse("R10", f"There is no file “{path}”.", _near(path))
        return None
    except (OSError, ValueError) as wrong:
        why = wrong.strerror if isinstance(wrong, OSError) and wrong.strerror else "the name can't be one"
        refuse("R10", f"“{path}” can't be read: {why.lower()}.", "See to it that the file can be opened.")
        return None
    return decode(mended(raw) if mended else raw, path, troubles)


def decode(raw: bytes, file: str, troubles: Troubles) -> str | None:
    """UTF-8 bytes as text without BOM, or None (and told) with the place of the first byte that isn't."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")) or (raw[1:4:2] == b"\x00\x00") or raw[0:3:2] == b"\x00\x00":
        wide = b"\x00" in raw[:64]
        what = "The file is saved as UTF-16." if wide else "The file begins with bytes that no text has."
        troubles.add("R01", Place(file, 1, 1), file, what, "Save it again as UTF-8 text.")
        return None
    try:
        return raw.decode("utf-8").removeprefix("\ufeff")
    except UnicodeDecodeError as wrong:
        before = raw[: wrong.start].decode("utf-8").removeprefix("\ufeff")
        place = place_at(before, len(before), file)
        troubles.add(
            "R01",
            place,
            file,
            f"The byte {raw[wrong.start]:02X} here is not UTF-8 text.",
            "Save the file again as UTF-8; most editors offer it when saving.",
        )
        return None


def plain_text(text: str, file: str, troubles: Troubles) -> bool:
    """Whether `text` is free of characters that no text file has; the first one is told."""
    bad = CONTROL.search(text)
    if not bad:
        return True
    code = ord(bad[0])
    what = "A NUL byte stands here" if code == 0 else f"A character that can't be seen (number {code}) stands here"
    troubles.add(
        "R01",
        place_at(text, bad.start(), file),
        file,
        f"{what}; this is not the text of a job.",
        "Delete it, or look whether it is the right file.",
    )
    return False


def place_at(text: str, index: int, file: str) -> Place:
    """The line and column of a character, counted as editors do."""
    before = text[:index].replace("\r\n", "\n").replace("\r", "\n")
    return Place(file, before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1)


def _near(path: str) -> str:
    """What to do about a missing file; names the one that is nearly called so."""
    import difflib

    folder, name = os.path.split(path)
    try:
        names = sorted(os.listdir(folder or "."))
    except (OSError, ValueError):
        return f"There is no folder “{folder}” either; the path starts from the folder of the file that names it."
    close = difflib.get_close_matches(name, names, n=1, cutoff=0.6)
    return f"Is “{close[0]}” meant?" if close else "Correct the path, or put the file there."
