"""The impedance between two contacts of a small network of speakers, capacitors, coils and wires, over frequency.

A speaker counts as its nominal ohms at every frequency: that is what the word means. What it may fall to is
IEC 60268-5's 80 %, told beside it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from harness.electrical.joined import Joined

# IEC 60268-5: in the rated band the modulus is at least 80 % of the rated impedance; a reference page, seen 2026. Each
# half of a bridge drives half of the load: both outputs swing equally and opposite.
LEAST_SHARE = 0.8
# Only for networks with coils and capacitors: a step of 1.5 %, and 2 steps divided by golden section to 1e-7.
_PER_OCTAVE = 48
_ROUNDS = 32
_SILENT = 1e-12  # of the source's volts: rounding on a speaker that hangs by one wire


class Branch(NamedTuple):
    """A resistance in ohm between two nodes, with a capacitor in farad and a coil in henry in line where given."""

    a: str
    b: str
    ohm: float
    farad: float | None = None
    henry: float | None = None

    def admittance(self, hz: float) -> complex:
        """Siemens; infinite resistance (a capacitor at 0 Hz) gives 0."""
        turns = 2 * math.pi * hz
        reactance = turns * self.henry if self.henry else 0.0
        if self.farad is not None:
            if hz <= 0:
                return 0j
            reactance -= 1 / (turns * self.farad)
        return 1 / complex(self.ohm, reactance)

    @property
    def is_nothing(self) -> bool:
        """No resistance, capacitor or coil: both nodes are one."""
        return self.ohm == 0 and self.farad is None and not self.henry


class Least(NamedTuple):
    """The least modulus over a band, and where."""

    ohm: float
    hz: float


class Delivered(NamedTuple):
    """What reaches one speaker: volts over it (with its capacitor), watts in it, and what the wire takes of each.

    Both shares compare with wire of no resistance at the same volts of the output: 0.48 ohm before 2 ohm takes
    19.35 % of the volts but 34.97 % of the power.
    """

    name: str
    volts_v: float
    power_w: float
    volts_lost: float
    power_lost: float


class Delivery(NamedTuple):
    """What an output gives into its whole load, what of that heats wires, and what each speaker gets."""

    speakers: tuple[Delivered, ...]
    given_w: float
    wire_w: float


def volts(branches: Sequence[Branch], plus: str, minus: str, hz: float) -> dict[str, complex]:
    """Volts of every node that `plus` reaches with 1 V between the two; `minus` is 0.

    Raises ValueError where branches of nothing join the two, ZeroDivisionError where a coil and a capacitor
    without resistance stand exactly at their resonance.
    """
    left, root = _without_nothing(branches)
    top, bottom = root.get(plus, plus), root.get(minus, minus)
    if top == bottom:
        raise ValueError(f"{plus} and {minus} are one: no volts between them")
    here = _volts(left, top, bottom, hz)
    return here | {node: here[at] for node, at in root.items() if at in here}


def impedance(branches: Sequence[Branch], plus: str, minus: str, hz: float) -> complex:
    """Ohm between two nodes; infinite where nothing connects them, 0 where they are one.

    Raises ZeroDivisionError as `volts` does.
    """
    left, root = _without_nothing(branches)
    top, bottom = root.get(plus, plus), root.get(minus, minus)
    if top == bottom:
        return 0j
    here = _volts(left, top, bottom, hz)
    current = sum(
        (branch.admittance(hz) * (here[top] - here[other]) for branch, other in _at(left, top) if other in here), 0j
    )
    return 1 / current if current else complex(math.inf)


def least_modulus(branches: Sequence[Branch], plus: str, minus: str, low_hz: float, high_hz: float) -> Least:
    """The least modulus from `low_hz` to `high_hz`, in hertz above 0.

    Resistances and capacitors alone: exactly at `high_hz`. Poles and zeros of such an impedance lie on the negative
    real axis and alternate, a pole first (Foster 1924, Cauer 1926), so that |Z|² is a product of factors
    (w² + z²)/(w² + p²) with z > p, each falling with w. With coils in the place of capacitors it is the other way
    round: at `low_hz`. Coils and capacitors together are searched, 48 points an octave, with a golden section at
    every dip. A series resonance is a V much wider than a step, whatever its resistance; missed could be only a dip
    that a parallel resonance within 1.5 % of it fills up again.
    """

    def modulus(hz: float) -> float:
        return abs(impedance(branches, plus, minus, hz))

    capacitors = any(branch.farad is not None for branch in branches)
    coils = any(branch.henry for branch in branches)
    if not (capacitors or coils):
        middle = math.sqrt(low_hz * high_hz)
        return Least(modulus(middle), middle)
    if not (capacitors and coils):
        end = high_hz if capacitors else low_hz
        return Least(modulus(end), end)
    steps = max(1, math.ceil(math.log2(high_hz / low_hz) * _PER_OCTAVE))
    points = [low_hz * (high_hz / low_hz) ** (at / steps) for at in range(steps + 1)]
    values = [modulus(hz) for hz in points]
    found = []
    for at in range(steps + 1):
        before, after = max(0, at - 1), min(steps, at + 1)
        if values[at] == min(values[before], values[at], values[after]):
            hz = _dip(modulus, points[before], points[after])
            found += [Least(values[at], points[at]), Least(modulus(hz), hz)]
    return min(found)


def delivered(
    speakers: Mapping[str, Branch],
    wires: Sequence[Branch],
    plus: str,
    minus: str,
    hz: float,
    source_v: float,
    others: Sequence[Branch] = (),
) -> Delivery:
    """What `source_v` volts RMS between two nodes bring to each speaker, and what the wires take.

    `others` are parts that are neither: a resistor, a capacitor or a coil of a crossover. A speaker that gets
    nothing even by wire of no resistance loses nothing. Raises as `volts` does.
    """
    rest = [*speakers.values(), *others]
    bare = [Branch(wire.a, wire.b, 0.0) for wire in wires]
    here = volts([*wires, *rest], plus, minus, hz)
    whole = volts([*bare, *rest], plus, minus, hz)
    made = []
    for name, branch in speakers.items():
        got, full = (abs(each.get(branch.a, 0j) - each.get(branch.b, 0j)) for each in (here, whole))
        left = got / full if full > _SILENT else 1.0
        made.append(Delivered(name, got * source_v, _watts(branch, here, hz) * source_v**2, 1 - left, 1 - left * left))
    wire_w = sum(_watts(wire, here, hz) for wire in wires) * source_v**2
    given_w = wire_w + sum(_watts(branch, here, hz) for branch in rest) * source_v**2
    return Delivery(tuple(made), given_w, wire_w)


def standard_least_ohm(nominal_ohm: float) -> float:
    """What a speaker of that nominal impedance may fall to: 8 ohm to 6.4, 4 ohm to 3.2. Source: IEC 60268-5."""
    return LEAST_SHARE * nominal_ohm


def each_half_ohm(load_ohm: float) -> float:
    """What each of two bridged outputs sees."""
    return load_ohm / 2


def bridge_least_ohm(output_least_ohm: float) -> float:
    """The least load of a bridge of two outputs that take so much each: 2 ohm each make 4."""
    return output_least_ohm * 2


def bridge_power_w(half_load_w: float) -> float:
    """Watts of a bridge, from the watts of one output on half of the bridge's load: 180 W at 2 ohm, 360 W at 4."""
    return half_load_w * 2


