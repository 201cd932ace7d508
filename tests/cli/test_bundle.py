"""`ringout bundle` and `ringout take`: there and back, and what is said where it isn't done."""

from __future__ import annotations

import json
import shutil
import zipfile
from pathlib import Path

import pytest

from harness.assets import folder
from harness.read.lines import forget

JOB = """\
ringout: 1
title: A job
parts: [../parts/dash.yaml]
plugs:
  dash: {part: dash, unit: radio}
units:
  radio: {kind: radio, settings: radio.set}
  amp: {kind: amplifier, settings: lost.set}
"""
PART = "ringout: 1\nparts: [more/legend.yaml]\nplugs:\n  dash:\n    cavities:\n      1/2: FL WH WH/BK\n"
RECORDS = """\
- {when: 2026-03-02 09:40, by: JM, seen: dash.1, photo: photos/one.jpg}
- {when: 2026-03-02 09:41, by: JM, seen: dash.2, photo: [photos/two.PNG, photos/lost.jpg]}
"""


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    """A job in a folder, its parts in another one beside it, records, photos, settings."""
    forget()  # lines shown in an earlier test, of a file of the same name
    for path, text in {
        "bay/jobs/larch.yaml": JOB,
        "bay/jobs/larch.evidence.yaml": RECORDS,
        "bay/jobs/radio.set": "\x00settings",
        "bay/jobs/photos/one.jpg": "one",
        "bay/jobs/photos/two.PNG": "two",
        "bay/jobs/photos/of another job.jpg": "three",
        "bay/jobs/other.yaml": "ringout: 1\n",
        "bay/parts/dash.yaml": PART,
        "bay/parts/more/legend.yaml": "ringout: 1\n",
    }.items():
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_text(text, encoding="utf-8")
    return tmp_path / "bay"


WANTED = {
    "jobs/larch.yaml", "jobs/larch.evidence.yaml", "jobs/radio.set", "jobs/photos/one.jpg", "jobs/photos/two.PNG",
    "parts/dash.yaml", "parts/more/legend.yaml",
}  # fmt: skip


def held(where: Path) -> dict[str, bytes]:
    return {path.relative_to(where).as_posix(): path.read_bytes() for path in where.rglob("*") if path.is_file()}


def test_there_and_back(ringout, bay: Path, tmp_path: Path) -> None:
    """What the job names arrives as it was, at the same places to each other, and nothing else does."""
    made = ringout("bundle", "bay/jobs/larch.yaml", "-o", "larch.zip")
    taken = ringout("take", "larch.zip", "there")
    before = held(bay)

    assert (made.code, taken.code) == (0, 0)
    assert held(tmp_path / "there") == {path: before[path] for path in WANTED}
    assert "photos/lost.jpg isn't there" in made.out
    assert "larch.evidence.yaml:2:" in made.out
    assert "no file “lost.set” lies beside the job" in made.out
    digests = [answer.out.lower().split("digest ")[1][:16] for answer in (made, taken)]
    assert digests[0] == digests[1]
    assert f"ringout check {Path('there/jobs/larch.yaml')}" in taken.out
    assert "ringout again" in taken.out
    assert ringout("check", "there/jobs/larch.yaml").code in (0, 1)


SHOP = """\
ringout: 1
parts: [parts/looms.yaml]
maps: [maps]
drawer: {looms: {L1: {part: long, price: 38.50 EUR}}}
"""
LOOMS = "ringout: 1\nparts: [more.yaml]\nlooms:\n  long: {ends: {unit: 8-way, car: 8-way}, through: 1..8}\n"


def stocked(bay: Path) -> None:
    """The job names the shop's file in the folder above; that one names looms, which name more, and maps."""
    job = bay / "jobs" / "larch.yaml"
    job.write_text(JOB.replace("title: A job\n", "title: A job\nshop: ../shop.yaml\n"), encoding="utf-8")
    (bay / "maps").mkdir()
    for name, text in {"shop.yaml": SHOP, "parts/looms.yaml": LOOMS, "parts/more.yaml": "ringout: 1\n"}.items():
        (bay / name).write_text(text, encoding="utf-8")
    (bay / "maps" / "van.yaml").write_text(PART, encoding="utf-8")


