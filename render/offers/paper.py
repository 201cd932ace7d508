"""The files of a weighing: the comparison; of an offer taken also its quote, its parts and what to cut."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from render.documents import chosen_sheets, write_packet
from render.documents.masthead import masthead
from render.offers import comparison, quote

if TYPE_CHECKING:
    from harness.weighing.offers import Weighing


def paper(weighing: Weighing, out_dir: Path, number: int | None = None) -> list[Path]:
    """Write packet.pdf, packet.txt and an SVG a picture into `out_dir`; their paths. `number` counts offers from 1.

    Each file is whole or absent; the same weighing gives the same bytes.
    """
    sheets = comparison.sheets(weighing)
    head = masthead(weighing.proof)
    if number is not None:
        offer = weighing.offers[number - 1]
        sheets += (quote.sheet(weighing, offer), *chosen_sheets(offer.proof, ("parts", "cut-list", "basis")))
        head = replace(head, counts=f"offer {number}; {head.counts}")
    return write_packet(sheets, head, out_dir)
