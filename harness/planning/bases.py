"""Every figure that paper may rest on, numbered: the shop's, then those that are computed with."""

from __future__ import annotations

from typing import NamedTuple

from harness.basis import entries
from harness.model.job import Job
from harness.presets import PRACTICE, preset

SHOP = "shop's figure"


class Entry(NamedTuple):
    """One line of the basis: its number from 1, its key, what it says, who says so, and of which kind that is."""

    number: int
    key: str
    says: str
    source: str
    kind: str


def numbered(preset_name: str, job: Job | None = None) -> tuple[Entry, ...]:
    """All entries. A figure that the job itself writes under `limits` says so. An unknown preset has no figures."""
    made: list[tuple[str, str, str, str]] = []
    limits = job.limits if job is not None else {}
    try:
        figures = preset(preset_name).figures
    except KeyError:
        figures = {}
    for key, figure in figures.items():
        written = limits.get(key)
        if written is not None:
            made.append((key, written.words, "written in this job", SHOP))
        else:
            made.append((key, figure.words, figure.basis, PRACTICE if PRACTICE in figure.basis else SHOP))
    made += [(entry.key, entry.says, entry.source, entry.kind) for entry in entries()]
    return tuple(Entry(number, *each) for number, each in enumerate(made, start=1))
