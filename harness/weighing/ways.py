"""The ways in which one loom can serve each need of a plug: wires with the cavities that they take, and the joint."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cached_property
from itertools import combinations

from harness.graph.pins import differ
from harness.weighing.hand import Cost, Hand
from harness.weighing.layers import Held, Option, Placed, Slot, own, wires_at
from harness.weighing.mixes import Used
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.rates import BENCH
from harness.weighing.solder_in import joint, joint_cost
from harness.weighing.wires import Pin, Wire, fits, wires_of

FEW = 8  # wires of a side that are paired before it is known what is worth it


class Ways:
    """What there is to choose from with one loom as it is `used`."""

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

    def locks(self, ends: int) -> Cost:
        """The lock looked at again at so many ends."""
        lock_ms = self.hand.rates.recheck_ms("lock") * ends
        return Cost(lock_ms, self.hand.rates.money(lock_ms, 0))

    # -- what there is to choose from ------------------------------------------------------------------

    def stands(self, pin: Pin, slot: Slot) -> bool:
        return fits(pin, self.plug.rows.get(slot[1]))

    def at(self, number: int, wire: Wire, slots: dict[str, Slot]) -> Placed | None:
        """The wire's pins in these slots, the other ends pulled (not listed); None where it can't stand there."""
        if not wire.plain:  # two wires in one terminal, or two terminals at one end: none of that is taken
            return None
        placed: list[tuple[Pin, Slot]] = []
        for pin in wire.pins:
            slot = slots.get(pin.end)
            if slot is None:
                continue
            if not self.stands(pin, slot):
                return None
            placed.append((pin, slot))
        return tuple(placed) if len(placed) == len(slots) and self.one_function(tuple(placed)) else None

    def one_function(self, placed: Placed) -> bool:
        """Whether a wire's cavities are for the same: a loom that leads from one function to another is a loom for
        another car, whatever the plan joins (H07).
        """
        if len({slot[1] for _, slot in placed}) < 2:
            return True
        functions = [row.function for _, slot in placed if (row := self.plug.rows.get(slot[1])) is not None]
        return not any(differ(functions[0], each) for each in functions[1:])

    def point(self, wire: Wire, placed: Placed) -> str:
        """A free end that can be joined: its pin stays plugged in."""
        kept = {pin for pin, _ in placed}
        return next((f"{self.used.mark}.{name}" for name, pin in wire.points if pin in kept), "")

    def _options(self, need: Need, may: Callable[[Cost], bool] | None = None) -> Iterator[Option]:
        """Its options. Of two wires together, one at each side, those that `may` lets through by what they cost beside
        what they cost when left over; without it a few, the least among them.
        """
        unit, car = (next((slot for slot in need.slots if slot[0] == side), None) for side in ("unit", "car"))
        if unit and car:
            for number, wire in enumerate(self.wires):
                placed = self.at(number, wire, {"unit": unit, "car": car})
                if placed is not None:
                    yield from self._option(need, ((number, placed),))
            firsts, seconds = self.singles(unit), self.singles(car)
            for each in firsts:
                yield from self._option(need, (each,), factory=True)
            yield from self._pairs(need, firsts, seconds, may)
        elif unit:
            for number, placed in self.singles(unit):
                yield from self._option(need, ((number, placed),))
        elif car:
            for number, placed in self.singles(car):
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
        return self.placed(used).less(*(self.left[number] for number, _ in used))

    def singles(self, slot: Slot) -> list[tuple[int, Placed]]:
        """Wires with a free end that can stand in a slot, their other end pulled where they have one."""
        if slot not in self._held:
            self._held[slot] = list(self._singles_of(slot))
        return self._held[slot]

    def _singles_of(self, slot: Slot) -> Iterator[tuple[int, Placed]]:
        for number, wire in enumerate(self.wires):
            placed = self.at(number, wire, {slot[0]: slot})
            if placed is not None and self.point(wire, placed):
                yield number, placed

    def _option(self, need: Need, used: Held, factory: bool = False) -> Iterator[Option]:
        """The need served by these wires, and with `factory` by the factory wire behind the plug as well."""
        behind = tuple(f"{self.plug.name}.car.{cavity}" for cavity in need.cars)
        points = tuple(self.point(self.wires[number], placed) for number, placed in used)
        if len(used) == 1 and len(used[0][1]) == 2:
            if not need.outs:
                yield Option(used, None, self.placed(used), self._kind_of(used))
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
        cost = self.placed(used).plus(joint_cost(self.hand, made))
        for number, placed in used:  # every free end is capped but those that are joined
            if self.point(self.wires[number], placed) in members:
                cost = cost.less(self.cap)
        yield Option(used, made, cost, (factory, *self._kind_of(used)))

    def placed(self, used: Held) -> Cost:
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

    def in_car(self, number: int, slot: Slot) -> Cost:
        """The part of it that its terminal at the car's side costs, in this cavity."""
        cost = Cost(contacts=1)
        return cost if ("car", slot[1]) in map(own, self.wires[number].pins) else cost.plus(self.move)

    def _kind_of(self, used: Held) -> tuple[object, ...]:
        """The same for two options that differ only in which of several like, spare wires they take."""
        made: list[object] = []
        for number, placed in used:
            alike = self.alike(number)
            made.append(number if alike == number else (alike, tuple(pin.end for pin, _ in placed)))
        return tuple(made)

    def alike(self, number: int) -> object:
        """The same for several like, spare wires; of any other its number."""
        return number if self.spare[number] is None else self.spare[number]

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

    @cached_property
    def left(self) -> list[Cost]:
        return [self._least_left(wire) for wire in self.wires]

    def _least_left(self, wire: Wire) -> Cost:
        """What a wire costs at the least that nothing uses: the terminals that must come out, or any more that may."""
        least: list[Cost] = []
        for count in range(len(wire.pins) + 1):
            for out in combinations(wire.pins, count):
                stays = [pin for pin in wire.pins if pin not in out]
                if all(self.stands(pin, own(pin)) for pin in stays) and len(self._nets(stays)) <= 1:
                    cost = Cost()
                    for pin in out:
                        cost = cost.plus(self.pulled(wire, pin))
                    least.append(cost)
        return Cost(*(min(cost[at] for cost in least) for at in range(2)))

    def _nets(self, pins: Iterable[Pin]) -> set[int]:
        """The needs that terminals in their own cavities are joined to."""
        found = (self.plug.net.get(own(pin)) for pin in pins)
        return {net for net in found if net is not None}


def _plugged(wire: Wire, ends: tuple[str, ...]) -> Wire:
    return wire._replace(pins=tuple(pin for pin in wire.pins if pin.end in ends))
