"""The impedance between two contacts of a small network of coils, capacitors and wires, over frequency.

A speaker counts as its nominal ohms at every frequency: that is what the word means. What it may fall to is
IEC 60268-5's 80 %, told beside it. Bases: `nominal`, `least modulus`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

LEAST_SHARE = 0.8  # IEC 60268-5: the modulus in the rated band is at least 80 % of the rated impedance
_PER_OCTAVE = 12
_ROUNDS = 60


class Branch(NamedTuple):
    """A resistance in ohm between two nodes, with a capacitor in line where `farad` is given."""

    a: str
    b: str
    ohm: float
    farad: float | None = None

    def admittance(self, hz: float) -> complex:
        """Siemens; infinite resistance (a capacitor at 0 Hz) gives 0."""
        if self.farad is None:
            return complex(1 / self.ohm)
        if hz <= 0:
            return 0j
        return 1 / complex(self.ohm, -1 / (2 * math.pi * hz * self.farad))


class Least(NamedTuple):
    """The least modulus over a band, and where."""

    ohm: float
    hz: float


def volts(branches: Sequence[Branch], plus: str, minus: str, hz: float) -> dict[str, complex]:
    """Volts of every node that `plus` reaches with 1 V between the two; `minus` is 0.

    Branches of 0 ohm are not allowed: their nodes are one node. Raises ZeroDivisionError for one.
    """
    nodes = _reached(branches, plus)
    free = sorted(nodes - {plus, minus})
    number = {node: at for at, node in enumerate(free)}
    matrix = [[0j] * (len(free) + 1) for _ in free]
    for branch in branches:
        if branch.a == branch.b or branch.a not in nodes:
            continue
        y = branch.admittance(hz)
        for here, other in ((branch.a, branch.b), (branch.b, branch.a)):
            row = number.get(here)
            if row is None:
                continue
            matrix[row][row] += y
            column = number.get(other)
            if column is not None:
                matrix[row][column] -= y
            elif other == plus:
                matrix[row][-1] += y
    solved = _eliminated(matrix)
    return {plus: 1 + 0j, minus: 0j} | {node: solved[at] for node, at in number.items()}


def impedance(branches: Sequence[Branch], plus: str, minus: str, hz: float) -> complex:
    """Ohm between two nodes; infinite where nothing connects them."""
    here = volts(branches, plus, minus, hz)
    current = sum(
        (branch.admittance(hz) * (here[plus] - here[other]) for branch, other in _at(branches, plus) if other in here),
        0j,
    )
    return 1 / current if current else complex(math.inf)


def least_modulus(branches: Sequence[Branch], plus: str, minus: str, low_hz: float, high_hz: float) -> Least:
    """The least modulus from `low_hz` to `high_hz`: twelve points an octave, then a golden section beside the least.

    Capacitors and resistances alone have moduli without narrow dips, so that no dip hides between two points.
    """

    def modulus(hz: float) -> float:
        return abs(impedance(branches, plus, minus, hz))

    if all(branch.farad is None for branch in branches) or high_hz <= low_hz:
        middle = math.sqrt(low_hz * high_hz)
        return Least(modulus(middle), middle)
    count = max(2, math.ceil(math.log2(high_hz / low_hz) * _PER_OCTAVE) + 1)
    points = [low_hz * (high_hz / low_hz) ** (at / (count - 1)) for at in range(count)]
    values = [modulus(hz) for hz in points]
    at = min(range(count), key=values.__getitem__)
    low, high = points[max(0, at - 1)], points[min(count - 1, at + 1)]
    ratio = (math.sqrt(5) - 1) / 2
    for _ in range(_ROUNDS):
        one = high / (high / low) ** ratio
        other = low * (high / low) ** ratio
        if modulus(one) <= modulus(other):
            high = other
        else:
            low = one
    inside = math.sqrt(low * high)
    return min(Least(values[at], points[at]), Least(modulus(inside), inside))


def _at(branches: Sequence[Branch], node: str) -> list[tuple[Branch, str]]:
    """The branches at a node, each with the node on its other side."""
    return [
        (branch, branch.b if branch.a == node else branch.a)
        for branch in branches
        if branch.a != branch.b and node in (branch.a, branch.b)
    ]


def _reached(branches: Sequence[Branch], start: str) -> set[str]:
    seen = {start}
    row = [start]
    for here in row:
        for _, other in _at(branches, here):
            if other not in seen:
                seen.add(other)
                row.append(other)
    return seen


def _eliminated(matrix: list[list[complex]]) -> list[complex]:
    """Gauss with the largest pivot of each column. A node that hangs on a blocked capacitor only gets 0."""
    count = len(matrix)
    for at in range(count):
        best = max(range(at, count), key=lambda row: abs(matrix[row][at]))
        matrix[at], matrix[best] = matrix[best], matrix[at]
        pivot = matrix[at][at]
        if pivot == 0:
            continue
        for row in range(at + 1, count):
            share = matrix[row][at] / pivot
            if share:
                for column in range(at, count + 1):
                    matrix[row][column] -= share * matrix[at][column]
    solved = [0j] * count
    for at in range(count - 1, -1, -1):
        rest = matrix[at][-1] - sum((matrix[at][column] * solved[column] for column in range(at + 1, count)), 0j)
        solved[at] = rest / matrix[at][at] if matrix[at][at] else 0j
    return solved
