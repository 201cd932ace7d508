"""Fuses of the plan whose rating nobody wrote."""

from __future__ import annotations

from collections.abc import Iterator

from harness.graph.cable import Fuse, fuses, posts, segments
from harness.graph.wiring import Wiring


def unrated(wiring: Wiring) -> Iterator[Fuse]:
    """Fuses without a rating that protect something of ours: in our runs, on used ways of a fuse block, and the car's
    own before a run of ours.
    """
    for ends, fuse in fuses(wiring).items():
        if fuse.rating_a is not None:
            continue
        segment = segments(wiring).get(ends)
        if segment is None or segment.laid or _before_ours(wiring, fuse):
            yield fuse


def _before_ours(wiring: Wiring, fuse: Fuse) -> bool:
    """Whether the side of a fuse on which no source stands has a run of ours."""
    own = frozenset(each for each in wiring.planned.conductors(fuse.a) if each[:2] == (fuse.a, fuse.b))
    sources = posts(wiring)
    for end in (fuse.a, fuse.b):
        side = wiring.planned.around(end, without=own)
        if not any(post in side for post in sources):
            return any(_laid(wiring, each[:2]) for name in side for each in wiring.planned.conductors(name))
    return False


def _laid(wiring: Wiring, ends: tuple[str, str]) -> bool:
    segment = segments(wiring).get(ends)
    return segment is not None and segment.laid


def way_to(wiring: Wiring, fuse: Fuse) -> tuple[str, ...]:
    """The contacts from a source through a fuse; its two ends where none conducts to it."""
    for post in posts(wiring):
        if wiring.planned.joined(post, fuse.a):
            path = wiring.way_in_words(post, wiring.planned.path(post, fuse.a))
            return path if fuse.b in path else (*path, fuse.b)
    return tuple(dict.fromkeys((fuse.a, fuse.b)))
