"""Words in quotes with blanks around them: told, never a fault of the program."""

from __future__ import annotations

import pytest

from harness.prove import prove_text

ROW = "ringout: 1\ntitle: Bench\nplugs:\n  dash:\n    cavities:\n      4/12: {}\n"


@pytest.mark.parametrize("word", ["'empty   '", "' empty'", "'FL   '", "' unknown '", "'empty empty'", "' '"])
def test_told_at_the_row(word: str) -> None:
    report = prove_text(ROW.format(word), "bench.yaml").report
    assert report.exit_code in (0, 1, 2)
    assert all(each.places[0].place.line == 6 for each in report.findings if each.code in ("R06", "R09"))


def test_empty_with_blanks_is_refused() -> None:
    (finding,) = prove_text(ROW.format("'empty   '"), "bench.yaml").report.findings
    assert (finding.code, finding.places[0].place.column) == ("R09", 13)
    assert "Write empty" in finding.do
