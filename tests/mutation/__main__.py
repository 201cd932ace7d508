"""`python -m tests.mutation`: changes the checks, the graph and the electrical part one place at a time, and lists the
changes that no test notices.

Never part of the tests: all of it takes two hours or more. `--only graph/loads` takes the files whose path holds that,
`--sample 500` so many at random (`--seed`). SURVIVORS.md lists what the last run left, each with a reason.
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
from collections.abc import Callable, Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from time import perf_counter

from tests.mutation.hosted import judge_hosted
from tests.mutation.judging import ALIVE, NOTHING, Judge
from tests.mutation.mutants import Mutant
from tests.mutation.planted import exchanged
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
    judge = Judge(json.loads(recorded.read_text(encoding="utf-8")), asked.seconds)
    found: dict[Mutant, str] = {}
    start = perf_counter()

    def told(mutant: Mutant, how: str) -> None:
        found[mutant] = how
        if how in ALIVE:
            print(_line(mutant, how), file=sys.stderr, flush=True)
        if len(found) % 50 == 0:
            print(f"… {len(found)} of {len(mutants)}, {perf_counter() - start:.0f} s", file=sys.stderr, flush=True)

    judged(mutants, judge, asked.workers, told)
    print(_table([(mutant, found[mutant]) for mutant in mutants if found[mutant] != NOTHING]))


def judged(mutants: Sequence[Mutant], judge: Judge, workers: int, told: Callable[[Mutant, str], None]) -> None:
    """Tells of each mutant how it ended: first those that want the project imported anew, then all others."""
    within = [(mutant, exchanged(mutant)) for mutant in mutants]
    for mutant, codes in within:
        if codes is not None and not codes:
            told(mutant, NOTHING)
    anew = [mutant for mutant, codes in within if codes is None]
    with ProcessPoolExecutor(workers, get_context("fork")) as pool:
        for mutant, how in zip(anew, pool.map(judge.of, anew), strict=True):
            told(mutant, how)
    hosted = [(mutant, codes) for mutant, codes in within if codes]
    if hosted:
        judge_hosted(hosted, judge.chosen, judge.seconds, workers, told)


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("--only", default="", help="files whose path holds this")
    parser.add_argument("--sample", type=int, default=0, help="so many at random")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--seconds", type=float, default=4.0, help="of tests, as recorded, for each change at most")
    parser.add_argument("--recorded", default="", help="a file that keeps which test runs which line between two calls")
    return parser.parse_args()


def _record(into: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "tests.mutation.recording", *JUDGES],
        cwd=ROOT, env={**os.environ, "RECORDED": str(into)}, stdout=subprocess.PIPE, text=True, check=False,
    )  # fmt: skip
    if not into.is_file():
        raise SystemExit(f"nothing was recorded:\n{done.stdout[-2000:]}")
    if failed := json.loads(into.read_text(encoding="utf-8"))["failed"]:
        print(f"left out, since they fail or are skipped unchanged: {', '.join(failed)}", file=sys.stderr)


def _table(verdicts: list[tuple[Mutant, str]]) -> str:
    counted = Counter(how for _, how in verdicts)
    lines = [_line(mutant, how) for mutant, how in verdicts if how in ALIVE]
    counts = ", ".join(f"{count} {how}" for how, count in sorted(counted.items()))
    return "\n".join([*lines, f"{len(verdicts)} changes: {counts}; {len(lines) / max(1, len(verdicts)):.1%} alive"])


def _line(mutant: Mutant, how: str) -> str:
    return f"{Path(mutant.file).relative_to(ROOT)}:{mutant.line}: {mutant.what} ({how})"


if __name__ == "__main__":
    main()