def test_the_shop_file_travels_with_its_parts(ringout, bay: Path, tmp_path: Path) -> None:
    """Its maps don't, and that is said; in the other bay the job is weighed with it all the same."""
    stocked(bay)
    made = ringout("bundle", "bay/jobs/larch.yaml", "-o", "larch.zip")
    taken = ringout("take", "larch.zip", "there")
    before = held(bay)

    assert (made.code, taken.code) == (0, 0)
    wanted = {*WANTED, "shop.yaml", "parts/looms.yaml", "parts/more.yaml"}
    assert held(tmp_path / "there") == {path: before[path] for path in wanted}
    assert "shop.yaml:3:8  the folder of maps bay/maps; only a scope asks for it" in made.out
    weighed = ringout("weigh", "there/jobs/larch.yaml", "--json")
    assert (weighed.code, json.loads(weighed.out)["shop"]) == (0, "there/shop.yaml")


def test_a_shop_file_that_is_not_named_stays(ringout, bay: Path, tmp_path: Path) -> None:
    (bay / "jobs" / "shop.yaml").write_text("ringout: 1\n", encoding="utf-8")
    ringout("bundle", "bay/jobs/larch.yaml", "-o", "larch.zip")
    ringout("take", "larch.zip", "there")

    assert set(held(tmp_path / "there")) == WANTED


def test_a_shop_file_that_is_gone_or_cannot_be_read_is_told(ringout, bay: Path, tmp_path: Path) -> None:
    stocked(bay)
    (bay / "shop.yaml").unlink()
    gone = ringout("bundle", "bay/jobs/larch.yaml", "-o", "gone.zip")
    (bay / "shop.yaml").write_text("ringout: 1\ndrawre: {}\n", encoding="utf-8")
    torn = ringout("bundle", "bay/jobs/larch.yaml", "-o", "torn.zip")

    assert (gone.code, torn.code) == (0, 0)
    assert "larch.yaml:3:7  the shop file ../shop.yaml isn't there" in gone.out
    assert "  shop      shop.yaml\n" in torn.out
    assert "the shop file can't be read, so its part files may not be with it" in torn.out


def test_a_shop_file_of_this_machine_alone(ringout, bay: Path, tmp_path: Path) -> None:
    job = bay / "jobs" / "larch.yaml"
    job.write_text(JOB.replace("title: A job\n", "title: A job\nshop: /srv/shop.yaml\n"), encoding="utf-8")
    made = ringout("bundle", "bay/jobs/larch.yaml", "-o", "larch.zip")

    assert made.code == 2
    assert "larch.yaml:3:7  “/srv/shop.yaml” is a path of this machine alone" in made.err
    assert not (tmp_path / "larch.zip").exists()


def test_same_files_same_bytes(ringout, bay: Path, tmp_path: Path) -> None:
    """Wherever they lie, whenever they were written, from whichever folder; the date in it is 1980."""
    shutil.copytree(bay, tmp_path / "elsewhere" / "deep")
    ringout("bundle", "bay/jobs/larch.yaml", "-o", "one.zip")
    ringout("bundle", str(tmp_path / "elsewhere" / "deep" / "jobs" / "larch.yaml"), "-o", "two.zip")

    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.zip").read_bytes()
    with zipfile.ZipFile(tmp_path / "one.zip") as archive:
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert archive.namelist() == ["ringout-bundle.json", *sorted(WANTED)]


@pytest.mark.parametrize("sample", sorted(path.name for path in folder("samples").glob("*-*.yaml")))
def test_samples(sample: str, ringout, tmp_path: Path) -> None:
    """Each arrives with all that it needs: check says there what it said here."""
    shutil.copytree(folder("samples"), tmp_path / "bay-one")
    assert ringout("bundle", f"bay-one/{sample}", "-o", "x.zip").code == 0
    assert ringout("take", "x.zip", "bay-two").code == 0
    here = json.loads(ringout("check", f"bay-one/{sample}", "--json").out)
    there = json.loads(ringout("check", f"bay-two/{sample}", "--json").out.replace("bay-two", "bay-one"))

    assert there == here


def test_default_folder(ringout, bay: Path, tmp_path: Path) -> None:
    ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip")

    assert ringout("take", "b.zip").code == 0
    assert (tmp_path / "larch" / "jobs" / "larch.yaml").is_file()


def test_taken_again_and_over(ringout, bay: Path, tmp_path: Path) -> None:
    """The same again is fine. A file worked on since stays until told; records never go."""
    ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip")
    ringout("take", "b.zip", "there")
    again = ringout("take", "b.zip", "there")
    job, records = tmp_path / "there/jobs/larch.yaml", tmp_path / "there/jobs/larch.evidence.yaml"
    job.write_text("mine", encoding="utf-8")
    refused = ringout("take", "b.zip", "there")
    told = ringout("take", "b.zip", "there", "--replace")
    records.write_text("- {when: 2026-03-03, by: RK, tone: dash.1/2}\n", encoding="utf-8")
    job.write_text("mine again", encoding="utf-8")
    never = ringout("take", "b.zip", "there", "--replace")

    assert [again.code, refused.code, told.code, never.code] == [0, 2, 0, 2]
    assert "7 there already" in again.out
    assert "--replace puts this one in its place" in refused.err
    assert "the records there would be lost" in never.err
    assert job.read_text(encoding="utf-8") == "mine again"


