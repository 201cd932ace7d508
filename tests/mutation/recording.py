"""A plugin of pytest that writes down which lines each test runs, and how long it takes.

What a test keeps for the next one (a cache, a fixture of a module or a session) is no reason to say that the next one
doesn't run it: caches are emptied before each test, and the lines and seconds of a wide fixture are those of every
test that uses it. A test that fails unchanged judges nothing.
"""

from __future__ import annotations

import json
import os
from collections import defaultdict
from collections.abc import Generator
from pathlib import Path
from time import process_time
from typing import Any

import coverage
import pytest

from tests.mutation.caches import empty_caches
from tests.mutation.subjects import ROOT, SUBJECTS

_BEFORE = "before any test"
_coverage = coverage.Coverage(
    data_file=None, include=[f"{ROOT}/{subject}/*" for subject in SUBJECTS], config_file=False
)
_coverage.start()
_coverage.switch_context(_BEFORE)
_seconds: dict[str, float] = {}
_shared_seconds: defaultdict[str, float] = defaultdict(float)
_users: defaultdict[str, list[str]] = defaultdict(list)
_failed: set[str] = set()
_now = [_BEFORE]


@pytest.hookimpl(wrapper=True)
def pytest_runtest_setup(item: pytest.Item) -> Generator[None, object, object]:
    empty_caches(("tests.",))
    fixtures = getattr(item, "_fixtureinfo", None)
    for name, definitions in fixtures.name2fixturedefs.items() if fixtures else ():
        if definitions[-1].scope != "function":
            _users[f"{definitions[-1].baseid} {name}"].append(item.nodeid)
    _seconds[item.nodeid] = 0.0
    return (yield from _recorded(item.nodeid, _seconds))


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item: pytest.Item) -> Generator[None, object, object]:
    return (yield from _recorded(item.nodeid, _seconds))


@pytest.hookimpl(wrapper=True)
def pytest_fixture_setup(fixturedef: Any) -> Generator[None, object, object]:
    if fixturedef.scope == "function":
        return (yield)
    return (yield from _recorded(f"{fixturedef.baseid} {fixturedef.argname}", _shared_seconds))


def _recorded(context: str, seconds: dict[str, float]) -> Generator[None, object, object]:
    _now.append(context)
    _coverage.switch_context(context)
    start = process_time()
    try:
        return (yield)
    finally:
        seconds[context] += process_time() - start
        _now.pop()
        _coverage.switch_context(_now[-1])


def pytest_runtest_logreport(report: pytest.TestReport) -> None:
    if not report.passed:
        _failed.add(report.nodeid)


def pytest_sessionfinish() -> None:
    _coverage.stop()
    for shared, users in _users.items():
        for test in users:
            _seconds[test] += _shared_seconds.get(shared, 0.0)
    judging = {test: seconds for test, seconds in _seconds.items() if test not in _failed}
    data = _coverage.get_data()
    numbers = {test: number for number, test in enumerate(judging)}
    lines: dict[str, dict[int, list[int]]] = {}
    for file in data.measured_files():
        ran = data.contexts_by_lineno(file)
        lines[file] = {
            line: [
                numbers[test]
                for test in sorted({test for name in names for test in _users.get(name, (name,))} & judging.keys())
            ]
            for line, names in ran.items()
        }
    Path(os.environ["RECORDED"]).write_text(
        json.dumps({"seconds": judging, "lines": lines, "failed": sorted(_failed)}), encoding="utf-8"
    )
