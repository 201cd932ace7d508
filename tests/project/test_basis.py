"""Every number on paper rests on an entry of the basis, every entry serves something, and few are mere custom."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from harness.planning.bases import numbered
from harness.presets import PRACTICE, names, preset
from harness.prove import prove
from render.blocks import Sheet
from render.documents import documents

# Sheets that print what is written, and compute nothing.
AS_WRITTEN = (
    "cover",
    "plug-sheet",
    "lead-list",
    "work-order",
    "splice-list",
    "settings",
    "basis",
    "as-built",
    "handover",
    "customer",
)


def sheets(root: Path) -> list[Sheet]:
    proofs = [prove(path, mends=False) for path in sorted((root / "samples").glob("*-*.yaml"))]
    return [sheet for proof in proofs for kind in documents() for sheet in kind.sheets(proof)]


def test_each_sheet_that_computes_names_entries_that_there_are(root: Path) -> None:
    keys = {entry.key for entry in numbered("house")}
    for sheet in sheets(root):
        assert set(sheet.bases) <= keys, sheet.name
        assert bool(sheet.bases) != sheet.name.startswith(AS_WRITTEN), sheet.name


def test_each_entry_serves_a_sheet_or_a_check(root: Path) -> None:
    """The shop's figures that only a check holds something against are asked for by name in the code."""
    served = {key for sheet in sheets(root) for key in sheet.bases}
    asked = {
        node.value
        for folder in ("graph", "checks", "planning")
        for path in (root / "harness" / folder).glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    for entry in numbered("house"):
        own = entry.key in preset("house").figures and entry.key in asked
        assert entry.key in served or own, entry


@pytest.mark.parametrize("name", names())
def test_at_most_a_fifth_is_common_practice(name: str) -> None:
    entries = numbered(name)
    practice = [entry.key for entry in entries if PRACTICE in (entry.source, entry.kind)]
    assert len(practice) * 5 <= len(entries), practice


def test_an_entry_has_one_number_and_one_key() -> None:
    entries = numbered("house")
    assert [entry.number for entry in entries] == list(range(1, len(entries) + 1))
    assert len({entry.key for entry in entries}) == len(entries)
