"""The evidence file beside the job, as far as proving needs it: which pairs were toned or read."""

from __future__ import annotations

import os

from harness.model.job import Tone
from harness.read.names import Names
from harness.read.nodes import Rows, Table, read_file
from harness.read.plugs import text_of
from harness.read.troubles import Troubles
from harness.read.unit_rows import listed


def evidence_path(job_file: str) -> str:
    """`larch.yaml` has its evidence in `larch.evidence.yaml`."""
    stem, dot, ending = job_file.rpartition(".")
    return f"{stem if dot else ending}.evidence.yaml"


def read_tones(job_file: str, names: Names, troubles: Troubles) -> tuple[tuple[Tone, ...], frozenset[str]]:
    """The toning records whose pair still exists, and the contacts of pairs read with a meter.

    A record about something that is no longer in the job proves nothing and is left aside here.
    """
    path = evidence_path(job_file)
    if not os.path.exists(path):
        return (), frozenset()
    if os.path.isfile(path) and os.path.getsize(path) == 0:
        return (), frozenset()
    root = read_file(path, troubles)
    if root is None:
        return (), frozenset()
    records = root.items if isinstance(root, Rows) else [root]
    for odd in records if not isinstance(root, Rows) else [each for each in records if not isinstance(each, Table)]:
        troubles.add(
            "R08", odd.place, os.path.basename(path), "The evidence file is a list of records, each a table.",
            "Write a line like `- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, charted: FL, heard: FL}`.",
        )  # fmt: skip
    if not isinstance(root, Rows):
        return (), frozenset()
    aside = Troubles()
    quiet = _quiet(names, aside)
    tones: list[Tone] = []
    read: set[str] = set()
    for record in root.items:
        if not isinstance(record, Table):
            continue
        for verb in ("tone", "ohm"):
            node = record.get(verb)
            text = text_of(record, verb)
            if node is None or not text:
                continue
            for group in quiet.groups(node, "car", text):  # type: ignore[arg-type]
                if len(group.contacts) != 2:
                    continue
                if verb == "tone":
                    pair = (group.contacts[0], group.contacts[1])
                    said = (text_of(record, "charted"), text_of(record, "heard"), text_of(record, "plus"))
                    unplugged = tuple(each.value.lower().rstrip(",") for each in listed(record.get("unplugged")))
                    tones.append(Tone(pair, *said, node.place, unplugged))
                read.update(group.contacts)
    return tuple(tones), frozenset(read)


def _quiet(names: Names, troubles: Troubles) -> Names:
    """The same names, with their troubles set aside."""
    quiet = Names(troubles)
    for attribute in ("contacts", "owners", "shaky", "plug", "end", "unit", "speakers", "grounds", "opened", "cut"):
        setattr(quiet, attribute, getattr(names, attribute))
    return quiet
