"""Jobs for the sheets, and their text as the text writer prints it."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from harness.prove import Proof, prove
from render.blocks import Block, Cell, Grid, Keep, Sheet
from render.documents import documents
from render.documents.masthead import masthead
from render.writers.text import write_text

ROOT = Path(__file__).resolve().parents[3]
JOBS = {path.stem: path for folder in ("samples", "tests/render/documents/jobs") for path in (ROOT / folder).glob("*.yaml")}


@cache
def _proof(name: str) -> Proof:
    proof = prove(JOBS[name], mends=False)
    assert proof.wiring is not None, [(f.code, f.places[0].place.line, f.message) for f in proof.report.findings]
    return proof


@cache
def _sheets(name: str) -> tuple[Sheet, ...]:
    return tuple(sheet for kind in documents() for sheet in kind.sheets(_proof(name)))


@pytest.fixture
def proof_of() -> Callable[[str], Proof]:
    """The proof of a job by its file's name."""
    return _proof


@pytest.fixture
def sheets_of() -> Callable[[str], tuple[Sheet, ...]]:
    """All sheets of a job."""
    return _sheets


@pytest.fixture
def text_of() -> Callable[[str, str], str]:
    """The text of the sheets whose name begins with a word, as printed."""

    def text(name: str, sheet: str) -> str:
        chosen = tuple(each for each in _sheets(name) if each.name.startswith(sheet))
        assert chosen, [each.name for each in _sheets(name)]
        return write_text(chosen, masthead(_proof(name)))

    return text


def first_column(text: str, heading: str) -> list[str]:
    """The first cell of every row of the text tables whose first column is headed so."""
    found: list[str] = []
    lines = text.splitlines()
    for at, line in enumerate(lines):
        if not re.match(rf"{heading}  ", line) or not set(lines[at + 1]) <= set("- "):
            continue
        width = len(lines[at + 1].split(" ")[0])
        fresh = True
        for row in lines[at + 2 :]:
            if not row.strip():
                fresh = True
                # a blank line parts rows of several lines; two in a row, or a new heading, end the table
                continue
            if set(row) <= set("=-"):
                break
            cell = row[:width].strip()
            if fresh and cell:
                found.append(cell)
            fresh = False
        # rows of one line each are not parted by blank lines
    return found


def grids(blocks: tuple[Block, ...]) -> list[Grid]:
    """Every grid of a sheet, those kept together too."""
    made: list[Grid] = []
    for block in blocks:
        if isinstance(block, Grid):
            made.append(block)
        elif isinstance(block, Keep):
            made += grids(block.blocks)
    return made


def said(cell: Cell) -> str:
    """A cell's words."""
    pieces = cell if isinstance(cell, tuple) else (cell,)
    return " ".join(getattr(piece, "text", None) or getattr(piece, "words", None) or str(piece) for piece in pieces)
