"""What is changed, and by which tests it is judged."""

from __future__ import annotations

from pathlib import Path

from tests.mutation.mutants import Mutant, mutants_of

ROOT = Path(__file__).resolve().parents[2]
SUBJECTS = ("harness/checks", "harness/graph", "harness/electrical")

# Whole pages, processes and random searches are slow and see little that these don't.
JUDGES = (
    "tests/checks/test_fixtures.py", "tests/checks/test_offers.py", "tests/checks/test_hides.py",
    "tests/checks/test_needs.py", "tests/checks/test_transformed.py", "tests/checks/test_far_causes.py",
    "tests/electrical", "tests/graph", "tests/joints", "tests/planning", "tests/prove",
    "tests/read/test_names.py", "tests/samples", "tests/worked_examples", "tests/render/documents",
    "tests/cli/test_explain.py",
)  # fmt: skip
AT_MOST_TESTS = 60  # that judge one change


def all_mutants(only: str = "") -> list[Mutant]:
    """Every mutant of the subjects' files whose path holds `only`."""
    made = []
    for subject in SUBJECTS:
        for path in sorted((ROOT / subject).glob("*.py")):
            if only in str(path):
                made += mutants_of(path.read_text(encoding="utf-8"), str(path))
    return made
