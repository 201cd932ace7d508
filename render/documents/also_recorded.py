"""What was read or seen at the car and no checklist shows: never asked for, or said again by a later record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.checks.recording import record_words
from harness.graph.contrary import contrary
from harness.model.colour import read_colour
from harness.model.evidence import Record
from harness.planning.also_recorded import Earlier, also_recorded, earlier_words
from render.blocks import Block, Cell, Column, Grid, Heading, Para, Sheet, Strong
from render.documents import document
from render.documents.wording import recorded_words, said_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof


@document("also-recorded", title="Also recorded", order=20)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For the file and the next bay: readings and looks beyond the checklists, and what was said before a later record.

    Prints once there are such.
    """
    if proof.wiring is None:
        return
    found, before = also_recorded(proof.wiring), earlier_words(proof.wiring)
    if found or before:
        blocks = (*_beside(proof.wiring, found), *_before(proof.wiring, before))
        yield Sheet("also-recorded", "Also recorded", blocks, shares=True)


def _beside(wiring: Wiring, found: tuple[Record, ...]) -> Iterator[Block]:
    if not found:
        return
    yield Para("Recorded at the car, and asked for on no other sheet; of each the last word.")
    against = {id(each.record): each for each in contrary(wiring)}
    rows: list[tuple[Cell, ...]] = []
    for record in found:
        note: Cell = "no longer holds: " + record.stale if record.stale else ""
        if not note and (charted := _charted(wiring, record)):
            note = (Strong("OTHER"), f"charted {charted}")
        if id(record) in against:
            note = (Strong("AGAINST THE PLAN"), f"planned {against[id(record)].planned}")
        rows.append((_title(wiring, record), Strong(recorded_words(record)), record.signed, note))
    columns = (Column("What", 2.4), Column("Read or seen", 2.2), Column("By", 1.2), Column("", 1.8))
    noted = any(row[-1] for row in rows)
    yield Grid(columns if noted else columns[:-1], tuple(row if noted else row[:-1] for row in rows))


def _charted(wiring: Wiring, record: Record) -> str:
    """The colours that the chart has where others were seen, in words; empty where it has the same, or none."""
    seen = [read_colour(word) for word in record.word("colour").split()]
    charted = [wiring.contact(name).colour for name in record.contacts]
    if record.verb != "seen" or len(seen) != len(charted):
        return ""
    pairs = [(one.words, other.words) for one, other in zip(seen, charted, strict=True) if one and other]
    return "" if all(one == other for one, other in pairs) else " and ".join(other for _, other in pairs)


def _before(wiring: Wiring, before: tuple[Earlier, ...]) -> Iterator[Block]:
    """What gave way to a later record of the same thing: it decides nothing any more, and isn't lost."""
    if not before:
        return
    yield Heading("Before: said again by a later record, and the later one counts", 2)
    rows: list[tuple[Cell, ...]] = []
    for each in before:
        words = "; ".join(dict.fromkeys(said_words(key, value) for key, value in each.words))
        under = each.record.word("key")
        under = f"key: {under}" if under and each.record.verb == "volts" else ""
        title = _title(wiring, each.record)
        rows.append(
            (
                title,
                (Strong(words or recorded_words(each.record) or each.record.what), *((under,) if under else ())),
                each.record.signed,
                (_stands(each), each.later.signed),
            )
        )
    columns = (Column("What", 2.4), Column("Before", 2.0), Column("By", 1.2), Column("Now", 2.0))
    yield Grid(columns, tuple(rows))


def _stands(each: Earlier) -> str:
    """The later record's words to the same keys, or all of them where it says none."""
    said = [said_words(key, value) for key, _ in each.words if (value := each.later.word(key))]
    named = f"{each.later.verb}: " if each.later.verb != each.record.verb else ""
    bare = {"built": "made", "checked": "looked at"}.get(each.later.verb, each.later.what)
    return named + ("; ".join(dict.fromkeys(said)) or recorded_words(each.later) or bare)


def _title(wiring: Wiring, record: Record) -> Cell:
    where = " and ".join(wiring.words(name) for name in record.contacts)
    words = record_words(wiring, record._replace(by="", when="")).removeprefix("the ")
    title = Strong(words[:1].upper() + words[1:])
    return (title, where) if where else title
