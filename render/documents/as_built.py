"""As built against the plan: every lead and cavity that somebody recorded as made, and where it differs."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.as_built import as_built, planned
from harness.model.evidence import Record
from harness.planning.states import contradictions
from render.blocks import Block, Caution, Cell, Column, Grid, Para, Sheet, Strong
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
    differing, unread = as_built(wiring)
    odd = {id(each.record): each for each in differing}
    records = _last(wiring)
    same = [each for each in records if id(each) not in odd and each not in unread]
    yield Para(
        f"{count(len(records), 'record')} of what was built: {len(same)} as planned, {len(differing)} not"
        f"{f', {len(unread)} in words that can’t be compared' if unread else ''}. What nobody recorded is not on this "
        "sheet, and nothing says that it was built as planned."
    )
    against = contradictions(wiring)
    if against:
        said = ", ".join(f"{pair} {words}" for pair, words in against.items())
        yield Caution(f"The car speaks against the chart: {said}. Built as planned may be wrong all the same.")
    columns = (Column("Contact", 2.4), Column("Planned", 2), Column("Built", 2), Column("By", 1.3), Column("", 1.1))
    rows = [
        (Strong(_words(wiring, each.contacts)), each.planned, *_built(each.record), Strong("DIFFERS"))
        for each in differing
    ]
    if rows:
        yield Grid(columns, tuple(rows), caption="Differs from the plan")
    rest = [(Strong(_words(wiring, each.contacts)), "the same", *_built(each), "as planned") for each in same]
    rest += [
        (Strong(_words(wiring, each.contacts)), planned(wiring, each.contacts[0])[0], *_built(each), "not compared")
        for each in unread
    ]
    if rest:
        yield Grid(columns, tuple(rest), caption="As planned, and what is not compared" if unread else "As planned")


def _last(wiring: Wiring) -> list[Record]:
    """The last record about each contact, in their order."""
    last: dict[str, Record] = {}
    for record in wiring.job.records:
        if record.verb == "built" and not record.stale:
            last.update(dict.fromkeys(record.contacts, record))
    return list({id(record): record for record in last.values()}.values())


def _words(wiring: Wiring, contacts: tuple[str, ...]) -> str:
    return " and ".join(wiring.words(name) for name in contacts)


def _built(record: Record) -> tuple[Cell, str]:
    return Strong(record.word("is") or "made"), record.signed
