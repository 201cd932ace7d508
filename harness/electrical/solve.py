"""DC networks: volts and amperes by Kirchhoff's laws, for feeds and returns of any shape.

A network without a loop is walked twice. In any other, nodes are eliminated one by one, those with the fewest
neighbours first, so that what hangs on a mesh costs as much as it is long.
Nothing is subtracted on the way: what leaves a node is kept apart from what it has to the fixed ones, so that a
milliohm beside a kilohm loses no digits (the elimination of Grassmann, Taksar and Heyman, 1985, from memory).
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from heapq import heapify, heappop, heappush
from typing import NamedTuple

from harness.electrical.joined import Joined
from harness.electrical.tree import reach

MOST_ROUNDS = 60
RESIDUAL = 1e-9  # of the total current: what Kirchhoff's first law may miss at any node
Node = Hashable


class Resistor(NamedTuple):
    """A piece of conductor between two nodes, in ohm; 0 makes them one node."""

    a: Node
    b: Node
    ohm: float
    name: str = ""


class Source(NamedTuple):
    """A battery: its volts with nothing drawn, and the ohms inside it (0: a stiff one)."""

    plus: Node
    minus: Node
    emf_v: float
    ohm: float = 0.0
    name: str = ""


class Load(NamedTuple):
    """What draws from `a` to `b`: a constant current, or where `power_w` is given a constant power."""

    a: Node
    b: Node
    current_a: float = 0.0
    power_w: float = 0.0
    name: str = ""


class Solution(NamedTuple):
    """Volts by node, against the first source's minus; amperes by resistor and source, as given in.

    A resistor of 0 ohm has no current of its own: None. `loads_a` are the loads' currents. `floating` are loads with
    an end that no source reaches: they draw nothing. `collapsed` are loads whose power can't arrive; where there is
    one, every number here is that of the last attempt and no answer. `residual_a` is the worst miss at a node.
    """

    volts: dict[Node, float]
    resistors_a: tuple[float | None, ...]
    sources_a: tuple[float, ...]
    loads_a: tuple[float, ...]
    floating: tuple[int, ...]
    collapsed: tuple[int, ...]
    residual_a: float


def solve(resistors: Sequence[Resistor], sources: Sequence[Source], loads: Sequence[Load] = ()) -> Solution:
    """The one state in which every node gets as much current as leaves it.

    Raises ValueError for a resistance below 0, for no source, and for a stiff source whose minus isn't the first
    one's.
    """
    net = _Net(resistors, sources, loads)
    return net.solution()


class _Net:
    """Numbered nodes, conductances between them, and to the fixed ones."""

    def __init__(self, resistors: Sequence[Resistor], sources: Sequence[Source], loads: Sequence[Load]) -> None:
        if not sources:
            raise ValueError("a network needs a source")
        self.resistors, self.sources, self.loads = resistors, sources, loads
        ends = [end for a, b, _, _ in resistors for end in (a, b)]
        ends += [end for source in sources for end in (source.plus, source.minus)]
        one = Joined([*ends, *(end for load in loads for end in (load.a, load.b))])
        for each in resistors:
            if each.ohm <= 0:
                if each.ohm < 0:
                    raise ValueError(f"{each.name or each}: {each.ohm} ohm is below 0")
                one.join(each.a, each.b)
        self.number = one.numbers()
        self._fix()
        self._lay()
        self._reach()

    def _fix(self) -> None:
        """Stiff sources hold their plus; others are a current and a conductance between their ends."""
        number = self.number
        reference = number[self.sources[0].minus]
        self.fixed: dict[int, float] = {reference: 0.0}
        for source in self.sources:
            plus, minus = number[source.plus], number[source.minus]
            if source.ohm > 0:
                continue
            if minus not in self.fixed:
                raise ValueError(f"{source.name or source}: a source without inner resistance needs the common minus")
            volts = self.fixed[minus] + source.emf_v
            if abs(self.fixed.get(plus, volts) - volts) > 1e-12:
                raise ValueError(f"{source.name or source}: two stiff sources hold one node at different volts")
            self.fixed[plus] = volts

    def _lay(self) -> None:
        count = max(self.number.values()) + 1
        self.near: list[dict[int, float]] = [{} for _ in range(count)]
        number = self.number
        self.ends = [(number[each[0]], number[each[1]]) for each in self.resistors]
        self.load_ends = [self._ends(each.a, each.b) for each in self.loads]
        self.source_ends = [self._ends(each.plus, each.minus) for each in self.sources]
        self.injected = [0.0] * count
        for (a, b), resistor in zip(self.ends, self.resistors, strict=True):
            if a != b:
                one, other, siemens = self.near[a], self.near[b], 1.0 / resistor[2]
                one[b] = other[a] = one[b] + siemens if b in one else siemens
        for (plus, minus), source in zip(self.source_ends, self.sources, strict=True):
            if source.ohm > 0 and plus != minus:
                self._connect(plus, minus, 1.0 / source.ohm)
                self.injected[plus] += source.emf_v / source.ohm
                self.injected[minus] -= source.emf_v / source.ohm

    def _ends(self, a: Node, b: Node) -> tuple[int, int]:
        return self.number[a], self.number[b]

    def _connect(self, a: int, b: int, siemens: float) -> None:
        one, other = self.near[a], self.near[b]
        one[b] = other[a] = one[b] + siemens if b in one else siemens

    def _reach(self) -> None:
        """What no fixed node reaches has no volts; loads with an end there draw nothing."""
        reached, self.tree = reach(self.near, self.fixed)
        self.reached = reached
        self.floating = tuple(at for at, (a, b) in enumerate(self.load_ends) if a not in reached or b not in reached)
        floating = set(self.floating)
        self.drawing = [at for at in range(len(self.loads)) if at not in floating]

    # -- solving ---------------------------------------------------------------------------------------

    def solution(self) -> Solution:
        steady = [at for at in self.drawing if not self.loads[at].power_w]
        powered = [at for at in self.drawing if self.loads[at].power_w]
        base = self.injected[:]
        for at in steady:
            a, b = self.load_ends[at]
            base[a] -= self.loads[at].current_a
            base[b] += self.loads[at].current_a
        collapsed: tuple[int, ...] = ()
        swept = self._swept(base, powered) if self.tree is not None else None
        if swept is not None:
            volts = swept
        elif powered:
            volts, collapsed = self._with_power(base, powered)
        else:
            volts = self._refined(self._factored({}), base, {})
        collapsed = collapsed or tuple(at for at in self.drawing if self._across(volts, at) <= 0)
        return self._told(volts, collapsed)

    def _swept(self, base: list[float], powered: list[int]) -> dict[int, float] | None:
        """A network without a loop: the currents at full volts, then those at the volts that arrive, until they stay.

        None where they don't: so near to a collapse Newton's method has to say.
        """
        assert self.tree is not None
        across = dict.fromkeys(powered, max([0.0, *self.fixed.values()]))
        for _ in range(MOST_ROUNDS if powered else 1):
            injected = base[:]
            for at in powered:
                a, b = self.load_ends[at]
                amperes = self.loads[at].power_w / across[at] if across[at] > 0 else 0.0
                injected[a] -= amperes
                injected[b] += amperes
            volts = self.tree.volts(injected, self.fixed)
            moved = 0.0
            for at in powered:
                v = self._across(volts, at)
                if not v > 0:
                    return None
                moved = max(moved, abs(v - across[at]) / v)
                across[at] = v
            if moved < 1e-13:
                return volts
        return None

    def _with_power(self, base: list[float], powered: list[int]) -> tuple[dict[int, float], tuple[int, ...]]:
        """Newton's method from full volts at every load; a load that ends up at or below 0 V has collapsed."""
        highest = max(self.fixed.values(), default=0.0)
        highest = max([highest, *(source.emf_v for source in self.sources)])
        across = dict.fromkeys(powered, highest)
        volts: dict[int, float] = {}
        for _ in range(MOST_ROUNDS):
            injected, slopes = base[:], {}
            for at in powered:
                a, b = self.load_ends[at]
                watts, v = self.loads[at].power_w, across[at]
                # I = P/v, taken as a straight line at v: a current of 2 P/v and a conductance of -P/v² between the ends
                injected[a] -= 2 * watts / v
                injected[b] += 2 * watts / v
                slopes[at] = -watts / v / v
            volts = self._refined(self._factored(slopes), injected, slopes)
            moved = 0.0
            for at in powered:
                v = self._across(volts, at)
                if not v > 0:
                    return volts, self._weakest(volts, powered)
                moved = max(moved, abs(v - across[at]) / v)
                across[at] = v
            if moved < 1e-10:  # each round doubles the digits that are right
                return volts, ()
        return volts, self._weakest(volts, powered)

    def _weakest(self, volts: dict[int, float], powered: list[int]) -> tuple[int, ...]:
        """The loads at or below 0 V; where Newton only didn't settle, the one with the least volts."""
        below = tuple(at for at in powered if not self._across(volts, at) > 0)
        return below or (min(powered, key=lambda at: self._across(volts, at)),)

    def _across(self, volts: dict[int, float], at: int) -> float:
        a, b = self.load_ends[at]
        return volts[a] - volts[b]

    def _factored(self, slopes: dict[int, float]) -> _Factors:
        near: dict[int, dict[int, float]] = {}
        shunt: dict[int, float] = {}
        for here in self.reached:
            if here in self.fixed:
                continue
            near[here] = {other: g for other, g in self.near[here].items() if other not in self.fixed}
            shunt[here] = sum(g for other, g in self.near[here].items() if other in self.fixed)
        for at, slope in slopes.items():
            a, b = self.load_ends[at]
            for here, other in ((a, b), (b, a)):
                if here in shunt:
                    if other in shunt and here != other:
                        near[here][other] = near[here].get(other, 0.0) + slope
                    else:
                        shunt[here] += slope
        return _factors(near, shunt)

    def _refined(self, factors: _Factors, injected: list[float], slopes: dict[int, float]) -> dict[int, float]:
        """Solved, then once more for what was missed."""
        volts = factors.solved(self._held(injected, slopes)) | self.fixed
        missed = self._missed(volts, injected, slopes)
        correction = factors.solved(missed)
        return {here: v + correction.get(here, 0.0) for here, v in volts.items()}

    def _held(self, injected: list[float], slopes: dict[int, float]) -> dict[int, float]:
        """What flows into each free node with all free nodes at 0 V."""
        into = {}
        for here in self.reached:
            if here not in self.fixed:
                held = sum(g * self.fixed[other] for other, g in self.near[here].items() if other in self.fixed)
                into[here] = injected[here] + held
        for at, slope in slopes.items():
            a, b = self.load_ends[at]
            for here, other in ((a, b), (b, a)):
                if here in into and other in self.fixed:
                    into[here] += slope * self.fixed[other]
        return into

    def _missed(self, volts: dict[int, float], injected: list[float], slopes: dict[int, float]) -> dict[int, float]:
        """What flows into each free node and doesn't leave it."""
        missed = {}
        for here in self.reached:
            if here not in self.fixed:
                v = volts[here]
                missed[here] = injected[here] + sum(g * (volts[other] - v) for other, g in self.near[here].items())
        for at, slope in slopes.items():
            a, b = self.load_ends[at]
            for here, other in ((a, b), (b, a)):
                if here in missed:
                    missed[here] += slope * (volts[other] - volts[here])
        return missed

    # -- telling ---------------------------------------------------------------------------------------

    def _told(self, volts: dict[int, float], collapsed: tuple[int, ...]) -> Solution:
        loads_a = [0.0] * len(self.loads)
        for at in self.drawing:
            load, v = self.loads[at], self._across(volts, at)
            loads_a[at] = load.power_w / v if load.power_w and v else load.current_a
        resistors_a: list[float | None] = []
        for (a, b), resistor in zip(self.ends, self.resistors, strict=True):
            if a == b:
                resistors_a.append(None if resistor[2] == 0 else 0.0)
            else:
                resistors_a.append((volts[a] - volts[b]) / resistor[2] if a in volts and b in volts else 0.0)
        left = self._leaving(volts, loads_a)
        sources_a = self._sources_a(volts, left)
        free = [abs(amperes) for here, amperes in left.items() if here not in self.fixed]
        names = {node: volts[at] for node, at in self.number.items() if at in volts}
        return Solution(
            names, tuple(resistors_a), tuple(sources_a), tuple(loads_a), self.floating, collapsed,
            max(free, default=0.0),
        )  # fmt: skip

    def _leaving(self, volts: dict[int, float], loads_a: list[float]) -> dict[int, float]:
        """Current that leaves each node over resistors, soft sources and loads."""
        left: dict[int, float] = {}
        for here in self.reached:
            v, leaving = volts[here], -self.injected[here]
            for other, g in self.near[here].items():
                leaving += g * (v - volts[other])
            left[here] = leaving
        for at in self.drawing:
            a, b = self.load_ends[at]
            left[a] += loads_a[at]
            left[b] -= loads_a[at]
        return left

    def _sources_a(self, volts: dict[int, float], left: dict[int, float]) -> list[float]:
        """What each source gives. Stiff ones that hold one node share it evenly; one on top of another loads that."""
        made: dict[int, float] = {}
        for at in reversed(range(len(self.sources))):  # what stands on top came later: `_fix` sees to it
            source, (plus, minus) = self.sources[at], self.source_ends[at]
            if source.ohm > 0:
                known = plus in volts and minus in volts and plus != minus
                made[at] = (source.emf_v - volts[plus] + volts[minus]) / source.ohm if known else 0.0
            else:
                sharing = sum(
                    1 for other, ends in zip(self.sources, self.source_ends, strict=True)
                    if other.ohm == 0 and ends[0] == plus
                )  # fmt: skip
                made[at] = left[plus] / sharing
                left[minus] += made[at]
        return [made[at] for at in range(len(self.sources))]


