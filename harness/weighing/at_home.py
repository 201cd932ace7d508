"""Wires of a loom that are best used where they came, known before anything is searched.

Take any mix in which a need could have a wire in the wire's own cavities and has others that were moved there. Let the
two change places: the others take the wire's work, or are left over. Where that costs nothing more whatever the others
are, some best mix has the wire at home, and only such mixes need be looked at. It is asked of every wire that could
come there: whether it goes wherever the wire at home could have gone, and what each of the two then costs.

Nothing is known so where a mix was refused: the one with the wire at home might be it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from harness.weighing.hand import Cost
from harness.weighing.layers import Held, Option, Placed, Slot, own
from harness.weighing.needs import Need
from harness.weighing.rates import BENCH
from harness.weighing.solder_in import joint, joint_cost
from harness.weighing.wires import Pin, Wire

if TYPE_CHECKING:
    from harness.weighing.ways import Ways


class Home(NamedTuple):
    """The wire that serves a need where it came; with `or_behind` the factory wire behind the plug may instead."""

    used: Held
    or_behind: bool


def at_home(ways: Ways, needs: list[Need]) -> dict[int, Home]:
    """For needs, by their place in the list, the wire to use at home."""
    search = _AtHome(ways, needs)
    made = {}
    for at, need in enumerate(needs):
        if need.several:
            continue
        home = search.through(need) if need.units and need.cars else search.lead(need)
        if home is not None:
            made[at] = home
    return made


def kept(needs: list[list[Option]], homes: dict[int, Home]) -> list[list[Option]]:
    """The options that are left: a wire that only one need may have is no other's."""
    spoken = {number for home in homes.values() if not home.or_behind for number, _ in home.used}
    made = []
    for at, options in enumerate(needs):
        home = homes.get(at)
        if home is None:
            made.append([each for each in options if not any(number in spoken for number, _ in each.used)])
        else:
            made.append([each for each in options if each.used == home.used or (home.or_behind and not each.used)])
    return made


