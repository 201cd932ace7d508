"""Damaged job files: an answer each time, never a traceback, never a wait."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable

import pytest

from harness.read.conform import conform
from harness.read.files import decode
from harness.read.lines import split_lines
from harness.read.nodes import read_text
from harness.read.spec import JOB
from harness.read.troubles import Troubles

FILES = 20_000
PARTS = 8  # so that several workers can share them
LONGEST_S = 5.0  # for one file of four kilobytes, on a machine that does other things as well


def _read(raw: bytes, file: str = "job.yaml") -> Troubles:
    troubles = Troubles()
    text = decode(raw, file, troubles)
    node = None if text is None else read_text(text, file, troubles)
    if node is not None:
        conform(node, JOB, troubles)
    else:
        assert troubles.refused
    return troubles


@pytest.mark.parametrize("part", range(PARTS))
def test_damaged_files_are_answered(part: int, jobs: dict[str, str], garble: Callable[[str, int], bytes]) -> None:
    texts = list(jobs.values())
    codes: Counter[str] = Counter()
    for seed in range(part * FILES // PARTS, (part + 1) * FILES // PARTS):
        raw = garble(texts[seed % len(texts)], seed)
        start = time.perf_counter()
        try:
            findings = _read(raw).findings
        except Exception as wrong:
            raise AssertionError(f"seed {seed}: {type(wrong).__name__} {wrong}") from wrong
        assert time.perf_counter() - start < LONGEST_S, f"seed {seed}"
        codes.update(finding.code for finding in findings)
        lines = split_lines(raw.decode("utf-8", "replace").removeprefix("\ufeff"))
        for finding in findings:
            for spot in finding.places:
                # every place is in the file, at most one past the end of its line
                assert 1 <= spot.place.line <= len(lines), f"seed {seed}: {finding}"
                assert 1 <= spot.place.column <= len(lines[spot.place.line - 1]) + 1, f"seed {seed}: {finding}"
            assert finding.message, f"seed {seed}"
            assert finding.do, f"seed {seed}"
    # the damage reaches most kinds of refusal, the rarest of them not in every part
    wanted = {"R01", "R02", "R04", "R06", "R07", "R08", "R09", "R13", "R14"}
    assert wanted <= codes.keys(), wanted - codes.keys()


@pytest.mark.parametrize(
    ("raw", "code"),
    [
        (b"[" * 10_000, "R12"),
        (b"- " * 10_000, "R12"),
        (b"{a: " * 10_000, "R12"),
        (b"? " * 10_000, "R12"),
        (b"ringout: 1\ntitle: " + b"[" * 10_000, "R12"),
        (b"".join(b" " * depth + b"a:\n" for depth in range(2000)), "R12"),
        (b"title: " + b"x" * 3_000_000, "R12"),
        (b"x" * 3_000_000, "R08"),
        (b"x" * 3_000_000 + b": 1", "R01"),
        (b'title: "' + b"x " * 1_000_000, "R01"),
        (b"]" * 100_000, "R01"),
        (b":" * 100_000, "R01"),
        (b"- a: b: c", "R01"),
        (b"\n" * 1_000_000, "R06"),
        (b"#" * 1_000_000, "R06"),
        (b"a: &b " * 5000, "R01"),
        (b"\0" * 1000, "R01"),
        (b"", "R06"),
        (b"\xef\xbb\xbf", "R06"),
        (b"\xff\xfea\0:\0", "R01"),
        ("ringout: 1".encode("utf-16-le"), "R01"),
        ("ringout: 1".encode("utf-16-be"), "R01"),
        (b"title: caf\xe9", "R01"),
        (b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n", "R01"),
        (b"PK\x03\x04" + bytes(range(256)), "R01"),
        (b"ringout: 1\ntitle: x\nplugs:\n  a:\n    cavities:\n" + b"      1: GN" + b" GN" * 100_000, "R12"),
        (b"ringout: 1\ntitle: x\nfound:\n  - " + b"a.b > " * 300_000, "R12"),
    ],
)
def test_monsters_are_answered_soon(raw: bytes, code: str) -> None:
    start = time.perf_counter()
    findings = _read(raw).findings
    assert code in {finding.code for finding in findings}
    assert time.perf_counter() - start < LONGEST_S
    assert all(len(finding.message) < 400 and len(finding.do) < 500 for finding in findings)
