"""One state of the car's wiring: as found, or as planned. Nets and paths are asked of it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from harness.graph import keys
from harness.graph.conductor import Conductor, Hop

if TYPE_CHECKING:
    import networkx as nx


class State:
    """A view of the contact graph with the conductors of one state only."""

    def __init__(self, graph: nx.MultiGraph, bit: int) -> None:
        self._graph = graph
        self._bit = bit

    @cached_property
    def nets(self) -> list[list[str]]:
        """All nets: contacts that conduct to each other. Linear in contacts and conductors."""
        return keys.components(self._graph, self._bit)

    @cached_property
    def _number(self) -> dict[str, int]:
        return {contact: number for number, net in enumerate(self.nets) for contact in net}

    def net_number(self, contact: str) -> int:
        """The number of a contact's net; contacts with the same number conduct to each other."""
        return self._number[contact]

    def net(self, contact: str) -> list[str]:
        return self.nets[self._number[contact]]

    def joined(self, a: str, b: str) -> bool:
        return self._number[a] == self._number[b]

    def conductors(self, contact: str) -> list[Conductor]:
        """What leaves a contact in this state."""
        return [conductor for conductor, _ in keys.conductors_at(self._graph, contact, self._bit)]

    def around(self, contact: str, without: frozenset[Conductor] = frozenset()) -> dict[str, Hop | None]:
        """Everything that conducts to a contact, nearest first, each with the hop that led there.

        A search from this contact only, for questions about few contacts; `without` leaves conductors out.
        """
        reached: dict[str, Hop | None] = {contact: None}
        row = [contact]
        for here in row:
            for conductor, other in keys.conductors_at(self._graph, here, self._bit):
                if other not in reached and conductor not in without:
                    reached[other] = Hop(conductor, here)
                    row.append(other)
        return reached

    def path(self, a: str, b: str, without: frozenset[Conductor] = frozenset()) -> tuple[Hop, ...]:
        """The shortest way from `a` to `b`: the hops after `a`; empty where there is none (or a is b)."""
        back = self.around(b, without)
        hops = []
        here = a
        while here != b:
            step = back.get(here)
            if step is None:
                return ()
            hops.append(step)
            here = step.contact
        return tuple(hops)
