"""Handing over: where the job stands, for the next person; or what the last one left."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.answers import answers
from harness.graph.contrary import HEARD, PLUS, pairs_against
from harness.graph.proven import Tried, open_evidence, released, tried, voided
from harness.graph.unread import unread_words
from harness.model.evidence import CLOSED, PAUSED, TAKEN, Record
from harness.planning.left_since import left_since
from render.blocks import Block, Caution, Cell, Column, Grid, Heading, Listing, Para, Room, Sheet, Strong, Tick
from render.documents import document
from render.documents.wording import NOT_RECORDED, recorded_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

_ASKED = (("done", "Done"), ("left", "Left to do"), ("parts", "Parts wanted"), ("odd", "Anything odd"))


@document("handover", title="Handover", order=21)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For whoever goes on with the car: read it, sign it, then begin. Prints once the first record is written."""
    if proof.wiring is not None and proof.wiring.job.records:
        yield Sheet("handover", "Handover", tuple(_blocks(proof, proof.wiring)), shares=True)


def _blocks(proof: Proof, wiring: Wiring) -> Iterator[Block]:
    records = [record for record in wiring.job.records if record.verb == "handover"]
    paused = [record for record in records if record.what == PAUSED]
    last = paused[-1] if paused else None
    closed = [r for r in records if r.what == CLOSED and (last is None or r.place.line > last.place.line)]
    if last is None and closed:  # closed in one go: what it says stands in the place of what was left
        last, closed = closed[-1], []
        yield Para(f"Closed by {last.signed}.")
    elif last is None:
        yield Para("Nobody has handed this job over yet. Write it here, and record it before you leave the car.")
    else:
        yield Para(f"Paused by {last.signed}.")
    columns = (Column("What", 1), Column("As left", 4))
    yield Grid(columns, tuple(row for key, title in _ASKED for row in _rows(wiring, last, key, title)))
    if closed:
        said = recorded_words(closed[-1])
        yield Para(f"Closed by {closed[-1].signed}{f': {said}' if said else ''}.")
    yield from _open(proof, wiring)
    taken = [r for r in records if r.what == TAKEN and (last is None or r.place.line > last.place.line)]
    if taken:
        yield Para(f"Read and taken over by {taken[-1].signed}.")
    else:
        yield Grid(
            (Column("Read and taken over by", 2), Column("Date, time", 1.5), Column("", 1)),
            ((Room(50), Room(30), Tick("read")),),
        )


def _rows(wiring: Wiring, last: Record | None, key: str, title: str) -> Iterator[tuple[Cell, ...]]:
    """What the last one said behind a key; what he left and was recorded as done since, apart, with who and when."""
    items = left_since(wiring, last) if last is not None and key == "left" else ()
    if any(each.done for each in items):
        still = [each.words for each in items if not each.done]
        yield Strong(title), Strong(", ".join(still) or "nothing of it: all is recorded as done")
        yield Strong("Done since"), tuple(Strong(each.words, each.signed) for each in items if each.done)
        return
    yield Strong(title), _said(last, key)


def _said(record: Record | None, key: str) -> Strong | Room:
    if record is None:
        return Room(100)
    return Strong(record.word(key) or NOT_RECORDED)


def _open(proof: Proof, wiring: Wiring) -> Iterator[Block]:
    still, against = open_evidence(wiring), pairs_against(wiring)
    lines = [
        *(f"Pair {pair.name}: {against.get(pair.name) or f'{pair.state}, not toned'}" for pair in still.pairs),
        *(f"Output {driver.name}: {_played(wiring, driver.name)}" for driver in still.outputs),
        *(each.words for each in still.contrary if each.kind not in (HEARD, PLUS)),
        *(f"{each.name}: worked before, {_since(each)}" for each in tried(wiring) if each.missing),
        *(f"{what[:1].upper()}{what[1:]}: {why}" for what, why in unread_words(wiring)),
        *(f"{feature.name}: nobody tried it before the work" for feature in still.before),
    ]
    stale = [record for record in wiring.job.records if record.stale]
    lines += [f"Record of {record.what} ({record.signed}) no longer holds: {record.stale}" for record in stale]
    yield Heading("Still open", 2)
    yield Listing(tuple(lines)) if lines else Para("Nothing that a record could still settle.")
    yield from _struck(wiring)
    signed, void = released(wiring), voided(wiring)
    if void is not None:
        yield Para(
            f"{void.signature.signed} signed to let it go ({void.signature.word('reason')}). That no longer stands: "
            f"since then {void.by.signed} recorded {void.words}."
        )
    if signed is not None and proof.report.verdict in ("stop", "mend"):
        what = "a STOP" if proof.report.verdict == "stop" else "what must be mended first"
        yield Para(
            f"{signed.signed} signed to let it go ({signed.word('reason')}). It has no effect: no signature stands "
            f"above {what}."
        )
    elif signed is not None:
        yield Caution(f"Released by {signed.signed} although not all is proved: {signed.word('reason')}.")


def _struck(wiring: Wiring) -> Iterator[Block]:
    """What was taken back, with its words: it proves nothing, and who reads the file later must not miss it."""
    if not wiring.job.struck:
        return
    yield Heading("Struck: taken back, and proves nothing", 2)
    columns = (Column("Line", 0.1), Column("Record", 2.2), Column("It said", 2.4), Column("Struck by", 2.6))
    rows = []
    for each in wiring.job.struck:
        why = each.by.word("reason")
        rows.append(
            (
                Strong(str(each.record.place.line)),
                (each.record.named, each.record.signed),
                recorded_words(each.record) or "no more than that",
                (each.by.signed, why or f"reason {NOT_RECORDED}"),
            )
        )
    yield Grid(columns, tuple(rows))


def _since(each: Tried) -> str:
    """How a function that worked before was left."""
    if each.after is None or each.after.word("result") in ("", "not tried"):
        return "not tried since"
    return f"{each.after.word('result')} since the work ({each.after.signed})"


def _played(wiring: Wiring, output: str) -> str:
    """How an output that isn't proved was heard: not yet, or otherwise than planned."""
    found = next((each for each in answers(wiring) if each.driver.name == output), None)
    if found is None:
        return "not heard yet"
    heard = found.record.word("heard") or NOT_RECORDED
    loud = ", doesn't follow the volume" if found.loud else ""
    return f"contradicted: {heard} heard{loud} ({found.record.signed})"
