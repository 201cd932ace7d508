"""`ringout demo`: what it leaves, and what it leaves alone."""

from __future__ import annotations

from pathlib import Path

from harness.assets import folder


def _tree(where: Path) -> dict[str, bytes]:
    return {path.relative_to(where).as_posix(): path.read_bytes() for path in where.rglob("*") if path.is_file()}


def test_demo(ringout, tmp_path: Path) -> None:
    """Every sample is there, one packet is printed, and what to type next is said and works."""
    answer = ringout("demo", "out")
    left = _tree(tmp_path / "out")

    assert answer.code == 0
    assert _tree(folder("samples")).items() <= left.items()
    assert left["packet/packet.pdf"].startswith(b"%PDF")
    assert left["packet/packet.txt"].strip()
    assert str(Path("out/packet/packet.pdf")) in answer.out
    typed = [line.split("ringout check ")[1] for line in answer.out.splitlines() if "ringout check " in line]
    assert len(typed) == len([name for name in _tree(folder("samples")) if _is_job(folder("samples") / name)])
    assert all(ringout("check", path).code in (0, 1) for path in typed)


def _is_job(path: Path) -> bool:
    return path.parent == folder("samples") and any(
        line.startswith("ringout:") and path.name != "shop.yaml"
        for line in path.read_text(encoding="utf-8").splitlines()
    )


def test_default_folder(ringout, tmp_path: Path) -> None:
    assert ringout("demo").code == 0
    assert (tmp_path / "ringout-demo" / "hatch-plug-in.yaml").is_file()


def test_again_gives_the_same_bytes(ringout, tmp_path: Path) -> None:
    """A folder of its own is written again."""
    first = ringout("demo", "out"), _tree(tmp_path / "out")
    again = ringout("demo", "out"), _tree(tmp_path / "out")

    assert again == first


def test_strangers_folder_is_left_alone(ringout, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "letter.txt").write_text("dear", encoding="utf-8")
    answer = ringout("demo", "mine")

    assert answer.code == 2
    assert "mine has other things in it" in answer.err
    assert _tree(tmp_path / "mine") == {"letter.txt": b"dear"}


def test_empty_folder_is_used(ringout, tmp_path: Path) -> None:
    (tmp_path / "new").mkdir()

    assert ringout("demo", "new").code == 0


def test_work_on_a_sample_is_not_lost(ringout, tmp_path: Path) -> None:
    """A sample that somebody has edited stops the second run; a file of one's own doesn't."""
    ringout("demo", "out")
    job = tmp_path / "out" / "hatch-plug-in.yaml"
    (tmp_path / "out" / "own.yaml").write_text("ringout: 1\n", encoding="utf-8")
    assert ringout("demo", "out").code == 0
    job.write_bytes(job.read_bytes() + b"# tried something\n")
    answer = ringout("demo", "out")

    assert answer.code == 2
    assert "hatch-plug-in.yaml was changed" in answer.err
    assert job.read_bytes().endswith(b"# tried something\n")
    assert (tmp_path / "out" / "own.yaml").read_text(encoding="utf-8") == "ringout: 1\n"
