"""How a row of looms serves one cavity of a plug: what is passed on, ended or tapped, and the joints of that."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

from harness.weighing.hand import Cost, Hand
from harness.weighing.mixes import Made
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.rates import BENCH
from harness.weighing.solder_in import joint, joint_cost

_DELICATE = ("restraint", "data", "power", "audio", "ground", "signal")


class Circuit(NamedTuple):
    """A cavity whose two halves must be opened (`unit` and `car` are two needs), tapped, or passed (one need).

    A need of which other cavities are a part as well meets in one joint for all of them.
    """

    cavity: str
    unit: Need
    car: Need

    @property
    def one(self) -> bool:
        return self.unit is self.car

    @property
    def open(self) -> bool:
        return not self.one

    @property
    def tapped(self) -> bool:
        return self.one and bool(self.unit.outs or not self.unit.straight)


class Ends(NamedTuple):
    """What a loom has at one cavity: whether a wire goes straight through, and its free ends."""

    through: bool
    unit: str
    car: str

    @property
    def on_the_way(self) -> bool:
        """Whether the wire that goes through has a lead as well."""
        return self.through and bool(self.unit)


class Choice(NamedTuple):
    """How a row serves one circuit: joints, the contacts in series, and the leads and factory wires that it gives to
    the joint of a need with other cavities besides.
    """

    joints: tuple[Made, ...]
    parts: tuple[tuple[Need, str], ...]
    contacts: int


class Circuits:
    """The circuits of one plug. Needs with cavities of several numbers are `wide`: so many factory wires as
    `most_behind` says are in the joint of each, 2 for two or more.
    """

    def __init__(self, plug: PlugNeeds, hand: Hand) -> None:
        self.plug, self.hand = plug, hand
        self.all = [Circuit(low, *(plug.needs[plug.net[half, low]] for half in ("unit", "car"))) for low in plug.rows]
        self.wide = [need for need in plug.needs if not need.straight]
        self.most_behind: dict[Need, int] = {}

    def meeting(self, need: Need, *members: str) -> Cost | None:
        """What the joint of these members and what is outside costs, None where it can't be; nothing where it serves
        other circuits too.
        """
        if need in self.most_behind:
            return None if not self.most_behind[need] and any(map(self.is_behind, members)) else Cost()
        made = self._joined(need, *members)
        return None if made is None else joint_cost(self.hand, made)

    def spared(self, circuit: Circuit) -> Cost:
        """By how much, at the most, it is better to pass on by joining two leads than to cap both; 0 or less."""
        made = self._passed_on(circuit, Ends(False, "unit", "car"))
        return least(Cost(), joint_cost(self.hand, made).less(self.cap, self.cap)) if made is not None else Cost()

    def choices(self, circuit: Circuit, ends: list[Ends]) -> Iterator[Choice]:
        """The ways in which a row may serve a circuit: passed on at every loom, or the unit's half ended at one, the
        car's at the same or one nearer to the car. What is between the two hangs on nothing, and its leads are capped.
        """
        leads = [at for at, has in enumerate(ends) if not has.through]
        if circuit.one:
            joints = self._passed(circuit, ends, leads)
            if joints is not None and not circuit.tapped:
                yield Choice(joints, (), len(ends) + 1)
            elif joints is not None:
                on_the_way = [has.unit for has in ends if has.on_the_way][:1]
                for member in (*on_the_way, self.behind(circuit)):
                    yield from self._served(joints, len(ends) + 1, ((circuit.unit, (member,)),))
        for i, first in enumerate(leads):
            for j, last in enumerate(leads[i:], i):
                joints = self._passed(circuit, ends, [*leads[:i], *leads[j + 1 :]])
                if joints is not None:
                    yield from self._ended(circuit, joints, ends, first, last)

    def _ended(
        self, circuit: Circuit, joints: tuple[Made, ...], ends: list[Ends], first: int, last: int
    ) -> Iterator[Choice]:
        """The unit's half ended at the `first` of these looms, the car's at the `last` or joined behind the plug."""
        unit, car = circuit.unit, circuit.car
        here = (ends[first].unit,) if unit.joined else ()
        contacts = first + 1 if unit.joined else 0
        if not car.joined:
            yield from self._served(joints, contacts, ((unit, here),))
            return
        for point, more in ((ends[last].car, len(ends) - last), (self.behind(circuit), 0)):
            if circuit.one and (circuit.tapped or first != last or not more):  # else it is passed on
                yield from self._served(joints, contacts + more, ((unit, (*here, point)),))
            elif circuit.open:
                yield from self._served(joints, contacts + more, ((unit, here), (car, (point,))))

    def _served(
        self, joints: tuple[Made, ...], contacts: int, meet: tuple[tuple[Need, tuple[str, ...]], ...]
    ) -> Iterator[Choice]:
        """With these joints, and one for each need of its members; or with these as parts of a joint for more."""
        made: list[Made] = []
        parts: list[tuple[Need, str]] = []
        for need, members in meet:
            if need in self.most_behind:
                parts += [(need, member) for member in members]
            elif members:
                joined = self._joined(need, *members)
                if joined is None:
                    return
                made.append(joined)
        yield Choice((*made, *joints), tuple(parts), contacts)

    def _passed(self, circuit: Circuit, ends: list[Ends], at: list[int]) -> tuple[Made, ...] | None:
        """The joints that pass it on at these looms, None where the preset allows none."""
        made = [self._passed_on(circuit, ends[each]) for each in at]
        return None if None in made else tuple(each for each in made if each is not None)

    @cached_property
    def cap(self) -> Cost:
        rates = self.hand.rates
        return Cost(rates.work_ms("cap"), rates.money(rates.work_ms("cap"), rates.cap_parts))

    def _passed_on(self, circuit: Circuit, has: Ends) -> Made | None:
        what = min((circuit.unit.what, circuit.car.what), key=_DELICATE.index)
        return joint(self.plug, self.hand, (has.unit, has.car), factory=False, what=what, at=BENCH, cut=False)

    def behind(self, circuit: Circuit) -> str:
        """The car's wire behind the plug."""
        return f"{self.plug.name}.car.{self.plug.rows[circuit.cavity].cavity}"

    def is_behind(self, member: str) -> bool:
        return member.startswith(f"{self.plug.name}.car.")

    def _joined(self, need: Need, *members: str) -> Made | None:
        """The joint of leads, or with the car's wire behind the plug, and of what is outside."""
        factory = any(map(self.is_behind, members))
        at = self.plug.where if factory else need.at or BENCH
        return joint(self.plug, self.hand, (*members, *need.outs), factory=factory, what=need.what, at=at, cut=False)


def least(one: Cost, other: Cost) -> Cost:
    """No more than either, number by number."""
    return Cost(*map(min, one, other))
