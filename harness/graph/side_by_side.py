"""Fuses by which current goes from one place to the same other place."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from harness.graph.cable import Fuse, fuses, let_through, posts, segments
from harness.graph.conductor import FUSE
from harness.graph.fitted import takes_feed
from harness.graph.meeting import grounded_nets
from harness.graph.wiring import Wiring


class Group(NamedTuple):
    """Fuses side by side from `near`, the fed end, to `far`. `path` goes from behind the first to behind the last."""

    fuses: tuple[Fuse, ...]
    near: str
    far: str
    path: tuple[str, ...]


class _Chain(NamedTuple):
    """Fuses one behind the other between two islands, and the contact at which it leaves and ends."""

    start: int
    end: int
    out: str
    into: str
    fuses: tuple[Fuse, ...]


class _Islands:
    """What conducts to each other once every fuse is taken out, as far as it touches a fuse."""

    def __init__(self, wiring: Wiring, known: list[Fuse]) -> None:
        self.wiring = wiring
        self.of: dict[str, int] = {}
        self.contacts: list[list[str]] = []
        self.fuses: dict[int, list[Fuse]] = defaultdict(list)
        taken = {(fuse.a, fuse.b) for fuse in fuses(wiring).values()}
        for fuse in known:
            for end in (fuse.a, fuse.b):
                if end not in self.of:
                    self._flood(end, taken)
                self.fuses[self.of[end]].append(fuse)

    def _flood(self, start: str, taken: set[tuple[str, str]]) -> None:
        number = len(self.contacts)
        row = [start]
        self.of[start] = number
        for here in row:
            for conductor in self.wiring.planned.conductors(here):
                other = conductor.other(here)
                if other not in self.of and not (conductor.kind == FUSE and conductor[:2] in taken):
                    self.of[other] = number
                    row.append(other)
        self.contacts.append(row)

    def is_plain(self, number: int) -> bool:
        """Whether it is a piece of cable between two fuses, with nothing else on it."""
        if len(self.fuses[number]) != 2:
            return False
        kinds = (self.wiring.contact(name).kind for name in self.contacts[number])
        return all(kind in ("run", "plug", "loom") for kind in kinds)

    def name(self, number: int) -> str:
        """The contact that it is known by: what takes the current, else a source, else a unit's terminal."""
        sources = posts(self.wiring)

        def last(name: str) -> tuple[bool, bool, bool]:
            kind = self.wiring.contact(name).kind
            return not (takes_feed(self.wiring, name) or name in sources), kind != "unit", kind == "run"

        return min(self.contacts[number], key=last)


def side_by_side(wiring: Wiring) -> Iterator[Group]:
    """Every group of two or more, at least one of them ours, in the order of the job."""
    grounded = grounded_nets(wiring)
    number = wiring.planned.net_number
    known = [fuse for fuse in fuses(wiring).values() if number(fuse.a) not in grounded]
    if len(known) < 2:
        return
    islands = _Islands(wiring, known)
    between: dict[frozenset[int], dict[frozenset[Fuse], _Chain]] = {}
    for fuse in known:
        for chain in _chains(islands, fuse):
            ends = frozenset((chain.start, chain.end))
            if len(ends) == 2:
                between.setdefault(ends, {}).setdefault(frozenset(chain.fuses), chain)
    for chains in between.values():
        made = list(chains.values())
        weakest = [min(chain.fuses, key=lambda fuse: fuse.rating_a or -math.inf) for chain in made]
        if len(made) > 1 and any(_ours(wiring, fuse) for fuse in weakest):
            yield _group(wiring, islands, made, weakest)


def _chains(islands: _Islands, fuse: Fuse) -> Iterator[_Chain]:
    """The chain that begins with a fuse, from an end of it that is more than a piece of cable."""
    for out, into in ((fuse.a, fuse.b), (fuse.b, fuse.a)):
        start = islands.of[out]
        if islands.is_plain(start):
            continue
        row, here, last = [fuse], islands.of[into], into
        while islands.is_plain(here):
            further = next((each for each in islands.fuses[here] if each not in row), None)
            if further is None:
                break
            row.append(further)
            last = further.b if islands.of[further.a] == here else further.a
            here = islands.of[last]
        yield _Chain(start, here, out, last, tuple(row))


def _ours(wiring: Wiring, fuse: Fuse) -> bool:
    segment = segments(wiring).get((fuse.a, fuse.b))
    return segment is None or segment.laid


def _group(wiring: Wiring, islands: _Islands, chains: list[_Chain], weakest: list[Fuse]) -> Group:
    through = let_through(wiring)
    near, far = chains[0].start, chains[0].end
    if chains[0].out in through and through[chains[0].out] < through[chains[0].into]:  # else nothing feeds either
        near, far = far, near
    behind = [chain.into if chain.end == far else chain.out for chain in chains]
    without = frozenset(each for name in behind for each in wiring.planned.conductors(name) if each.kind == FUSE)
    path = wiring.way_in_words(behind[0], wiring.planned.path(behind[0], behind[-1], without))
    return Group(tuple(weakest), islands.name(near), islands.name(far), path)
