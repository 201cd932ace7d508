"""Many changes judged in one run of pytest: the tests are collected once, and each change is put into the functions
of a child process.

Only for changes within functions: what runs at import has run before the child is there.
"""

from __future__ import annotations

import gc
import importlib
import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from pathlib import Path
from signal import ITIMER_PROF, SIG_DFL, SIGPROF, setitimer, signal
from types import CodeType, FunctionType
from typing import NoReturn

import pytest

from tests.mutation.caches import empty_caches
from tests.mutation.mutants import Mutant
from tests.mutation.subjects import FIXTURE, JUDGES, ROOT

_AT_LEAST_S, _TIMES = 2.0, 8.0  # what a test may take, and so many times what it took: a loop without end is noticed
Chosen = Callable[[Mutant], list[str]]
Told = Callable[[Mutant, str], None]


def judge_hosted(
    mutants: Sequence[tuple[Mutant, Mapping[CodeType, CodeType]]],
    chosen: Chosen, seconds: Mapping[str, float], workers: int, told: Told,
) -> None:  # fmt: skip
    """Tells of each mutant how it ended. Leaves the project imported in this process."""
    os.chdir(ROOT)
    host = _Host(mutants, chosen, seconds, workers, told)
    pytest.main(["-q", "-s", "-p", "no:cacheprovider", "-p", "no:unraisableexception", *JUDGES], plugins=[host])
    if host.left:
        raise SystemExit(f"pytest ended before {len(host.left)} changes were judged")


class _Host:
    def __init__(
        self, mutants: Sequence[tuple[Mutant, Mapping[CodeType, CodeType]]],
        chosen: Chosen, seconds: Mapping[str, float], workers: int, told: Told,
    ) -> None:  # fmt: skip
        self.left = list(reversed(mutants))
        self.chosen, self.seconds, self.workers, self.told = chosen, seconds, workers, told
        self.failed = False

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.failed |= report.failed

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        if session.testsfailed:
            raise session.Failed("the tests can't be collected")
        items = {item.nodeid: item for item in session.items}
        for mutant, _ in self.left:  # what is imported only when it is called must be there to be changed
            importlib.import_module(".".join(Path(mutant.file).relative_to(ROOT).with_suffix("").parts))
        functions: dict[CodeType, list[FunctionType]] = {}
        inside = f"{ROOT}/harness/"
        for each in gc.get_objects():
            if isinstance(each, FunctionType) and each.__code__.co_filename.startswith(inside):
                functions.setdefault(each.__code__, []).append(each)
        gc.collect()
        gc.freeze()
        self._nothing_is_not_noticed(functions, items)
        running: dict[int, Mutant] = {}
        while self.left or running:
            if self.left and len(running) < self.workers:
                mutant, codes = self.left.pop()
                if codes and not functions.keys() & codes.keys():
                    self.told(mutant, "not put in: nothing holds this function")
                    continue
                tests = self.chosen(mutant)
                if not tests:
                    self.told(mutant, "run by no test")
                    continue
                child = os.fork()
                if not child:
                    self._ended_as(codes, functions, [test for test in tests if test in items], items)
                running[child] = mutant
                continue
            child, status = os.wait()
            self.told(running.pop(child), _words(os.waitstatus_to_exitcode(status)))
        return True

    def _nothing_is_not_noticed(
        self, functions: Mapping[CodeType, list[FunctionType]], items: Mapping[str, pytest.Item]
    ) -> None:
        """A change of nothing lives. Where a test fails for another reason, every change would seem to be noticed."""
        tests = {test: None for mutant, _ in self.left[:: max(1, len(self.left) // 5)] for test in self.chosen(mutant)}
        child = os.fork()
        if not child:
            self._ended_as({}, functions, [test for test in tests if test in items], items)
        if _words(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])) != "alive":
            raise pytest.UsageError("a change of nothing was noticed: a test fails for another reason")

    def _ended_as(
        self, codes: Mapping[CodeType, CodeType], functions: Mapping[CodeType, list[FunctionType]],
        tests: Sequence[str], items: Mapping[str, pytest.Item],
    ) -> NoReturn:  # fmt: skip
        """Leaves the process, whatever happens in it."""
        code = 2
        try:
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in (0, 1, 2):
                os.dup2(nowhere, stream)
            signal(SIGPROF, SIG_DFL)
            for old, new in codes.items():
                for function in functions.get(old, ()):
                    function.__code__ = new
            empty_caches(("tests.", "harness."))
            code = int(self._noticed(tests, items))
        finally:
            os._exit(code)

    def _noticed(self, tests: Sequence[str], items: Mapping[str, pytest.Item]) -> bool:
        from tests.mutation.trial import noticed_by

        fixtures = [(match[1], test) for test in tests if (match := FIXTURE.search(test))]
        for name, test in fixtures:
            self._wait_for(test)
            if noticed_by(name):
                return True
        others = [test for test in tests if not FIXTURE.search(test)]
        for item, following in _with_next([items[test] for test in others]):
            self._wait_for(item.nodeid)
            item.ihook.pytest_runtest_protocol(item=item, nextitem=following)
            if self.failed:
                return True
        return False

    def _wait_for(self, test: str) -> None:
        setitimer(ITIMER_PROF, max(_AT_LEAST_S, _TIMES * self.seconds[test]))


def _with_next(items: Iterable[pytest.Item]) -> Iterator[tuple[pytest.Item, pytest.Item | None]]:
    row = list(items)
    return zip(row, [*row[1:], None], strict=True)


def _words(code: int) -> str:
    if code == -SIGPROF:
        return "noticed: never ends"
    if code not in (0, 1):
        return "noticed: breaks the run"
    return "noticed" if code else "alive"
