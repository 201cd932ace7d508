"""Orders of work against a second reading of them: the same risks at the same steps."""

from __future__ import annotations

from collections import Counter

import pytest

from harness.prove import prove_text
from tests.work.oracle import Oracle
from tests.work.random_orders import RandomOrder

SEEDS = range(200)
CODES = frozenset(("G10", "J13", "J14", "J15", "J16", "J17", "J18", "J19"))


def told(order: RandomOrder) -> set[tuple[int, str]]:
    report = prove_text(order.text, "order.yaml", steps=True).report
    assert report.verdict != "unreadable", [finding.message for finding in report.findings]
    assert not [each for each in report.unchecked if "step" in each.what]
    return {
        (finding.places[0].place.line - order.first_step + 1, finding.code)
        for finding in report.findings
        if finding.code in CODES
    }


@pytest.mark.parametrize("seed", SEEDS)
def test_the_same_risks_at_the_same_steps(seed: int) -> None:
    order = RandomOrder(seed)
    assert told(order) == Oracle(order).risks, order.text


def test_the_orders_hold_every_risk_and_none() -> None:
    """So that no code agrees only because it never comes."""
    found = [Oracle(RandomOrder(seed)).risks for seed in SEEDS]
    times = Counter(code for risks in found for code in {code for _, code in risks})
    assert set(times) == CODES
    assert min(times.values()) >= 5, times
    assert sum(not risks for risks in found) >= 5
