"""Records that no longer hold: which are asked for anew, by a few records of one job."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import outdated
from tests.graph.test_contrary_rules import recorded

OLD = 'fact: ["1 FL+ GN"]'  # the chart said otherwise then
PAIR = frozenset(("dash.car.1", "dash.car.2"))


@pytest.mark.parametrize(
    ("records", "lines", "toned"),
    [
        ((f"tone: dash.car.1/2, heard: FL, {OLD}",), [1], {PAIR}),
        ((f"tone: dash.unit.1/2, heard: FL, {OLD}",), [1], {PAIR}),
        ((f"ohm: dash.car.1/2, reads: 3 ohm, {OLD}",), [1], set()),
        # one that holds stands in for it, either way round and at either half; of another kind or place it doesn't
        ((f"tone: dash.car.1/2, heard: FL, {OLD}", "tone: dash.unit.2/1, heard: FL"), [], set()),
        ((f"tone: dash.car.1/2, heard: FL, {OLD}", "ohm: dash.car.1/2, reads: 3 ohm"), [1], {PAIR}),
        ((f"tone: dash.car.1/2, heard: FL, {OLD}", "tone: dash.car.3/4, heard: FR"), [1], {PAIR}),
        ((f"tone: dash.car.1/2, heard: FL, {OLD}", f"tone: dash.car.1/2, heard: FL, {OLD}"), [2], {PAIR}),
        # one that names what isn't in the job is about no pair; one of another car is none of this one
        (("tone: dash.car.21/22, heard: FL",), [1], set()),
        (("tone: dash.car.1/2, heard: FL, car: Larch van",), [], set()),
        # volts in another state of the key are another thing
        ((f"volts: dash.car.1, reads: 3 V, key: run, {OLD}", "volts: dash.car.1, reads: 0 V, key: out"), [1], set()),
        ((f"volts: dash.car.1, reads: 3 V, key: run, {OLD}", "volts: dash.car.1, reads: 0 V, key: run"), [], set()),
    ],
)  # fmt: skip
def test_what_no_longer_holds(
    records: tuple[str, ...], lines: list[int], toned: set[frozenset[str]], tmp_path: Path
) -> None:
    wiring = recorded(tmp_path, *records)
    assert [each.place.line for each in outdated.outdated(wiring)] == lines
    assert outdated.toned_before(wiring) == toned
