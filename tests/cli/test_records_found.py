"""Records that are hard to find or to read are told, and their photos go along."""

from __future__ import annotations

import json
import os
import sys
import zipfile
from pathlib import Path

import pytest

JOB = "ringout: 1\ntitle: A job\nunits:\n  radio: {kind: radio}\n"
PNG = b"\x89PNG\r\n\x1a\n" + b"\0\0\0\0IEND\xaeB\x60\x82"  # ISO/IEC 15948, 11.2.5: IEND with its check sum
RECORD = "- {when: 2026-02-12 09:40, by: RK, handover: paused, odd: nothing}\n"


@pytest.fixture
def bay(tmp_path: Path) -> Path:
    (tmp_path / "hazel.yaml").write_text(JOB, encoding="utf-8")
    (tmp_path / "p.png").write_bytes(PNG)
    return tmp_path


@pytest.mark.parametrize("end", ["- {when: 2026-02-12 09:40, by: RK, to", "- {when: 2026 #torn\n", "# mine\n"])
def test_photos_travel_though_a_line_broke_off(ringout, bay: Path, end: str) -> None:
    said = ["--by", "RK", "handover: taken", "odd: nothing"]
    assert ringout("record", "hazel.yaml", *said, "--photo", "p.png").code == 0
    with open(bay / "hazel.evidence.yaml", "a", encoding="utf-8") as stream:
        stream.write(end)
    answer = ringout("bundle", "hazel.yaml", "-o", "h.zip")

    assert (answer.code, "Not in it" in answer.out) == (0, False)
    names = zipfile.ZipFile(bay / "h.zip").namelist()
    assert sum(name.startswith("hazel.photos/") for name in names) == 1


@pytest.mark.skipif(sys.platform == "win32", reason="links want rights there")
@pytest.mark.parametrize("leads", ["sub/x.yaml", "hazel.evidence.yaml"])
def test_a_broken_link_is_told(ringout, bay: Path, leads: str) -> None:
    """To nowhere, or to itself: there were records, and nobody can see them now."""
    os.symlink(leads, bay / "hazel.evidence.yaml")
    for words in (("check", "hazel.yaml"), ("bundle", "hazel.yaml", "-o", "h.zip")):
        answer = ringout(*words)
        assert (answer.code, "hazel.evidence.yaml" in answer.out, "link" in answer.out) == (2, True, True)
    assert not (bay / "h.zip").exists()


def test_remarks_alone_are_no_records(ringout, bay: Path) -> None:
    (bay / "hazel.evidence.yaml").write_text("# x\n\n  # y\n", encoding="utf-8")
    assert ringout("check", "hazel.yaml").code == 0


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("../p.png", "leads out of the job's folder"),
        ("/x.jpg", "a path of this machine alone"),
        ("C:\\x.jpg", "a path of this machine alone"),
        ("gone.png", "it isn't there"),
        ("secret.txt", "ends in .jpg"),
        ("text.png", "no JPEG or PNG"),
        (".p.png", "would be hidden"),
        ("[p.png, gone.png]", "gone.png"),
    ],
)
def test_a_photo_by_hand_is_looked_at_when_it_is_recorded(ringout, bay: Path, name: str, why: str) -> None:
    for other in ("secret.txt", ".p.png"):
        (bay / other).write_bytes(PNG)
    (bay / "text.png").write_text("text", encoding="utf-8")
    answer = ringout("record", "hazel.yaml", "--by", "RK", "handover: taken", "odd: nothing", f"photo: {name}")

    assert (answer.code, why in answer.err) == (2, True), answer
    assert not (bay / "hazel.evidence.yaml").exists()
    fine = ringout("record", "hazel.yaml", "--by", "RK", "handover: taken", "odd: nothing", "photo: p.png")
    assert fine.code == 0
    assert ringout("bundle", "hazel.yaml", "-o", "h.zip").code == 0


def test_a_seal_between_quotes_is_still_looked_at(ringout, bay: Path) -> None:
    for odd in ("nothing", "a rattle"):
        assert ringout("record", "hazel.yaml", "--by", "RK", "handover: taken", f"odd: {odd}").code == 0
    path = bay / "hazel.evidence.yaml"
    one, two = path.read_text(encoding="utf-8").splitlines()
    seal = two[-18:-2] if two.endswith('"}') else two[-17:-1]
    changed = two.replace("a rattle", "nothing at all").replace(seal, f'"{seal}"')
    path.write_text(f"{one}\n{changed}\n", encoding="utf-8")
    found = json.loads(ringout("check", "hazel.yaml", "--json").out)["findings"]
    assert [each["code"] for each in found if each["code"] == "J20"] == ["J20"]
