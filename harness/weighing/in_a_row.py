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


class _Tapped(NamedTuple):
    """Taps chosen in a row so far, and the mixes that were refused of which all of them are a part."""

    cost: Cost
    made: tuple[Made, ...]
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

    def mixes(self, refused: Collection[tuple[object, ...]] = (), scarce: Collection[str] = ()) -> list[PlugMix]:
        """The best rows of two looms or more. Those with keys in `refused` are not to be; a row that takes one of the
        `scarce` looms, by name, hides none that doesn't.
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
        self._refused, self._taps = [key for key in refused if key[0] not in (0, 1)], taps
        few = sum(1 << at for at, (used, _, _) in enumerate(self.looms) if used.item.name in scarce)
        rows = Rows(sets, sum(bits.values()), list(ways.values()), self._leaves, start, few)
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
        """What a row costs beside its looms and taps: one plug-in more than there are looms, and what is opened."""
        rates = self.hand.rates
        time_ms = rates.work_ms("mate")
        cost = Cost(time_ms, rates.money(time_ms, 0), contacts=len(self.circuits))
        for circuit in opens:
            passed = self._passed_on(circuit, _Ends(False, "unit", "car"))
            assert passed is not None
            cost = cost.less(joint_cost(self.hand, passed)).plus(self._cap).plus(self._cap)
            for need in (circuit.unit, circuit.car):
                if need.joined:
                    made = self._joined(need, "lead")
                    if made is None:
                        return None
                    cost = cost.plus(joint_cost(self.hand, made)).less(self._cap)
        return cost

    def _leaves(self, chosen: tuple[int, ...], cost: tuple[int, ...]) -> Iterator[Leaf]:
        """The rows of these looms: in the order of the fewest contacts in series, by every choice of taps."""
        if len(chosen) < 2:
            return
        row, more = self._in_order([self.looms[at] for at in chosen])
        days = cost[-1]
        so_far = Cost(*cost[:-1]).plus(Cost(contacts=more))
        names = tuple(used.item.name for used, _, _ in row)
        tapped: list[_Tapped] = [_Tapped(Cost(), (), frozenset(key for key in self._refused if key[1] == names))]
        for circuit in self._taps:
            new: list[_Tapped] = []
            for each in tapped:
                for made, extra in self._taps_in(circuit, row):
                    agrees = frozenset(key for key in each.agrees if made in key[3])  # type: ignore[operator]
                    _keep(new, _Tapped(each.cost.plus(extra), (*each.made, made), agrees))
            tapped = new
        for each in sorted(tapped, key=lambda each: each.cost):

            def make(each: _Tapped = each) -> PlugMix | None:
                mix = self._mix(row, dict(zip([tap.cavity for tap in self._taps], each.made, strict=True)), days)
                return None if mix.key in self._refused else mix

            yield Leaf((*so_far.plus(each.cost), days), make)

    def _taps_in(self, circuit: _Circuit, row: list[_Loom]) -> Iterator[tuple[Made, Cost]]:
        """The joints by which a row can tap it, of each kind one, and what each adds."""
        passed = None
        through = both = False
        for _, ends, _ in row:
            has = ends[circuit.cavity]
            made = None
            if has.on_the_way and not through:
                through, made, spared = True, self._tap(circuit, has.unit), self._cap
            elif not has.through and not both:
                both, made = True, self._tap(circuit, has.unit, has.car)
                passed = self._passed_on(circuit, has)
                assert passed is not None
                spared = joint_cost(self.hand, passed)
            if made is not None:
                yield made, joint_cost(self.hand, made).less(spared)
        made = self._tap(circuit)
        if made is not None:
            yield made, joint_cost(self.hand, made)

    def _in_order(self, row: list[_Loom]) -> tuple[list[_Loom], int]:
        """A row from the unit to the car with the fewest contacts in series, then by name; and how many more these are
        than one at each circuit of which one half only is joined. Any other circuit goes through all of the row.
        """
        row = sorted(row, key=lambda each: each[0].item.name)
        halves = [
            (sum(1 << at for at, (_, ends, _) in enumerate(row) if not ends[each.cavity].through), each.unit.joined)
            for each in self.circuits
            if each.open and not (each.unit.joined and each.car.joined)
        ]
        whole = (1 << len(row)) - 1
        best: dict[int, tuple[int, tuple[int, ...]]] = {0: (0, ())}  # by the looms at the unit's end of the row
        for there in range(1, whole + 1) if halves and len(row) <= MOST_ORDERED else ():
            # a contact more for each that isn't opened yet, seen from the half that is joined
            more = sum(not openers & (there if unit else whole & ~there) for openers, unit in halves) * (there != whole)
            befores = [(best[there & ~(1 << at)], at) for at in range(len(row)) if there >> at & 1]
            best[there] = min((number + more, (*order, at)) for (number, order), at in befores)
        number, order = best.get(whole, (0, tuple(range(len(row)))))
        if whole not in best:
            number = sum(
                (openers & -openers).bit_length() - 1 if unit else len(row) - openers.bit_length()
                for openers, unit in halves
            )
        return [row[at] for at in order], number

    def _weight(self, used: Used, ends: dict[str, _Ends], points: list[str]) -> Cost | None:
        """What one more loom costs in the row: its price, a plug-in, its caps, and the leads joined to pass on; None
        where the preset allows no joint to pass one on.
        """
        rates = self.hand.rates
        time_ms = rates.work_ms("mate")
        price = used.item.store.price
        cost = Cost(time_ms, rates.money(time_ms, price.minor if price else 0))
        for _ in points:
            cost = cost.plus(self._cap)
        for circuit in self.circuits:
            if circuit.one or (circuit.unit.joined and circuit.car.joined):
                cost = cost.plus(Cost(contacts=1))
            has = ends[circuit.cavity]
            if not has.through:
                made = self._passed_on(circuit, has)
                if made is None:
                    return None
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

    def _joined(self, need: Need, lead: str) -> Made | None:
        """The joint of what belongs to one half of a circuit that is opened."""
        return joint(
            self.plug, self.hand, (lead, *need.outs), factory=False, what=need.what, at=need.at or BENCH, cut=False
        )

    def _mix(self, row: list[_Loom], tapped: dict[str, Made], days: int) -> PlugMix:
        """A row of looms written out, from the unit to the car. A half that is opened alone is opened at the loom that
        is next to it.
        """
        joints: list[Made] = []
        contacts = 0
        for circuit in self.circuits:
            leads = [at for at, (_, ends, _) in enumerate(row) if not ends[circuit.cavity].through]
            opener = -1
            if circuit.open:
                opener = leads[0] if circuit.unit.joined else leads[-1]
                has = row[opener][1][circuit.cavity]
                for need, point, plugged in (
                    (circuit.unit, has.unit, opener + 1), (circuit.car, has.car, len(row) - opener),
                ):  # fmt: skip
                    if need.joined:
                        made = self._joined(need, point)
                        assert made is not None
                        joints.append(made)
                        contacts += plugged
            else:
                contacts += len(row) + 1
                if circuit.cavity in tapped:
                    joints.append(tapped[circuit.cavity])
            for at in leads:
                has = row[at][1][circuit.cavity]
                if at == opener or (circuit.cavity in tapped and has.unit in tapped[circuit.cavity].members):
                    continue
                made = self._passed_on(circuit, has)
                assert made is not None
                joints.append(made)
        joined = {member for each in joints for member in each.members}
        over = tuple(point for _, _, points in row for point in points if point not in joined)
        rates = self.hand.rates
        time_ms = rates.work_ms("mate") * (len(row) + 1)
        price = sum(used.item.store.price.minor if used.item.store.price else 0 for used, _, _ in row)
        cost = Cost(time_ms, rates.money(time_ms, price), contacts=contacts)
        for each in joints:
            cost = cost.plus(joint_cost(self.hand, each))
        for _ in over:
            cost = cost.plus(self._cap)
        looms = tuple(used for used, _, _ in row)
        return PlugMix(self.plug.name, (SERIES,), looms, tuple(joints), (), over, (), (), cost, days)


def _keep(held: list[_Tapped], new: _Tapped) -> None:
    """Into those so far, unless one is no worse that can't become a mix that was refused, or but the same one."""
    if any(no_worse(each.cost, new.cost) and each.agrees <= new.agrees for each in held):
        return
    held[:] = [each for each in held if not (no_worse(new.cost, each.cost) and new.agrees <= each.agrees)]
    held.append(new)


_DELICATE = ("restraint", "data", "power", "audio", "ground", "signal")


def _circuits(plug: PlugNeeds) -> list[_Circuit]:
    """One a cavity; none at all where the plan joins cavities of different numbers, or leaves both halves open."""
    made = []
    for low in plug.rows:
        unit, car = (plug.needs[plug.net[half, low]] for half in ("unit", "car"))
        if (unit.car and unit.car != unit.unit) or (car.unit and car.unit != car.car):
            return []
        if unit is not car and not unit.joined and not car.joined:
            return []
        made.append(_Circuit(low, unit, car))
    return made
