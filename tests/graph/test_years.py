"""Charts that are for other years than the car's, and what of them is in use: read off one job by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph import years
from tests.graph.test_contrary_rules import JOB, recorded

FACE = "    face: {rows: 2, columns: 6"
USED = ["1", "2", "3", "4", "9", "10"]  # FL and FR are cut, ACC and AMP-ON tapped; RL, RR and GND pass


@pytest.mark.parametrize(
    ("source", "year", "records", "used"),
    [
        ("covers: 2020..2023", "2024", (), USED), ("covers: 2020..2023", "2023", (), None),
        ("covers: 2020..2023", "unknown", (), None), ("chart: sheet 1", "2024", (), None),
        # what was toned as charted is known, whatever the page says; heard elsewhere it isn't
        ("covers: 2021", "2024", ("tone: dash.car.1/2, charted: FL, heard: FL",), USED[2:]),
        ("covers: 2021", "2024", ("tone: dash.car.1/2, charted: FL, heard: FR",), USED),
        ("covers: 2021", "2024", ("ohm: dash.car.1/2, reads: 3 ohm",), USED),
    ],
)  # fmt: skip
def test_a_chart_of_other_years(
    source: str, year: str, records: tuple[str, ...], used: list[str] | None, tmp_path: Path
) -> None:
    """The plug before it has a chart of other years too, and none of its cavities is used."""
    boot = (
        "  boot:\n    place: boot\n    source: {covers: 2001..2002}\n"
        "    face: {rows: 1, columns: 4, view: wire, latch: top, first: top left, count: across}\n"
        "    cavities: {1: ILL OG}\n  dash:\n"
    )
    job = JOB.replace(FACE, f"    source: {{{source}}}\n{FACE}", 1).replace("  dash:\n", boot, 1)
    job = job.replace("steering: left", f"steering: left, year: {year}")
    made = list(years.charts_of_other_years(recorded(tmp_path, *records, job=job)))
    assert [(each.plug.name, [row.cavity for row in each.used]) for each in made] == (
        [] if used is None else [("dash", used)]
    )
    for each in made:
        assert each.covers == source.removeprefix("covers: ").replace("..", " to ")
