"""Photos on paper: as they were held, with their record's words; what can't be shown is said, also by check."""

from __future__ import annotations

import io
from pathlib import Path

import pdfplumber
import pytest
from PIL import Image

from harness.prove import Proof, prove
from harness.records.append import append
from render.documents import documents, packet
from render.writers.photo import MOST_DOTS, dots_of
from tests.records.test_shown import png

JOB = """\
ringout: 1
title: Seen at the dash
car: {name: Hazel van, year: 2021, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 6, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/7: FL WH WH/BK
units:
  radio: {kind: radio, outputs: {FL: btl 8 V clean step 31}}
speakers:
  FL: {nominal: 4 ohm}
"""
SEEN = [("when", "2026-03-02 09:40"), ("by", "RK"), ("seen", "dash.car.1"), ("colour", "WH"), ("note", "faded")]
RED, BLUE = (220, 20, 20), (20, 20, 220)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "hazel.yaml"
    path.write_text(JOB, encoding="utf-8")
    return path


def record(job: Path, *pictures: bytes) -> list[Path]:
    """A record with these pictures; where their copies lie."""
    sources = []
    for at, raw in enumerate(pictures):
        source = job.parent / f"{at}.camera"
        source.write_bytes(raw)
        sources.append(source)
    before = set(job.parent.glob("*.photos/*"))
    append(job.with_name("hazel.evidence.yaml"), SEEN, photos=sources)
    for source in sources:
        source.unlink()
    return sorted(set(job.parent.glob("*.photos/*")) - before)


def printed(job: Path, into: str = "out") -> tuple[str, bytes, Proof]:
    proof = prove(job, mends=False)
    packet(proof, job.parent / into, ["photos"])
    folder = job.parent / into
    return (folder / "packet.txt").read_text(encoding="utf-8"), (folder / "packet.pdf").read_bytes(), proof


def unchecked(proof: Proof) -> list[str]:
    return [f"{each.what}: {each.why}" for each in proof.report.unchecked if "photo" in each.what]


def test_no_photo_no_sheet(job: Path) -> None:
    append(job.with_name("hazel.evidence.yaml"), SEEN)
    kind = next(each for each in documents() if each.name == "photos")
    assert not list(kind.sheets(prove(job, mends=False)))


def test_a_photo_with_its_records_words(job: Path) -> None:
    (copy,) = record(job, png(60, 40, RED))
    text, pdf, proof = printed(job)
    assert unchecked(proof) == []
    page = pdfplumber.open(io.BytesIO(pdf)).pages[0]
    on_page = " ".join(page.extract_text().split())
    name = f"hazel.photos/{copy.name}"
    # the words of the record above, and of the job: row 1 is FL+, white
    for words in ("What was seen of dash.car.1", "colour: white; note: faded", "RK, 2026-03-02 09:40", name):
        assert words in on_page, words
        assert words in " ".join(text.split()), words
    assert "60 by 40 dots" in text
    (image,) = page.images
    assert image["srcsize"] == (60, 40)
    # as wide to its height as 60 to 40
    assert abs(image["width"] / image["height"] - 1.5) < 0.01
    assert min(char["size"] for char in page.chars) >= 9
    title = [char["size"] for char in page.chars if char["text"] == "W"]
    assert max(title) >= 12
    assert str(job.parent) not in text


# a camera held upright writes its picture lying, with orientation 6: turn it a quarter clockwise to see it as it was
# held (JEITA CP-3451, tag 0x0112). Red lies left, so it stands on top then
def test_turned_as_it_was_held(tmp_path: Path) -> None:
    lying = Image.new("RGB", (80, 40), BLUE)
    lying.paste(RED, (0, 0, 40, 40))
    exif = Image.Exif()
    exif[0x0112] = 6
    lying.save(tmp_path / "p.jpg", exif=exif, quality=95, subsampling=0)
    dots = dots_of(str(tmp_path / "p.jpg"))
    assert not isinstance(dots, str)
    assert (dots.width, dots.height, dots.of) == (40, 80, (40, 80))
    top, bottom = dots.rgb[3 * (10 * 40 + 20) :][:3], dots.rgb[3 * (70 * 40 + 20) :][:3]
    assert top[0] > 150 > top[2]
    assert bottom[2] > 150 > bottom[0]


