"""Looms in series at one plug: every best row of looms, none of them changed, that open what must be opened."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from harness.weighing.hand import Cost, Hand
from harness.weighing.mixes import SERIES, Made, PlugMix, Used
from harness.weighing.needs import Need, PlugNeeds
from harness.weighing.rates import BENCH
from harness.weighing.series import Cover, covers
from harness.weighing.solder_in import joint, joint_cost
from harness.weighing.wires import Wire, fits, wires_of


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


class InARow:
    """The search at one plug over the looms that fit it whole."""

    def __init__(self, plug: PlugNeeds, hand: Hand, looms: list[Used]) -> None:
        self.plug, self.hand = plug, hand
        self.circuits = _circuits(plug)
        self.looms: list[tuple[Used, dict[str, _Ends], list[str]]] = []
        for used in looms if self.circuits else ():
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

    def mixes(self, allowed: Callable[[PlugMix], bool] = lambda mix: True) -> list[PlugMix]:
        """The best rows of two looms or more."""
        bits = {each.cavity: 1 << at for at, each in enumerate(c for c in self.circuits if c.open or c.unit.outs)}
        if len(self.looms) < 2 or not any(circuit.open for circuit in self.circuits):
            return []
        taps = [circuit for circuit in self.circuits if circuit.one and circuit.unit.outs]
        sets = [Cover(self._covered(ends, bits), self._weight(used, ends, points)) for used, ends, points in self.looms]
        by_hand = []
        for circuit in taps:
            made = self._tap(circuit, "")
            if made is not None:
                extra = joint_cost(self.hand, made).less(self._tap_on_lead(circuit))
                by_hand.append(Cover(bits[circuit.cavity], extra))
        if any(number < 0 for each in by_hand for number in each.cost[:2]):
            return []  # a tap on the car's wire is never quicker and cheaper than on a lead
        number = len(sets)

        def whole(chosen: tuple[int, ...]) -> bool:
            looms = [at for at in chosen if at < number]
            return len(looms) > 1 and allowed(self._mix(looms))

        found = covers([*sets, *by_hand], sum(bits.values()), whole)
        return [self._mix([at for at in chosen if at < number]) for _, chosen in found]

    def _covered(self, ends: dict[str, _Ends], bits: dict[str, int]) -> int:
        covered = 0
        for circuit in self.circuits:
            has = ends[circuit.cavity]
            if circuit.cavity in bits and (not has.through if circuit.open else has.unit or has.car):
                covered |= bits[circuit.cavity]
        return covered

    def _weight(self, used: Used, ends: dict[str, _Ends], points: list[str]) -> Cost:
        """What one more loom costs in the row: its price, a plug-in, its caps, and the leads joined to pass on."""
        rates = self.hand.rates
        time_ms = rates.work_ms("mate")
        price = used.item.store.price
        cost = Cost(time_ms, rates.money(time_ms, price.minor if price else 0))
        for _ in points:
            cost = cost.plus(self._cap)
        for circuit in self.circuits:
            cost = cost.plus(Cost(contacts=1))
            has = ends[circuit.cavity]
            if not has.through:
                made = self._passed_on(circuit, has)
                assert made is not None
                cost = cost.plus(joint_cost(self.hand, made).less(self._cap, self._cap))
        return cost

    @property
    def _cap(self) -> Cost:
        rates = self.hand.rates
        return Cost(rates.work_ms("cap"), rates.money(rates.work_ms("cap"), rates.cap_parts))

    def _passed_on(self, circuit: _Circuit, has: _Ends) -> Made | None:
        what = min((circuit.unit.what, circuit.car.what), key=_DELICATE.index)
        return joint(self.plug, self.hand, (has.unit, has.car), factory=False, what=what, at=BENCH, cut=False)

    def _tap(self, circuit: _Circuit, lead: str, other: str = "") -> Made | None:
        need = circuit.unit
        members = tuple(filter(None, (lead, other))) or (f"{self.plug.name}.car.{need.car}",)
        at = need.at or BENCH if lead else self.plug.where
        return joint(self.plug, self.hand, (*members, *need.outs), factory=not lead, what=need.what, at=at, cut=False)

    def _tap_on_lead(self, circuit: _Circuit) -> Cost:
        made = self._tap(circuit, "lead")
        return joint_cost(self.hand, made).less(self._cap) if made is not None else Cost()

    def _mix(self, chosen: list[int]) -> PlugMix:
        """A row of looms written out, in the order of their names from the unit to the car."""
        row = [self.looms[at] for at in sorted(chosen, key=lambda at: self.looms[at][0].item.name)]
        joints: list[Made] = []
        joined: set[str] = set()
        contacts = 0
        for circuit in self.circuits:
            opened = tapped = False
            for at, (_, ends, _) in enumerate(row):
                has = ends[circuit.cavity]
                if circuit.open and not has.through and not opened:
                    opened = True
                    for need, point, plugged in (
                        (circuit.unit, has.unit, at + 1),
                        (circuit.car, has.car, len(row) - at),
                    ):
                        if need.joined:
                            made = joint(
                                self.plug, self.hand, (point, *need.outs), factory=False, what=need.what,
                                at=need.at or BENCH, cut=False,
                            )  # fmt: skip
                            assert made is not None
                            joints.append(made)
                            contacts += plugged
                elif circuit.one and circuit.unit.outs and not tapped and (has.unit or has.car):
                    tapped = True
                    both = (has.unit, "") if has.through and has.unit else (has.car, "") if has.through else has[1:]
                    made = self._tap(circuit, *both)
                    assert made is not None
                    joints.append(made)
                elif not has.through:
                    made = self._passed_on(circuit, has)
                    assert made is not None
                    joints.append(made)
            if circuit.one:
                contacts += len(row) + 1
                if circuit.unit.outs and not tapped:
                    made = self._tap(circuit, "")
                    assert made is not None
                    joints.append(made)
        for each in joints:
            joined.update(each.members)
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
        return PlugMix(self.plug.name, (SERIES,), looms, tuple(joints), (), over, (), (), cost, 0)


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
