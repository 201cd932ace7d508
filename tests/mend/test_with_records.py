"""What was heard or built of the car as it is doesn't speak against a change of the plan."""

from __future__ import annotations

from pathlib import Path

from harness.finding import Finding
from harness.prove import prove

CROSSED = Path(__file__).parents[1] / "checks" / "B03"
RECORDS = """\
- {when: 2026-03-02 15:00, by: JM, plays: radio.FL, heard: FR}
- {when: 2026-03-02 15:01, by: JM, plays: radio.FR, heard: FL}
"""


def crossing(folder: Path, name: str, records: str) -> tuple[Finding, set[str]]:
    job = folder / "job.yaml"
    job.write_text((CROSSED / name).read_text(encoding="utf-8"), encoding="utf-8")
    (folder / "job.evidence.yaml").write_text(records, encoding="utf-8")
    findings = prove(job).report.findings
    return next(each for each in findings if each.code == "B03"), {each.code for each in findings}


def test_a_crossing_that_was_heard_is_mended_as_one_that_was_not(tmp_path: Path) -> None:
    """The car plays crossed, as the plan is. Mended, the plan is right and the records are of the car before."""
    mended = 0
    for path in sorted(CROSSED.glob("bad_*.yaml")):
        if path.name.endswith(".evidence.yaml"):
            continue
        plain, _ = crossing(tmp_path, path.name, "")
        heard, codes = crossing(tmp_path, path.name, RECORDS)
        assert heard.mend == plain.mend, path.name
        mended += heard.mend is not None and "C27" not in codes
    assert mended
