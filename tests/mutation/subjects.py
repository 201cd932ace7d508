"""What is changed, and by which tests it is judged."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from itertools import chain, zip_longest
from pathlib import Path

from tests.mutation.mutants import Mutant, mutants_of

ROOT = Path(__file__).resolve().parents[2]
SUBJECTS = ("harness/checks", "harness/graph", "harness/electrical", "harness/patterns", "harness/patterns/known")

# Charts drawn at random and put right take longer than all others together, and are about edits of the file.
PATTERNS = tuple(f"tests/patterns/test_{name}.py" for name in (
    "any_tones", "by_hand", "chance", "next_tone", "ohms", "planted", "records",
))  # fmt: skip
ALONE = tuple(f"tests/checks/{path.name}" for path in sorted((ROOT / "tests/checks").glob("test_alone_*.py")))
RECORD = tuple(f"tests/cli/{path.name}" for path in sorted((ROOT / "tests/cli").glob("test_record*.py")))
# Whole pages, processes, random searches and damaged jobs are slow and see little that these don't.
JUDGES = (
    "tests/checks/test_fixtures.py", "tests/checks/test_offers.py", "tests/checks/test_hides.py",
    "tests/checks/test_needs.py", "tests/checks/test_numbers.py", "tests/checks/test_transformed.py",
    "tests/checks/test_far_causes.py", "tests/checks/test_companions.py", "tests/checks/test_told_whole.py",
    "tests/checks/test_words.py", "tests/checks/test_two_jobs.py", *ALONE,
    "tests/electrical", "tests/graph", "tests/joints", "tests/planning", *PATTERNS,
    "tests/prove/test_not_checked.py", "tests/prove/test_not_written.py", "tests/prove/test_presets_differ.py",
    "tests/work", "tests/read/test_names.py", "tests/samples", "tests/worked_examples", "tests/render/documents",
    "tests/cli/test_explain.py", "tests/cli/test_check.py", "tests/cli/test_check_steps.py",
    "tests/cli/test_report_text.py", *RECORD, "tests/again", "tests/locate",
)  # fmt: skip
# Jobs of a few lines that say exactly what is told of them: these see most in the least time.
BY_HAND = (*ALONE, "tests/graph/")
AT_MOST_TESTS = 120  # that judge one change at first
_MOST_OWN = 80  # before any other
AT_MOST_FIXTURES = 160  # fixtures beside them: each takes some milliseconds
FIXTURE = re.compile(r"test_fixtures\.py::test_exactly_the_marked_findings\[(\w+/\w+)\]$")


def best_first(file: str, tests: Iterable[str], seconds: Mapping[str, float]) -> list[str]:
    """All tests that may judge a line of a file, those of the file's own code or name first.

    Then quick ones, but of each test function and each code's fixtures the quickest before the second of any: sixty
    of one kind see less than one each of sixty.
    """
    code, stem = f"[{Path(file).stem.partition('_')[0].upper()}/", f"/test_{Path(file).stem}"
    known = sorted((test for test in tests if test in seconds), key=lambda test: (seconds[test], test))
    own = list(_in_turn(test for test in known if code in test or stem in test))
    marked = [test for test in own if FIXTURE.search(test)]
    alone, by_hand = (_in_turn(test for test in known if test.startswith(kind)) for kind in (ALONE, BY_HAND))
    # a test drawn five hundred times must not take the place of all others
    return list(dict.fromkeys(chain(marked, alone, own[:_MOST_OWN], by_hand, _in_turn(known))))


def a_few(tests: Iterable[str]) -> Iterator[str]:
    """So many of them as most changes need to be noticed, in the same order."""
    left = {True: AT_MOST_FIXTURES, False: AT_MOST_TESTS}
    for test in tests:
        kind = FIXTURE.search(test) is not None
        if left[kind]:
            left[kind] -= 1
            yield test


def _in_turn(tests: Iterable[str]) -> Iterator[str]:
    kinds: dict[str, list[str]] = {}
    for test in tests:
        kind = test.rpartition("/")[0] if FIXTURE.search(test) else test.partition("[")[0]
        kinds.setdefault(kind, []).append(test)
    return (test for row in zip_longest(*kinds.values()) for test in row if test is not None)


def all_mutants(only: str = "") -> list[Mutant]:
    """Every mutant of the subjects' files whose path holds `only`, a pattern."""
    made = []
    for subject in SUBJECTS:
        for path in sorted((ROOT / subject).glob("*.py")):
            if re.search(only, str(path)):
                made += mutants_of(path.read_text(encoding="utf-8"), str(path))
    return made
