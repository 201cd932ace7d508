"""The evidence file beside the job, as far as proving needs it: which pairs were toned or read."""

from __future__ import annotations

import os
from collections.abc import Mapping

from harness.model.job import Tone
from harness.model.parts import Plug
from harness.read.names import Names
from harness.read.nodes import Rows, Table, read_file
from harness.read.plugs import text_of
from harness.read.troubles import Troubles
from harness.read.unit_rows import listed


def evidence_path(job_file: str) -> str:
    """`larch.yaml` has its evidence in `larch.evidence.yaml`."""
    stem, dot, ending = job_file.rpartition(".")
    return f"{stem if dot else ending}.evidence.yaml"


def read_tones(
    job_file: str, names: Names, plugs: Mapping[str, Plug], troubles: Troubles
) -> tuple[tuple[Tone, ...], tuple[Tone, ...], frozenset[str]]:
    """The toning records whose pair still exists, those at cavities of a face that the chart has no row for, and the
    contacts of pairs read with a meter.

    A record about something that is no longer in the job proves nothing and is left aside here.
    """
    path = evidence_path(job_file)
    nothing: tuple[tuple[Tone, ...], tuple[Tone, ...], frozenset[str]] = ((), (), frozenset())
    if not os.path.exists(path):
        return nothing
    if os.path.isfile(path) and os.path.getsize(path) == 0:
        return nothing
    root = read_file(path, troubles)
    if root is None:
        return nothing
    records = root.items if isinstance(root, Rows) else [root]
    for odd in records if not isinstance(root, Rows) else [each for each in records if not isinstance(each, Table)]:
        troubles.add(
            "R08", odd.place, os.path.basename(path), "The evidence file is a list of records, each a table.",
            "Write a line like `- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, charted: FL, heard: FL}`.",
        )  # fmt: skip
    if not isinstance(root, Rows):
        return nothing
    aside = Troubles()
    quiet = _quiet(names, aside)
    tones: list[Tone] = []
    off_chart: list[Tone] = []
    read: set[str] = set()
    for record in root.items:
        if not isinstance(record, Table):
            continue
        for verb in ("tone", "ohm"):
            node = record.get(verb)
            text = text_of(record, verb)
            if node is None or not text:
                continue
            groups = quiet.groups(node, "car", text)  # type: ignore[arg-type]
            pairs = [(each.contacts[0], each.contacts[1]) for each in groups if len(each.contacts) == 2]
            bare = _off_chart(text, names, plugs) if verb == "tone" and not groups else None
            if verb == "tone":
                said = (text_of(record, "charted"), text_of(record, "heard"), text_of(record, "plus"))
                unplugged = tuple(each.value.lower().rstrip(",") for each in listed(record.get("unplugged")))
                tones += [Tone(pair, *said, node.place, unplugged) for pair in pairs]
                off_chart += [Tone(bare, *said, node.place, unplugged)] if bare else []
            read.update(name for pair in pairs for name in pair)
    return tuple(tones), tuple(off_chart), frozenset(read)


def _off_chart(text: str, names: Names, plugs: Mapping[str, Plug]) -> tuple[str, str] | None:
    """`dash.car.7/9` where the plug's face has both cavities, and the chart has no row for one of them or both."""
    owner, _, rest = text.strip().partition(".")
    plug = plugs.get(names.owners.get(owner.lower(), ("", ""))[1])
    a, slash, b = rest.removeprefix("unit.").removeprefix("car.").partition("/")
    if plug is None or plug.face is None or not slash or a.lower() == b.lower():
        return None
    there = {each.lower(): each for line in plug.face.drawn for each in line if each is not None}
    there |= {each.lower(): each for each in plug.cavities}
    if a.lower() not in there or b.lower() not in there:
        return None
    return f"{plug.name}.car.{there[a.lower()]}", f"{plug.name}.car.{there[b.lower()]}"


def _quiet(names: Names, troubles: Troubles) -> Names:
    """The same names, with their troubles set aside."""
    quiet = Names(troubles)
    for attribute in ("contacts", "owners", "shaky", "plug", "end", "unit", "speakers", "grounds", "opened", "cut"):
        setattr(quiet, attribute, getattr(names, attribute))
    return quiet
