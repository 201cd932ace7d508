"""The best plan and the whole front of forty looms over sixty circuits, against one `milp` (HiGHS) of the same."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from harness.weighing.series import Cover, cheapest, covers
from tests.benchmarks.ratio import Result, alternate
from tests.weighing.test_against_milp import CIRCUITS, LOOMS, looms_over_circuits

ONE_PLAN = 2.0
SHARES = (0.08, 0.12, 0.2)  # of the circuits that a loom has leads for
SEEDS = (0, 1, 2)


def _milp(sets: list[Cover]) -> Callable[[], object]:
    """One solve for the least money, its matrix made beforehand."""
    rows = np.array([[each.covers >> c & 1 for each in sets] for c in range(CIRCUITS)])
    costs = np.array([each.cost[1] for each in sets])
    limits, whole = LinearConstraint(rows, lb=1), np.ones(len(sets))
    return lambda: milp(costs, constraints=limits, integrality=whole, bounds=Bounds(0, 1))


def against_milp(rounds: int) -> list[Result]:
    """For each case the best plan, then the whole front, whose target is the number of its points and one."""
    made = []
    everything = (1 << CIRCUITS) - 1
    for share in SHARES:
        for seed in SEEDS:
            sets = looms_over_circuits(seed, share)
            points = len(covers(sets, everything))
            what = f"{LOOMS} looms, {CIRCUITS} circuits, {share:.0%} each, case {seed}"
            for name, run, target in (
                ("best plan", lambda sets=sets: cheapest(sets, everything), ONE_PLAN),
                (f"front of {points}", lambda sets=sets: covers(sets, everything), points + 1.0),
            ):
                floor, subject = alternate(_milp(sets), run, rounds)
                made.append(Result(f"{what}: {name}", 1e3 * floor, 1e3 * subject, "ms", target))
    return made
