"""The cut list: what to cut from which reel and how long, with what is added to the measured way, and why."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.shop import figure
from harness.planning.cut_list import ALLOWANCE, CutList, CutPiece, MadeUp, cut_list
from harness.units import UNITS
from render.blocks import Block, Cell, Column, Grid, Para, Room, Sheet, Strong, Tick
from render.documents import document
from render.documents.wording import NOT_RECORDED, length, name_of, size_words

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring
    from harness.prove import Proof

_HOLD = "\N{NO-BREAK SPACE}"


@document("cut-list", title="Cut list", order=11)
def sheets(proof: Proof) -> Iterable[Sheet]:
    """For who stands at the reels: each piece once, with a box to tick and room for what was really cut."""
    if proof.wiring is None:
        return
    found = cut_list(proof.wiring)
    if found.pieces or found.made_up:
        blocks = tuple(_blocks(proof.wiring, found))
        yield Sheet("cut-list", "Cut list", blocks, shares=True, bases=("cable allowance", "slack"))


def _blocks(wiring: Wiring, found: CutList) -> Iterator[Block]:
    slack = figure(wiring, "slack").words.replace(" ", _HOLD)
    yield Para(
        f"Cut to: as measured, {ALLOWANCE:.0%} more for the way round corners, and {slack} of slack at each end: a "
        "drip loop and one more terminal later. Nothing is added before the first fuse and on ground cables. Measure "
        "the way in the car with a string before the first cut; a piece that is too short can't be mended without a "
        "joint. Feed cables stay off the battery until their fuse holder is empty and fixed.".replace(
            "20%", f"20{_HOLD}%"
        )
    )
    if found.pieces:
        yield Grid(_COLUMNS, tuple(_row(wiring, each) for each in found.pieces), caption="To cut")
    if found.made_up:
        yield Grid(_MADE_COLUMNS, tuple(_made(wiring, each) for each in found.made_up), caption="Bought by the piece")


_NONE = {"ground": "none: kept short", "before its fuse": "none: before its fuse"}
_COLUMNS = (
    Column("", 0.25), Column("Run", 0.7), Column("From, to", 1.9), Column("Cable", 1.0), Column("As measured", 1.1),
    Column("More", 0.8), Column("Slack", 0.8), Column("Cut to", 1.3), Column("Was cut to", 0.9),
)  # fmt: skip
_MADE_COLUMNS = (
    Column("", 0.25), Column("Run", 0.7), Column("From, to", 2), Column("What", 1.2), Column("At least", 1.5),
)  # fmt: skip


def _row(wiring: Wiring, piece: CutPiece) -> tuple[Cell, ...]:
    made = size_words(piece.size) + (f" {piece.metal}" if piece.metal else "")
    cable: Cell = (made, "a pair: two of it") if piece.wires == 2 else made
    cut_m = piece.cut_m
    to: Cell = _round_up(cut_m) if cut_m is not None else f"measure first: length {NOT_RECORDED}"
    measured = length(piece.measured_m) if piece.measured_m is not None else NOT_RECORDED
    return (
        Tick(""), Strong(piece.run.replace(" ", _HOLD)), _ends(wiring, piece), cable, measured, _cm(piece.allowance_m),
        _NONE[piece.as_measured] if piece.as_measured else _cm(piece.slack_m), to, Room(16),
    )  # fmt: skip


def _made(wiring: Wiring, each: MadeUp) -> tuple[Cell, ...]:
    kind = {"rca": "signal cable", "fibre": "fibre"}[each.kind]
    least: Cell = Strong(length(each.least_m)) if each.least_m is not None else f"length {NOT_RECORDED}"
    ends = (name_of(wiring.contact(each.start)), f"to {name_of(wiring.contact(each.end))}")
    return Tick(""), Strong(each.run.replace(" ", _HOLD)), ends, kind, least


def _ends(wiring: Wiring, piece: CutPiece) -> Cell:
    return _end(wiring, piece.start, piece.start_a), f"to {_end(wiring, piece.end, piece.end_a)}"


def _end(wiring: Wiring, contact: str, fuse_a: float | None) -> str:
    if not contact:
        return f"its fuse, {fuse_a:g}{_HOLD}A" if fuse_a is not None else f"its fuse, value {NOT_RECORDED}"
    about = wiring.contact(contact)
    return "the next piece of the run" if about.kind == "run" else name_of(about)


def _cm(length_m: float) -> str:
    return f"{length_m * 100:.3g}{_HOLD}cm"


def _round_up(length_m: float) -> Strong:
    """To the next whole centimetre and quarter of an inch upwards: nobody cuts finer, and never shorter."""
    centimetres = -int(-length_m * 100 * (1 - 1e-9) // 1)
    quarters = -int(-length_m / UNITS["length"]["in"] * 4 * (1 - 1e-9) // 1)
    metric = f"{centimetres / 100:.2f}{_HOLD}m" if centimetres >= 100 else f"{centimetres}{_HOLD}cm"
    feet, inches = divmod(quarters / 4, 12)
    imperial = f"{feet:g}{_HOLD}ft {inches:g}{_HOLD}in" if feet else f"{inches:g}{_HOLD}in"
    return Strong(metric, imperial)
