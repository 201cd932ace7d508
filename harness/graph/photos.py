"""The photos that records name, each with its record."""

from __future__ import annotations

import os
from typing import NamedTuple

from harness.graph.kept import kept
from harness.graph.wiring import Wiring
from harness.model.evidence import Record
from harness.records.shown import copy_of


class Photo(NamedTuple):
    """A photo of a record: its name as written, where it lies, and why it can't be shown (empty: it can)."""

    record: Record
    name: str
    path: str
    why: str


@kept
def photos(wiring: Wiring) -> list[Photo]:
    """Every photo of every record, also of those that no longer hold, in the order written."""
    folder = os.path.dirname(wiring.job.file)
    made = []
    for record in wiring.job.records:
        for name in _names(record.word("photo")):
            made.append(Photo(record, name, *copy_of(name, folder)))
    return made


def _names(said: str) -> list[str]:
    """The names of a list; a comma may also stand in a job's own name, before the ending of its photo."""
    made: list[str] = []
    begun = ""
    for part in said.split(", "):
        begun = f"{begun}, {part}" if begun else part
        if os.path.splitext(part)[1]:
            made.append(begun)
            begun = ""
    return [*made, begun] if begun else made
