"""The only module that reads or writes networkx attributes: a misspelled key there would not raise."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from harness.graph.conductor import Conductor

if TYPE_CHECKING:
    import networkx as nx

_CONDUCTOR = "conductor"


def graph_of(contacts: Iterable[str], conductors: Iterable[Conductor]) -> nx.MultiGraph:
    """Contacts as nodes, conductors as edges keyed by their number; parallel conductors stay apart."""
    import networkx as nx  # here, so that `explain` starts without it

    graph = nx.MultiGraph()
    graph.add_nodes_from(contacts)
    # What add_edges_from does for these edges, without its questions about keys and attributes: it is a
    # third of the time of a check. A test compares the two.
    adjacent = graph._adj
    for number, conductor in enumerate(conductors):
        here, there = adjacent[conductor.a], adjacent[conductor.b]
        between = here.get(conductor.b)
        if between is None:
            here[conductor.b] = there[conductor.a] = {number: {_CONDUCTOR: conductor}}
        else:
            between[number] = {_CONDUCTOR: conductor}
    return graph


def conductors_at(graph: nx.MultiGraph, contact: str, state: int) -> Iterator[tuple[Conductor, str]]:
    """Every conductor that leaves a contact in a state, with the contact at its other end."""
    for other, between in graph._adj[contact].items():
        for data in between.values():
            conductor = data[_CONDUCTOR]
            if conductor.states & state:
                yield conductor, other


def components(graph: nx.MultiGraph, state: int) -> list[list[str]]:
    """The nets of one state: lists of contacts that conduct to each other, in the order of the graph's nodes.

    networkx's own search knows no states; copying the graph once a state would double the memory.
    """
    seen: set[str] = set()
    nets: list[list[str]] = []
    adjacent = graph._adj
    for start in adjacent:
        if start in seen:
            continue
        seen.add(start)
        net = [start]
        for contact in net:  # grows while we walk it
            for other, between in adjacent[contact].items():
                if other in seen:
                    continue
                for data in between.values():
                    if data[_CONDUCTOR].states & state:
                        seen.add(other)
                        net.append(other)
                        break
        nets.append(net)
    return nets
