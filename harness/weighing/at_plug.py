"""One loom at one plug: every best way of using it, terminals pulled and moved where that makes it right.

The search is exact. A need takes wires of the loom (a wire that goes through, or a lead at each side) or, on the car
side, the factory wire behind the plug; what is left over stands where it came and is capped, or is pulled where it is
in the way. Leads that are left over are capped; a wire that was pulled is bound back and not joined.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Container, Iterable, Iterator, Sequence
from functools import cached_property
from itertools import combinations

from harness.model.shop import InDrawer
from harness.weighing.at_home import Home, at_home, kept
from harness.weighing.hand import Cost, Hand
from harness.weighing.layers import Held, Layers, Option, Slot, floors, no_worse, own
from harness.weighing.mixes import LEADS, ONE_END, PLUG_IN, REPINNED, Made, PlugMix, Used
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.prices import Prices
from harness.weighing.several import MANY, Ask, Modes, asks, options_at, within
from harness.weighing.solder_in import joint_cost, shared_joint
from harness.weighing.ways import Ways
from harness.weighing.wires import Pin, Wire

# States kept in each step of the searches before the whole one: without prices, and with them.
NARROW, WIDE = (1, 12), (16, 64, 256)


class AtPlug(Ways):
    """The search for one loom at one plug, with so many factory wires in the joints that serve several cavities of a
    side (`modes`).
    """

    def __init__(self, plug: PlugNeeds, hand: Hand, used: Used, behind: Modes = ()) -> None:
        super().__init__(plug, hand, used)
        self.behind = dict(behind)

    @cached_property
    def _in_order(self) -> list[Ask]:
        return asks(self.plug.needs)

    def _options_of(self, ask: Ask, may: Callable[[Cost], bool] | None = None) -> Iterator[Option]:
        if ask.slot is None:
            return self._options(ask.need, may)
        return options_at(self, ask.need, ask.slot, self.behind[ask.need])

    @cached_property
    def _needs(self) -> list[list[Option]]:
        """The options of every need; of pairs of many wires a few, the least among them."""
        return [sorted(self._options_of(ask), key=lambda each: each.cost[1::-1]) for ask in self._in_order]

    @cached_property
    def _floor(self) -> list[Cost]:
        """What the needs from each one on cost at the least, beside what any wire costs that is left over."""
        return floors(self._needs, self.left)

    @property
    def can(self) -> bool:
        """Whether every need has some way, and all that want a wire at the unit's side can have one of their own."""
        for need, number in self.behind.items():
            if shared_joint(self.plug, self.hand, need, number) is None or not within(self, need, number):
                return False
        if not all(self._needs):
            return False
        wanted: list[frozenset[int]] = []
        by_any: list[frozenset[int]] = []  # where only a few may be joined by the factory wire behind the plug,
        on_a_lead: list[frozenset[int]] = []  # and by what the others are
        for ask, options in zip(self._in_order, self._needs, strict=True):
            if ask.slot is None:
                first = [slot for slot in ask.need.slots if slot[0] == "unit"]
                wires = {option.used[0][0] for option in options if len(option.used) == 1}
                wires |= {number for slot in first for number, _ in self.singles(slot)}  # of pairs, the first
                wanted += [frozenset(wires) for _ in first]
            elif ask.slot[0] == "unit":
                any_wire = frozenset(option.used[0][0] for option in options)
                if self.behind[ask.need] == MANY:
                    wanted.append(any_wire)
                    continue
                by_any.append(any_wire)
                free = [option for option in options if option.share is not None and not option.share.behind]
                on_a_lead.append(frozenset(option.used[0][0] for option in free))
        few = sum(number for number in self.behind.values() if number < MANY)
        return not _without_one([*wanted, *by_any]) and _without_one([*wanted, *on_a_lead]) <= few

    @property
    def least(self) -> Cost:
        """No mix of this loom costs less."""
        return self.base.plus(self.rest).plus(self._floor[0])

    @cached_property
    def rest(self) -> Cost:
        rest = Cost()
        for left in self.left:
            rest = rest.plus(left)
        return rest

    @cached_property
    def base(self) -> Cost:
        base = self._fixed()
        for wire in self.wires:
            for _ in wire.points:
                base = base.plus(self.cap)
        for need, number in self.behind.items():
            made = shared_joint(self.plug, self.hand, need, number)
            assert made is not None
            base = base.plus(joint_cost(self.hand, made))
        return base

    def mixes(self, known: Sequence[Cost] = (), refused: Collection[object] = ()) -> list[PlugMix]:
        """Every mix of this loom at this plug that neither another one of it nor one that is known beats.

        `refused` are keys of mixes that are not to be. First a narrow search, whose mixes then cut the whole one short.
        """
        if not self.can:
            return []
        self._found: list[PlugMix] = []
        self._known, self._refused = list(known), refused
        if self._beaten(self.least):
            return []
        self._homes = self._at_home if not any(self.mine(key) for key in refused) else {}
        few = kept(self._needs, self._homes)
        if all(few):  # else there are more wires spoken for than there are few
            layers = Layers(self, few, refused)
            for width in NARROW:
                self._collect(layers.walk(width))
        if not all(needs := self._worth()):
            return self._found
        layers = Layers(self, needs, refused)
        self._collect(layers.walk(None))
        if layers.gave_up:
            layers = Layers(self, needs, refused, Prices(self, needs))
            for wide in (*WIDE, None):
                self._collect(layers.walk(wide))
        self.gave_up |= layers.gave_up
        return self._found

    def _collect(self, found: Iterable[list[Option]]) -> None:
        for chosen in found:
            self._leaf(chosen)

    def _worth(self) -> list[list[Option]]:
        """The options of every need that may stand in a mix that nothing found so far beats."""
        floor = self._floor
        made = []
        for at, ask in enumerate(self._in_order):
            spare = self.least.less(floor[at].less(floor[at + 1]))  # all but this one, at the least

            def may(cost: Cost, spare: Cost = spare) -> bool:
                return not self.surely_beaten(spare.plus(cost))

            made.append([
                each for each in sorted(self._options_of(ask, may), key=lambda each: each.cost[1::-1])
                if may(each.cost.less(*(self.left[number] for number, _ in each.used)))
            ])  # fmt: skip
        return kept(made, self._homes)

    @cached_property
    def _at_home(self) -> dict[int, Home]:
        return at_home(self, [ask.need for ask in self._in_order])

    def mine(self, key: object) -> bool:
        """Whether a mix that was refused, by its key, uses this loom as it is used here."""
        assert isinstance(key, tuple)
        return bool(key[1] == (self.used.item.name,) and key[2] == (self.used.ends,))

    def _fixed(self) -> Cost:
        rates, used = self.hand.rates, self.used
        time_ms = rates.work_ms("mate") * len(used.ends) + (rates.work_ms("cut end off") if used.cut_off else 0)
        price = used.item.store.price
        return Cost(time_ms, rates.money(time_ms, price.minor if price else 0))

    def touched(self, used: Held) -> frozenset[str]:
        """The ends at which a terminal is moved or pulled."""
        return frozenset(
            pin.end for number, placed in used for pin in self.wires[number].pins if (pin, own(pin)) not in placed
        )

    def _beaten(self, cost: Cost) -> bool:
        return any(no_worse(each, cost) for each in (*self._known, *(mix.cost for mix in self._found)))

    def surely_beaten(self, bound: Cost) -> bool:
        """Whether whatever costs no less than this is beaten. What costs the same in time and money isn't."""
        return any(
            each[0] <= bound[0] and each[1] <= bound[1] and each[:2] != bound[:2]
            for each in (*self._known, *(mix.cost for mix in self._found))
        )

    def idle(self, number: int, slots: Container[Slot]) -> set[Pin]:
        """The terminals that must come out of a wire that nothing uses, where these cavities are taken by others."""
        wire = self.wires[number]
        stays = [pin for pin in wire.pins if own(pin) not in slots]
        gone = {pin for pin in wire.pins if pin not in stays}
        return gone | self._in_the_way(stays, wire)

    def _leaf(self, chosen: list[Option]) -> None:
        taken = dict(held for option in chosen for held in option.used)
        slots = {slot for placed in taken.values() for _, slot in placed}
        made = [option.made for option in chosen if option.made is not None]
        made += self._shared(chosen)
        cost = self.base
        for option in chosen:
            cost = cost.plus(option.cost)
        plug, mark = self.plug, self.used.mark
        pulled: list[str] = []
        touched: set[str] = set()
        moved: list[tuple[str, str]] = []
        over: list[str] = []
        joined = {member for each in made for member in each.members}
        for number, wire in enumerate(self.wires):
            if number in taken:
                gone = {pin for pin in wire.pins if pin not in {held for held, _ in taken[number]}}
                for pin, slot in taken[number]:
                    if slot[1] != pin.cavity.lower():
                        row = plug.rows.get(slot[1])
                        moved.append((f"{mark}.{pin.name}", row.cavity if row else slot[1]))
                        touched.add(pin.end)
            else:
                gone = self.idle(number, slots)
                for pin in gone:
                    cost = cost.plus(self.pulled(wire, pin))
            for pin in wire.pins:
                if pin in gone:
                    pulled.append(f"{mark}.{pin.name}")
                    touched.add(pin.end)
            for name, at in wire.points:
                free = f"{mark}.{name}"
                if free in joined or (at is not None and at in gone and name == at.name):
                    continue
                over.append(free)
        cost = cost.plus(self.locks(len(touched)))
        if self._beaten(cost):
            return
        mix = PlugMix(
            plug.name, self._kinds(made, pulled, moved), (self.used,), tuple(made), (), tuple(over), tuple(pulled),
            tuple(moved), cost, wait(self.used.item),
        )  # fmt: skip
        if mix.key in self._refused:
            return
        self._found = [each for each in self._found if not _beats(mix, each)]
        self._found.append(mix)

    def _shared(self, chosen: list[Option]) -> Iterator[Made]:
        """The joints that serve several cavities, the factory wires first."""
        members: dict[Need, list[str]] = {}
        for option in chosen:
            if option.share is not None:
                members.setdefault(option.share.need, []).extend(option.share.members)
        factory = f"{self.plug.name}.car."
        for need, number in self.behind.items():
            in_order = sorted(members[need], key=lambda each: not each.startswith(factory))
            made = shared_joint(self.plug, self.hand, need, number, tuple(in_order))
            assert made is not None
            yield made

    def _in_the_way(self, stays: list[Pin], wire: Wire) -> set[Pin]:
        """The terminals of a wire that nothing uses that must come out: what it would join, and what it isn't for."""
        wrong = {pin for pin in stays if not self.stands(pin, own(pin))}
        left = [pin for pin in stays if pin not in wrong]
        best: tuple[tuple[int, ...], tuple[Pin, ...]] | None = None
        for count in range(len(left) + 1):
            for out in combinations(left, count):
                if len(self._nets(pin for pin in left if pin not in out)) <= 1:
                    total = Cost()
                    for pin in out:
                        total = total.plus(self.pulled(wire, pin))
                    rank = (total.money, total.time_ms)
                    if best is None or rank < best[0]:
                        best = rank, out
            if best is not None:
                break
        return wrong | set(best[1] if best else ())

    def _kinds(self, made: list[Made], pulled: list[str], moved: list[tuple[str, str]]) -> tuple[str, ...]:
        kinds = [ONE_END if self.used.cut_off else LEADS if made else PLUG_IN]
        if pulled or moved:
            kinds.append(REPINNED)
        return tuple(kinds)


def wait(item: InDrawer) -> int:
    """Days to wait for a loom; none for one that lies there, or of which nobody wrote that it doesn't."""
    return item.days or 0 if item.store.stock == 0 else 0


def _without_one(wanted: list[frozenset[int]]) -> int:
    """How many go without, where each may have one of the wires that it can take, no wire twice, and the first come
    first: a matching by augmenting ways.
    """
    held: dict[int, int] = {}

    def seat(at: int, seen: set[int]) -> bool:
        for wire in sorted(wanted[at] - seen):
            seen.add(wire)
            if wire not in held or seat(held[wire], seen):
                held[wire] = at
                return True
        return False

    return sum(not seat(at, set()) for at in range(len(wanted)))


def _beats(one: PlugMix, other: PlugMix) -> bool:
    return one.cost[0] <= other.cost[0] and one.cost[1] <= other.cost[1]
