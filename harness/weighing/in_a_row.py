"""Looms in series at one plug: every best row of looms, none of them changed, that open what is opened and
tap the rest where that is best.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import cached_property
from typing import NamedTuple

from harness.weighing.at_plug import wait
from harness.weighing.hand import Cost, Hand
from harness.weighing.mixes import SERIES, Made, PlugMix, Used
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.rates import BENCH
from harness.weighing.series import Cover, Leaf, Rows, Tap, no_worse
from harness.weighing.solder_in import joint, joint_cost
from harness.weighing.wires import Wire, fits, wires_of

MOST_ORDERED = 10  # looms in a row; longer ones stand by name


class _Circuit(NamedTuple):
    """A cavity whose two halves must be opened (`unit` and `car` are two needs), tapped, or passed (one need)."""

    cavity: str
    unit: Need
    car: Need

    @property
    def one(self) -> bool:
        return self.unit is self.car

    @property
    def open(self) -> bool:
        return not self.one


class _Ends(NamedTuple):
    """What a loom has at one cavity: whether a wire goes straight through, and its free ends."""

    through: bool
    unit: str
    car: str

    @property
    def on_the_way(self) -> bool:
        """Whether the wire that goes through has a lead as well."""
        return self.through and bool(self.unit)


_Loom = tuple[Used, dict[str, _Ends], list[str]]  # with all of its free ends


class _Row(NamedTuple):
    """What is joined in a row so far, and the mixes that were refused of which all of it is a part."""

    cost: Cost
    joints: tuple[Made, ...]
    agrees: frozenset[tuple[object, ...]]


class InARow:
    """The search at one plug over the looms that fit it whole."""

    def __init__(self, plug: PlugNeeds, hand: Hand, looms: list[Used]) -> None:
        self.plug, self.hand = plug, hand
        self.circuits = _circuits(plug)
        self.looms: list[_Loom] = []
        for used in sorted(looms, key=lambda used: used.item.name) if self.circuits else ():
            ends = self._ends(used)
            if ends is not None:
                self.looms.append((used, *ends))

    def _ends(self, used: Used) -> tuple[dict[str, _Ends], list[str]] | None:
        """What it has at each circuit, and all of its free ends; None where it can't stand in a row as it comes."""
        assert used.item.loom is not None
        by_pin: dict[tuple[str, str], Wire] = {}
        points = []
        for wire in wires_of(used.item.loom):
            if not wire.plain or len({pin.cavity.lower() for pin in wire.pins}) > 1:
                return None
            for pin in wire.pins:
                if not fits(pin, self.plug.rows.get(pin.cavity.lower())):
                    return None
                by_pin[pin.end, pin.cavity.lower()] = wire
            points += [f"{used.mark}.{name}" for name, _ in wire.points]
        made = {}
        for circuit in self.circuits:
            unit, car = (by_pin.get((half, circuit.cavity)) for half in ("unit", "car"))
            if unit is None or car is None:
                return None
            ends = _Ends(
                unit is car, *(f"{used.mark}.{wire.points[0][0]}" if wire.points else "" for wire in (unit, car))
            )
            if not ends.through and not (ends.unit and ends.car):
                return None
            made[circuit.cavity] = ends
        return made, points

    def mixes(
        self, refused: Collection[tuple[object, ...]] = (), scarce: Collection[str] = (),
        others: Collection[tuple[int, Cost]] = (),
    ) -> list[PlugMix]:  # fmt: skip
        """The best rows of two looms or more. Those with keys in `refused` are not to be; a row that takes one of the
        `scarce` looms, by name, hides none that doesn't. `others` are days and costs by which a row may be beaten.
        """
        opens = [circuit for circuit in self.circuits if circuit.open]
        taps = [circuit for circuit in self.circuits if circuit.one and circuit.unit.outs]
        if len(self.looms) < 2 or len(opens) + len(taps) < 2 or not all(self._openers(each) for each in opens):
            return []  # a single tap is served by one loom
        weights = [self._weight(*each) for each in self.looms]
        self.looms = [each for each, weight in zip(self.looms, weights, strict=True) if weight is not None]
        bits = {each.cavity: 1 << at for at, each in enumerate(opens)}
        ways = {circuit.cavity: self._ways_to_tap(circuit) for circuit in taps}
        for cavity, each in ways.items():
            if all(way.holders for way in each):
                bits[cavity] = 1 << len(bits)  # it wants one of them, whichever
        sets = []
        for at, ((used, ends, _), weight) in enumerate(zip(self.looms, filter(None, weights), strict=True)):
            covered = sum(bits[each.cavity] for each in opens if not ends[each.cavity].through)
            covered += sum(bits[low] for low in ways if low in bits and any(way.holders >> at & 1 for way in ways[low]))
            sets.append(Cover(covered, weight, wait(used.item)))
        start = self._start(opens)
        if start is None:
            return []
        self._refused = [key for key in refused if key[0] not in (0, 1)]
        self._marks = {used.mark.partition(".")[0] for used, _, _ in self.looms}
        few = sum(1 << at for at, (used, _, _) in enumerate(self.looms) if used.item.name in scarce)
        known = [(*cost, days) for days, cost in others]
        rows = Rows(sets, sum(bits.values()), list(ways.values()), self._leaves, start, few, known)
        return [mix for _, _, mix in sorted(rows.found, key=lambda each: each[:2]) if isinstance(mix, PlugMix)]

    def _openers(self, circuit: _Circuit) -> int:
        """The looms, as bits, that have leads for it at both sides."""
        return sum(1 << at for at, (_, ends, _) in enumerate(self.looms) if not ends[circuit.cavity].through)

    def _ways_to_tap(self, circuit: _Circuit) -> list[Tap]:
        """On the car's wire in any row, on a wire that goes through where that has a lead, and where leads of both
        sides are joined anyway.
        """
        both = self._openers(circuit)
        lead = sum(1 << at for at, (_, ends, _) in enumerate(self.looms) if ends[circuit.cavity].on_the_way)
        ways = [(self._tap(circuit), Cost(), 0)]
        if lead:
            ways.append((self._tap(circuit, "lead"), self._cap, lead))
        if both:
            passed = self._passed_on(circuit, _Ends(False, "unit", "car"))
            assert passed is not None
            ways.append((self._tap(circuit, "unit", "car"), joint_cost(self.hand, passed), both))
        return [Tap(joint_cost(self.hand, made).less(spared), holders) for made, spared, holders in ways if made]

    def _start(self, opens: list[_Circuit]) -> Cost | None:
        """What a row costs at the least beside its looms and taps: one plug-in more than there are looms, and what is
        opened.
        """
        rates = self.hand.rates
        time_ms = rates.work_ms("mate")
        cost = Cost(time_ms, rates.money(time_ms, 0), contacts=sum(each.one for each in self.circuits))
        for circuit in opens:
            cost = cost.less(self._spared(circuit))
            for need in (circuit.unit, circuit.car):
                made = self._joined(need, "lead")
                if need.joined and made is not None:
                    on_lead = joint_cost(self.hand, made).less(self._cap)
                    behind = self._joined(need) if need is circuit.car else None
                    cost = cost.plus(_least(on_lead, joint_cost(self.hand, behind)) if behind else on_lead)
                elif need.joined:
                    return None
        return cost

    def _spared(self, circuit: _Circuit) -> Cost:
        """By how much, at the most, it is better to join two leads that nothing needs than to cap both; 0 or less."""
        made = self._passed_on(circuit, _Ends(False, "unit", "car"))
        return _least(Cost(), joint_cost(self.hand, made).less(self._cap, self._cap)) if made is not None else Cost()

    def _leaves(self, chosen: tuple[int, ...], cost: tuple[int, ...]) -> Iterator[Leaf]:
        """The rows of these looms, by every choice of joints that may matter."""
        if len(chosen) < 2:
            return
        row = self._in_order([self.looms[at] for at in chosen])
        days = cost[-1]
        names = tuple(used.item.name for used, _, _ in row)
        made = [_Row(self._base(row), (), frozenset(key for key in self._refused if key[1] == names))]
        for circuit in self.circuits:
            new: list[_Row] = []
            choices = list(self._choices(circuit, row))
            for each in made:
                for joints, contacts in choices:
                    agrees = frozenset(key for key in each.agrees if all(one in key[3] for one in joints))  # type: ignore[operator]
                    extra = Cost(contacts=contacts)
                    for one in joints:
                        leads = sum(self._is_lead(member) for member in one.members)
                        extra = extra.plus(joint_cost(self.hand, one)).less(*(self._cap for _ in range(leads)))
                    _keep(new, _Row(each.cost.plus(extra), (*each.joints, *joints), agrees))
            made = new
        for whole in sorted(made, key=lambda each: each.cost):

            def make(whole: _Row = whole) -> PlugMix | None:
                mix = self._mix(row, whole, days)
                return None if mix.key in self._refused else mix

            yield Leaf((*whole.cost, days), make)

    def _is_lead(self, member: str) -> bool:
        return member.partition(".")[0] in self._marks

    def _base(self, row: list[_Loom]) -> Cost:
        """The looms, plugged in, all of their free ends capped."""
        rates = self.hand.rates
        time_ms = rates.work_ms("mate") * (len(row) + 1)
        price = sum(used.item.store.price.minor if used.item.store.price else 0 for used, _, _ in row)
        cost = Cost(time_ms, rates.money(time_ms, price))
        for _, _, points in row:
            for _ in points:
                cost = cost.plus(self._cap)
        return cost

    def _choices(self, circuit: _Circuit, row: list[_Loom]) -> Iterator[tuple[tuple[Made, ...], int]]:
        """The joints by which a row may serve a circuit, and the contacts in series that it then has."""
        ends = [each[1][circuit.cavity] for each in row]
        leads = [at for at, has in enumerate(ends) if not has.through]
        passed = {at: made for at in leads if (made := self._passed_on(circuit, ends[at])) is not None}
        if circuit.open:
            yield from self._opened(circuit, ends, leads, passed)
            return
        all_passed = tuple(passed.values())
        if not circuit.unit.outs:
            yield all_passed, len(row) + 1
            return
        on = [(all_passed, self._tap(circuit, has.unit)) for has in ends if has.on_the_way][:1]
        if leads:
            first, *others = leads
            on.append((tuple(passed[at] for at in others), self._tap(circuit, ends[first].unit, ends[first].car)))
        on.append((all_passed, self._tap(circuit)))
        for joints, made in on:
            if made is not None:
                yield (made, *joints), len(row) + 1

    def _opened(
        self, circuit: _Circuit, ends: list[_Ends], leads: list[int], passed: dict[int, Made]
    ) -> Iterator[tuple[tuple[Made, ...], int]]:
        """The radio's half is opened at one loom, the car's at the same one or one nearer to the car, or is joined
        behind the plug; what is between the two hangs on nothing, and its leads are capped.
        """
        for i, first in enumerate(leads):
            for j, last in enumerate(leads[i:], i):
                joints = [passed[at] for at in (*leads[:i], *leads[j + 1 :])]
                contacts = first + 1 if circuit.unit.joined else 0
                if circuit.unit.joined:
                    made = self._joined(circuit.unit, ends[first].unit)
                    assert made is not None
                    joints.insert(0, made)
                if not circuit.car.joined:
                    yield tuple(joints), contacts
                    continue
                for point, more in ((ends[last].car, len(ends) - last), ("", 0)):
                    made = self._joined(circuit.car, *filter(None, (point,)))
                    if made is not None:
                        yield (*joints, made), contacts + more

    def _in_order(self, row: list[_Loom]) -> list[_Loom]:
        """A row from the unit to the car with the fewest contacts in series, then by name: what is opened is best
        opened next to the half that is joined there.
        """
        row = sorted(row, key=lambda each: each[0].item.name)
        halves = []
        for each in self.circuits:
            openers = sum(1 << at for at, (_, ends, _) in enumerate(row) if not ends[each.cavity].through)
            both = each.unit.joined and each.car.joined
            if each.open and not (both and openers.bit_count() == 1):
                halves += [(openers, unit) for unit, need in ((True, each.unit), (False, each.car)) if need.joined]
        if not halves or len(row) > MOST_ORDERED:
            return row
        whole = (1 << len(row)) - 1
        best: dict[int, tuple[int, tuple[int, ...]]] = {0: (0, ())}  # by the looms at the unit's end of the row
        for there in range(1, whole + 1):
            # a contact more for each that isn't opened yet, seen from the half that is joined
            more = sum(not openers & (there if unit else whole & ~there) for openers, unit in halves) * (there != whole)
            befores = [(best[there & ~(1 << at)], at) for at in range(len(row)) if there >> at & 1]
            best[there] = min((number + more, (*order, at)) for (number, order), at in befores)
        return [row[at] for at in best[whole][1]]

    def _weight(self, used: Used, ends: dict[str, _Ends], points: list[str]) -> Cost | None:
        """What one more loom costs in the row at the least: its price, a plug-in, its caps, and the leads joined to
        pass on; None where the preset allows no joint to pass one on.
        """
        rates = self.hand.rates
        time_ms = rates.work_ms("mate")
        price = used.item.store.price
        cost = Cost(time_ms, rates.money(time_ms, price.minor if price else 0))
        for _ in points:
            cost = cost.plus(self._cap)
        for circuit in self.circuits:
            has = ends[circuit.cavity]
            made = None if has.through else self._passed_on(circuit, has)
            if circuit.one:
                cost = cost.plus(Cost(contacts=1))
            if has.through:
                continue
            if made is None:
                return None
            if circuit.open:
                cost = cost.plus(self._spared(circuit))
            else:
                cost = cost.plus(joint_cost(self.hand, made).less(self._cap, self._cap))
        return cost

    @cached_property
    def _cap(self) -> Cost:
        rates = self.hand.rates
        return Cost(rates.work_ms("cap"), rates.money(rates.work_ms("cap"), rates.cap_parts))

    def _passed_on(self, circuit: _Circuit, has: _Ends) -> Made | None:
        what = min((circuit.unit.what, circuit.car.what), key=_DELICATE.index)
        return joint(self.plug, self.hand, (has.unit, has.car), factory=False, what=what, at=BENCH, cut=False)

    def _tap(self, circuit: _Circuit, *leads: str) -> Made | None:
        """The joint of what is tapped with these leads, or else with the car's wire behind the plug."""
        need = circuit.unit
        members = leads or (f"{self.plug.name}.car.{need.car}",)
        at = need.at or BENCH if leads else self.plug.where
        return joint(self.plug, self.hand, (*members, *need.outs), factory=not leads, what=need.what, at=at, cut=False)

    def _joined(self, need: Need, lead: str = "") -> Made | None:
        """The joint of what belongs to one half of a circuit that is opened: with a lead, or behind the plug."""
        members = (lead or f"{self.plug.name}.car.{need.car}", *need.outs)
        at = need.at or BENCH if lead else self.plug.where
        return joint(self.plug, self.hand, members, factory=not lead, what=need.what, at=at, cut=False)

    def _mix(self, row: list[_Loom], made: _Row, days: int) -> PlugMix:
        """A row of looms written out, from the unit to the car."""
        joined = {member for each in made.joints for member in each.members}
        over = tuple(point for _, _, points in row for point in points if point not in joined)
        looms = tuple(used for used, _, _ in row)
        return PlugMix(self.plug.name, (SERIES,), looms, made.joints, (), over, (), (), made.cost, days)


def _least(one: Cost, other: Cost) -> Cost:
    """No more than either, number by number."""
    return Cost(*map(min, one, other))


def _keep(held: list[_Row], new: _Row) -> None:
    """Into those so far, unless one is no worse that can't become a mix that was refused, or but the same one."""
    if any(no_worse(each.cost, new.cost) and each.agrees <= new.agrees for each in held):
        return
    held[:] = [each for each in held if not (no_worse(new.cost, each.cost) and new.agrees <= each.agrees)]
    held.append(new)


_DELICATE = ("restraint", "data", "power", "audio", "ground", "signal")


def _circuits(plug: PlugNeeds) -> list[_Circuit]:
    """One a cavity; none at all where the plan joins cavities of different numbers."""
    made = []
    for low in plug.rows:
        unit, car = (plug.needs[plug.net[half, low]] for half in ("unit", "car"))
        if (unit.car and unit.car != unit.unit) or (car.unit and car.unit != car.car):
            return []
        made.append(_Circuit(low, unit, car))
    return made
