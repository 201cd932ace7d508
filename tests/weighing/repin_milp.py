"""The same plug and drawer as one mixed integer programme, from the brute force's own reading of nets, wires and costs.

For jobs as `large.py` makes them: no taps, a wire has one lead or goes through. Of every loom, whole or with an end cut
off, each wire is pulled, left where it came, or joined in a cavity that it fits; one loom is chosen, or all by hand.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_matrix

from tests.weighing.brute import HALVES, Car

PLUG = "p1"


class Programme:
    """Variables with their minutes and parts, rows of equations and bounds; solved for money or minutes."""

    def __init__(self, car: Car) -> None:
        self.car = car
        self.minutes: list[float] = []
        self.parts: list[float] = []
        self.cells: tuple[list[int], list[int], list[float]] = ([], [], [])
        self.low: list[float] = []
        self.high: list[float] = []
        ways = [self._by_hand()]
        for item in car.looms():
            ends = tuple(end for end in item.loom.ends if car.seats(PLUG, item.loom, end))
            uses = [(ends, "")] if len(ends) == len(item.loom.ends) else []
            if len(item.loom.ends) == 2:
                uses += [((end,), next(e for e in HALVES if e != end)) for end in ends]
            ways += [self._loom(item, *use) for use in uses]
        self._row([(way, 1) for way in ways], 1, 1)
        shape = (len(self.low), len(self.minutes))
        rows = csr_matrix((self.cells[2], (self.cells[0], self.cells[1])), shape=shape)
        self.limits = LinearConstraint(rows, np.array(self.low), np.array(self.high))
        self.money = np.array(self.parts) + np.array(self.minutes) * float(car.labour) / 60

    def solve(self, money: bool, most_minutes: float | None = None) -> float:
        """The least money in hundredths, or the least minutes; `most_minutes` as a bound beside."""
        limits = [self.limits]
        if most_minutes is not None:
            limits.append(LinearConstraint(np.array([self.minutes]), -np.inf, most_minutes + 1e-6))
        cost = self.money if money else np.array(self.minutes)
        answer = milp(cost, constraints=limits, integrality=np.ones(len(cost)), bounds=Bounds(0, 1))
        assert answer.success, answer.message
        return float(answer.fun)

    def _variable(self, minutes: Any = 0, parts: Any = 0) -> int:
        self.minutes.append(float(minutes))
        self.parts.append(float(parts))
        return len(self.minutes) - 1

    def _row(self, terms: Iterable[tuple[int, float]], low: float, high: float) -> None:
        for variable, factor in terms:
            self.cells[0].append(len(self.low))
            self.cells[1].append(variable)
            self.cells[2].append(factor)
        self.low.append(low)
        self.high.append(high)

    def _by_hand(self) -> int:
        mix, labour = self.car.by_hand(PLUG), self.car.labour / 60
        minutes, parts = mix.minutes, mix.money - mix.minutes * labour
        for kind, number in mix.joints:
            (one, *others) = sorted(self.car.methods(kind), key=lambda way: (way[1] + way[0] * labour, way[0]))
            # of these shops one method is the quickest and the cheapest of each kind
            assert all(one[0] <= other[0] for other in others), kind
            minutes, parts = minutes + number * one[0], parts + number * one[1]
        return self._variable(minutes, parts)

    def _loom(self, item: Any, ends: tuple[str, ...], gone: str) -> int:
        car = self.car
        rows = car.rows[PLUG]
        minutes = car.time("mate") * len(ends) + (car.time("cut end off") if gone else 0)
        here = self._variable(minutes, item.store.price.minor)
        locks = {end: self._variable(car.recheck("lock")) for end in ends}
        pull = car.time("pull") + car.recheck("position")
        move = car.time("move") + car.recheck("position") + car.recheck("tug")
        at_slot: dict[tuple[str, str], list[int]] = {}
        joined: dict[tuple[str, str], list[int]] = {}
        through: dict[str, list[int]] = {}
        for pins, says, free in car.wires(item.loom, gone):
            states = []
            fit = [cavity for cavity in rows if not says or rows[cavity] in says]

            def state(
                cost: Any, parts: Any, slots: list[tuple[str, str]], touched: set[str], states: list[int] = states
            ) -> int:
                new = self._variable(cost, parts)
                states.append(new)
                for slot in slots:
                    at_slot.setdefault(slot, []).append(new)
                for end in touched:
                    self._row([(locks[end], 1), (new, -1)], 0, np.inf)
                return new

            if len(pins) == 1:
                assert len(free) == 1
                ((end, own),) = pins
                state(pull, 0, [], {end})
                if own in fit:
                    state(car.time("cap"), car.piece("cap"), [(end, own)], set())
                for goal in fit:
                    moved = goal != own
                    one = state(move if moved else 0, 0, [(end, goal)], {end} if moved else set())
                    joined.setdefault((end, goal), []).append(one)
            else:
                assert not free
                own_at = dict(pins)
                state(2 * pull, 0, [], {"unit", "car"})
                for end, other in (("unit", "car"), ("car", "unit")):
                    if own_at[end] in fit:
                        state(pull, 0, [(end, own_at[end])], {other})
                for goal in fit:
                    if car.net[f"{PLUG}.unit.{goal}"] != car.net[f"{PLUG}.car.{goal}"]:
                        continue
                    touched = {end for end in ends if own_at[end] != goal}
                    one = state(move * len(touched), 0, [("unit", goal), ("car", goal)], touched)
                    through.setdefault(goal, []).append(one)
            self._row([*((each, 1) for each in states), (here, -1)], 0, 0)
        for slot in at_slot.values():
            self._row([*((each, 1) for each in slot), (here, -1)], -np.inf, 0)
        self._needs(here, joined, through)
        return here

    def _needs(self, here: int, joined: dict[tuple[str, str], list[int]], through: dict[str, list[int]]) -> None:
        """All that must be joined is, of the loom that is chosen."""
        car = self.car
        for cavity in car.rows[PLUG]:
            unit, behind = f"{PLUG}.unit.{cavity}", f"{PLUG}.car.{cavity}"
            if car.net[unit] == car.net[behind]:
                assert len(car.need(unit)) == 2
                factory = self._variable(*car.joint(True, True, car.place(PLUG), frozenset(car.need(unit))))
                lead = self._variable(*car.joint(False, True, "the bench"))
                self._row([*((w, 1) for w in through.get(cavity, ())), (factory, 1), (lead, 1), (here, -1)], 0, 0)
                self._row([*((w, 1) for w in joined.get(("unit", cavity), ())), (factory, -1), (lead, -1)], 0, 0)
                self._row([*((w, 1) for w in joined.get(("car", cavity), ())), (lead, -1)], 0, 0)
                continue
            for end, half in (("unit", unit), ("car", behind)):
                outs = car.need(half) - {half}
                wires = [(w, 1.0) for w in joined.get((end, cavity), ())]
                if not outs:
                    self._row(wires, 0, 0)
                    continue
                made = self._variable(*car.joint(False, True, car.lead_place(outs)))
                self._row([*wires, (made, -1)], 0, 0)
                ways = [(made, 1.0)]
                if end == "car":
                    ways.append(
                        (self._variable(*car.joint(True, True, car.place(PLUG), frozenset(car.need(half)))), 1.0)
                    )
                self._row([*ways, (here, -1)], 0, 0)
