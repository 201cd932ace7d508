"""Larger cases against scipy's `milp` (HiGHS): the same best plan, and no plan between two points of the front."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from harness.model.money import Money
from harness.model.parts import Store
from harness.model.shop import InDrawer
from harness.place import Place
from harness.weighing.combine import front
from harness.weighing.hand import Cost
from harness.weighing.mixes import PlugMix, Used
from harness.weighing.series import Cover, cheapest, covers

LOOMS, CIRCUITS = 40, 60
NOWHERE = Place("shop.yaml", 1, 1)


def looms_over_circuits(seed: int, share: float) -> list[Cover]:
    """Forty looms, each with leads for some of sixty circuits; every circuit has one. Cost: minutes, hundredths."""
    draw = random.Random(seed)
    made = [sum(1 << c for c in range(CIRCUITS) if draw.random() < share) for _ in range(LOOMS)]
    for circuit in range(CIRCUITS):
        if not any(each >> circuit & 1 for each in made):
            made[draw.randrange(LOOMS)] |= 1 << circuit
    return [Cover(each, (draw.randrange(1, 9), draw.randrange(5, 60) * 100)) for each in made]


def _milp_cover(sets: list[Cover], weight: int, most: tuple[int, int] | None = None) -> int:
    """The least sum of one number of the cost, while the other one stays at most so high."""
    rows = [[each.covers >> c & 1 for each in sets] for c in range(CIRCUITS)]
    limits = [LinearConstraint(np.array(rows), lb=1)]
    if most is not None:
        limits.append(LinearConstraint(np.array([[each.cost[most[0]] for each in sets]]), ub=most[1]))
    answer = milp(
        np.array([each.cost[weight] for each in sets]), constraints=limits, integrality=np.ones(len(sets)),
        bounds=Bounds(0, 1),
    )  # fmt: skip
    assert answer.success
    return round(answer.fun)


@pytest.mark.parametrize("share", [0.08, 0.12, 0.2])
@pytest.mark.parametrize("seed", range(4))
def test_forty_looms_over_sixty_circuits(seed: int, share: float) -> None:
    sets = looms_over_circuits(seed, share)
    whole = (1 << CIRCUITS) - 1
    found = [cost for cost, _ in covers(sets, whole)]
    assert min(cost[1] for cost in found) == _milp_cover(sets, 1)
    assert min(cost[0] for cost in found) == _milp_cover(sets, 0)
    best = cheapest(sets, whole)
    assert best is not None
    assert best[0][1] == _milp_cover(sets, 1)
    for cost in found:  # for these minutes nothing costs less
        assert cost[1] == _milp_cover(sets, 1, (0, cost[0]))


def _car(seed: int) -> tuple[list[list[PlugMix]], dict[str, int | None]]:
    """Eight plugs, for each by hand and with some of six looms, of which there are few."""
    draw = random.Random(seed)
    stock: dict[str, int | None] = {f"L{at}": draw.choice((None, 1, 2)) for at in range(6)}
    items = {
        name: InDrawer(name, None, Store(Money(0, "EUR"), number, ""), None, NOWHERE) for name, number in stock.items()
    }
    made = []
    for at in range(8):
        plug = f"p{at}"
        mixes = [_mix(plug, (), draw, cuts=draw.randrange(1, 9), dear=0)]
        for name in draw.sample(sorted(items), 3):
            used = Used(f"{name}@{plug}", items[name], ("unit", "car"), "")
            mixes.append(_mix(plug, (used,), draw, cuts=0, dear=draw.randrange(5, 90)))
        made.append(mixes)
    return made, stock


def _mix(plug: str, looms: tuple[Used, ...], draw: random.Random, *, cuts: int, dear: int) -> PlugMix:
    cost = Cost(draw.randrange(1, 40), draw.randrange(1, 60) + dear, cuts, 0, 0)
    return PlugMix(plug, ("x",), looms, (), (), (), (), (), cost, 0)


def _milp_car(by_plug: list[list[PlugMix]], stock: dict[str, int | None], limits: dict[int, int], weight: int) -> int:
    flat = [(at, mix) for at, mixes in enumerate(by_plug) for mix in mixes]
    held = [LinearConstraint(np.array([[float(at == plug) for at, _ in flat] for plug in range(len(by_plug))]), 1, 1)]
    for name, most in stock.items():
        if most is not None:
            held.append(
                LinearConstraint(
                    np.array([[float(any(u.item.name == name for u in m.looms)) for _, m in flat]]), ub=most
                )
            )
    for number, most in limits.items():
        held.append(LinearConstraint(np.array([[float(mix.cost[number]) for _, mix in flat]]), ub=most))
    answer = milp(
        np.array([mix.cost[weight] for _, mix in flat]), constraints=held, integrality=np.ones(len(flat)),
        bounds=Bounds(0, 1),
    )  # fmt: skip
    assert answer.success
    return round(answer.fun)


@pytest.mark.parametrize("seed", range(4))
def test_a_car_of_eight_plugs_and_few_looms(seed: int) -> None:
    by_plug, stock = _car(seed)
    points = front(by_plug)
    for number in range(3):
        assert min(point.cost[number] for point in points) == _milp_car(by_plug, stock, {}, number)
    for point in points[:: max(1, len(points) // 8)]:
        limits = {0: point.cost.time_ms, 2: point.cost.cuts}
        assert point.cost.money == _milp_car(by_plug, stock, limits, 1)
    # and none is missing: within limits drawn at random the front has what milp finds
    draw = random.Random(seed)
    for _ in range(8):
        one = draw.choice(points)
        limits = {0: one.cost.time_ms + draw.randrange(20), 2: one.cost.cuts + draw.randrange(4)}
        inside = [p.cost.money for p in points if p.cost.time_ms <= limits[0] and p.cost.cuts <= limits[2]]
        assert min(inside) == _milp_car(by_plug, stock, limits, 1)
