"""What was read or seen at the car and is asked for on no checklist."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.checks.recording import record_words
from harness.graph.contrary import contrary
from harness.model.evidence import Record
from harness.planning.also_recorded import also_recorded
from render.blocks import Block, Cell, Column, Grid, Para, Sheet, Strong
from render.documents import document
from render.documents.wording import recorded_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof


@document("also-recorded", title="Also recorded", order=20)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For the file and the next bay: readings and looks beyond the checklists. Prints once there are such."""
    if proof.wiring is not None and (found := also_recorded(proof.wiring)):
        yield Sheet("also-recorded", "Also recorded", tuple(_blocks(proof.wiring, found)), shares=True)


def _blocks(wiring: Wiring, found: tuple[Record, ...]) -> Iterator[Block]:
    yield Para("Read or seen at the car, and asked for on no other sheet; of each the last word.")
    against = {id(each.record): each for each in contrary(wiring)}
    rows: list[tuple[Cell, ...]] = []
    for record in found:
        words = record_words(wiring, record._replace(by="", when=""))
        where = " and ".join(wiring.words(name) for name in record.contacts)
        note: Cell = "no longer holds: " + record.stale if record.stale else ""
        if id(record) in against:
            note = (Strong("AGAINST THE PLAN"), f"planned {against[id(record)].planned}")
        words = words.removeprefix("the ")
        title = Strong(words[:1].upper() + words[1:])
        rows.append(((title, where) if where else title, Strong(recorded_words(record)), record.signed, note))
    columns = (Column("What", 2.4), Column("Read or seen", 2.2), Column("By", 1.2), Column("", 1.8))
    noted = any(row[-1] for row in rows)
    yield Grid(columns if noted else columns[:-1], tuple(row if noted else row[:-1] for row in rows))
