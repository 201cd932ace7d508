"""Jobs for the sheets, and their text as the text writer prints it."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from harness.prove import Proof, prove
from render.blocks import Sheet
from render.documents import documents
from render.documents.masthead import masthead
from render.writers.text import write_text

ROOT = Path(__file__).resolve().parents[3]
JOBS = {
    path.stem: path
    for folder in ("samples", "tests/render/documents/jobs")
    for path in (ROOT / folder).glob("*.yaml")
    if path.name != "shop.yaml"
}


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
