"""Pieces in words, as a person would name them."""

from __future__ import annotations

from harness.graph.wiring import Wiring
from harness.locate import circuit as kinds
from harness.locate.circuit import Ends, Piece
from harness.locate.spots import chain_words, pair_words
from harness.locate.wires import is_through, lasts


def piece_words(wiring: Wiring, piece: Piece) -> str:
    """`joint J1, T1 unit end 1/9 (white and white with black stripe, FL) to dsp in1`."""
    if piece.words:
        return piece.words
    owner, wires = piece.owner, piece.along
    if piece.whole:
        return _whole(wiring, piece)
    if piece.kind == kinds.JOINT:
        ends = " to ".join(pair_words(wiring, [wire[at] for wire in wires]) for at in (0, 1))
        return f"joint {owner}, {ends}"
    if piece.kind == kinds.PLUG:
        return f"{_loom_end(wiring, piece)}, terminals {lasts(wiring, wires)}"
    if piece.kind == kinds.MATED:
        return f"plug {owner}, terminals {lasts(wiring, wires)}"
    if piece.kind == kinds.LEAD and is_through(wiring, wires):
        return f"{owner}’s own wire, passed through at terminals {lasts(wiring, wires)}"
    if piece.kind == kinds.LEAD:
        return f"the loom’s lead {pair_words(wiring, [wire[1] for wire in wires])}"
    if piece.kind == kinds.GROUND:
        return f"ground point {owner}" if piece.name.startswith("gnd.") else "the battery’s own ground strap"
    if piece.kind == kinds.FUSE:
        return _fuse(wiring, wires[0])
    ends = f"from {_end(wiring, wires, 0)} to {_end(wiring, wires, 1)}"
    return f"{'our run' if piece.kind == kinds.RUN else 'the car’s own wire'} {ends}"


def _loom_end(wiring: Wiring, piece: Piece) -> str:
    pin, half = piece.along[0]
    return f"{piece.owner}’s {wiring.contact(pin).half} end in {wiring.contact(half).owner}"


def _whole(wiring: Wiring, piece: Piece) -> str:
    if piece.kind == kinds.JOINT:
        return f"joint {piece.owner} as a whole"
    what = _loom_end(wiring, piece) if piece.kind == kinds.PLUG else f"plug {piece.owner}"
    return f"{what} as a whole, not home or not latched"


def _fuse(wiring: Wiring, ends: Ends) -> str:
    contacts = [wiring.contact(end) for end in ends]
    if contacts[0].owner == contacts[1].owner and contacts[0].kind == "unit":
        return f"the fuse in {contacts[0].owner}, way {contacts[1].last}"
    fuse_a = next((each.fuse_a for each in wiring.job.segments if (each.a, each.b) == ends), None)
    size = f"the fuse {fuse_a:g} A" if fuse_a else "the fuse"
    near = next((end for end in ends if wiring.contact(end).kind != "run"), "")
    return f"{size} at {wiring.words(near)}" if near else f"{size} in {chain_words(ends[0])}"


def _end(wiring: Wiring, wires: tuple[Ends, ...], side: int) -> str:
    """One end of a stretch: the contacts that occur in it once, on that side."""
    every = [end for wire in wires for end in wire]
    ends = [wire[side] for wire in wires if every.count(wire[side]) == 1]
    return pair_words(wiring, ends or [wires[0][side]])