# 2500 dots at most 1000: every third, 2500 / 3 = 834 and 1500 / 3 = 500, a part of a block counting as one
def test_a_large_one_is_made_smaller_and_a_see_through_one_is_laid_on_white(tmp_path: Path) -> None:
    (tmp_path / "large.png").write_bytes(png(2500, 1500, RED))
    dots = dots_of(str(tmp_path / "large.png"))
    assert not isinstance(dots, str)
    assert (dots.width, dots.height, dots.of) == (834, 500, (2500, 1500))
    assert max(dots.width, dots.height) <= MOST_DOTS
    assert dots.rgb == bytes(RED) * (834 * 500)
    Image.new("RGBA", (2, 1), (0, 0, 0, 0)).save(tmp_path / "clear.png")
    clear = dots_of(str(tmp_path / "clear.png"))
    assert not isinstance(clear, str)
    assert clear.rgb == b"\xff" * 6


def test_the_same_files_give_the_same_bytes(job: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    copies = record(job, png(60, 40, RED), png(50, 50, BLUE))
    text, pdf, _ = printed(job)
    other = tmp_path_factory.mktemp("other") / "hazel.yaml"
    other.write_text(JOB, encoding="utf-8")
    other.with_name("hazel.evidence.yaml").write_bytes(job.with_name("hazel.evidence.yaml").read_bytes())
    (other.parent / "hazel.photos").mkdir()
    for copy in reversed(copies):
        (other.parent / "hazel.photos" / copy.name).write_bytes(copy.read_bytes())
    assert printed(other)[:2] == (text, pdf)


def test_what_cannot_be_shown_is_said_on_paper_and_in_check(job: Path) -> None:
    gone, changed, kept = (
        record(job, png(60, 40, RED))[0], record(job, png(61, 40, RED))[0], record(job, png(62, 40, RED))[0],
    )  # fmt: skip
    gone.unlink()
    changed.write_bytes(png(61, 40, BLUE))
    text, pdf, proof = printed(job)
    said = unchecked(proof)
    assert len(said) == 2
    for copy, words in ((gone, "it isn't there"), (changed, "it was changed")):
        assert any(copy.name in each and words in each and "RK, 2026-03-02" in each for each in said)
    flat = " ".join(text.split())
    assert "2 of 3 photos can't be shown" in flat
    assert f"photo hazel.photos/{gone.name}: not shown: it isn't there" in flat
    assert f"photo hazel.photos/{kept.name}: 62 by 40 dots" in flat
    pages = pdfplumber.open(io.BytesIO(pdf)).pages
    assert [image["srcsize"] for page in pages for image in page.images] == [(62, 40)]
    on_page = " ".join(" ".join(page.extract_text().split()) for page in pages)
    assert "Not shown: it isn't there." in on_page
    assert "Not shown: it was changed" in on_page


# the first bytes and the last of a JPEG, with nothing between that is one
@pytest.mark.parametrize("raw", [b"\xff\xd8\xff\xe0" + b"\x01" * 50 + b"\xff\xd9", b"\xff\xd8\xff\xd9"])
def test_a_broken_file_keeps_nothing_back(raw: bytes, job: Path) -> None:
    record(job, raw)
    text, pdf, proof = printed(job)
    assert "not shown: its picture can't be read" in " ".join(text.split())
    page = pdfplumber.open(io.BytesIO(pdf)).pages[0]
    assert not page.images
    assert "Not shown: its picture can't be read" in " ".join(page.extract_text().split())
    assert proof.report.verdict != "unreadable"


def test_a_comma_in_the_jobs_name(tmp_path: Path) -> None:
    """Its photos lie in a folder of that name, and two of them are named one after the other."""
    path = tmp_path / "hazel, blue.yaml"
    path.write_text(JOB, encoding="utf-8")
    sources = [tmp_path / "one", tmp_path / "two"]
    for source, colour in zip(sources, (RED, BLUE), strict=True):
        source.write_bytes(png(60, 40, colour))
    append(tmp_path / "hazel, blue.evidence.yaml", SEEN, photos=sources)
    text, _, proof = printed(path)
    assert unchecked(proof) == []
    assert " ".join(text.split()).count("60 by 40 dots") == 2


def test_a_record_that_no_longer_holds_says_so(job: Path) -> None:
    path = job.with_name("hazel.evidence.yaml")
    (job.parent / "p").write_bytes(png(60, 40, RED))
    append(
        path, [("by", "RK"), ("seen", "dash.car.1"), ("fact", ["1 FL+ GY, seen from wire"])], photos=[job.parent / "p"]
    )
    text, _, _ = printed(job)
    assert "No longer counts: 1 was FL+ GY" in " ".join(text.split())