def _watts(branch: Branch, here: Mapping[str, complex], hz: float) -> float:
    """Watts in a branch at 1 V of the source; none in a branch of nothing or out of reach."""
    if branch.is_nothing or branch.a not in here or branch.b not in here:
        return 0.0
    return abs(branch.admittance(hz) * (here[branch.a] - here[branch.b])) ** 2 * branch.ohm


def _dip(modulus: Callable[[float], float], low_hz: float, high_hz: float) -> float:
    """Where the least is between two frequencies that have one dip between them: golden section over log f."""
    low, high, ratio = math.log(low_hz), math.log(high_hz), (math.sqrt(5) - 1) / 2
    one, other = high - ratio * (high - low), low + ratio * (high - low)
    at_one, at_other = modulus(math.exp(one)), modulus(math.exp(other))
    for _ in range(_ROUNDS):
        if at_one <= at_other:
            high, other, at_other = other, one, at_one
            one = high - ratio * (high - low)
            at_one = modulus(math.exp(one))
        else:
            low, one, at_one = one, other, at_other
            other = low + ratio * (high - low)
            at_other = modulus(math.exp(other))
    return math.exp((low + high) / 2)


def _without_nothing(branches: Sequence[Branch]) -> tuple[list[Branch], dict[str, str]]:
    """The branches between two nodes, those joined that branches of nothing join, and what stands for each node."""
    if not any(branch.is_nothing for branch in branches):
        return [branch for branch in branches if branch.a != branch.b], {}
    one = Joined()
    for branch in branches:
        one.add(branch.a)
        one.add(branch.b)
        if branch.is_nothing:
            one.join(branch.a, branch.b)
    root = {str(node): str(one.root(node)) for node in one}
    moved = [branch._replace(a=root[branch.a], b=root[branch.b]) for branch in branches]
    left = [branch for branch in moved if branch.a != branch.b]
    return left, root


def _volts(branches: Sequence[Branch], plus: str, minus: str, hz: float) -> dict[str, complex]:
    """Nodal analysis: the current into every free node is 0."""
    nodes = _reached(branches, plus)
    free = sorted(nodes - {plus, minus})
    number = {node: at for at, node in enumerate(free)}
    matrix = [[0j] * (len(free) + 1) for _ in free]
    for branch in branches:
        if branch.a not in nodes:
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


def _at(branches: Sequence[Branch], node: str) -> list[tuple[Branch, str]]:
    """The branches at a node, each with the node on its other side."""
    return [(branch, branch.b if branch.a == node else branch.a) for branch in branches if node in (branch.a, branch.b)]


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
