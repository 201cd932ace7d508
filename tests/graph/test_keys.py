"""The nets and neighbours of a state against networkx's own search and tables."""

from __future__ import annotations

import random

import networkx as nx

from harness.graph import keys
from harness.graph.conductor import FOUND, JOINT, PLANNED, WIRE, Conductor
from harness.place import Place

PLACE = Place("job.yaml", 1, 1)


def test_a_state_as_networkx_holds_it() -> None:
    """Parallel conductors and one that comes back to its own contact included; the other state's are left out."""
    draw = random.Random(7)
    contacts = [f"c{number}" for number in range(60)]
    made = [
        Conductor(draw.choice(contacts), draw.choice(contacts), WIRE, draw.choice((1, 2, 3)), str(number), PLACE)
        for number in range(300)
    ]
    for state in (FOUND, PLANNED):
        here = [(each.a, each.b, number) for number, each in enumerate(made) if each.states & state]
        expected = nx.MultiGraph()
        expected.add_nodes_from(contacts)
        expected.add_edges_from(here)

        graph = keys.graph_of(contacts, made, state)
        leaving = keys.neighbours(contacts, made, state)

        assert list(graph.edges(keys=True)) == list(expected.edges(keys=True))
        assert {a: sorted(each.name for each in those) for a, those in leaving.items()} == {
            a: sorted(str(number) for _, _, number in expected.edges(a, keys=True)) for a in contacts
        }


def test_nets_of_a_state_are_those_of_networkx_on_that_state() -> None:
    draw = random.Random(11)
    contacts = [f"c{number}" for number in range(200)]
    made = [
        Conductor(draw.choice(contacts), draw.choice(contacts), JOINT, draw.choice((1, 2, 3)), "", PLACE)
        for _ in range(150)
    ]
    for state in (FOUND, PLANNED):
        alone = nx.MultiGraph()
        alone.add_nodes_from(contacts)
        alone.add_edges_from((each.a, each.b) for each in made if each.states & state)

        expected = {frozenset(net) for net in nx.connected_components(alone)}

        assert {frozenset(net) for net in keys.nets_of(keys.neighbours(contacts, made, state))[0]} == expected
