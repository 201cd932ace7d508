"""What is written is read by the job's own reader with the facts that a second reading of the chart finds."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.charts.reading import Wanted, read_chart
from harness.charts.writing import Source, part_file
from harness.model.parts import Plug
from harness.read.job import read_job
from harness.read.troubles import Troubles
from tests.charts.oracle import Fact, facts, make_chart

SOURCE = Source("shop sheet 31: base, 'B'", "2026-02-10", "RK", "2019..2022")


def read_part(folder: Path, text: str, name: str = "dash") -> Plug:
    """The plug as a job that takes the part has it."""
    (folder / "part.yaml").write_text(text, encoding="utf-8")
    job = folder / "job.yaml"
    job.write_text(
        f"ringout: 1\ntitle: t\nparts: [part.yaml]\nplugs:\n  p: {{part: {name}, unit: radio}}\n"
        "units:\n  radio: {kind: radio}\n",
        encoding="utf-8",
    )
    troubles = Troubles()
    read = read_job(job, troubles)
    assert read is not None
    assert [finding.message for finding in troubles.findings] == []
    return read.parts.plugs["p"]


def facts_of(plug: Plug) -> dict[str, Fact]:
    return {
        row.cavity: Fact(
            row.function.name, row.colour.short if row.colour else "", row.size.text if row.size else "", row.note
        )
        for row in plug.rows
    }


@pytest.mark.parametrize("seed", range(120))
def test_same_facts(seed: int, tmp_path: Path) -> None:
    raw, how = make_chart(seed)
    chart = read_chart(raw, Wanted())
    plug = read_part(tmp_path, part_file("dash", chart, SOURCE, 40))

    assert facts_of(plug) == facts(raw, **how)
    assert plug.source is not None
    assert plug.source[:4] == ("shop sheet 31: base, 'B'", "2026-02-10", "RK", "2019..2022")
    assert plug.ways == 40


def test_the_oracle_is_not_blind() -> None:
    """Of the charts above many have pairs, notes, and every encoding and separator."""
    all_facts = [facts(raw, **how) for raw, how in map(make_chart, range(120))]

    assert sum({"FL+", "FL-"} <= {fact.function for fact in each.values()} for each in all_facts) > 20
    assert sum(any(fact.note for fact in each.values()) for each in all_facts) > 60
    assert len({(how["encoding"], how["separator"]) for _, how in map(make_chart, range(120))}) >= 12


def test_pairs_are_written_as_pairs(tmp_path: Path) -> None:
    """The rows of the README's example, from a chart that lists each wire."""
    raw = (
        b"Colour,Pin,Signal,Size\n"
        b"BN,1,FL+,0.75 mm2\nBN/WH,9,FL-,0.75 mm2\nGN,12,RL+,0.75 mm2\nGN/WH,4,RL-,0.75 mm2\n"
        b"OG/GN,13,CAN-H,0.35 mm2\nOG/BN,14,CAN-L,0.35 mm2\nYE,7,B+,1.5 mm2\n,16,not used,\n"
    )
    text = part_file("dash", read_chart(raw, Wanted()), Source("x"), None)

    # README, "The car" and "The plug as found": pairs by +/-, the + first whatever its number
    assert text.split("    cavities:\n")[1] == (
        "      1/9: FL BN BN/WH 0.75 mm2\n"
        "      12/4: RL GN GN/WH 0.75 mm2\n"
        "      7: B+ YE 1.5 mm2\n"
        "      13/14: CAN OG/GN OG/BN 0.35 mm2\n"
        "      16: empty\n"
    )
    assert len(read_part(tmp_path, text).rows) == 8


@pytest.mark.parametrize(
    ("rows", "cavities"),
    [
        ("1,FL+,WH,0.5 mm2,\n2,FL-,WH/BK,0.75 mm2,", {"1", "2"}),  # two sizes
        ("1,FL+,WH,0.5 mm2,\n2,FL-,,0.5 mm2,", {"1", "2"}),  # one colour known
        ("1,FL+,WH,0.5 mm2,door\n2,FL-,WH/BK,0.5 mm2,", {"1", "2"}),  # two notes
        ("1,FL+,?,0.5 mm2,\n2,FL-,WH,0.5 mm2,", {"1", "2"}),  # a colour looked for, not known
        ("1,FL+,,,\n2,FL-,,,", {"1/2"}),
    ],
)
def test_pairs_that_one_row_cannot_hold(rows: str, cavities: set[str], tmp_path: Path) -> None:
    """Two rows, and the same facts."""
    raw = f"pin,function,colour,size,note\n{rows}\n".encode()
    text = part_file("dash", read_chart(raw, Wanted()), Source("x"), None)
    written = {line.split(":")[0].strip() for line in text.split("cavities:\n")[1].splitlines()}

    assert written == cavities
    assert [row.function.name for row in read_part(tmp_path, text).rows] == ["FL+", "FL-"]
