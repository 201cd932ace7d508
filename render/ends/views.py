"""The two views of a plug, in words and as faces. Used by every writer, so that all say the same."""

from __future__ import annotations

from dataclasses import replace

from render.blocks import Cavity, Face, FacePair
from render.ends.shape import View, mirrored, seen_from

VIEW_WORDS: dict[View, str] = {
    "wire": "WIRE SIDE: wires come toward you",
    "mating": "MATING SIDE: you look at the contacts",
}
# Two mating faces are each other's mirror, so looking into the unit's socket one sees what the plug shows from behind.
HOLD_WORDS: dict[View, str] = {
    "wire": "The pulled plug in your hand, wires toward you. Its socket on the unit, looked into, has the same order.",
    "mating": "Into the pulled plug's open end, wires away from you. A socket on the unit has the wire side's order.",
}
NOT_RECORDED = "not recorded"


def both_views(pair: FacePair) -> tuple[Face, Face]:
    """The face in the view that is held, then its mirror."""
    first = replace(pair.face, shape=seen_from(pair.face.shape, pair.held))
    return first, replace(first, shape=mirrored(first.shape))


def cavities_by_number(face: Face) -> dict[str, Cavity]:
    """A cavity for every number of the shape, in the order drawn; "not recorded" where none is given."""
    given = {cavity.number: cavity for cavity in face.cavities}
    return {number: given.get(number, Cavity(number, (NOT_RECORDED,))) for number in face.shape.numbers}


def legend(face: Face) -> str:
    """What the marks on this face mean, only those that occur."""
    states = {cavity.state for cavity in face.cavities}
    words = []
    if "highlighted" in states:
        words.append("Thick frame: work on this one.")
    if "crossed" in states:
        words.append("Grey: empty, no wire.")
    return " ".join(words)


def latch_words(face: Face) -> str:
    """`latch at the top`, as seen in the view drawn."""
    where = {"top": "at the top", "bottom": "at the bottom", "left": "at the left", "right": "at the right"}
    return f"latch {where[face.shape.latch]}"
