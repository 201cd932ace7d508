"""Names of files that can travel: the same on every system, and inside the folder where they are laid."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator

MOST_LETTERS, MOST_IN_PART, MOST_PARTS = 200, 100, 12
# Device names of one system, with any ending (from memory; they open no file there)
_DEVICES = frozenset(
    ["con", "prn", "aux", "nul", "conin$", "conout$"]
    + [f"{port}{n}" for port in ("com", "lpt") for n in "0123456789¹²³"]
)
_SIGNS = re.compile(r'[<>:"|?*\\]')


def faults_of(name: str) -> list[str]:
    """What keeps a name, with `/` between its parts, from travelling; empty where nothing does."""
    made = []
    if not name:
        return ["the name is empty"]
    if len(name) > MOST_LETTERS or len(name.encode("utf-8", "surrogatepass")) > 2 * MOST_LETTERS:
        made.append(f"the name has more than {MOST_LETTERS} letters")
    if name.startswith(("/", "\\")) or re.match(r"[A-Za-z]:", name):
        made.append("the path doesn't begin in its own folder")
    if not name.isprintable():
        made.append("the name holds a character that can't be seen")
    if _SIGNS.search(name):
        made.append(f"the name holds “{_SIGNS.search(name)[0]}”")  # type: ignore[index]
    if unicodedata.normalize("NFC", name) != name:
        made.append("the name's accents are written in two pieces")
    parts = name.split("/")
    if len(parts) > MOST_PARTS:
        made.append(f"more than {MOST_PARTS} folders lie in each other")
    for part in parts:
        made += _part_faults(part)
    return list(dict.fromkeys(made))


def _part_faults(part: str) -> Iterator[str]:
    if part == "..":
        yield "the path leads out of its folder (..)"
    elif part in ("", "."):
        yield "a part of the path is empty"
    elif part.startswith("."):
        yield f"“{part}” would be hidden"
    elif part.endswith((".", " ")) or part.startswith(" "):
        yield f"“{part}” begins or ends with a blank or a dot"
    if len(part) > MOST_IN_PART:
        yield f"a part of the path has more than {MOST_IN_PART} letters"
    if part.split(".")[0].strip().lower() in _DEVICES:
        yield f"“{part}” is a device on some systems"


def clashes(names: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Two names that are one file somewhere, by case or by way of writing; and a file that is another's folder."""
    seen: dict[str, str] = {}
    folders: dict[str, str] = {}
    for name in names:
        same = _same(name)
        if same in seen:
            yield seen[same], name
        elif same in folders:
            yield folders[same], name
        parts = same.split("/")
        for count in range(1, len(parts)):
            above = "/".join(parts[:count])
            if above in seen:
                yield seen[above], name
            spelt = "/".join(name.split("/")[:count])
            first = folders.setdefault(above, spelt)
            if first != spelt:
                yield first, name
        seen.setdefault(same, name)


def _same(name: str) -> str:
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", name).casefold())
