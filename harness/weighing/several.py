"""The ways of serving a net with several cavities of a side by one loom: all of them, or the least of them.

Each cavity of the unit's half takes a terminal of the loom; each of the car's half one, or it is joined by the factory
wire behind the plug. A wire may stand in several of them. All of it meets in one joint, by free ends of the wires where
they have any; only where one wire reaches all of it there is none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import product
from typing import TYPE_CHECKING, NamedTuple

from harness.weighing.hand import Cost
from harness.weighing.layers import Option, Placed, Slot
from harness.weighing.mixes import Made
from harness.weighing.needs import Need
from harness.weighing.rates import BENCH
from harness.weighing.solder_in import joint, joint_cost

if TYPE_CHECKING:
    from harness.weighing.ways import Ways

MOST_SEATINGS = 20_000  # of one need; where there are more, not all are tried, and that is said
May = Callable[[Cost], bool]


class _Seat(NamedTuple):
    """One wire in some of the cavities. `beside` is what that costs beside what it costs left over, a free end that is
    joined spared its cap; `share` the part of that, in time and money, that falls to each of the cavities.
    """

    number: int
    placed: Placed
    slots: frozenset[Slot]
    point: str
    beside: Cost
    share: Cost


class _Seating(NamedTuple):
    """Which wires stand where; cavities of the car's half that none is in are joined behind the plug."""

    seats: tuple[_Seat, ...]
    behind: tuple[Slot, ...]


