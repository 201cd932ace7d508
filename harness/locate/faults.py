"""What can be wrong with each piece, how it shows, and how often it is that."""

from __future__ import annotations

from typing import NamedTuple

from harness.locate import circuit as kinds
from harness.locate.circuit import Circuit, Piece

# modes; of noise NOISY comes in with the engine, HISS is there without it
OPEN, TURNED, CROSSED, WEAK, NOISY, HISS, POOR, LOOSE, STUCK = (
    "open", "turned", "crossed", "weak", "noisy", "hiss", "poor ground", "loose", "stays on"
)  # fmt: skip
SHORTED, BODY, TOUCHING = "shorted", "body", "touching"
# The same with the unit stilling all that it drives, as many do to protect themselves.
_WIRES_TOUCH = (SHORTED, BODY, TOUCHING)
LOAD, FAULTY, SAGS, HOT = "load too low", "faulty", "drops volts", "too hot"
WITH_UNIT = {f"{mode}, unit protects": mode for mode in (*_WIRES_TOUCH, LOAD, FAULTY)}
PROTECT_MODES = (*_WIRES_TOUCH, LOAD, FAULTY, SAGS, HOT, *WITH_UNIT)
# What makes a unit protect itself. Of these the first are wires that touch; SAGS is a feed or ground that is poor under
# load, FAULTY an output or a unit by itself.
PROTECTING = frozenset(PROTECT_MODES)
TOUCHES = frozenset(each for each in PROTECT_MODES if WITH_UNIT.get(each, each) in _WIRES_TOUCH)
NOISES = (NOISY, HISS, POOR)


class Fault(NamedTuple):
    """One thing wrong: how, and at which piece; `other` is the piece that it is exchanged with, else -1."""

    mode: str
    piece: int
    other: int = -1


# How many times likelier than a soldered joint. Common practice, no source: taps first, then what was plugged and
# joined by hand, then what the car or a maker made.
_OF_METHOD = {"pierce": 8.0, "push": 5.0, "crimp": 2.5, "screw": 2.0, "ring": 1.5, "solder": 1.0}
_OF_KIND = {
    kinds.PLUG: 2.0, kinds.LEAD: 0.8, kinds.RUN: 1.0, kinds.FUSE: 2.5, kinds.GROUND: 1.0, kinds.SOURCE: 0.4,
    kinds.CHANNEL: 0.8, kinds.INPUT: 0.4, kinds.UNIT: 0.6, kinds.SPEAKER: 1.0, kinds.GIVER: 0.7, kinds.RELAY: 1.5,
    kinds.MATED: 0.5, kinds.WIRE: 0.4, kinds.LOOP: 4.0,
}  # fmt: skip
# A fault of the wrong kind for a thing is rarer: a lead is seldom reversed in itself.
_OF_MODE = {
    (TURNED, kinds.JOINT): 3.0, (TURNED, kinds.LEAD): 0.3, (TURNED, kinds.PLUG): 0.3, (TURNED, kinds.MATED): 0.2,
    (TURNED, kinds.WIRE): 0.3, (TURNED, kinds.CHANNEL): 1.5, (CROSSED, kinds.JOINT): 3.0,
    (CROSSED, kinds.CHANNEL): 2.0, (CROSSED, kinds.WIRE): 0.2, (CROSSED, kinds.MATED): 0.2,
    (WEAK, kinds.CHANNEL): 4.0, (WEAK, kinds.INPUT): 3.0, (NOISY, kinds.RUN): 3.0, (NOISY, kinds.LOOP): 4.0,
    (HISS, kinds.CHANNEL): 2.0, (POOR, kinds.GROUND): 6.0,
    (POOR, kinds.RUN): 3.0, (LOOSE, kinds.PLUG): 2.0, (LOOSE, kinds.MATED): 2.0, (STUCK, kinds.RELAY): 4.0,
    (STUCK, kinds.GIVER): 4.0, (SAGS, kinds.FUSE): 0.3, (SAGS, kinds.GROUND): 2.0,
}  # fmt: skip
SECOND = 0.02  # for each further fault at the same time
UPSTREAM = 0.2  # where what protects itself would be a unit before the one that drives the speaker
_PAINTED = 6.0
_SHORT = 0.4  # wires come off oftener than they touch
# of what protects: a speaker of the wrong ohms or a coil gone, an output or unit that fails, volts lost, heat
_OF_PROTECTING = {LOAD: 0.8, FAULTY: 0.5, SAGS: 0.5, HOT: 0.6}
_DOOR = 3.0  # a wire or plug that is bent each time a door opens


