"""Joints wire by wire: a pair joined to a pair is one joint of the list and two in the hand."""

from __future__ import annotations

from collections.abc import Iterator

from harness.model.job import Joint


def splices(joint: Joint) -> list[tuple[str, ...]]:
    """The contacts that meet at each place of metal, in the order written."""
    links = joint.links
    if len(links) == 1 or (len(links) == 2 and len({*links[0], *links[1]}) == 4):
        return list(links)  # nearly all joints, a wire to a wire, a pair to a pair
    made: list[list[str]] = []
    for link in links:
        touching = [group for group in made if link.a in group or link.b in group]
        merged = list(dict.fromkeys((*_all(touching), link.a, link.b)))
        made = [group for group in made if group not in touching]
        made.append(merged)
    return [tuple(group) for group in made]


def _all(groups: list[list[str]]) -> Iterator[str]:
    for group in groups:
        yield from group
