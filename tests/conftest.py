"""What several test folders share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from textwrap import dedent
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from harness.graph.wiring import Wiring

Wired = Callable[[str], "Wiring"]  # what the fixture `wired` gives
ROOT = Path(__file__).resolve().parent.parent

# How long a draw takes says nothing on a machine that has other work.
settings.register_profile("any machine", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("any machine")


@pytest.fixture(scope="session")
def root() -> Path:
    """The checkout, or the unpacked sdist, that is under test."""
    return ROOT


@pytest.fixture
def wired(tmp_path: Path) -> Wired:
    """The wiring of a small job whose body is given; the test fails where the file can't be read."""
    from harness.prove import prove

    def make(body: str) -> Wiring:
        path = tmp_path / "job.yaml"
        path.write_text("ringout: 1\ntitle: Test\npreset: house\n" + dedent(body), encoding="utf-8")
        proof = prove(path, mends=False)
        assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
        return proof.wiring

    return make


# A test that is skipped proves nothing. None is; one that must be some day stands here with its reason.
_PACKAGE = "a system package, which a person need not have; CI installs it, and there it may not skip"
MAY_SKIP: dict[str, str] = {
    "test_against_ngspice": _PACKAGE,
    # strace, in tests/records/test_traced.py and tests/bundles/test_cut_off.py
    "test_the_order_of_its_calls": _PACKAGE,
    "test_each_call_fails_once": _PACKAGE,
    "test_trace_of_the_first_record": _PACKAGE,
    "test_trace_of_a_later_record": _PACKAGE,
    "test_trace_of_a_photo": _PACKAGE,
    "test_killed_at_every_call": _PACKAGE,
    "test_every_call_fails_once": _PACKAGE,
    "test_a_folder_that_knows_no_sync": _PACKAGE,
    "test_a_disk_that_takes_nothing_at_all": _PACKAGE,
}


def pytest_sessionfinish(session: pytest.Session) -> None:
    """A run with an unnamed skip has failed."""
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if reporter is None:
        return
    skipped = {report.nodeid.partition("::")[2].partition("[")[0] for report in reporter.stats.get("skipped", ())}
    unnamed = sorted(skipped - MAY_SKIP.keys())
    if unnamed:
        reporter.write_line(f"\nskipped without leave: {', '.join(unnamed)}", red=True)
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
