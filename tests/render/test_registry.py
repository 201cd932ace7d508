"""Sheets found by being there, and the files of a packet."""

from __future__ import annotations

import sys
import types
from collections.abc import Iterable
from pathlib import Path

import pytest

from render import documents as registry
from render.blocks import Face, FacePair, Keep, Masthead, Para, Sheet
from render.documents import Document, document, packet, write_packet
from render.ends import grid_shape

HEAD = Masthead("Job", "A", "Car", "STATE", "", "", "")


@pytest.fixture
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """A registry with nothing in it, and a masthead of ours."""
    monkeypatch.setattr(registry, "_REGISTRY", {})
    monkeypatch.setattr(registry.pkgutil, "iter_modules", lambda path: [])
    module = types.ModuleType("render.documents.masthead")
    module.masthead = lambda proof: HEAD  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "render.documents.masthead", module)


def one(name: str) -> Iterable[Sheet]:
    return [Sheet(name, name.title(), (Para("words"),))]


@pytest.mark.usefixtures("alone")
def test_order_and_choice(tmp_path: Path) -> None:
    document("second", title="Second", order=2)(lambda proof: one("second"))
    document("first", title="First", order=1)(lambda proof: one("first"))
    assert [kind.name for kind in registry.documents()] == ["first", "second"]
    assert isinstance(registry.documents()[0], Document)
    packet(None, tmp_path)  # type: ignore[arg-type]
    text = (tmp_path / "packet.txt").read_text(encoding="utf-8")
    assert text.index("First") < text.index("Second")
    packet(None, tmp_path, ["second"])  # type: ignore[arg-type]
    assert "First" not in (tmp_path / "packet.txt").read_text(encoding="utf-8")
    with pytest.raises(ValueError, match="there is no sheet 'third'; there are first, second"):
        packet(None, tmp_path, ["third"])  # type: ignore[arg-type]


@pytest.mark.usefixtures("alone")
def test_names_are_taken_once_and_fit_a_file(tmp_path: Path) -> None:
    document("cover", title="Cover", order=1)(lambda proof: one("../up"))
    with pytest.raises(ValueError, match="two sheets are named"):
        document("cover", title="Other", order=2)(lambda proof: [])
    with pytest.raises(ValueError, match="lower case"):
        document("Cover sheet", title="Other", order=2)
    with pytest.raises(ValueError, match="file name"):
        packet(None, tmp_path)  # type: ignore[arg-type]
    document("a", title="A", order=3)(lambda proof: one("same"))
    document("b", title="B", order=4)(lambda proof: one("Same"))
    with pytest.raises(ValueError, match="two sheets are named"):
        packet(None, tmp_path, ["a", "b"])  # type: ignore[arg-type]
    assert list(tmp_path.iterdir()) == []


def test_files_of_a_packet(tmp_path: Path) -> None:
    face = Face("Plug", grid_shape(1, 2, "wire", "top"), ())
    sheets = (Sheet("plug-a", "Plug", (Keep((FacePair(face),)), face)), Sheet("words", "Words", (Para("x"),)))
    made = write_packet(sheets, HEAD, tmp_path / "new" / "out")
    names = ["packet.pdf", "packet.txt", "plug-a-1.svg", "plug-a-2.svg", "plug-a-3.svg"]
    assert [path.name for path in made] == names
    assert sorted(path.name for path in (tmp_path / "new" / "out").iterdir()) == names
    assert "MATING SIDE" in made[3].read_text(encoding="utf-8")
    before = [path.read_bytes() for path in made]
    assert [path.read_bytes() for path in write_packet(sheets, HEAD, tmp_path / "new" / "out")] == before


def test_importing_the_registry_loads_nothing_heavy() -> None:
    import subprocess

    program = (
        "import sys, render.documents, render.blocks, render.writers.pdf, render.writers.text,"
        " render.writers.svg, render.diagrams.route, render.ends.drawing;"
        "print([m for m in ('reportlab', 'jinja2', 'graphviz', 'networkx', 'yaml') if m in sys.modules])"
    )
    env = {"PYTHONPATH": ":".join(sys.path)}
    out = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True, env=env)
    assert out.stdout.strip() == "[]"


def _plug_sheets(*names: str) -> tuple[Sheet, ...]:
    face = Face("Plug", grid_shape(1, 2, "wire", "top"), ())
    return tuple(Sheet(name, "Plug", (face,)) for name in names)


def test_pictures_of_an_earlier_packet_go_and_nothing_else(tmp_path: Path) -> None:
    write_packet(_plug_sheets("plug-a", "plug-sheet--b"), HEAD, tmp_path)
    copy = tmp_path / "mine-1.svg"
    copy.write_bytes((tmp_path / "plug-a-1.svg").read_bytes())
    strangers = {
        "other-1.svg": b"<svg/>",
        "plug-c-1.svg": b'<?xml version="1.0"?>\n<svg>plug-c-1.svg</svg>',
        "notes.txt": b"mine",
        "photo-1.svg": b"\xff\xfe",
    }
    for name, data in strangers.items():
        (tmp_path / name).write_bytes(data)
    (tmp_path / "folder-1.svg").mkdir()
    (tmp_path / "link-1.svg").symlink_to(tmp_path / "plug-sheet--b-1.svg")
    (tmp_path / "below").mkdir()
    kept_below = tmp_path / "below" / "plug-sheet--b-1.svg"
    kept_below.write_bytes((tmp_path / "plug-sheet--b-1.svg").read_bytes())

    write_packet(_plug_sheets("plug-a"), HEAD, tmp_path)

    assert not (tmp_path / "plug-sheet--b-1.svg").exists()
    assert (tmp_path / "plug-a-1.svg").exists()
    assert copy.exists(), "a copy under a name of one's own is one's own"
    assert kept_below.exists()
    assert (tmp_path / "link-1.svg").is_symlink()
    assert (tmp_path / "folder-1.svg").is_dir()
    assert {name: (tmp_path / name).read_bytes() for name in strangers} == strangers


def test_a_marked_picture_is_still_whole_xml(tmp_path: Path) -> None:
    import xml.dom.minidom

    paths = write_packet(_plug_sheets("plug-sheet--b"), HEAD, tmp_path)
    assert xml.dom.minidom.parseString(paths[2].read_bytes()).documentElement.tagName == "svg"
