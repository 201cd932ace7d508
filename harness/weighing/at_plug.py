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
from harness.weighing.hand import Cost, Hand
from harness.weighing.layers import Held, Layers, Option, Placed, Slot, own, wires_at
from harness.weighing.mixes import LEADS, ONE_END, PLUG_IN, REPINNED, Made, PlugMix, Used
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.rates import BENCH
from harness.weighing.solder_in import joint, joint_cost
from harness.weighing.wires import Pin, Wire, fits, wires_of

NARROW = (1, 12)  # states kept in each step of the searches before the whole one
FEW = 8  # wires of a side that are paired before it is known what is worth it


class AtPlug:
    """The search for one loom (`item`, with its `mark`), of which `ends` are plugged in and `cut_off` is gone."""

    def __init__(self, plug: PlugNeeds, hand: Hand, used: Used) -> None:
        assert used.item.loom is not None
        self.plug, self.hand, self.used = plug, hand, used
        self._held: dict[Slot, list[tuple[int, Placed]]] = {}
        self.gave_up = False  # whether the search ended before all was tried
        loom = used.item.loom
        if used.cut_off:
            from harness.read.looms import without_end

            loom = without_end(loom, used.cut_off)
        self.wires = [_plugged(wire, used.ends) for wire in wires_of(loom)]
        rates = hand.rates
        self.cap = Cost(rates.work_ms("cap"), rates.money(rates.work_ms("cap"), rates.cap_parts))
        self.move = Cost(rates.moved_ms, rates.money(rates.moved_ms, 0))
        self.pull = Cost(rates.pulled_ms, rates.money(rates.pulled_ms, 0))

    # -- what there is to choose from ------------------------------------------------------------------

    def _row_fits(self, pin: Pin, slot: Slot) -> bool:
        return fits(pin, self.plug.rows.get(slot[1]))

    def _at(self, number: int, wire: Wire, slots: dict[str, Slot]) -> Placed | None:
        """The wire's pins in these slots, the other ends pulled (not listed); None where it can't stand there."""
        placed: list[tuple[Pin, Slot]] = []
        if len(wire.pins) < len(slots):
            return None
        for pin in wire.pins:
            slot = slots.get(pin.end)
            if slot is None:
                continue
            if not self._row_fits(pin, slot) or (not wire.plain and slot[1] != pin.cavity.lower()):
                return None
            placed.append((pin, slot))
        if len({pin.end for pin, _ in placed}) != len(slots):
            return None
        if not wire.plain and len(placed) != len(wire.pins):
            return None
        return tuple(placed)

    def _point(self, wire: Wire, placed: Placed) -> str:
        """A free end that can be joined: its pin stays plugged in."""
        kept = {pin for pin, _ in placed}
        return next((f"{self.used.mark}.{name}" for name, pin in wire.points if pin in kept), "")

    def _options(self, need: Need, may: Callable[[Cost], bool] | None = None) -> Iterator[Option]:
        """Its options. Of two wires together, one at each side, those that `may` lets through by what they cost beside
        what they cost when left over; without it a few, the least among them.
        """
        unit = ("unit", need.unit.lower()) if need.unit else None
        car = ("car", need.car.lower()) if need.car else None
        if unit and car:
            for number, wire in enumerate(self.wires):
                placed = self._at(number, wire, {"unit": unit, "car": car})
                if placed is not None:
                    yield from self._option(need, ((number, placed),))
            firsts, seconds = self._singles(unit), self._singles(car)
            for each in firsts:
                yield from self._option(need, (each,), factory=True)
            yield from self._pairs(need, firsts, seconds, may)
        elif unit:
            for number, placed in self._singles(unit):
                yield from self._option(need, ((number, placed),))
        elif car:
            for number, placed in self._singles(car):
                yield from self._option(need, ((number, placed),))
            yield from self._option(need, (), factory=True)

    def _pairs(
        self, need: Need, firsts: list[tuple[int, Placed]], seconds: list[tuple[int, Placed]],
        may: Callable[[Cost], bool] | None,
    ) -> Iterator[Option]:  # fmt: skip
        """What a pair costs is a sum: what one wire costs, what the other costs, and the same joint for all."""
        if may is None and len(firsts) * len(seconds) > FEW * FEW:
            firsts, seconds = self._nearest(firsts), self._nearest(seconds)
        if may is None:
            for one in firsts:
                for other in seconds:
                    if one[0] != other[0]:
                        yield from self._option(need, (one, other))
            return
        dear = [(self._beside_left((each,)), each) for each in seconds]
        made = joint(
            self.plug, self.hand, ("", "", *need.outs), factory=False, what=need.what, at=need.at or BENCH, cut=False
        )
        if made is None:
            return
        rest = joint_cost(self.hand, made).less(self.cap, self.cap)
        for one in firsts:
            first = self._beside_left((one,)).plus(rest)
            for cost, other in dear:
                if one[0] != other[0] and may(first.plus(cost)):
                    yield from self._option(need, (one, other))

    def _nearest(self, singles: list[tuple[int, Placed]]) -> list[tuple[int, Placed]]:
        """Some of them: the cheapest and the quickest are there."""
        cost = {each[0]: self._beside_left((each,)) for each in singles}
        by_money = sorted(singles, key=lambda each: (cost[each[0]].money, each[0]))
        by_time = sorted(singles, key=lambda each: (cost[each[0]].time_ms, each[0]))
        chosen = {each[0] for each in (*by_money[: FEW - 2], *by_time[:2])}
        return [each for each in singles if each[0] in chosen]

    def _beside_left(self, used: Held) -> Cost:
        return self._placed(used).less(*(self.left[number] for number, _ in used))

    def _singles(self, slot: Slot) -> list[tuple[int, Placed]]:
        """Wires with a free end that can stand in a slot, their other end pulled where they have one."""
        if slot not in self._held:
            self._held[slot] = list(self._singles_of(slot))
        return self._held[slot]

    def _singles_of(self, slot: Slot) -> Iterator[tuple[int, Placed]]:
        for number, wire in enumerate(self.wires):
            placed = self._at(number, wire, {slot[0]: slot})
            if placed is not None and self._point(wire, placed):
                yield number, placed

    def _option(self, need: Need, used: Held, factory: bool = False) -> Iterator[Option]:
        """The need served by these wires, and with `factory` by the factory wire behind the plug as well."""
        behind = (f"{self.plug.name}.car.{need.car}",) if need.car else ()
        points = tuple(self._point(self.wires[number], placed) for number, placed in used)
        if len(used) == 1 and len(used[0][1]) == 2:
            if not need.outs:
                yield Option(used, None, self._placed(used), self._kind_of(used))
                return
            if points[0]:
                yield from self._with_joint(need, used, (*points, *need.outs), False)
            yield from self._with_joint(need, used, (*behind, *need.outs), True)
        elif factory:
            yield from self._with_joint(need, used, (*behind, *points, *need.outs), True)
        else:
            yield from self._with_joint(need, used, (*points, *need.outs), False)

    def _with_joint(self, need: Need, used: Held, members: tuple[str, ...], factory: bool) -> Iterator[Option]:
        at = self.plug.where if factory else need.at or BENCH
        made = joint(self.plug, self.hand, members, factory=factory, what=need.what, at=at, cut=False)
        if made is None:
            return
        cost = self._placed(used).plus(joint_cost(self.hand, made))
        for number, placed in used:  # every free end is capped but those that are joined
            if self._point(self.wires[number], placed) in members:
                cost = cost.less(self.cap)
        yield Option(used, made, cost, (factory, *self._kind_of(used)))

    def _placed(self, used: Held) -> Cost:
        """What it costs to have the wires where they are used."""
        cost = Cost()
        for number, placed in used:
            kept = {pin for pin, _ in placed}
            for pin, slot in placed:
                cost = cost.plus(Cost(contacts=1))
                if slot[1] != pin.cavity.lower():
                    cost = cost.plus(self.move)
            for pin in self.wires[number].pins:
                if pin not in kept:
                    cost = cost.plus(self.pulled(self.wires[number], pin))
        return cost

    def _kind_of(self, used: Held) -> tuple[object, ...]:
        """The same for two options that differ only in which of several like, spare wires they take."""
        made: list[object] = []
        for number, placed in used:
            alike = self.spare[number]
            made.append(number if alike is None else (alike, tuple(pin.end for pin, _ in placed)))
        return tuple(made)

    @cached_property
    def spare(self) -> list[object]:
        """For each wire that comes in no cavity of concern what it is alike in to others; None for the rest."""
        return [
            None if any(own(pin) in self.plug.net for pin in wire.pins)
            else (tuple((pin.end, pin.says) for pin in wire.pins), len(wire.points))
            for wire in self.wires
        ]  # fmt: skip

    @cached_property
    def home(self) -> dict[Slot, tuple[int, ...]]:
        """The wires that come with a terminal in each cavity."""
        return wires_at((number, own(pin)) for number, wire in enumerate(self.wires) for pin in wire.pins)

    def pulled(self, wire: Wire, pin: Pin) -> Cost:
        """A terminal taken out: no free end at it is left to cap."""
        cost = self.pull
        for name, at in wire.points:
            if at == pin and name == pin.name:
                cost = cost.less(self.cap)
        return cost

    # -- the search ------------------------------------------------------------------------------------

    @cached_property
    def _in_order(self) -> list[Need]:
        return [need for need in self.plug.needs if need.joined]

    @cached_property
    def _needs(self) -> list[list[Option]]:
        """The options of every need; of pairs of many wires a few, the least among them."""
        return [sorted(self._options(need), key=lambda each: each.cost[1::-1]) for need in self._in_order]

    @cached_property
    def left(self) -> list[Cost]:
        return [self._least_left(wire) for wire in self.wires]

    @cached_property
    def _floor(self) -> list[Cost]:
        """What the needs from each one on cost at the least, beside what any wire costs that is left over."""
        floor = [Cost()]
        for each in reversed(self._needs):
            lessened = [option.cost.less(*(self.left[number] for number, _ in option.used)) for option in each]
            floor.append(floor[-1].plus(Cost(*(min(cost[at] for cost in lessened) for at in range(5)))))
        return floor[::-1]

    @property
    def can(self) -> bool:
        """Whether every need has some way, and all that want a wire at the unit's side can have one of their own."""
        if not all(self._needs):
            return False
        wanted = []
        for options in self._needs:
            if any(len(option.used) > 1 for option in options):
                continue  # not all of its pairs may be here
            takers = [frozenset(number for number, _ in option.used) for option in options]
            if all(takers):  # no way without a wire of the loom
                wanted.append(frozenset().union(*takers))
        return _each_one_of_itsown(wanted)

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
        layers = Layers(self, self._needs, refused)
        for width in NARROW:
            self._collect(layers.walk(width))
        if not all(needs := self._worth()):
            return self._found
        layers = Layers(self, needs, refused)
        self._collect(layers.walk(None))
        self.gave_up = layers.gave_up
        return self._found

    def _collect(self, found: Iterable[list[Option]]) -> None:
        for chosen in found:
            self._leaf(chosen)

    def _worth(self) -> list[list[Option]]:
        """The options of every need that may stand in a mix that nothing found so far beats."""
        floor = self._floor
        made = []
        for at, need in enumerate(self._in_order):
            spare = self.least.less(floor[at].less(floor[at + 1]))  # all but this need, at the least

            def may(cost: Cost, spare: Cost = spare) -> bool:
                return not self.surely_beaten(spare.plus(cost))

            made.append([
                each for each in sorted(self._options(need, may), key=lambda each: each.cost[1::-1])
                if may(each.cost.less(*(self.left[number] for number, _ in each.used)))
            ])  # fmt: skip
        return made

    def _least_left(self, wire: Wire) -> Cost:
        """What a wire costs at the least that nothing uses: the terminals that must come out, or any more that may."""
        least: list[Cost] = []
        for count in range(len(wire.pins) + 1):
            for out in combinations(wire.pins, count):
                stays = [pin for pin in wire.pins if pin not in out]
                if all(self._row_fits(pin, own(pin)) for pin in stays) and len(self._nets(stays)) <= 1:
                    cost = Cost()
                    for pin in out:
                        cost = cost.plus(self.pulled(wire, pin))
                    least.append(cost)
        return Cost(*(min(cost[at] for cost in least) for at in range(2)))

    def _nets(self, pins: Iterable[Pin]) -> set[int]:
        """The needs that terminals in their own cavities are joined to."""
        found = (self.plug.net.get(own(pin)) for pin in pins)
        return {net for net in found if net is not None}

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
        return any(
            each[0] <= cost[0] and each[1] <= cost[1] and each <= cost
            for each in (*self._known, *(mix.cost for mix in self._found))
        )

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
        lock_ms = self.hand.rates.recheck_ms("lock") * len(touched)
        cost = cost.plus(Cost(lock_ms, self.hand.rates.money(lock_ms, 0)))
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

    def _in_the_way(self, stays: list[Pin], wire: Wire) -> set[Pin]:
        """The terminals of a wire that nothing uses that must come out: what it would join, and what it isn't for."""
        wrong = {pin for pin in stays if not self._row_fits(pin, own(pin))}
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


def _plugged(wire: Wire, ends: tuple[str, ...]) -> Wire:
    return wire._replace(pins=tuple(pin for pin in wire.pins if pin.end in ends))


def _each_one_of_itsown(wanted: list[frozenset[int]]) -> bool:
    """Whether each may have one of the wires that it can take, no wire twice: a matching by augmenting ways."""
    held: dict[int, int] = {}

    def seat(at: int, seen: set[int]) -> bool:
        for wire in sorted(wanted[at] - seen):
            seen.add(wire)
            if wire not in held or seat(held[wire], seen):
                held[wire] = at
                return True
        return False

    return all(seat(at, set()) for at in range(len(wanted)))


def _beats(one: PlugMix, other: PlugMix) -> bool:
    return one.cost[0] <= other.cost[0] and one.cost[1] <= other.cost[1]
