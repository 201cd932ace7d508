"""The only module that reads or writes networkx attributes: a misspelled key there would not raise."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import TYPE_CHECKING

from harness.graph.conductor import Conductor

if TYPE_CHECKING:
    import networkx as nx

_CONDUCTOR = "conductor"


def graph_of(contacts: Iterable[str], conductors: Iterable[Conductor], state: int) -> nx.MultiGraph:
    """One state as networkx's graph: contacts as nodes, conductors as edges keyed by their number.

    For its algorithms, which know no states. Parallel conductors stay apart.
    """
    import networkx as nx  # here, so that what asks no algorithm of it doesn't pay for it

    graph = nx.MultiGraph()
    graph.add_nodes_from(contacts)
    for number, conductor in enumerate(conductors):
        if conductor.states & state:
            graph.add_edge(conductor.a, conductor.b, key=number, **{_CONDUCTOR: conductor})
    return graph


def neighbours(contacts: Iterable[str], conductors: Collection[Conductor], state: int) -> dict[str, list[Conductor]]:
    """What leaves each contact in a state, in the order of the conductors.

    Plain lists, since every question walks them: through networkx's tables of tables the same walk takes three times
    as long, and making those tables would be a fifth of a whole check.
    """
    leaving: dict[str, list[Conductor]] = {contact: [] for contact in contacts}
    for conductor in conductors:
        a, b, _, states, _, _ = conductor
        if states & state:
            leaving[a].append(conductor)
            if a != b:
                leaving[b].append(conductor)
    return leaving


def nets_of(leaving: dict[str, list[Conductor]]) -> tuple[list[list[str]], dict[str, int]]:
    """The nets among contacts with what leaves each, as `neighbours` gives it; nearest to the first contact first.

    With them the number of each contact's net, its place among them.
    """
    numbers: dict[str, int] = {}
    nets: list[list[str]] = []
    for start in leaving:
        if start in numbers:
            continue
        number = numbers[start] = len(nets)
        net = [start]
        for contact in net:  # grows while we walk it
            for conductor in leaving[contact]:
                other = conductor[0]
                if other == contact:
                    other = conductor[1]
                if other not in numbers:
                    numbers[other] = number
                    net.append(other)
        nets.append(net)
    return nets, numbers
