"""A check in one process against PyYAML's C loader on the same file, over sizes."""

from __future__ import annotations

import tempfile
from collections.abc import Sequence
from pathlib import Path

import yaml

from harness.prove import prove
from tests.benchmarks.jobs import job_text
from tests.benchmarks.ratio import Result, alternate

SIZES = (100, 1_000, 10_000, 100_000)
GROWTH = 1.4  # the ratio at the largest size to that at 1,000


def load(path: Path) -> object:
    with path.open("rb") as stream:
        return yaml.load(stream, Loader=yaml.CSafeLoader)


def sizes(rounds: int, contacts: Sequence[int] = SIZES, *, mends: bool = False) -> list[Result]:
    """One result a size, then the growth of the ratio. `mends`: with the search for the smallest changes."""
    results = []
    how = "check with mends" if mends else "check"
    with tempfile.TemporaryDirectory() as folder:
        for size in contacts:
            path = Path(folder) / f"bays-{size}.yaml"
            path.write_text(job_text(size), encoding="utf-8")
            few = rounds if size < 50_000 else max(1, rounds // 3)
            floor, subject = alternate(lambda p=path: load(p), lambda p=path: prove(p, mends=mends), few)  # type: ignore[misc]
            target = 5.0 if size >= 100_000 else 4.0
            what = f"{how}, {size:,} contacts / C loader"
            results.append(Result(what, floor * 1e3, subject * 1e3, "ms", target))
    return results


def growth(results: Sequence[Result]) -> Result:
    """How the ratio grows from 1,000 contacts (or the smallest size run) to the largest."""
    first = next((each for each in results if " 1,000 " in each.what), results[0])
    size = first.what.split(", ", 1)[1].split(" / ")[0]
    return Result(f"ratio at the largest / at {size}", first.ratio, results[-1].ratio, "x", GROWTH)