class Several:
    """The search of one need. All is tried unless it `gave_up`."""

    def __init__(self, ways: Ways, need: Need) -> None:
        self.ways, self.need = ways, need
        self.gave_up = False
        self._cavity = dict(zip(need.slots, (*need.units, *need.cars), strict=True))
        seats = [seat for number in range(len(ways.wires)) for seat in self._seats_of(number)]
        self._whole = [seat for seat in seats if not need.outs and len(seat.slots) == len(need.slots)]
        self._in_part = [seat for seat in seats if seat not in self._whole and (seat.point or _car(seat))]
        made = [each for number in (0, 1, 2) if (each := self._joint((), number)) is not None]
        costs = [joint_cost(ways.hand, each) for each in made]
        self._joints = Cost(*(min(cost[at] for cost in costs) for at in (0, 1))) if costs else None

    def options(self, may: May | None) -> Iterator[Option]:
        """All that `may` lets through by what they cost beside what their wires cost left over; without it a few, the
        least among them.
        """
        found = self._all(may) if may is not None else self._least()
        for seating in found:
            yield from self._options_of(seating)

    # -- wires in cavities -----------------------------------------------------------------------------

    def _seats_of(self, number: int) -> Iterator[_Seat]:
        """A wire in every set of these cavities that it can stand in."""
        wire, ways = self.ways.wires[number], self.ways
        if not wire.plain:
            return
        goals: list[list[Slot | None]] = [
            [None, *(slot for slot in self.need.slots if slot[0] == pin.end and ways.stands(pin, slot))]
            for pin in wire.pins
        ]
        for chosen in product(*goals):
            placed = tuple((pin, slot) for pin, slot in zip(wire.pins, chosen, strict=True) if slot is not None)
            if placed and ways.one_function(placed):
                point = ways.point(wire, placed)
                beside = ways.placed(((number, placed),)).less(ways.left[number], *((ways.cap,) if point else ()))
                share = Cost(*(beside[at] // len(placed) for at in (0, 1)))
                yield _Seat(number, placed, frozenset(slot for _, slot in placed), point, beside, share)

    def _all(self, may: May) -> Iterator[_Seating]:
        yield from (_Seating((seat,), ()) for seat in self._whole if may(seat.beside))
        for number, seating in enumerate(self._walk(self._in_part, may, len(self.need.slots))):
            if number == MOST_SEATINGS:
                self.gave_up = True
                return
            yield seating

    def _least(self) -> Iterator[_Seating]:
        """For each kind of joint, by how many factory wires meet there, the cheapest and the quickest."""
        yield from (_Seating((seat,), ()) for seat in self._whole)
        for most in (0, 1, len(self.need.slots)):
            best: list[Cost] = []

            def may(cost: Cost, best: list[Cost] = best) -> bool:
                return not any(each[0] <= cost[0] and each[1] <= cost[1] for each in best)

            for seating in self._walk(self._nearest(), may, most):
                best.append(self._cost(seating))
                yield seating

    def _nearest(self) -> list[_Seat]:
        """Of wires that can be in the same cavities, and be joined alike, as many as there are cavities, the cheapest
        and the quickest: any other could but take the place of one of these.
        """
        kinds: dict[object, list[_Seat]] = {}
        for each in self._in_part:
            kinds.setdefault((each.slots, bool(each.point)), []).append(each)
        chosen: set[_Seat] = set()
        for alike in kinds.values():
            for at in (0, 1):
                chosen.update(sorted(alike, key=lambda each: (each.beside[at], each.number))[: len(self.need.slots)])
        return [each for each in self._in_part if each in chosen]

    def _walk(self, seats: list[_Seat], may: May, most: int) -> Iterator[_Seating]:
        """Cavity by cavity. No more than `most` factory wires are in the joint."""
        if self._joints is None:
            return
        slots = self.need.slots
        at = {
            slot: sorted(
                (each for each in seats if slot in each.slots), key=lambda each: (each.share[1::-1], each.number)
            )
            for slot in slots
        }
        rest = [self._joints]  # what isn't seated yet costs at the least the least shares, and there is a joint
        for slot in reversed(slots):
            shares = [each.share for each in at[slot]] + ([Cost()] if slot[0] == "car" else [])
            if not shares:
                return
            rest.append(rest[-1].plus(Cost(*(min(share[k] for share in shares) for k in (0, 1)))))
        rest.reverse()

        def walk(depth: int, so_far: _Seating, paid: Cost, factory: int) -> Iterator[_Seating]:
            if factory > most or not may(paid.plus(rest[depth])):
                return
            if depth == len(slots):
                if may(self._cost(so_far)):
                    yield so_far
                return
            slot = slots[depth]
            inside = next((each for each in so_far.seats if slot in each.slots), None)
            if inside is not None:
                yield from walk(depth + 1, so_far, paid.plus(inside.share), factory)
                return
            for each in at[slot]:
                if each.slots.isdisjoint(slots[:depth]) and not any(
                    each.number == other.number or each.slots & other.slots for other in so_far.seats
                ):
                    more = so_far._replace(seats=(*so_far.seats, each))
                    yield from walk(depth + 1, more, paid.plus(each.share), factory + (not each.point))
            if slot[0] == "car":
                yield from walk(depth + 1, so_far._replace(behind=(*so_far.behind, slot)), paid, factory + 1)

        yield from walk(0, _Seating((), ()), Cost(), 0)

    def _cost(self, seating: _Seating) -> Cost:
        """At the least, whichever joint is made."""
        assert self._joints is not None
        cost = self._joints
        for each in seating.seats:
            cost = cost.plus(each.beside)
        return cost

    # -- the joint -------------------------------------------------------------------------------------

    def _options_of(self, seating: _Seating) -> Iterator[Option]:
        used = tuple((seat.number, seat.placed) for seat in seating.seats)
        cost = self.ways.placed(used)
        kind = tuple((self.ways.alike(number), tuple(slot for _, slot in placed)) for number, placed in used)
        if seating.seats and seating.seats[0] in self._whole:
            yield Option(used, None, cost, kind)
            return
        points = [seat.point for seat in seating.seats if seat.point]
        behind = [*seating.behind, *(_car(seat)[0] for seat in seating.seats if not seat.point)]
        if not behind and (made := self._joint(tuple(points), 0)) is not None:
            yield self._joined(used, made, cost, points, kind)
        if not behind:  # one of them is joined behind the plug all the same
            seat = next((seat for seat in seating.seats if _car(seat)), None)
            if seat is None:
                return
            behind = [_car(seat)[0]]
            points.remove(seat.point)
        names = tuple(f"{self.ways.plug.name}.car.{self._cavity[slot]}" for slot in behind)
        made = self._joint((*names, *points), len(behind))
        if made is not None:
            yield self._joined(used, made, cost, points, kind)

    def _joined(
        self, used: tuple[tuple[int, Placed], ...], made: Made, cost: Cost, points: list[str], kind: tuple[object, ...]
    ) -> Option:
        cost = cost.plus(joint_cost(self.ways.hand, made)).less(*(self.ways.cap for _ in points))
        return Option(used, made, cost, (made.factory, *kind))

    def _joint(self, members: tuple[str, ...], factory: int) -> Made | None:
        """The joint of these and what is outside, so many factory wires among them."""
        need, ways = self.need, self.ways
        at = ways.plug.where if factory else need.at or BENCH
        members = (*members, *need.outs) if members else ("", "", *need.outs)
        return joint(ways.plug, ways.hand, members, factory=factory > 0, what=need.what, at=at, cut=factory > 1)


def _car(seat: _Seat) -> list[Slot]:
    return [slot for _, slot in seat.placed if slot[0] == "car"]