def odds(piece: Piece, mode: str) -> float:
    """How likely the fault is beside the others; no share of anything. Common practice, no source."""
    base = _OF_METHOD.get(piece.method, 1.0) if piece.kind == kinds.JOINT else _OF_KIND[piece.kind]
    if piece.kind == kinds.GROUND and piece.method == "painted":
        base *= _PAINTED
    if piece.kind in (kinds.MATED, kinds.WIRE) and "door" in piece.where.lower():
        base *= _DOOR
    if piece.whole:
        base *= 0.5
    if mode in PROTECTING:
        share = _OF_PROTECTING.get(WITH_UNIT.get(mode, mode), _SHORT)
        share *= _OF_MODE.get((mode, piece.kind), 1.0)
        return base * share * (1.0 if mode in WITH_UNIT or mode in (SAGS, HOT) else 0.5)
    return base * _OF_MODE.get((mode, piece.kind), 1.0)


_SIGNAL_WIRES = frozenset((kinds.JOINT, kinds.PLUG, kinds.MATED, kinds.LEAD, kinds.WIRE, kinds.RUN))
_THING = frozenset(_OF_KIND) - {kinds.LOOP} | {kinds.JOINT}
_CAN_BE = {
    OPEN: _THING,
    LOOSE: _THING,
    TURNED: _SIGNAL_WIRES | {kinds.SOURCE, kinds.CHANNEL, kinds.SPEAKER},
    CROSSED: _SIGNAL_WIRES | {kinds.SOURCE, kinds.CHANNEL},
    WEAK: _SIGNAL_WIRES | {kinds.SOURCE, kinds.CHANNEL, kinds.INPUT, kinds.SPEAKER},
    NOISY: frozenset((kinds.JOINT, kinds.RUN, kinds.PLUG, kinds.UNIT, kinds.LOOP)),
    HISS: frozenset((kinds.JOINT, kinds.PLUG, kinds.SOURCE, kinds.CHANNEL, kinds.INPUT, kinds.UNIT)),
    POOR: frozenset((kinds.RUN, kinds.JOINT, kinds.GROUND, kinds.LEAD, kinds.PLUG, kinds.WIRE, kinds.MATED)),
    STUCK: _THING,
    **dict.fromkeys(TOUCHES, _SIGNAL_WIRES),
    LOAD: frozenset((kinds.SPEAKER,)),
    FAULTY: frozenset((kinds.CHANNEL, kinds.UNIT)),
    SAGS: _SIGNAL_WIRES | {kinds.FUSE, kinds.GROUND},
    HOT: frozenset((kinds.UNIT,)),
}
_CAN_BE |= {mode: _CAN_BE[plain] for mode, plain in WITH_UNIT.items()}


def possible(circuit: Circuit, mode: str, number: int) -> bool:
    """Whether a piece can fail in this way: a single wire can't be turned round, a whole plug isn't crossed."""
    piece = circuit.pieces[number]
    if piece.kind not in _CAN_BE[mode]:
        return False
    if mode in TOUCHES:
        plain = WITH_UNIT.get(mode, mode)
        if piece.whole or number not in circuit.stages or (plain != SHORTED and number in circuit.grounded):
            return False
        if plain == TOUCHING and piece.kind not in (kinds.JOINT, kinds.PLUG):
            return False  # where wires of several pairs end side by side
        return plain == BODY or len(piece.wires) == 2
    if mode in PROTECTING:
        return not piece.whole
    if mode in (TURNED, CROSSED):
        if mode == TURNED and piece.wires and number in circuit.grounded:
            return False
        return not piece.whole and (not piece.wires or len(piece.wires) >= 2)
    return True


def crossings(circuit: Circuit, number: int) -> list[int]:
    """The pieces that one may have been exchanged with: the same kind of thing in the same place and on like ways."""
    piece = circuit.pieces[number]
    if not piece.alike:
        return []
    stage = circuit.stages.get(number)
    return [
        other
        for other, each in enumerate(circuit.pieces)
        if other != number
        and each.kind == piece.kind
        and each.alike == piece.alike
        and circuit.stages.get(other) == stage
        and possible(circuit, CROSSED, other)
    ]
