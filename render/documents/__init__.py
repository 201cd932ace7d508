"""The sheets of a packet, one file each, found by being in this folder.

A sheet is a function from a `Proof` to `Sheet`s:

    @document("plug-sheet", title="Plug sheet", order=2)
    def sheets(proof: Proof) -> Iterable[Sheet]:
        '''What it shows, and for whom.'''
        for plug in ...:
            yield Sheet(f"plug-sheet-{plug.name}", f"Plug {plug.name}", (Heading(...), Grid(...)))

The masthead of every page comes from `masthead(proof)` in `render/documents/masthead.py`.
"""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from render.blocks import Bars, Block, Face, FacePair, Keep, Masthead, Picture, Sheet

if TYPE_CHECKING:
    from harness.prove import Proof

Sheets = Callable[["Proof"], Iterable[Sheet]]


class Document(NamedTuple):
    """A kind of sheet: `name` as typed after `--sheet`, its title, its place in the packet, its function."""

    name: str
    title: str
    order: int
    sheets: Sheets


_REGISTRY: dict[str, Document] = {}


def document(name: str, *, title: str, order: int) -> Callable[[Sheets], Sheets]:
    """Register the function below under `name`; lower `order` prints first.

    Raises ValueError where the name is taken or isn't made of lower case letters, digits and hyphens.
    """
    if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", name):
        raise ValueError(f"{name!r}: the name of a sheet has lower case letters, digits and hyphens")

    def register(sheets: Sheets) -> Sheets:
        if name in _REGISTRY:
            raise ValueError(f"two sheets are named {name!r}")
        _REGISTRY[name] = Document(name, title, order, sheets)
        return sheets

    return register


def documents() -> tuple[Document, ...]:
    """All kinds of sheets in the order of the packet. Imports the folder's files the first time."""
    for module in sorted(found.name for found in pkgutil.iter_modules(__path__)):
        importlib.import_module(f"{__name__}.{module}")
    return tuple(sorted(_REGISTRY.values(), key=lambda kind: (kind.order, kind.name)))


def packet(proof: Proof, out_dir: Path, names: Iterable[str] | None = None) -> list[Path]:
    """Write packet.pdf, packet.txt and an SVG for each picture and face into `out_dir`; return their paths.

    `names` limits it to some kinds of sheets; one that doesn't exist is a ValueError that lists those
    that do. Each file is whole or absent; the same proof gives the same bytes.
    """
    from render.documents.masthead import masthead

    return write_packet(chosen_sheets(proof, names), masthead(proof), out_dir)


def write_packet(sheets: tuple[Sheet, ...], head: Masthead, out_dir: Path) -> list[Path]:
    """The files of a packet from sheets that are made already."""
    from render.writers.files import marked, remove_earlier, write_all
    from render.writers.pdf import write_pdf
    from render.writers.svg import write_svg
    from render.writers.text import write_text

    out_dir.mkdir(parents=True, exist_ok=True)
    files = [
        (out_dir / "packet.pdf", write_pdf(sheets, head)),
        (out_dir / "packet.txt", write_text(sheets, head).encode("utf-8")),
    ]
    for sheet in sheets:
        for number, drawn in enumerate(_drawn(sheet.blocks), 1):
            name = f"{sheet.name}-{number}.svg"
            files.append((out_dir / name, marked(write_svg(drawn), name).encode("utf-8")))
    write_all(files)
    remove_earlier(out_dir, {path.name for path, _ in files})
    return [path for path, _ in files]


def chosen_sheets(proof: Proof, names: Iterable[str] | None) -> tuple[Sheet, ...]:
    """The sheets of a packet, all or those of some kinds, with the numbers of the basis that they rest on."""
    return together(proof, by_kind(proof, names))


def by_kind(proof: Proof, names: Iterable[str] | None) -> dict[str, tuple[Sheet, ...]]:
    """The sheets of each kind, all or those named, in the order of the packet; none where a kind has nothing to say."""
    kinds = documents()
    if names is not None:
        wanted = list(names)
        known = [kind.name for kind in kinds]
        for name in wanted:
            if name not in known:
                raise ValueError(f"there is no sheet {name!r}; there are {', '.join(known)}")
        kinds = tuple(kind for kind in kinds if kind.name in wanted)
    return {kind.name: tuple(kind.sheets(proof)) for kind in kinds}


def together(proof: Proof, kinds: dict[str, tuple[Sheet, ...]]) -> tuple[Sheet, ...]:
    """The sheets of some kinds as one packet has them, with the numbers of the basis that they rest on."""
    from harness.planning.bases import numbered

    made = tuple(sheet for sheets in kinds.values() for sheet in sheets)
    if any(sheet.bases for sheet in made):
        numbers = {entry.key: entry.number for entry in numbered(proof.report.preset, proof.job)}
        made = tuple(_with_bases(sheet, numbers) for sheet in made)
    taken: set[str] = set()
    for sheet in made:
        if not re.fullmatch(r"[A-Za-z0-9_-]+", sheet.name):
            raise ValueError(f"sheet name {sheet.name!r} can't be part of a file name")
        if sheet.name.lower() in taken:
            raise ValueError(f"two sheets are named {sheet.name!r}")
        taken.add(sheet.name.lower())
    return made


def _with_bases(sheet: Sheet, numbers: dict[str, int]) -> Sheet:
    """The sheet with the numbers of its entries of the basis, for the foot of its pages."""
    return replace(sheet, rests_on=tuple(sorted(numbers[key] for key in sheet.bases if key in numbers)))


def _drawn(blocks: Iterable[Block]) -> Iterable[Picture | Face | Bars]:
    """Pictures, faces and bars in the order of the paper; a pair of faces gives both views."""
    from render.ends.views import both_views

    for block in blocks:
        if isinstance(block, Keep):
            yield from _drawn(block.blocks)
        elif isinstance(block, FacePair):
            yield from both_views(block)
        elif isinstance(block, Picture | Face | Bars):
            yield block
