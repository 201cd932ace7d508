"""The graph that is put together by hand is the one that networkx would have made."""

from __future__ import annotations

import random

import networkx as nx

from harness.graph import keys
from harness.graph.conductor import FOUND, JOINT, PLANNED, WIRE, Conductor
from harness.place import Place

PLACE = Place("job.yaml", 1, 1)


def test_same_graph_as_networkx_makes() -> None:
    """Parallel conductors and one that comes back to its own contact included."""
    draw = random.Random(7)
    contacts = [f"c{number}" for number in range(60)]
    made = [
        Conductor(draw.choice(contacts), draw.choice(contacts), WIRE, draw.choice((1, 2, 3)), str(number), PLACE)
        for number in range(300)
    ]

    expected = nx.MultiGraph()
    expected.add_nodes_from(contacts)
    expected.add_edges_from((each.a, each.b, number, {"conductor": each}) for number, each in enumerate(made))
    graph = keys.graph_of(contacts, made)

    assert nx.utils.graphs_equal(graph, expected)
    assert list(graph.edges(keys=True)) == list(expected.edges(keys=True))


def test_components_of_a_state_are_those_of_networkx_on_that_state() -> None:
    draw = random.Random(11)
    contacts = [f"c{number}" for number in range(200)]
    made = [
        Conductor(draw.choice(contacts), draw.choice(contacts), JOINT, draw.choice((1, 2, 3)), "", PLACE)
        for _ in range(150)
    ]
    graph = keys.graph_of(contacts, made)
    for state in (FOUND, PLANNED):
        alone = nx.MultiGraph()
        alone.add_nodes_from(contacts)
        alone.add_edges_from((each.a, each.b) for each in made if each.states & state)

        expected = {frozenset(net) for net in nx.connected_components(alone)}

        assert {frozenset(net) for net in keys.components(graph, state)} == expected
