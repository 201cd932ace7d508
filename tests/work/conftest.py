"""Small jobs written in the test that uses them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from harness.graph.wiring import Wiring
from harness.prove import prove

Wired = Callable[[str], Wiring]


@pytest.fixture
def wired(tmp_path: Path) -> Wired:
    """The wiring of a job whose body is given; the file fails the test where it can't be read."""

    def make(body: str) -> Wiring:
        path = tmp_path / "job.yaml"
        path.write_text("ringout: 1\ntitle: Test\npreset: house\n" + dedent(body), encoding="utf-8")
        proof = prove(path, mends=False)
        assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
        return proof.wiring

    return make
