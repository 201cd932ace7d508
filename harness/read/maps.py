"""Folders of maps: part files that say what plugs hold, each plug of each file a map of its own."""

from __future__ import annotations

import os
from types import MappingProxyType
from typing import NamedTuple

from harness.model.parts import Plug, Unit
from harness.place import Place
from harness.read.conform import conform
from harness.read.merging import take_parts
from harness.read.nodes import Broken, Table, Text, read_file
from harness.read.plugs import read_plug, text_of
from harness.read.spec import JOB, PART_FILE
from harness.read.spec_scope import SCOPE
from harness.read.spec_shop import SHOP
from harness.read.troubles import Troubles
from harness.read.unit_rows import read_unit

_ENDS = (".yaml", ".yml")
# what only jobs, shop files and scopes have
_NO_MAP = frozenset((*JOB.keys, *SHOP.keys, *SCOPE.keys)) - frozenset(PART_FILE.keys)


class Map(NamedTuple):
    """One plug as a file of maps has it; `units` are those of the same file, by name in small letters.

    `title_at` is where its title stands, None where it has none.
    """

    file: str
    title: str
    plug: Plug
    units: dict[str, Unit]
    title_at: Place | None = None


class Maps(NamedTuple):
    """The maps of some folders in the order of their files; `others` are jobs, shop files and scopes, left out."""

    maps: tuple[Map, ...]
    files: tuple[str, ...]
    others: tuple[str, ...]


def read_maps(folders: tuple[str, ...], troubles: Troubles) -> Maps:
    """All maps of folders and of what lies in them, or of single files.

    Told: what can't be found or read, with its place. Files that end otherwise than in .yaml or .yml, evidence and
    hidden ones are passed over. A file that is met twice is read once.
    """
    maps: list[Map] = []
    files: list[str] = []
    others: list[str] = []
    done: set[str] = set()
    for folder in folders:
        for path in _paths(folder, troubles):
            same = os.path.realpath(path)
            if same in done:
                continue
            done.add(same)
            found = _read(path, troubles)
            if found is None:
                others.append(path)
            else:
                files.append(path)
                maps += found
    return Maps(tuple(maps), tuple(files), tuple(others))


def _paths(folder: str, troubles: Troubles) -> list[str]:
    if not os.path.isdir(folder):
        if not os.path.isfile(folder):
            troubles.add(
                "R10", Place(folder, 1, 1), folder, f"There is no folder or file “{folder}”.",
                "Name a folder that holds maps.",
            )  # fmt: skip
            return []
        return [folder]
    made = []
    for here, below, names in os.walk(folder):
        below[:] = sorted(name for name in below if not name.startswith("."))
        made += [
            os.path.join(here, name)
            for name in sorted(names)
            if name.lower().endswith(_ENDS) and not name.startswith(".") and ".evidence." not in name.lower()
        ]
    return made


def _read(path: str, troubles: Troubles) -> list[Map] | None:
    """The maps of one file; None where it is something else."""
    root = read_file(path, troubles)
    if root is None:
        return []
    if isinstance(root, Table) and any(key.value in _NO_MAP for key, _ in root.items):
        return None
    bad = conform(root, PART_FILE, troubles)
    if not isinstance(root, Table):
        return []
    root, _, shelf = take_parts(root, troubles, bad, MappingProxyType({}))
    units = {}
    listed = root.get("units")
    for key, value in listed.items if isinstance(listed, Table) else ():
        if isinstance(value, Table) and id(key) not in bad and id(value) not in bad:
            units[key.value.lower()] = read_unit(key.value, key, value, troubles, bad)
    made = []
    titled = root.get("title")
    title_at = titled.place if isinstance(titled, Text) else None
    plugs = root.get("plugs")
    for key, value in plugs.items if isinstance(plugs, Table) else ():
        if isinstance(value, Table) and not isinstance(key, Broken) and id(key) not in bad and id(value) not in bad:
            plug = read_plug(key.value, key, value, troubles, bad)
            made.append(Map(path, text_of(root, "title"), plug, units, title_at))
    del shelf  # kept until here: what was refused is told by the nodes' ids
    return made
