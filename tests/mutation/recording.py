"""A plugin of pytest that writes down which lines each test runs, and how long it takes."""

from __future__ import annotations

import json
import os
from collections.abc import Generator
from pathlib import Path
from time import perf_counter

import coverage
import pytest

from tests.mutation.subjects import ROOT, SUBJECTS, best_first

_BEFORE = "before any test"
_coverage = coverage.Coverage(
    data_file=None, include=[f"{ROOT}/{subject}/*" for subject in SUBJECTS], config_file=False
)
_coverage.start()
_coverage.switch_context(_BEFORE)
_seconds: dict[str, float] = {}


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item: pytest.Item) -> Generator[None, object, object]:
    _coverage.switch_context(item.nodeid)
    start = perf_counter()
    try:
        return (yield)
    finally:
        _seconds[item.nodeid] = perf_counter() - start
        _coverage.switch_context(_BEFORE)


def pytest_sessionfinish() -> None:
    _coverage.stop()
    data = _coverage.get_data()
    lines: dict[str, dict[int, list[str]]] = {}
    for file in data.measured_files():
        ran = data.contexts_by_lineno(file)
        lines[file] = {line: best_first(file, names, _seconds) for line, names in ran.items()}
    Path(os.environ["RECORDED"]).write_text(json.dumps({"seconds": _seconds, "lines": lines}))
