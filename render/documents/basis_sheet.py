"""The basis: where each figure on this paper comes from, and which of them the shop may change."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.basis import entries
from harness.presets import preset
from render.blocks import Block, Column, Grid, Heading, Para, Sheet, Strong
from render.documents import document
from render.documents.wording import or_not_recorded

if TYPE_CHECKING:
    from harness.prove import Proof


@document("basis", title="Basis", order=11)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who doubts a number: who says so."""
    yield Sheet("basis", "Basis of the figures", tuple(_blocks(proof)))


def _blocks(proof: Proof) -> Iterator[Block]:
    name = proof.report.preset
    limits = proof.job.limits if proof.job is not None else {}
    yield Heading("The shop's figures")
    try:
        chosen = preset(name)
    except KeyError:
        yield Para(f"Preset: {or_not_recorded(name)}. No choices are known by this name.")
    else:
        yield Para(f"Preset {chosen.name}: {chosen.words}. Another shop's preset may find other things.")
        rows = []
        for each, figure in chosen.figures.items():
            written = limits.get(each)
            said = (written.words, "written in this job") if written is not None else (figure.words, figure.basis)
            rows.append((each, Strong(said[0]), said[1]))
        rows.append(("fuse chart", Strong(chosen.fuse_chart), "see fuse chart below"))
        yield Grid((Column("Figure", 1.4), Column("Value", 1), Column("Who says so", 4.6)), tuple(rows))
    yield Heading("What is computed with")
    columns = (Column("Entry", 1.5), Column("Says", 3.5), Column("Source", 2.6), Column("Kind", 1.4))
    yield Grid(columns, tuple((entry.key, entry.says, entry.source, entry.kind) for entry in entries()))
