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
        for name in filter(None, record.word("photo").split(", ")):
            made.append(Photo(record, name, *copy_of(name, folder)))
    return made
