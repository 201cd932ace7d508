"""The files of a weighing: the comparison; of an offer taken also its quote, its parts and what to cut."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from harness.joints import methods
from harness.planning.parts_list import JointCount
from harness.weighing.recount import without_row
from render.documents import by_kind, parts_sheet, together, write_packet
from render.documents.masthead import masthead
from render.offers import comparison, quote

if TYPE_CHECKING:
    from harness.weighing.offers import Offer, Weighing


def paper(weighing: Weighing, out_dir: Path, number: int | None = None) -> list[Path]:
    """Write packet.pdf, packet.txt and an SVG a picture into `out_dir`; their paths. `number` counts offers from 1.

    Each file is whole or absent; the same weighing gives the same bytes.
    """
    sheets = comparison.sheets(weighing)
    head = masthead(weighing.proof)
    if number is not None:
        offer = weighing.offers[number - 1]
        kinds = by_kind(offer.proof, ("parts", "cut-list", "basis"))
        kinds["parts"] = tuple(parts_sheet.sheets_with(offer.proof, _met_by(weighing, offer)))
        sheets += (quote.sheet(weighing, offer), *together(offer.proof, kinds))
        head = replace(head, counts=f"offer {number}; {head.counts}")
    return write_packet(sheets, head, out_dir)


def _met_by(weighing: Weighing, offer: Offer) -> tuple[JointCount, ...]:
    """By which methods runs are joined to cavities and leads: those that the quote counts; none where one has none."""
    assert offer.proof.wiring is not None
    ways = [way for way, _ in without_row(offer.proof.wiring, weighing.rates)]
    known = methods()
    by = Counter(way.method for way in ways if way is not None)
    if by.total() < len(ways):
        return ()
    return tuple(
        JointCount(
            name, known[name].words, "heat shrink" if known[name].needs_cover else "", known[name].needs_cover, n
        )
        for name, n in by.items()
    )
