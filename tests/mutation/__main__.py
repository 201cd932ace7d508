"""`python -m tests.mutation`: changes the checks, the graph and the electrical part one place at a time, and lists the
changes that no test notices.

Never part of the tests: all of it takes hours. `--only graph/loads` takes the files whose path holds that (a pattern),
`--sample 500` so many at random (`--seed`). What lives through a few seconds of tests gets more of them, and then the
type checker, which is part of what CI runs. SURVIVORS.md lists what the last run left, each with a reason.
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
from tests.mutation.judging import ALIVE, NOTHING, REFUSED, Judge
from tests.mutation.mutants import Mutant
from tests.mutation.planted import exchanged
from tests.mutation.subjects import JUDGES, ROOT, all_mutants
from tests.mutation.typed import TypeChecker


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
    known = json.loads(recorded.read_text(encoding="utf-8"))
    found = _apart(mutants, Judge(known, asked.seconds), asked.workers)
    lived = [mutant for mutant in mutants if found[mutant] in ALIVE]
    if asked.again > asked.seconds and lived:
        print(f"{len(lived)} lived through {asked.seconds:g} s of tests; again", file=sys.stderr, flush=True)
        found |= _apart(lived, Judge(known, asked.again, again=True), asked.workers)
    checker = TypeChecker()
    for mutant in mutants:
        if found[mutant] in ALIVE and checker.refuses(mutant):
            found[mutant] = REFUSED
    print(_table([(mutant, found[mutant]) for mutant in mutants if found[mutant] != NOTHING]))


def _apart(mutants: Sequence[Mutant], judge: Judge, workers: int) -> dict[Mutant, str]:
    """How each ended, found out in a process that imports the project and is gone afterwards."""
    reader, writer = os.pipe()
    child = os.fork()
    if not child:
        code = 1
        try:
            os.close(reader)
            found = _found(mutants, judge, workers)
            with os.fdopen(writer, "w", encoding="utf-8") as out:
                json.dump([found[mutant] for mutant in mutants], out)
            code = 0
        finally:
            os._exit(code)
    os.close(writer)
    with os.fdopen(reader, encoding="utf-8") as answer:
        said = answer.read()
    if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]):
        raise SystemExit("the changes could not be judged")
    return dict(zip(mutants, json.loads(said), strict=True))


def _found(mutants: Sequence[Mutant], judge: Judge, workers: int) -> dict[Mutant, str]:
    """How each ended. Leaves the project imported in this process."""
    found: dict[Mutant, str] = {}
    start = perf_counter()

    def told(mutant: Mutant, how: str) -> None:
        found[mutant] = how
        if len(found) % 50 == 0:
            print(f"… {len(found)} of {len(mutants)}, {perf_counter() - start:.0f} s", file=sys.stderr, flush=True)

    judged(mutants, judge, workers, told)
    return found


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
    parser.add_argument("--only", default="", help="files whose path holds this, a pattern")
    parser.add_argument("--sample", type=int, default=0, help="so many at random")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--seconds", type=float, default=4.0, help="of tests, as recorded, for each change at most")
    parser.add_argument("--again", type=float, default=20.0, help="as many for each change that lived through those")
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
    shares = []
    for part in sorted({_part(mutant) for mutant, _ in verdicts}):
        here = [how for mutant, how in verdicts if _part(mutant) == part]
        alive = sum(how in ALIVE for how in here)
        shares.append(f"{part}: {len(here)} changes, {alive} alive, {alive / len(here):.1%}")
    counts = ", ".join(f"{count} {how}" for how, count in sorted(counted.items()))
    all_of_them = f"{len(verdicts)} changes: {counts}; {len(lines) / max(1, len(verdicts)):.1%} alive"
    return "\n".join([*lines, *shares, all_of_them])


def _part(mutant: Mutant) -> str:
    return str(Path(mutant.file).parent.relative_to(ROOT))


def _line(mutant: Mutant, how: str) -> str:
    return f"{Path(mutant.file).relative_to(ROOT)}:{mutant.line}: {mutant.what} ({how})"


if __name__ == "__main__":
    main()
