"""What the terminals and cavities of one plug are worth: a bound for searches that would else go on for ever.

Served one by one, needs all ask for the same few wires that fit anywhere. Here each terminal has a price that a need
pays for it, and each cavity one that is paid for pushing out the terminal that comes there. Whatever the prices are,
what all needs pay at the least, less all prices, is no more than any mix costs (a Lagrangian bound). They are read off
the assignment of terminals to cavities, one for each side, by minutes and by money: with these the bound is that of
the assignment, and what it leaves out is little more than the locks.

Shapes: a need's options as `layers` has them; all numbers are whole (milliseconds, `Rates.money`). Source of both the
bound and the assignment by shortest augmenting ways: textbooks of combinatorial optimization, from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from harness.weighing.layers import Option, Slot, own

if TYPE_CHECKING:
    from harness.weighing.ways import Ways

NEVER = 10**24
Two = tuple[int, int]  # time and money


class Prices:
    """Of one loom and what is left of its options."""

    def __init__(self, ways: Ways, needs: list[list[Option]]) -> None:
        self.ways = ways
        self._pulled = {own(pin): ways.pulled(wire, pin)[:2] for wire in ways.wires for pin in wire.pins}
        self._stays = {
            own(pin): pin for wire in ways.wires for pin in wire.pins
            if len(ways.home[own(pin)]) == 1 and ways.stands(pin, own(pin))
        }  # fmt: skip
        self._needed = {slot for options in needs for option in options for slot in _slots(option)}
        sides = [self._of_side(needs, half, at) for at in (0, 1) for half in ("unit", "car")]
        self._terminal = [{**sides[0], **sides[1]}, {**sides[2], **sides[3]}]
        self._cavity = [
            {
                slot: max(0, self._pulled[slot][at] - self._terminal[at].get(slot, 0))
                for slot in self._needed if slot in self._stays
            }
            for at in (0, 1)
        ]  # fmt: skip

    def cavity(self, slot: Slot) -> Two:
        """What is paid for standing in a cavity."""
        return self._cavity[0].get(slot, 0), self._cavity[1].get(slot, 0)

    def beside(self, option: Option) -> Two:
        """What an option costs with all that it pays, beside its wires pulled."""
        made = []
        for at in (0, 1):
            cost = option.cost[at]
            for number, placed in option.used:
                cost -= sum(self._pulled[own(pin)][at] for pin in self.ways.wires[number].pins)
                for pin, slot in placed:
                    cost += self._terminal[at].get(own(pin), 0) + self._cavity[at].get(slot, 0)
            made.append(cost)
        return made[0], made[1]

    def unused(self, number: int) -> Two:
        """What a wire costs at the least that nothing uses, less the prices of its terminals."""
        made = []
        for at in (0, 1):
            cost = 0
            for pin in self.ways.wires[number].pins:
                slot = own(pin)
                pulled, price = self._pulled[slot][at], self._terminal[at].get(slot, 0)
                cost += pulled - price + min(0, price + self._cavity[at].get(slot, 0) - pulled)
            made.append(cost)
        return made[0], made[1]

    def _of_side(self, needs: list[list[Option]], half: str, at: int) -> dict[Slot, int]:
        """Terminal, by the cavity that it comes in -> its price, of an assignment of least cost."""
        asked: list[dict[Slot | int, int]] = []
        for number, options in enumerate(needs):
            row: dict[Slot | int, int] = {}
            for option in options:
                first = self._at_unit(option, at)
                cost = first if half == "unit" else self._whole(option, at) - first
                pins = [(pin, slot) for _, placed in option.used for pin, slot in placed if pin.end == half]
                for pin, _ in pins:
                    row[own(pin)] = min(row.get(own(pin), NEVER), cost - self._free(own(pin), at))
                if not pins:
                    row[number] = min(row.get(number, NEVER), cost)
            if number in row:
                for slot in {slot for option in options for slot in _slots(option) if slot[0] == half}:
                    if slot in self._stays:  # it may stay where nothing comes
                        row[slot] = min(row.get(slot, NEVER), row[number] - self._pulled[slot][at])
            if row and set(row) != {number}:
                asked.append(row)
        return {slot: price for slot, price in _assigned(asked).items() if isinstance(slot, tuple)}

    def _free(self, slot: Slot, at: int) -> int:
        """What a terminal that isn't pulled saves where it comes in no cavity of concern."""
        return min(0, -self._pulled[slot][at]) if slot in self._stays and slot not in self._needed else 0

    def _whole(self, option: Option, at: int) -> int:
        return option.cost[at] - sum(
            self._pulled[own(pin)][at] for number, _ in option.used for pin in self.ways.wires[number].pins
        )

    def _at_unit(self, option: Option, at: int) -> int:
        """The part of it that the terminal at the unit's side costs, the joint left out."""
        cost = 0
        for _, placed in option.used:
            for pin, slot in placed:
                if pin.end == "unit":
                    cost += (self.ways.move[at] if slot != own(pin) else 0) - self._pulled[own(pin)][at]
        return cost


def _slots(option: Option) -> list[Slot]:
    return [slot for _, placed in option.used for _, slot in placed]


def _assigned(asked: list[dict[Slot | int, int]]) -> dict[Slot | int, int]:
    """Each that asks gets one of its own, all for the least in all: the prices at which each has what is best for it.

    One after the other by the shortest way of exchanges; what nobody has costs nothing.
    """
    things = list(dict.fromkeys(thing for row in asked for thing in row))
    place = {thing: at for at, thing in enumerate(things, 1)}
    rows = [[(place[thing], cost) for thing, cost in row.items()] for row in asked]
    potential = [0] * (len(asked) + 1)
    price = [0] * (len(things) + 1)
    holder = [0] * (len(things) + 1)  # who has it, counted from 1
    for who in range(1, len(asked) + 1):
        holder[0] = who
        least = [NEVER] * (len(things) + 1)
        came = [0] * (len(things) + 1)
        done = [False] * (len(things) + 1)
        at = 0
        while True:
            done[at] = True
            asks = holder[at]
            for thing, cost in rows[asks - 1]:
                if not done[thing]:
                    here = cost - potential[asks] - price[thing]
                    if here < least[thing]:
                        least[thing], came[thing] = here, at
            step, following = NEVER, 0
            for thing in range(1, len(things) + 1):
                if not done[thing] and least[thing] < step:
                    step, following = least[thing], thing
            if not following:
                return {}  # somebody gets none: the search itself will say so
            for thing in range(len(things) + 1):
                if done[thing]:
                    potential[holder[thing]] += step
                    price[thing] -= step
                elif least[thing] < NEVER:
                    least[thing] -= step
            at = following
            if not holder[at]:
                break
        while at:
            holder[at] = holder[came[at]]
            at = came[at]
    return {thing: -price[place[thing]] for thing in things}
