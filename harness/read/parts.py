"""Part files: plugs, looms and units that live in files of their own and are used by name in many jobs."""

from __future__ import annotations

import os
from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from harness.finding import Spot
from harness.read.conform import conform
from harness.read.nodes import Broken, Node, Rows, Table, Text, read_file, read_text
from harness.read.spec import PART_FILE
from harness.read.troubles import Troubles

SECTIONS = ("plugs", "looms", "units")


class Part(NamedTuple):
    """One part: its name as written where it stands, and its table."""

    key: Text
    table: Table


class PartShelf:
    """The parts of all part files of a job, by section and by name without case.

    `bad` holds the `id()` of every node that `conform` refused; `files` the paths read, in order.
    """

    def __init__(self, troubles: Troubles, others: Mapping[str, str]) -> None:
        self.troubles, self.others = troubles, others
        self.parts: dict[tuple[str, str], Part] = {}
        self.bad: set[int] = set()
        self.files: list[str] = []
        self._roots: list[Node] = []  # kept alive: `bad` tells nodes by their id
        self._done: set[str] = set()

    def find(self, section: str, name: Text) -> Part | None:
        """The part that `part: NAME` means, or None (and told, with the nearest name)."""
        part = self.parts.get((section, name.value.lower()))
        if part:
            return part
        names = tuple(each.key.value for (there, _), each in self.parts.items() if there == section)
        elsewhere = next((there for there, low in self.parts if low == name.value.lower()), "")
        from harness.read.said import nearest

        near = nearest(name.value, names)
        if elsewhere:
            do = f"It stands under {elsewhere} there; move it, or use it there."
        elif near:
            do = f"Is “{near}” meant?"
        elif names:
            do = f"The part files hold: {', '.join(sorted(names)[:12])}."
        else:
            do = "Name the file that holds it under `parts:`."
        self.troubles.add("R20", name.place, name.value, f"No part file has “{name.value}” under {section}.", do)
        return None

    def take(self, root: Node, named: tuple[tuple[str, Spot], ...]) -> None:
        """Read the files that `root` names under `parts:`, and those that they name.

        `named` is the way here: each file with the place that named it, the job itself first.
        """
        listed = root.get("parts") if isinstance(root, Table) else None
        if not isinstance(listed, Rows):
            return
        for entry in listed.items:
            if isinstance(entry, Text) and not isinstance(entry, Broken) and id(entry) not in self.bad:
                self._read(entry, named)

    def _read(self, entry: Text, named: tuple[tuple[str, Spot], ...]) -> None:
        path = os.path.normpath(os.path.join(os.path.dirname(entry.file), entry.value))
        same = _identity(path)
        spot = Spot(entry.place, entry.value)
        for at, (seen, _) in enumerate(named):
            if seen == same:
                also = [place for _, place in named[at + 1 :]]
                self.troubles.add(
                    "R11",
                    entry.place,
                    entry.value,
                    f"“{entry.value}” leads back to a file that leads here.",
                    "Take one of these entries out of `parts:`.",
                    also,
                )
                return
        if same in self._done:
            return
        self._done.add(same)
        text = self.others.get(path)
        root = read_file(path, self.troubles, spot) if text is None else read_text(text, path, self.troubles)
        if root is None:
            return
        self.files.append(path)
        self._roots.append(root)
        self.bad |= conform(root, PART_FILE, self.troubles)
        if isinstance(root, Table):
            self._shelve(root)
            self.take(root, (*named, (same, spot)))

    def _shelve(self, root: Table) -> None:
        for section in SECTIONS:
            table = root.get(section)
            if not isinstance(table, Table):
                continue
            for key, value in table.items:
                if isinstance(key, Broken) or not isinstance(value, Table) or id(key) in self.bad:
                    continue
                first = self.parts.setdefault((section, key.value.lower()), Part(key, value))
                if first.table is not value:
                    self.troubles.add(
                        "R22",
                        key.place,
                        key.value,
                        f"Another part file has “{first.key.value}” under {section} already.",
                        "Give one of the two another name, or take one file out of `parts:`.",
                        (Spot(first.key.place, first.key.value),),
                    )


def _identity(path: str) -> str:
    """What two names of one file share."""
    try:
        return os.path.normcase(os.path.realpath(path))
    except (OSError, ValueError):
        return path


def read_parts(
    root: Node, troubles: Troubles, bad: set[int] | None = None, others: Mapping[str, str] = MappingProxyType({})
) -> PartShelf:
    """The parts of all files that the job `root` names under `parts:`, over any number of steps.

    `bad` are the ids that `conform` refused in the job. Paths start from the folder of the file that names
    them; `others` are texts that would stand there, by path. Told: R10 R12 missing or unreadable files, R11 circles
    with every place of the circle, R22 a part twice, and whatever is wrong inside.
    """
    shelf = PartShelf(troubles, others)
    shelf.bad |= bad or set()
    if isinstance(root, Table) and root.get("parts") is not None:
        shelf.take(root, ((_identity(root.file), Spot(root.place, root.file)),))
    return shelf