def test_json(ringout, bay: Path) -> None:
    made = json.loads(ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip", "--json").out)
    taken = json.loads(ringout("take", "b.zip", "there", "--json").out)
    refused = ringout("take", "bay/jobs/larch.yaml", "--json")

    assert {file["path"] for file in made["files"]} == WANTED == set(taken["new"])
    assert made["digest"] == taken["digest"]
    assert len(made["missing"]) == 2
    assert refused.code == 2
    assert "no bundle" in json.loads(refused.out)["told"][0]


def test_bundle_refused_in_one_pass(ringout, bay: Path, tmp_path: Path) -> None:
    """Paths of this machine alone, with the lines that name them; names that no other system takes."""
    job = bay / "jobs" / "larch.yaml"
    dash = bay / "parts" / "dash.yaml"
    job.write_text(JOB.replace("../parts/dash.yaml", str(dash)), encoding="utf-8")
    (bay / "jobs" / "photos" / "a:b.jpg").write_text("x", encoding="utf-8")
    (bay / "jobs" / "larch.evidence.yaml").write_text(
        "- {by: JM, photo: 'photos/a:b.jpg', seen: dash}\n- {by: JM, photo: ../../../../etc/x.jpg, seen: dash}\n"
        "- {by: JM, photo: C:/x.jpg, seen: dash}\n- {by: JM, photo: photos\\one.jpg, seen: dash}\n",
        encoding="utf-8",
    )
    answer = ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip")

    assert (answer.code, answer.out) == (2, "")
    assert "larch.yaml:3:9  “" in answer.err
    assert "is a path of this machine alone" in answer.err
    assert "holds “:”" in answer.err
    assert "larch.evidence.yaml:2:19  “../../../../etc/x.jpg” leads out of the job's folder" in answer.err
    assert "      - {by: JM, photo: ../../../../etc/x.jpg, seen: dash}" in answer.err
    assert "larch.evidence.yaml:3:" in answer.err
    assert "photos\\one.jpg” has \\ between its folders" in answer.err
    assert not (tmp_path / "b.zip").exists()


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["bundle", "none.yaml", "-o", "b.zip"], "no bundle was made"),
        (["bundle", "bay/jobs/larch.yaml", "-o", "bay"], "is a folder"),
        (["bundle", "bay/jobs/larch.yaml", "-o", "no/b.zip"], "there is no folder"),
        (["bundle", "bay/jobs/larch.yaml", "-o", "bay/parts/dash.yaml", "--replace"], "one of the job's own files"),
        (["bundle", "bay/jobs/larch.yaml"], "Missing option"),
        (["take", "none.zip"], "No such file"),
        (["take", "bay"], "is a folder"),
        (["take", "bay/jobs/larch.yaml"], "this is no bundle"),
    ],
)
def test_misuse(arguments: list[str], words: str, ringout, bay: Path, tmp_path: Path) -> None:
    before = held(tmp_path)
    answer = ringout(*arguments)

    assert answer.code == 2
    assert words in answer.err
    assert held(tmp_path) == before


def test_older_bundle_stays(ringout, bay: Path, tmp_path: Path) -> None:
    ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip")
    first = (tmp_path / "b.zip").read_bytes()
    same = ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip")
    (bay / "jobs" / "radio.set").write_text("new", encoding="utf-8")
    refused = ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip")
    kept = (tmp_path / "b.zip").read_bytes()
    told = ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip", "--replace")

    assert [same.code, refused.code, told.code] == [0, 2, 0]
    assert kept == first
    assert (tmp_path / "b.zip").read_bytes() != first


def test_unreadable_records_travel_and_are_told(ringout, bay: Path) -> None:
    """A torn last line: the bytes go as they are."""
    (bay / "jobs" / "larch.evidence.yaml").write_text(RECORDS + "- {when: 2026-03-0", encoding="utf-8")
    answer = ringout("bundle", "bay/jobs/larch.yaml", "-o", "b.zip")

    assert answer.code == 0  # half a record was never acknowledged; `check` tells it in the other bay
    there = ringout("take", "b.zip", "there")
    assert there.code == 0
    assert "R30" in ringout("check", "there/jobs/larch.yaml").out
