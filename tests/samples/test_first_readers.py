"""Jobs that strangers wrote from the README alone: kept as written, they still check and print."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest

from harness.prove import prove
from render.documents import packet

JOBS = sorted((Path(__file__).parents[1] / "first_readers").glob("*.yaml"))


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_it_finds_what_its_writer_agreed_with_and_prints(job: Path, tmp_path: Path) -> None:
    expected: Counter[tuple[str, int]] = Counter()
    for number, line in enumerate(job.read_text(encoding="utf-8").splitlines(), 1):
        mark = re.search(r"# finds ((?:[A-Z][0-9]{2} ?)+)", line)
        expected.update((code, number) for code in (mark[1].split() if mark else ()))
    proof = prove(job)
    written = packet(proof, tmp_path, None)

    assert Counter((f.code, f.places[0].place.line) for f in proof.report.findings) == expected
    assert {path.name for path in written} >= {"packet.pdf", "packet.txt"}


def test_there_is_one() -> None:
    assert JOBS
