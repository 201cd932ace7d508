"""`ringout weigh` at the command line: what it refuses, what it lists, what it leaves alone."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.weighing.test_samples import ROOT, run


@pytest.fixture
def here(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "samples", tmp_path / "samples")
    return tmp_path / "samples"


def test_a_shop_file_with_faults_is_told_with_its_line(here: Path) -> None:
    text = (here / "shop.yaml").read_text(encoding="utf-8").replace("pull: 2 min", "pull: 2")
    (here / "shop.yaml").write_text(text, encoding="utf-8")
    line = text[: text.index("pull: 2")].count("\n") + 1
    answer = run("weigh", "hatch-plug-in.yaml", where=here)
    assert answer.returncode == 2
    assert f"shop.yaml:{line}:" in answer.stdout
    assert "pull: 2" in answer.stdout


def test_take_writes_whole_or_not_at_all(here: Path) -> None:
    names = sorted(path.name for path in here.iterdir())
    for arguments, word in (
        (("--take", "9"), "no offer 9"),
        (("--take", "1", "-o", "hatch-plug-in.yaml"), "is there already"),
        (("--take", "1", "-o", "nowhere/x.yaml"), "no folder"),
        (("--take", "1", "-o", "parts"), "is a folder"),
        (("--take", "1", "-o", "parts/x.yaml"), "no job was written"),
        (("-o", "x.yaml"), "--take"),
        (("--take", "0"), "0"),
    ):
        answer = run("weigh", "hatch-plug-in.yaml", *arguments, where=here)
        assert answer.returncode == 2, arguments
        assert word in answer.stderr, (arguments, answer.stderr)
        assert sorted(path.name for path in here.iterdir()) == names
    assert run("weigh", "hatch-plug-in.yaml", "--take", "1", where=here).returncode == 0
    assert sorted(path.name for path in here.iterdir()) == sorted([*names, "hatch-plug-in-1.yaml"])


def test_without_a_shop_file_every_figure_is_called_a_default(here: Path) -> None:
    (here / "shop.yaml").unlink()
    answer = run("weigh", "hatch-plug-in.yaml", where=here)
    assert answer.returncode == 0
    assert "No shop file" in answer.stdout
    told = answer.stdout[answer.stdout.index("Defaults, not the shop's figures:") :]
    for what in ("labour", "consumables", "one crimp", "mate", "cut end off", "pull", "move", "cap", "recheck of tug"):
        assert f"\n  {what}: " in told, what
    assert "the price of T1 isn't written" in answer.stdout


def test_the_drawer_is_listed(here: Path) -> None:
    answer = run("weigh", "--shop", "shop.yaml", where=here)
    assert answer.returncode == 0
    assert (
        "L4: unit: 8-way block B, car: 8-way block B; 8 leads, 4 through; 17.50 EUR; 0 in stock; 9 days"
        in answer.stdout
    )
    assert run("weigh", where=here).returncode in (0, 2)


def test_a_leased_car_and_the_day_are_told(here: Path) -> None:
    path = here / "hatch-plug-in.yaml"
    text = path.read_text(encoding="utf-8").replace("steering: left,", "steering: left, ownership: leased,")
    path.write_text(text.replace("revision: B\n", "revision: B\ndate: 2026-03-18\n"), encoding="utf-8")
    said = run("weigh", "hatch-plug-in.yaml", where=here).stdout
    assert "The car is leased" in said
    assert "8 factory wires cut: it can't be put back as it was, and the car is leased" in said
    # counted on 9 March, nine days: 18 March, the day of the job itself
    assert "not in stock, here on 2026-03-18: by the day of the job (2026-03-18)" in said


def test_a_job_that_can_not_be_read_is_not_weighed(here: Path) -> None:
    (here / "hatch-plug-in.yaml").write_text("ringout: 1\n", encoding="utf-8")
    answer = run("weigh", "hatch-plug-in.yaml", where=here)
    assert answer.returncode == 2
    assert "can’t be weighed" in answer.stderr
