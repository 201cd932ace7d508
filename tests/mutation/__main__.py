"""`python -m tests.mutation`: changes the checks, the graph and the electrical part one place at a time, and lists the
changes that no test notices.

Never part of the tests: all of it takes an hour or more. `--only graph/loads` takes the files whose path holds that,
`--sample 500` so many at random (`--seed`).
"""

from __future__ import annotations

import argparse
import importlib
import json
import os
import random
import subprocess
import sys
import tempfile
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from time import perf_counter

from tests.mutation.judging import Judge, Verdict
from tests.mutation.mutants import Mutant
from tests.mutation.subjects import JUDGES, ROOT, all_mutants


def main() -> None:
    asked = _asked()
    mutants = all_mutants(asked.only)
    if asked.sample and asked.sample < len(mutants):
        mutants = sorted(random.Random(asked.seed).sample(mutants, asked.sample))
    recorded = Path(asked.recorded) if asked.recorded else Path(tempfile.mkdtemp()) / "recorded.json"
    if not recorded.is_file():
        _record(recorded)
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"  # the judges need none, and finding them takes time
    for library in ("networkx", "numpy", "hypothesis", "yaml", "click"):
        importlib.import_module(library)  # once here, not again for each change
    judge = Judge(json.loads(recorded.read_text()))
    start = perf_counter()
    verdicts: list[tuple[Mutant, Verdict]] = []
    with ProcessPoolExecutor(asked.workers, get_context("fork")) as pool:
        for number, (mutant, verdict) in enumerate(zip(mutants, pool.map(judge.of, mutants), strict=True), start=1):
            verdicts.append((mutant, verdict))
            if number % 50 == 0:
                print(f"… {number} of {len(mutants)}, {perf_counter() - start:.0f} s", file=sys.stderr, flush=True)
    print(_table(verdicts))


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("--only", default="", help="files whose path holds this")
    parser.add_argument("--sample", type=int, default=0, help="so many at random")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--recorded", default="", help="a file that keeps which test runs which line between two calls")
    return parser.parse_args()


def _record(into: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-x", "-p", "tests.mutation.recording", *JUDGES],
        cwd=ROOT, env={**os.environ, "RECORDED": str(into)}, stdout=subprocess.PIPE, text=True, check=False,
    )  # fmt: skip
    if done.returncode:
        raise SystemExit(f"the tests must pass before anything is changed:\n{done.stdout[-2000:]}")


def _table(verdicts: list[tuple[Mutant, Verdict]]) -> str:
    counted = Counter(verdict.how for _, verdict in verdicts)
    alive = [(mutant, verdict) for mutant, verdict in verdicts if verdict.alive]
    lines = [
        f"{Path(mutant.file).relative_to(ROOT)}:{mutant.line}: {mutant.what} ({verdict.how})"
        for mutant, verdict in alive
    ]
    share = len(alive) / len(verdicts) if verdicts else 0.0
    counts = ", ".join(f"{count} {how}" for how, count in sorted(counted.items()))
    return "\n".join([*lines, f"{len(verdicts)} changes: {counts}; {share:.1%} alive"])


if __name__ == "__main__":
    main()
