"""Wires behind an inline plug whose colour nobody wrote, where somebody works on them or toned them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.wiring import Wiring
from harness.graph.worked import worked
from harness.model.colour import Colour
from harness.model.job import Segment


class Beyond(NamedTuple):
    """A wire of the car that leaves an inline plug: its colour before it, and what is done to it, in words."""

    segment: Segment
    before: Colour
    what: str


def uncoloured_beyond(wiring: Wiring) -> dict[str, list[Beyond]]:
    """Inline plug -> the wires behind it that are worked on or toned and have no colour written, in the job's order.

    Where no colour is written before the plug either, the job doesn't go by colours, and nothing is missed.
    """
    made: dict[str, list[Beyond]] = {}
    inline = {plug.name for plug in wiring.job.parts.plugs.values() if plug.inline}
    if inline:
        for each in _uncoloured(wiring, inline):
            made.setdefault(wiring.contact(each.segment.a).owner, []).append(each)
    return made


def _uncoloured(wiring: Wiring, inline: set[str]) -> Iterator[Beyond]:
    doings = {name: work.words for name, work in worked(wiring).items()}
    for tone in wiring.job.tones:
        for name in tone.contacts:
            if wiring.contact(name).owner in inline:
                doings.setdefault(name, "it was toned")
    if not doings:
        return
    own = [segment for segment in wiring.job.segments if not segment.laid]
    leads_in = {segment.b: segment.colour for segment in own if segment.colour is not None}
    for segment in own:
        what = doings.get(segment.a) or doings.get(segment.b)
        if what is None or segment.colour is not None or wiring.contact(segment.a).owner not in inline:
            continue
        if wiring.contact(segment.b).colour is None:
            before = _colour_before(wiring, segment.a, leads_in)
            if before is not None:
                yield Beyond(segment, before, what)


def _colour_before(wiring: Wiring, far_half: str, leads_in: dict[str, Colour]) -> Colour | None:
    """The colour written nearest to the plug, on the wire that comes to it."""
    plug, half, cavity = far_half.split(".")
    near = f"{plug}.{'unit' if half == 'car' else 'car'}.{cavity}"
    if near in leads_in:
        return leads_in[near]
    name = wiring.found.nearest(near, lambda each: each != far_half and wiring.contact(each).colour is not None)
    return wiring.contact(name).colour if name else None
