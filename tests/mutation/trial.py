"""The project imported with one change in it, and the tests that run the changed line.

Runs in a process that has imported none of the project before, and that ends afterwards.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from pathlib import Path

import pytest

from tests.checks.marks import FOLDER, Mark, by_steps, marks_of
from tests.mutation.mutants import Mutant
from tests.mutation.planted import plant
from tests.mutation.subjects import FIXTURE, ROOT


def tried(mutant: Mutant, tests: Sequence[str]) -> int:
    """0 where no test notices, 1 where one does."""
    plant(mutant, ROOT)
    fixtures = [match[1] for test in tests if (match := FIXTURE.search(test))]
    if any(noticed_by(name) for name in fixtures):
        return 1
    others = [test for test in tests if not FIXTURE.search(test)]
    return 1 if others and pytest.main(["-x", "-q", "-p", "no:cacheprovider", *others]) else 0


def noticed_by(name: str) -> bool:
    """As `test_exactly_the_marked_findings`, without the time that pytest takes to begin."""
    from harness.prove import prove

    job = FOLDER / f"{name}.yaml"
    try:
        findings = prove(job, mends=False, steps=by_steps(job)).report.findings
    except Exception:  # whatever it is, a test would have failed
        return True
    places = [(finding.code, finding.places[0].place) for finding in findings]
    return Counter(Mark(code, Path(place.file).name, place.line) for code, place in places) != marks_of(job)
