"""A job's file as it must read from another folder: the paths of its part files and of its shop file."""

from __future__ import annotations

import os
import re
from pathlib import PurePath

from harness.mend.page import CannotEdit, Page, edited
from harness.mend.values import Splice, in_brackets, replace, spliced
from harness.read.nodes import Rows, Table, Text, read_text
from harness.read.quoting import quoted
from harness.read.troubles import Troubles

_HEAD = ("ringout", "title", "revision", "date")


def in_other_folder(text: str, file: str, new_file: str, shop: str = "") -> str:
    """The text of `file` as that of `new_file`: what stands under `parts:` and `shop:` is found from there.

    Where the job names no shop file, `shop` is the one beside it, and is named. Comments, order and line ends stay.
    Raises CannotEdit where a path is written over several lines.
    """
    bare = text.removeprefix("\ufeff")
    page = Page(file, bare)
    root = read_text(bare, file, Troubles())
    splices: list[Splice] = []
    wrong: list[str] = []
    if isinstance(root, Table):
        paths_moved(page, root, moved_paths(root, file, new_file), splices, wrong)
    if wrong:
        raise CannotEdit("\n".join(wrong))
    spliced(page, splices)
    if shop and isinstance(root, Table) and root.get("shop") is None and not _same_folder(file, new_file):
        number = max(filter(None, map(page.top, _HEAD)), default=0)
        page.put_in(number + 1, f"shop: {path_value(_from(shop, new_file))}")
    return text[: len(text) - len(bare)] + edited(bare, page.edits())


def moved_paths(root: Table, file: str, new_file: str) -> list[tuple[Text, str]]:
    """The entries of `parts:`, and `shop:`, that lead elsewhere from the new folder, with what they are there."""
    if _same_folder(file, new_file):
        return []
    old = os.path.dirname(os.path.abspath(file))
    entries, shop = root.get("parts"), root.get("shop")
    made = []
    for entry in (*(entries.items if isinstance(entries, Rows) else ()), shop):
        if isinstance(entry, Text) and not os.path.isabs(entry.value):
            made.append((entry, _from(os.path.join(old, entry.value), new_file)))
    return made


def _same_folder(file: str, new_file: str) -> bool:
    one, other = (os.path.dirname(os.path.abspath(path)) for path in (file, new_file))
    return one == other


def _from(path: str, new_file: str) -> str:
    """A path as the new file names it."""
    new = os.path.dirname(os.path.abspath(new_file))
    try:
        made = os.path.relpath(path, new)
    except ValueError:  # on another drive
        made = os.path.abspath(path)
    return PurePath(made).as_posix()


def path_value(path: str) -> str:
    """A path as a value: `../` before it asks for no quotes."""
    below = re.sub(r"^(?:\.\./)+", "", path)
    return path if quoted(below) == below else quoted(path)


def paths_moved(
    page: Page, root: Table, moved: list[tuple[Text, str]], splices: list[Splice], wrong: list[str]
) -> None:
    """The paths put in; into `wrong` what can't be."""
    for node, path in moved:
        within = root if node is root.get("shop") else root.get("parts")
        replace(page, node, path_value(path), splices, wrong, flow=in_brackets(page, within))
