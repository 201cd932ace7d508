"""The only module that reads or writes networkx attributes: a misspelled key there would not raise."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import TYPE_CHECKING

from harness.graph.conductor import Conductor

if TYPE_CHECKING:
    import networkx as nx

_CONDUCTOR = "conductor"


def graph_of(contacts: Iterable[str], conductors: Iterable[Conductor]) -> nx.MultiGraph:
    """Contacts as nodes, conductors as edges keyed by their number; parallel conductors stay apart."""
    import networkx as nx  # here, so that `explain` starts without it

    graph = nx.MultiGraph()
    # What add_nodes_from and add_edges_from do for these, without their questions about keys and attributes:
    # those would be a third of the time of a check. A test compares the two.
    adjacent = graph._adj
    adjacent.update({contact: {} for contact in contacts})
    graph._node.update({contact: {} for contact in adjacent})
    for number, conductor in enumerate(conductors):
        a, b = conductor.a, conductor.b
        here = adjacent[a]
        between = here.get(b)
        if between is None:
            here[b] = adjacent[b][a] = {number: {_CONDUCTOR: conductor}}
        else:
            between[number] = {_CONDUCTOR: conductor}
    return graph


def neighbours(graph: nx.MultiGraph, state: int, conductors: Collection[Conductor] = ()) -> dict[str, list[Conductor]]:
    """What leaves each contact in a state; parallel conductors stand together, where the first of them does.

    `conductors` are those the graph was made of: with none parallel, which is the rule, going through them is
    three times as fast as through the graph.
    """
    if 2 * len(conductors) == sum(map(len, graph._adj.values())):  # each has two neighbours to itself
        leaving: dict[str, list[Conductor]] = {contact: [] for contact in graph._adj}
        for conductor in conductors:
            if conductor.states & state:
                leaving[conductor.a].append(conductor)
                leaving[conductor.b].append(conductor)
        return leaving
    return {
        contact: [
            conductor
            for between in near.values()
            for data in between.values()
            if (conductor := data[_CONDUCTOR]).states & state
        ]
        for contact, near in graph._adj.items()
    }


def components(graph: nx.MultiGraph, state: int) -> list[list[str]]:
    """The nets of one state: lists of contacts that conduct to each other, in the order of the graph's nodes.

    networkx's own search knows no states; copying the graph once a state would double the memory.
    """
    return nets_of(neighbours(graph, state))


def nets_of(leaving: dict[str, list[Conductor]]) -> list[list[str]]:
    """The nets among contacts with what leaves each, as `neighbours` gives it; nearest to the first contact first."""
    seen: set[str] = set()
    nets: list[list[str]] = []
    for start in leaving:
        if start in seen:
            continue
        seen.add(start)
        net = [start]
        for contact in net:  # grows while we walk it
            for conductor in leaving[contact]:
                other = conductor.b if contact == conductor.a else conductor.a
                if other not in seen:
                    seen.add(other)
                    net.append(other)
        nets.append(net)
    return nets
