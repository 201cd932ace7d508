"""Twenty thousand damaged jobs through everything that `ringout check` does: an answer each time."""

from __future__ import annotations

import random
import re
import time
from collections import Counter
from pathlib import Path

import pytest

from harness.prove import prove_text
from tests.read.conftest import garbled, spoilt

ROOT = Path(__file__).parents[2]
FILES = 20_000
PARTS = 8
LONGEST_S = 10.0  # for one small file, on a machine that does other things as well


def _whole_jobs() -> list[Path]:
    folders = (ROOT / "samples", ROOT / "tests" / "read" / "jobs", *sorted((ROOT / "tests" / "checks").iterdir()))
    files = [path for folder in folders if folder.is_dir() for path in sorted(folder.glob("*.yaml"))]
    return [path for path in files if ".evidence." not in path.name and path.name != "shop.yaml"]


def _shuffled(text: str, seed: int) -> str:
    """A job that mostly still reads: lines gone or exchanged, last words exchanged, other numbers."""
    draw = random.Random(seed)
    lines = text.split("\n")
    for _ in range(draw.choice((1, 1, 2, 3))):
        one, other, kind = draw.randrange(len(lines)), draw.randrange(len(lines)), draw.randrange(4)
        numbers = list(re.finditer(r"[0-9]+", lines[one]))
        if kind == 0:
            del lines[one]
        elif kind == 1:
            lines[one], lines[other] = lines[other], lines[one]
        elif kind == 2:
            head, _, word = lines[one].rpartition(" ")
            other_head, _, other_word = lines[other].rpartition(" ")
            lines[one], lines[other] = f"{head} {other_word}", f"{other_head} {word}"
        elif numbers:
            number = draw.choice(numbers)
            lines[one] = lines[one][: number.start()] + str(draw.randrange(40)) + lines[one][number.end() :]
    return "\n".join(lines)


def _damaged(text: str, seed: int) -> str:
    if seed % 4 == 0:
        return garbled(text, seed).decode("utf-8", "replace")
    return spoilt(text, seed) if seed % 4 == 1 else _shuffled(text, seed)


@pytest.mark.parametrize("part", range(PARTS))
def test_every_damaged_job_gets_exit_0_1_or_2(part: int) -> None:
    """Under pytest a check that raises is not caught, so it fails here."""
    jobs = [(str(path), path.read_text(encoding="utf-8")) for path in _whole_jobs()]
    exits: Counter[int] = Counter()
    for seed in range(part * FILES // PARTS, (part + 1) * FILES // PARTS):
        file, text = jobs[seed % len(jobs)]
        start = time.perf_counter()
        try:
            exits[prove_text(_damaged(text, seed), file).report.exit_code] += 1
        except Exception as wrong:
            raise AssertionError(f"seed {seed} of {file}: {type(wrong).__name__} {wrong}") from wrong
        assert time.perf_counter() - start < LONGEST_S, f"seed {seed} of {file}"

    # the damage must not be so heavy that nothing is left to prove
    assert set(exits) == {0, 1, 2}
    assert exits[0] + exits[1] > FILES // PARTS // 8
