"""One change judged: by the fixtures that run its line, then by the tests that do. Each in a process of its own, since
the project is imported with the change in it.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from signal import SIGKILL
from time import monotonic, sleep
from typing import NoReturn

from tests.mutation.mutants import Mutant
from tests.mutation.subjects import a_few, best_first
from tests.mutation.trial import tried

# A change that makes a loop without end is noticed by anyone: so long, and so many times what the tests take.
_PATIENCE_S, _PATIENCE = 15.0, 4.0


NOTHING = "the same code"  # `1 - 0j` is `1 + 0j`: left out of every count
REFUSED = "refused by the type checker"  # told apart from what a test notices
ALIVE = ("alive", "run by no test", "not put in: nothing holds this function")


class Judge:
    """Knows which tests run which lines, and how long each takes. `again`: it looks at what lived once already."""

    def __init__(self, recorded: Mapping[str, object], most_s: float, *, again: bool = False) -> None:
        self.most_s, self.again = most_s, again
        self.seconds: dict[str, float] = recorded["seconds"]  # type: ignore[assignment]
        self._names = list(self.seconds)
        self._lines: dict[str, dict[str, list[int]]] = recorded["lines"]  # type: ignore[assignment]

    def of(self, mutant: Mutant) -> str:
        """Whether a test notices. Tests of the mutant's own file first, quick ones before slow ones."""
        tests = self.chosen(mutant, at_import=True)
        if not tests:
            return "run by no test"
        child = os.fork()
        if not child:
            _ended_as(mutant, tests)
        ended = _wait(child, _PATIENCE_S + _PATIENCE * sum(self.seconds[test] for test in tests))
        if ended is None:
            return "noticed: never ends"
        if ended not in (0, 1):
            return "noticed: can't be imported or breaks the run"
        return "noticed" if ended else "alive"

    def chosen(self, mutant: Mutant, *, at_import: bool = False) -> list[str]:
        """The tests that judge a mutant, the best first, as many as fit into `most_s` seconds as recorded.

        What runs `at_import` any test that runs the file may notice, and not just the one that imported it first.
        """
        ran = self._lines.get(mutant.file, {})
        first, last = mutant.statement
        named = {self._names[test] for line in range(first, last + 1) for test in ran.get(str(line), ())}
        if at_import or not named:
            inside = [int(line) for line in ran if ran[line]]
            if any(str(line) in ran for line in range(first, last + 1)):
                named = {self._names[test] for line in inside for test in ran[str(line)]}
                own = f"/test_{Path(mutant.file).stem}"
                named |= {test for test in self.seconds if own in test}
        chosen, seconds = [], 0.0
        ordered = best_first(mutant.file, named, self.seconds)
        for test in ordered if self.again else a_few(ordered):
            if seconds + self.seconds[test] <= self.most_s:
                seconds += self.seconds[test]
                chosen.append(test)
        return chosen


def _ended_as(mutant: Mutant, tests: Sequence[str]) -> NoReturn:
    """Leaves the process, whatever happens in it: what stands above belongs to the parent."""
    code = 2
    try:
        _be_silent()
        code = tried(mutant, tests)
    finally:
        os._exit(code)


def _be_silent() -> None:
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)


def _wait(child: int, patience_s: float) -> int | None:
    """A child's exit code; None where patience ran out and it was stopped."""
    until = monotonic() + patience_s
    pause_s = 0.005
    while monotonic() < until:
        ended, status = os.waitpid(child, os.WNOHANG)
        if ended:
            return os.waitstatus_to_exitcode(status)
        sleep(pause_s)
        pause_s = min(pause_s * 1.5, 0.2)
    os.kill(child, SIGKILL)
    os.waitpid(child, 0)
    return None
