"""The search over the needs of one plug, need by need: a state is what later needs can still tell apart.

Needs that share no wire and no cavity know nothing of each other: between them only the ends that were touched are
left in a state. So the work adds up over cycles and chains of wires in each other's cavities, and doesn't multiply.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from harness.weighing.hand import Cost
from harness.weighing.mixes import Made
from harness.weighing.needs import Need
from harness.weighing.wires import Pin

if TYPE_CHECKING:
    from harness.weighing.at_plug import AtPlug
    from harness.weighing.prices import Prices

Slot = tuple[str, str]  # side, cavity in small letters
Placed = tuple[tuple[Pin, Slot], ...]
Held = tuple[tuple[int, Placed], ...]  # wires by number, with where their pins stand

# Of one search, counted, so that it ends the same way on any machine: without prices, and with them.
FEW_NODES, MOST_NODES = 2_000, 100_000


class Share(NamedTuple):
    """What one cavity (`slot`) of a need that has several gives to the joint of all of them: `members` of it, of which
    `behind` are factory wires. Its wire `covers` a cavity of the car's half too, by its number; or it is such a cavity,
    `covered` by a wire.
    """

    need: Need
    slot: Slot
    members: tuple[str, ...]
    covers: tuple[Slot, int] | None
    behind: int
    covered: int | None


class Option:
    """One way of serving a need, or its `share` where that is one cavity of several: wires with the slots that they
    take, and the joint.
    """

    __slots__ = ("cost", "kind", "made", "share", "used")

    def __init__(
        self, used: Held, made: Made | None, cost: Cost, kind: tuple[object, ...], share: Share | None = None
    ) -> None:
        self.used, self.made, self.cost, self.kind, self.share = used, made, cost, kind, share


_Half = tuple[Need, tuple[Slot, int] | int]


class _Way(NamedTuple):
    """What was chosen so far: `cost` with all that is settled, `rest` what wires not settled cost at the least."""

    cost: Cost
    rest: Cost
    touched: frozenset[str]
    taken: frozenset[int]  # wires, of those not settled
    slots: frozenset[Slot]  # taken, of those whose own wire isn't settled
    agrees: frozenset[object]  # refused mixes of which all so far is a part
    paid: tuple[int, int]  # in prices, for what isn't settled
    shared: frozenset[_Half]  # of needs half served: cavities covered, and factory wires by number
    last: tuple[Option, object] | None


def own(pin: Pin) -> Slot:
    """Where a terminal comes."""
    return pin.end, pin.cavity.lower()


class Layers:
    """The search of one loom (`at`) over its needs, each a list of options."""

    def __init__(
        self, at: AtPlug, needs: list[list[Option]], refused: Collection[object], prices: Prices | None = None
    ) -> None:
        self.at = at
        self.prices = prices
        self.gave_up = False
        self.needs = self._ordered(needs)
        self.refused = frozenset(key for key in refused if at.mine(key))
        self.floor = floors(self.needs, at.left)
        self._settled_at()
        self._last_of = {
            options[0].share.need: depth for depth, options in enumerate(self.needs) if options[0].share is not None
        }
        self._priced: list[tuple[int, int]] = []
        if prices is not None:
            self._cavity = {slot: prices.cavity(slot) for slot in at.home}
            self._unused = [prices.unused(number) for number in range(len(at.wires))]
            self._priced = self._floor_at_prices(prices)

    def _ordered(self, needs: list[list[Option]]) -> list[list[Option]]:
        """Next the need that brings in the fewest wires not met yet; of these the one that shares the most."""
        left = [(frozenset(self._concerned(options)), at, options) for at, options in enumerate(needs)]
        met: set[int] = set()
        made = []
        while left:
            best = min(
                (each for each in left if not self._waits(each[2], [other[2] for other in left])),
                key=lambda each: (len(each[0] - met), -len(each[0] & met), each[1]),
            )
            left.remove(best)
            met |= best[0]
            made.append(best[2])
        return made

    @staticmethod
    def _waits(options: list[Option], left: list[list[Option]]) -> bool:
        """Whether this is a cavity of the car's half that a wire of the unit's half, still to be chosen, may cover."""
        share = options[0].share
        return (
            share is not None
            and share.slot[0] == "car"
            and any(
                (other := each[0].share) is not None and other.need is share.need and other.slot[0] == "unit"
                for each in left
            )
        )

    def _concerned(self, options: list[Option]) -> Iterator[int]:
        """Wires that its options use or push out."""
        for option in options:
            for number, placed in option.used:
                yield number
                for _, slot in placed:
                    yield from self.at.home.get(slot, ())

    def _settled_at(self) -> None:
        """After which need no more can happen to each wire, and which cavities are then of no more concern."""
        last: dict[int, int] = dict.fromkeys(range(len(self.at.wires)), -1)
        for depth, options in enumerate(self.needs):
            for number in self._concerned(options):
                last[number] = depth
        self.settled: list[list[int]] = [[] for _ in range(len(self.needs) + 1)]
        for number, depth in last.items():
            self.settled[depth + 1].append(number)
        self.last = last

    def _floor_at_prices(self, prices: Prices) -> list[tuple[int, int]]:
        """What needs and wires that aren't settled cost at the least from each need on, at these prices."""
        from_here = [(0, 0)]
        for options in reversed(self.needs):
            beside = [prices.beside(each) for each in options]
            from_here.append(_sum(from_here[-1], (min(each[0] for each in beside), min(each[1] for each in beside))))
        from_here.reverse()
        at_need = {
            slot: depth for depth, options in enumerate(self.needs) for each in options
            for _, held in each.used for _, slot in held
        }  # fmt: skip
        made = []
        for depth, least in enumerate(from_here):
            cost = least
            for number, last in self.last.items():
                if last >= depth:
                    cost = _sum(cost, self._unused[number])
            for slot in at_need.keys() & self._cavity.keys():
                if at_need[slot] >= depth or any(self.last[number] >= depth for number in self.at.home[slot]):
                    cost = _sum(cost, self._cavity[slot], -1)
            made.append(cost)
        return made

    def walk(self, width: int | None) -> list[list[Option]]:
        """What is chosen, need by need, in every way that may be best. With `width` only so many states are kept."""
        start = _Way(
            self.at.base, self.at.rest, frozenset(), frozenset(), frozenset(), self.refused, (0, 0), frozenset(), None
        )
        layer = [self._settle(start, 0)]
        nodes = 0
        for depth, options in enumerate(self.needs):
            states: dict[tuple[object, ...], list[_Way]] = {}
            for way in layer:
                tried: set[tuple[object, ...]] = set()
                for option in options:
                    if any(number in way.taken for number, _ in option.used):
                        continue
                    if option.share is not None and not self._may_share(way, option.share, depth):
                        continue
                    alike = (option.cost, *option.kind)
                    if alike in tried:
                        continue
                    tried.add(alike)
                    nodes += 1
                    new = self._settle(self._chosen(way, option, depth), depth + 1)
                    if not self.at.surely_beaten(self.bound(new, depth + 1)):
                        _keep(states.setdefault(self._key(new), []), new)
            layer = [way for held in states.values() for way in held]
            if width is not None and len(layer) > width:
                layer = sorted(layer, key=lambda way: self.bound(way, depth + 1)[1::-1])[:width]
            if width is None and nodes > (FEW_NODES if self.prices is None else MOST_NODES):
                self.gave_up = True
                return []
        layer.sort(key=lambda way: self.bound(way, len(self.needs)))
        return [_options_of(way) for way in layer]

    def _chosen(self, way: _Way, option: Option, depth: int) -> _Way:
        at = self.at
        numbers = [number for number, _ in option.used]
        paid = way.paid
        if self.prices is not None:
            for number, placed in option.used:
                paid = _sum(paid, self._unused[number], -1)
                for _, slot in placed:
                    paid = _sum(paid, self._cavity.get(slot, (0, 0)))
        return _Way(
            way.cost.plus(option.cost), way.rest.less(*(at.left[number] for number in numbers)),
            way.touched | at.touched(option.used), way.taken.union(numbers),
            way.slots.union(slot for _, placed in option.used for _, slot in placed),
            frozenset(key for key in way.agrees if self._agrees(option, key)), paid,
            way.shared if option.share is None else self._shared(way, option.share, depth), (option, way.last),
        )  # fmt: skip

    def _may_share(self, way: _Way, share: Share, depth: int) -> bool:
        """Whether each cavity is served once, and in the end so many factory wires are in the joint as there are."""
        there = {
            slot: number for need, at in way.shared if need is share.need and not isinstance(at, int)
            for slot, number in [at]
        }  # fmt: skip
        if there.get(share.slot) != share.covered or (share.covers is not None and share.covers[0] in there):
            return False
        number, most = self._behind(way, share.need) + share.behind, self.at.behind[share.need]
        return number <= most or most > 1 if depth < self._last_of[share.need] else min(number, 2) == most

    def _shared(self, way: _Way, share: Share, depth: int) -> frozenset[_Half]:
        """What is to be known of the needs that are half served, after this."""
        if depth == self._last_of[share.need]:
            return frozenset(each for each in way.shared if each[0] is not share.need)
        number = min(2, self._behind(way, share.need) + share.behind)
        kept = {each for each in way.shared if each[0] is not share.need or not isinstance(each[1], int)}
        covers = set() if share.covers is None else {(share.need, share.covers)}
        return frozenset(kept | covers | {(share.need, number)})

    @staticmethod
    def _behind(way: _Way, need: Need) -> int:
        return next((at for of, at in way.shared if of is need and isinstance(at, int)), 0)

    def _agrees(self, option: Option, key: object) -> bool:
        """Whether an option may be a part of a mix that was refused, by its joints and its moved terminals."""
        assert isinstance(key, tuple)
        if option.made is not None and option.made not in key[3]:
            return False
        if option.share is not None and not any({*option.share.members} <= {*made.members} for made in key[3]):
            return False
        mark = self.at.used.mark
        moved = dict(key[7])
        for _, placed in option.used:
            for pin, slot in placed:
                goal = moved.get(f"{mark}.{pin.name}", pin.cavity)
                if goal.lower() != slot[1]:
                    return False
        return True

    def _settle(self, way: _Way, depth: int) -> _Way:
        """Wires that nothing more can happen to: what is left over costs what it costs now."""
        cost, rest, touched = way.cost, way.rest, way.touched
        settled = self.settled[depth]
        if not settled:
            return way
        for number in settled:
            if number in way.taken:
                continue
            for pin in self.at.idle(number, way.slots):
                cost = cost.plus(self.at.pulled(self.at.wires[number], pin))
                touched |= {pin.end}
            rest = rest.less(self.at.left[number])
        slots = frozenset(
            slot for slot in way.slots if any(self.last[number] >= depth for number in self.at.home.get(slot, ()))
        )
        paid = way.paid
        if self.prices is not None:
            for number in way.taken.intersection(settled):
                paid = _sum(paid, self._unused[number])
            for slot in way.slots - slots:
                paid = _sum(paid, self._cavity.get(slot, (0, 0)), -1)
        return way._replace(
            cost=cost, rest=rest, touched=touched, taken=way.taken.difference(settled), slots=slots, paid=paid
        )

    def _key(self, way: _Way) -> tuple[object, ...]:
        """The same for ways that can go on alike: spare wires that are alike count only."""
        spare: Counter[object] = Counter()
        taken = []
        for number in way.taken:
            kind = self.at.spare[number]
            if kind is None:
                taken.append(number)
            else:
                spare[kind] += 1
        mine = frozenset(taken)
        slots = frozenset(
            slot for slot in way.slots if any(number not in way.taken for number in self.at.home.get(slot, ()))
        )
        return way.touched, mine, frozenset(spare.items()), slots, way.agrees, way.shared

    def bound(self, way: _Way, depth: int) -> Cost:
        """It costs no less in the end."""
        locks = self.at.locks(len(way.touched))
        floor = way.cost.plus(way.rest).plus(self.floor[depth]).plus(locks)
        if self.prices is None:
            return floor
        least = _sum(_sum(_sum(way.cost[:2], way.paid), self._priced[depth]), locks[:2])
        return Cost(max(floor[0], least[0]), max(floor[1], least[1]), *floor[2:])