class _AtHome:
    def __init__(self, ways: Ways, needs: list[Need]) -> None:
        self.ways = ways
        self.throughs = [need for need in needs if need.units and need.cars]
        self.slots = {half: [slot for slot in ways.plug.net if slot[0] == half] for half in ("unit", "car")}
        self._goes: dict[Pin, frozenset[Slot]] = {}
        # a cavity that becomes free may hold a terminal that had to come out of it: then that costs its cap
        cheaper = [Cost().less(ways.pulled(wire, pin)) for wire in ways.wires for pin in wire.pins]
        self.stays = _most([Cost(), *cheaper])

    def lead(self, need: Need) -> Home | None:
        """A lead in its own cavity, for a need at one side of the plug."""
        (slot,) = need.slots
        alone = self._alone_at(slot)
        if alone is None:
            return None
        number, wire = alone
        if len(wire.pins) != 1 or wire.points != ((wire.pins[0].name, wire.pins[0]),):
            return None
        (pin,) = wire.pins
        mine = ((number, ((pin, slot),)),)
        if not self.ways.stands(pin, slot):
            return None
        for rival in self.ways.singles(slot):
            if rival[0] == number:
                continue
            held = rival[1][0][0]
            left_over = self._gains(mine, (rival,)).less(self.ways.pulled(wire, pin))
            if not self._goes_wherever(held, pin) or _dearer(left_over):
                return None
        return Home(mine, bool(need.cars))

    def through(self, need: Need) -> Home | None:
        """A wire from cavity to cavity that only passes on what the need passes on."""
        unit, car = need.slots
        alone, again = self._alone_at(unit), self._alone_at(car)
        if need.outs or alone is None or alone != again:
            return None
        number, wire = alone
        if wire.points or {own(pin) for pin in wire.pins} != {unit, car} or not wire.plain:
            return None
        placed = self.ways.at(number, wire, {"unit": unit, "car": car})
        if placed is None:
            return None
        mine: Held = ((number, placed),)
        one, other = (next(pin for pin in wire.pins if pin.end == half) for half in ("unit", "car"))
        idle = self._out(wire)
        for at, rival in enumerate(self.ways.wires):
            stands = self.ways.at(at, rival, {"unit": unit, "car": car}) if at != number else None
            if stands is not None and (
                not all(self._goes_wherever(held, mate) for held, _ in stands for mate in wire.pins
                        if mate.end == held.end)
                or _dearer(self._gains(mine, ((at, stands),)).less(idle))
            ):  # fmt: skip
                return None
        firsts = [each for each in self.ways.singles(unit) if each[0] != number]
        seconds = [each for each in self.ways.singles(car) if each[0] != number]
        if not all(self._goes_wherever(held[0][0], one) for _, held in firsts):
            return None
        if not all(self._goes_wherever(held[0][0], other) for _, held in seconds):
            return None
        for factory in (True, False) if firsts else ():
            here = self._joint(need, factory)
            if here is None or (not factory and not seconds):
                continue
            others = [each for each in self.throughs if each is not need]
            if any(self._worse_there(each, factory, here) for each in others if not each.several):
                return None
            if any(each.several for each in others) and self._worse_shared(seconds if not factory else [], here):
                return None
            gone = idle if not factory else self.ways.pulled(wire, one)
            least = [self._gains(mine, (each,)) for each in firsts]
            more = [self._gains((), (each,)) for each in seconds] if not factory else [Cost()]
            most = _most(least).plus(_most(more)).less(here, gone)
            if _dearer(most):
                return None
        return Home(mine, False)

    def _worse_there(self, other: Need, factory: bool, here: Cost) -> bool:
        """Whether leads joined for another need cost more than here, beside the terminal that needn't be moved."""
        there = self._joint(other, factory)
        if there is None:
            return True
        saved = here.plus(self.ways.move)
        if other.outs:  # the wire that passes on had a joint behind the plug
            behind = self._joint(other, True)
            if behind is None:
                return False  # it can't serve there
            saved = saved.plus(behind).plus(self.ways.cap)
        freed = self.stays if factory else Cost()
        return _dearer(there.plus(freed).less(saved))

    def _worse_shared(self, seconds: list[tuple[int, Placed]], here: Cost) -> bool:
        """Whether a lead joined in a net of several cavities, where the wire stood and was joined behind the plug,
        costs more than here, beside the terminal that needn't be moved. A second lead is left over.
        """
        freed = self.stays.plus(_most([Cost(), *(self._gains((), (each,)) for each in seconds)]))
        return _dearer(freed.less(self.ways.cap, here, self.ways.move))

    def _joint(self, need: Need, factory: bool) -> Cost | None:
        """What leads joined for it cost, less the caps that they needn't have."""
        at = self.ways.plug.where if factory else need.at or BENCH
        made = joint(
            self.ways.plug, self.ways.hand, ("", "", *need.outs), factory=factory, what=need.what, at=at, cut=False
        )
        caps = (self.ways.cap,) if factory else (self.ways.cap, self.ways.cap)
        return None if made is None else joint_cost(self.ways.hand, made).less(*caps)

    def _alone_at(self, slot: Slot) -> tuple[int, Wire] | None:
        """The wire whose terminal comes in a cavity, where no other's does."""
        numbers = self.ways.home.get(slot, ())
        return (numbers[0], self.ways.wires[numbers[0]]) if len(numbers) == 1 else None

    def _gains(self, mine: Held, rivals: Held) -> Cost:
        """What it costs more at the most to have this wire in use and the others left over, joints left out."""
        more = self.ways.placed(mine)
        for number, placed in rivals:
            wire = self.ways.wires[number]
            for pin in wire.pins:
                more = more.plus(_most([Cost(), self.ways.pulled(wire, pin)]))
            more = more.less(self.ways.placed(((number, placed),)))
        return more

    def _out(self, wire: Wire) -> Cost:
        """A wire that nothing uses, all its terminals in the way."""
        cost = Cost()
        for pin in wire.pins:
            cost = cost.plus(self.ways.pulled(wire, pin))
        return cost

    def _goes_wherever(self, rival: Pin, pin: Pin) -> bool:
        return self._goes_to(rival) >= self._goes_to(pin)

    def _goes_to(self, pin: Pin) -> frozenset[Slot]:
        if pin not in self._goes:
            self._goes[pin] = frozenset(slot for slot in self.slots[pin.end] if self.ways.stands(pin, slot))
        return self._goes[pin]


def _dearer(cost: Cost) -> bool:
    """Whether so much more is worse: more time, more money, or where both stay the same more of the rest."""
    return cost[0] > 0 or cost[1] > 0 or cost > Cost()


def _most(costs: list[Cost]) -> Cost:
    return Cost(*(max(numbers) for numbers in zip(*costs, strict=True)))
