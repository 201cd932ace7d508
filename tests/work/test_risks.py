"""What is at risk between the steps equals what an oracle of its own finds, over random orders of small jobs."""

from __future__ import annotations

from collections import Counter

import pytest

from harness.prove import prove_text
from tests.work.small_jobs import small_job

ORDERS = 240
CODES = ("G10", "J13", "J14", "J15", "J16", "J17", "J18", "J19")


def told(text: str) -> set[tuple[int, str]]:
    first = next(at for at, line in enumerate(text.splitlines(), 1) if line == "steps:")
    report = prove_text(text, "small.yaml", steps=True).report
    assert report.verdict != "unreadable", report.findings
    assert not [each for each in report.unchecked if "step" in each.what]
    return {(each.places[0].place.line - first, each.code) for each in report.findings if each.code in CODES}


@pytest.mark.parametrize("seed", range(ORDERS))
def test_the_same_steps_are_at_risk(seed: int) -> None:
    job = small_job(seed)
    assert told(job.text()) == {(number, code.split()[0]) for number, code in job.risks()}, job.text()


def test_every_code_occurs_often_and_many_orders_are_sound() -> None:
    """An oracle that never speaks would agree with anything."""
    risks = [small_job(seed).risks() for seed in range(ORDERS)]
    seen = Counter(code.split()[0] for found in risks for code in {code for _, code in found})
    assert all(seen[code] >= 8 for code in CODES), seen
    assert sum(not found for found in risks) >= 40
