"""As built against the plan: every lead and cavity that somebody recorded as made, and where it differs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.as_built import Built, as_built
from render.blocks import Block, Cell, Column, Grid, Para, Sheet, Strong
from render.documents import document
from render.documents.wording import count

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof


@document("as-built", title="As built, against the plan", order=20)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For the file and the next bay: what was really done. Prints once something is recorded as built."""
    if proof.wiring is not None and any(record.verb == "built" for record in proof.wiring.job.records):
        yield Sheet("as-built", "As built, against the plan", tuple(_blocks(proof.wiring)), shares=True)


def _blocks(wiring: Wiring) -> Iterator[Block]:
    built = as_built(wiring)
    differ = [each for each in built if not each.same]
    yield Para(
        f"{count(len(built), 'record')} of what was built: {len(built) - len(differ)} as planned, {len(differ)} not. "
        "What nobody recorded is not on this sheet, and nothing says that it was built as planned."
    )
    columns = (Column("Contact", 2.4), Column("Planned", 2), Column("Built", 2), Column("By", 1.3), Column("", 1.1))
    if differ:
        yield Grid(columns, tuple(_row(each) for each in differ), caption="Differs from the plan")
    same = [each for each in built if each.same]
    if same:
        yield Grid(columns, tuple(_row(each) for each in same), caption="As planned")


def _row(each: Built) -> tuple[Cell, ...]:
    verdict: Cell = "as planned" if each.same else Strong("DIFFERS")
    return Strong(each.name), each.planned, Strong(each.built), each.signed, verdict
