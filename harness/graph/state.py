"""One state of the car's wiring: as found, or as planned. Nets and paths are asked of it."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import TYPE_CHECKING

from harness.graph import keys
from harness.graph.conductor import Conductor, Hop
from harness.graph.once import once

if TYPE_CHECKING:
    import networkx as nx


Reached = dict[str, Hop | None]  # what a search met, each with the hop that led there; None where it began


def hops_to(reached: Reached, end: str) -> tuple[Hop, ...]:
    """The hops from the start of a search to `end`, in order."""
    hops: list[Hop] = []
    here = end
    while (step := reached[here]) is not None:
        hops.append(Hop(step.conductor, here))
        here = step.contact
    return tuple(reversed(hops))


class State:
    """The contact graph with the conductors of one state only."""

    def __init__(self, contacts: Collection[str], conductors: list[Conductor], bit: int) -> None:
        self._contacts = contacts
        self._conductors = conductors
        self._bit = bit

    @once
    def graph(self) -> nx.MultiGraph:
        """For networkx's algorithms; see `keys` for what an edge holds."""
        return keys.graph_of(self._contacts, self._conductors, self._bit)

    @once
    def _leaving(self) -> dict[str, list[Conductor]]:
        return keys.neighbours(self._contacts, self._conductors, self._bit)

    @once
    def _nets(self) -> tuple[list[list[str]], dict[str, int]]:
        return keys.nets_of(self._leaving)

    @property
    def nets(self) -> list[list[str]]:
        """All nets: contacts that conduct to each other. Linear in contacts and conductors."""
        return self._nets[0]

    @property
    def numbers(self) -> dict[str, int]:
        """Contact -> the number of its net, its place in `nets`."""
        return self._nets[1]

    @once
    def net_number(self) -> Callable[[str], int]:
        """The number of a contact's net, asked as `net_number(contact)`: the same number conducts to each other.

        The table's own lookup: a tenth of all calls of a check are this one and the next.
        """
        return self.numbers.__getitem__

    def net(self, contact: str) -> list[str]:
        return self.nets[self.numbers[contact]]

    def joined(self, a: str, b: str) -> bool:
        return self.numbers[a] == self.numbers[b]

    @once
    def conductors(self) -> Callable[[str], list[Conductor]]:
        """What leaves a contact in this state, asked as `conductors(contact)`. The list is the state's own."""
        return self._leaving.__getitem__

    def around(
        self, contact: str, without: frozenset[Conductor] = frozenset(), wall: Callable[[str], bool] | None = None
    ) -> Reached:
        """Everything that conducts to a contact, nearest first, each with the hop that led there.

        A search from this contact only, for questions about few contacts; `without` leaves conductors out, and nothing
        is looked for behind a `wall`.
        """
        leaving = self._leaving
        reached: Reached = {contact: None}
        row = [contact]
        for here in row:
            if wall is not None and here != contact and wall(here):
                continue
            for conductor in leaving[here]:
                other = conductor.b if here == conductor.a else conductor.a
                if other not in reached and conductor not in without:
                    reached[other] = Hop(conductor, here)
                    row.append(other)
        return reached

    def nearest(self, contact: str, wanted: Callable[[str], bool]) -> str:
        """The nearest contact that conducts to this one and is wanted, maybe itself; empty where there is none."""
        if wanted(contact):
            return contact
        leaving = self._leaving
        seen = {contact}
        row = [contact]
        for here in row:
            for conductor in leaving[here]:
                other = conductor.b if here == conductor.a else conductor.a
                if other not in seen:
                    if wanted(other):
                        return other
                    seen.add(other)
                    row.append(other)
        return ""

    def path(self, a: str, b: str, without: frozenset[Conductor] = frozenset()) -> tuple[Hop, ...]:
        """The shortest way from `a` to `b`: the hops after `a`; empty where there is none (or a is b).

        Of several equally short ones it is the first that a search from `b` meets. Only what lies on a shortest
        way is searched from there, so that a way to ground doesn't cost a walk over the whole car's body.
        """
        steps = self._steps(a, b, without)
        if b not in steps:
            return ()
        leaving = self._leaving
        back: dict[str, Hop] = {}
        row, at = [b], steps[b]
        while at:
            at -= 1
            nearer: list[str] = []
            for here in row:
                for conductor in leaving[here]:
                    other = conductor.b if here == conductor.a else conductor.a
                    if steps.get(other) == at and other not in back and conductor not in without:
                        back[other] = Hop(conductor, here)
                        nearer.append(other)
            row = nearer
        hops: list[Hop] = []
        here = a
        while here != b:
            hops.append(back[here])
            here = back[here].contact
        return tuple(hops)

    def _steps(self, a: str, b: str, without: frozenset[Conductor]) -> dict[str, int]:
        """How many conductors lie between `a` and what is no further from it than `b` is."""
        leaving = self._leaving
        steps = {a: 0}
        row = [a]
        for here in row:
            if b in steps:
                break
            for conductor in leaving[here]:
                other = conductor.b if here == conductor.a else conductor.a
                if other not in steps and conductor not in without:
                    steps[other] = steps[here] + 1
                    row.append(other)
        return steps
