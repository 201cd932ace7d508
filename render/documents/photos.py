"""The photos that go with the records, each with what its record says."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.checks.recording import record_words
from harness.graph.photos import Photo as Named
from harness.graph.photos import photos
from harness.model.evidence import Record
from render.blocks import Block, Caution, Para, Photo, Sheet
from render.documents import document
from render.documents.wording import count, recorded_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof


@document("photos", title="Photos", order=20)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """What was seen, as a picture. Prints once a record has a photo."""
    if proof.wiring is not None and photos(proof.wiring):
        yield Sheet("photos", "Photos", tuple(_blocks(proof.wiring)))


def _blocks(wiring: Wiring) -> Iterator[Block]:
    found = photos(wiring)
    away = [each for each in found if each.why]
    yield Para(
        f"{count(len(found), 'photo')} of {count(len({id(each.record) for each in found}), 'record')}, in the order "
        "taken. A colour on paper proves nothing: read the words."
    )
    if away:
        listed = "; ".join(f"{each.name}: {each.why}" for each in away)
        yield Caution(f"{len(away)} of {count(len(found), 'photo')} can't be shown. {listed}.")
    for each in found:
        yield Photo(_title(wiring, each), tuple(_lines(wiring, each.record)), each.name, each.path, each.why)


def _title(wiring: Wiring, photo: Named) -> str:
    words = record_words(wiring, photo.record._replace(by="", when=""))
    return words[:1].upper() + words[1:]


def _lines(wiring: Wiring, record: Record) -> Iterator[str]:
    if record.contacts:
        yield " and ".join(wiring.words(name) for name in record.contacts)
    if said := recorded_words(record):
        yield said
    yield ", ".join(filter(None, (record.by or "nobody named", record.when or "no date")))
    if record.stale:
        yield f"No longer counts: {record.stale}."