def _keep(held: list[_Way], new: _Way) -> None:
    """Into those of one state, unless one there is no worse; those that are no better go."""
    # what isn't settled yet is of the same cost for both but for spare wires, which are alike
    if any(no_worse(each.cost, new.cost) for each in held):
        return
    held[:] = [each for each in held if not no_worse(new.cost, each.cost)]
    held.append(new)


def no_worse(one: Cost, other: Cost) -> bool:
    """Whether one costs no more time and no more money, and where these are the same no more of the rest."""
    return one[0] <= other[0] and one[1] <= other[1] and one <= other


def floors(needs: list[list[Option]], left: list[Cost]) -> list[Cost]:
    """What the needs from each one on cost at the least, beside what any wire costs that is left over (`left`)."""
    made = [Cost()]
    for options in reversed(needs):
        beside = [each.cost.less(*(left[number] for number, _ in each.used)) for each in options]
        made.append(made[-1].plus(Cost(*(min(cost[at] for cost in beside) for at in range(5)))))
    return made[::-1]


def _sum(one: tuple[int, int], other: tuple[int, int], times: int = 1) -> tuple[int, int]:
    return one[0] + times * other[0], one[1] + times * other[1]


def _options_of(way: _Way) -> list[Option]:
    made = []
    link: object = way.last
    while isinstance(link, tuple):
        option, link = link
        made.append(option)
    return made[::-1]


def wires_at(slots: Iterable[tuple[int, Slot]]) -> dict[Slot, tuple[int, ...]]:
    """The wires that come with a terminal in each cavity."""
    made: dict[Slot, tuple[int, ...]] = {}
    for number, slot in slots:
        made[slot] = (*made.get(slot, ()), number)
    return made
