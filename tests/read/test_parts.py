"""Part files: found from the folder of the file that names them, used by name."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove
from harness.read.conform import conform
from harness.read.nodes import Table, Text, read_file
from harness.read.parts import PartShelf, read_parts
from harness.read.spec import JOB
from harness.read.troubles import Troubles

JOBS = Path(__file__).parent / "jobs"


def shelf_of(path: Path) -> tuple[PartShelf, Troubles]:
    troubles = Troubles()
    node = read_file(str(path), troubles)
    assert isinstance(node, Table)
    return read_parts(node, troubles, conform(node, JOB, troubles)), troubles


def named(name: str) -> Text:
    return Text(name, False, True, "job.yaml", 7, 9)


def test_parts_come_from_all_files_named_on_the_way(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(JOBS.parent)
    shelf, troubles = shelf_of(Path("jobs/wagon.yaml"))
    assert not troubles.findings
    assert [Path(file).as_posix() for file in shelf.files] == ["jobs/parts/shop.yaml", "jobs/parts/more/seat.yaml"]
    part = shelf.find("units", named("SEAT-unit"))
    assert part is not None
    assert Path(part.key.file).as_posix() == "jobs/parts/more/seat.yaml"
    assert part.key.place[1:] == (3, 3)
    assert isinstance(part.table.get("kind"), Text)
    assert not troubles.findings


@pytest.mark.parametrize(
    ("section", "name", "advice"),
    [
        ("plugs", "flor-box", "Is “floor-box” meant?"),
        ("looms", "floor-box", "It stands under plugs there"),
        ("units", "zzz", "The part files hold: seat-unit."),
    ],
)
def test_a_part_that_is_not_there(section: str, name: str, advice: str) -> None:
    shelf, troubles = shelf_of(JOBS / "wagon.yaml")
    assert shelf.find(section, named(name)) is None
    (finding,) = troubles.findings
    assert finding.code == "R20"
    assert finding.places[0].place == ("job.yaml", 7, 9)
    assert advice in finding.do


def test_a_job_without_part_files(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("ringout: 1\ntitle: x\n")
    shelf, troubles = shelf_of(tmp_path / "job.yaml")
    assert shelf.find("plugs", named("a")) is None
    (finding,) = troubles.findings
    assert "Name the file that holds it under `parts:`." in finding.do


def test_one_file_named_twice_is_read_once(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("ringout: 1\ntitle: x\nparts: [a.yaml, ./a.yaml, sub/../a.yaml]\n")
    (tmp_path / "a.yaml").write_text("ringout: 1\nunits: {a: {kind: relay}}\n")
    (tmp_path / "sub").mkdir()
    shelf, troubles = shelf_of(tmp_path / "job.yaml")
    assert not troubles.findings
    assert len(shelf.files) == 1


def test_a_long_row_of_part_files_is_no_circle(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("ringout: 1\ntitle: x\nparts: [p0.yaml]\n")
    for number in range(40):
        more = f"parts: [p{number + 1}.yaml]\n" if number < 39 else ""
        (tmp_path / f"p{number}.yaml").write_text(f"ringout: 1\n{more}units: {{u{number}: {{kind: relay}}}}\n")
    shelf, troubles = shelf_of(tmp_path / "job.yaml")
    assert not troubles.findings
    assert len(shelf.files) == 40
    assert shelf.find("units", named("u39")) is not None


def test_a_circle_names_every_place_of_it(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("ringout: 1\ntitle: x\nparts: [a.yaml]\n")
    (tmp_path / "a.yaml").write_text("ringout: 1\nparts: [b.yaml]\n")
    (tmp_path / "b.yaml").write_text("ringout: 1\nparts: [c.yaml]\n")
    (tmp_path / "c.yaml").write_text("ringout: 1\nparts: [a.yaml]\n")
    _, troubles = shelf_of(tmp_path / "job.yaml")
    (finding,) = troubles.findings
    assert finding.code == "R11"
    assert [Path(spot.place.file).name for spot in finding.places] == ["c.yaml", "a.yaml", "b.yaml"]


@pytest.mark.parametrize(("page", "words"), [("3", "sheet 44, page 3"), ("'p. 3'", "sheet 44, p. 3")])
def test_a_page_is_no_part_of_the_sheets_name(page: str, words: str, tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(
        f"ringout: 1\ntitle: x\nplugs: {{a: {{source: {{chart: sheet 44, page: {page}}}, cavities: {{1: ACC}}}}}}\n"
    )
    source = prove(tmp_path / "job.yaml").wiring.job.parts.plugs["a"].source  # type: ignore[union-attr]
    assert source is not None
    assert source.chart == words