class _Factors(NamedTuple):
    """The order in which nodes went, what each had to those that went later, and its whole conductance."""

    steps: list[tuple[int, list[tuple[int, float]], float]]

    def solved(self, into: dict[int, float]) -> dict[int, float]:
        """Volts of the free nodes for what is fed into each; linear in the number of steps."""
        held = dict(into)
        for here, near, whole in self.steps:
            share = held[here] / whole
            if share:
                for other, g in near:
                    held[other] += g * share
        volts: dict[int, float] = {}
        for here, near, whole in reversed(self.steps):
            v = held[here]
            for other, g in near:
                v += g * volts[other]
            volts[here] = v / whole
        return volts


def _factors(near: dict[int, dict[int, float]], shunt: dict[int, float]) -> _Factors:
    """Eliminates every node, that with the fewest neighbours first. Changes what it is given."""
    heap = [(len(others), here) for here, others in near.items()]
    heapify(heap)
    steps: list[tuple[int, list[tuple[int, float]], float]] = []
    gone: set[int] = set()
    while heap:
        degree, here = heappop(heap)
        if here in gone or degree != len(near[here]):
            continue
        gone.add(here)
        beside = sorted(near.pop(here).items())
        own = shunt[here]
        whole = own + sum(g for _, g in beside)
        if whole == 0:  # a node at the very edge of a collapse; any small number shows it
            whole = 1e-300
        steps.append((here, beside, whole))
        for at, (other, g) in enumerate(beside):
            row = near[other]
            del row[here]
            shunt[other] += own * g / whole
            for third, h in beside[at + 1 :]:
                more = g * h / whole
                row[third] = row.get(third, 0.0) + more
                near[third][other] = near[third].get(other, 0.0) + more
            heappush(heap, (len(row), other))
        for other, _ in beside:
            heappush(heap, (len(near[other]), other))
    return _Factors(steps)
