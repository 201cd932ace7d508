"""DC networks without a loop: currents are added up toward the fixed node, volts go out from it. Two walks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple


class Tree(NamedTuple):
    """The nodes that a fixed one reaches, each after the one that it hangs on.

    `order` leaves the fixed ones out. `parent` and `siemens` go by node: what it hangs on, and the conductance to it.
    """

    order: list[int]
    parent: list[int]
    siemens: list[float]

    def volts(self, into: list[float], fixed: Mapping[int, float]) -> dict[int, float]:
        """Volts of all nodes for the current fed into each; `into` is used up. Each node gets what leaves it."""
        parent, siemens = self.parent, self.siemens
        for here in reversed(self.order):
            into[parent[here]] += into[here]
        volts = dict(fixed)
        for here in self.order:
            volts[here] = volts[parent[here]] + into[here] / siemens[here]
        return volts


def reach(near: Sequence[Mapping[int, float]], fixed: Mapping[int, float]) -> tuple[set[int], Tree | None]:
    """The nodes that conduct to a fixed one; and how they hang, where no two of them are joined in two ways.

    `near` has by node the conductance to each of its neighbours.
    """
    parent, siemens = [-1] * len(near), [0.0] * len(near)
    reached = set(fixed)
    row = list(fixed)
    ends = 0
    for here in row:
        ends += len(near[here])
        for other, g in near[here].items():
            if other not in reached:
                reached.add(other)
                parent[other], siemens[other] = here, g
                row.append(other)
    # a forest with one root each has one piece for each node that is no root; each piece was met from both ends
    if ends != 2 * (len(row) - len(fixed)):
        return reached, None
    return reached, Tree(row[len(fixed) :], parent, siemens)
