"""Many looms with a few things wrong at one plug: the whole front against one `milp` (HiGHS) of the same problem."""

from __future__ import annotations

import gc
from time import perf_counter

from tests.benchmarks.ratio import Result
from tests.weighing.large import large
from tests.weighing.repin_milp import Programme
from tests.weighing.test_repin_against_milp import weighed


def against_milp(*, small: bool) -> list[Result]:
    """Forty looms at a plug of sixty ways, twenty of them opened; `small` a few looms at a small plug.

    One solve for the least money takes a minute and more, so each is run once, the one after the other; the matrix of
    the programme is made beforehand, while the front is measured from the job as read, with all that goes before it.
    """
    ways, looms, opened = (10, 4, 4) if small else (60, 40, 20)
    texts = large(1, ways, looms, opened)
    gc.collect()
    start = perf_counter()
    points, told, car = weighed(*texts)
    took = perf_counter() - start
    assert not told
    programme = Programme(car)
    start = perf_counter()
    least = programme.solve(money=True)
    floor = perf_counter() - start
    assert abs(least - min(point.cost.money for point in points) / 3_600_000) < 1e-3
    what = f"re-pinned: {looms} looms, {ways} ways, {opened} opened: front of {len(points)}, with reading"
    return [Result(what, floor, took, "s", len(points) + 1.0)]
