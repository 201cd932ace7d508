"""`ringout chart`: what it writes and where, what it says, and that a file is whole or absent."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

import pytest

SHEET = "Pin;Signal;Wire colour;Size\n1;FL+;BN;0,75\n9;FL-;BN/WH;0,75\n5;ACC;RD;0,75\n"
ROWS = "    cavities:\n      1/9: FL BN BN/WH 0.75 mm2\n      5: ACC RD 0.75 mm2\n"


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "sheet 31.csv"
    path.write_bytes(SHEET.encode("cp1252"))
    return path


def test_to_the_screen(ringout, sheet: Path) -> None:
    """The part goes to stdout alone, what is to be said to stderr."""
    answer = ringout(
        "chart", sheet.name, "--plug", "dash", "--date", "2026-02-10", "--by", "RK", "--covers", "2019..2022"
    )

    assert answer.code == 1  # the gaps 2..4 and 6..8
    assert answer.out.endswith(ROWS)
    assert "source: {chart: sheet 31, date: 2026-02-10, by: RK, covers: 2019..2022}" in answer.out
    assert "row 2, gap in the numbers: Cavities 2 to 4" in answer.err
    assert "      1;FL+;BN;0,75" in answer.err


def test_all_well_is_0(ringout, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("pin,function\n1,FL+\n2,FL-\n", encoding="utf-8")

    assert ringout("chart", "a.csv").code == 0


def test_part_file_is_taken_by_a_job(ringout, sheet: Path, tmp_path: Path) -> None:
    """As written in the README: `parts:` and `part:`."""
    written = ringout("chart", sheet.name, "-o", "dash.yaml")
    (tmp_path / "job.yaml").write_text(
        "ringout: 1\ntitle: t\nparts: [dash.yaml]\nplugs: {p: {part: dash, unit: radio}}\n"
        "units: {radio: {kind: radio}}\n",
        encoding="utf-8",
    )

    assert written.code == 1
    assert "Written to dash.yaml" in written.out
    assert written.err == ""
    assert ringout("check", "job.yaml").code == 0


def test_there_already(ringout, sheet: Path, tmp_path: Path) -> None:
    """The same again is fine; another text stays until told."""
    ringout("chart", sheet.name, "-o", "dash.yaml")
    again = ringout("chart", sheet.name, "-o", "dash.yaml")
    (tmp_path / "dash.yaml").write_text("mine", encoding="utf-8")
    refused = ringout("chart", sheet.name, "-o", "dash.yaml")
    kept = (tmp_path / "dash.yaml").read_text(encoding="utf-8")
    told = ringout("chart", sheet.name, "-o", "dash.yaml", "--replace")

    assert (again.code, refused.code, told.code) == (1, 2, 1)
    assert "--replace" in refused.err
    assert kept == "mine"
    assert (tmp_path / "dash.yaml").read_text(encoding="utf-8").endswith(ROWS)


def test_json(ringout, sheet: Path) -> None:
    answer = ringout("chart", sheet.name, "--json")
    told = json.loads(answer.out)

    assert answer.err == ""
    assert [(row["cavity"], row["function"], row["row"]) for row in told["rows"]] == [
        ("1", "FL+", 2), ("9", "FL-", 3), ("5", "ACC", 4),
    ]  # fmt: skip
    assert [each["kind"] for each in told["told"]] == ["gap", "gap"]
    assert (told["separator"], told["written"], told["source"]["chart"]) == ("semicolon", None, "sheet 31")


def test_refused_in_one_pass(ringout, tmp_path: Path) -> None:
    """Every reason with its row, its line of the file and the user's own words; nothing is written."""
    (tmp_path / "a.csv").write_text(f'pin,function,{"x" * 1001}\n1,"a\nb",\n2,"FL-\n', encoding="utf-8")
    answer = ringout("chart", "a.csv", "-o", "out.yaml")
    as_json = ringout("chart", "a.csv", "--json")

    assert (answer.code, answer.out) == (2, "")
    assert "nothing was written" in answer.err
    assert "row 1, can't be read: A cell has more than 1000" in answer.err
    assert "row 3 (line 4), can't be read: A quote" in answer.err
    assert '      2,"FL-\n' in answer.err
    assert not (tmp_path / "out.yaml").exists()
    assert as_json.code == 2
    assert [each["line"] for each in json.loads(as_json.out)["told"]] == [1, 4]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["none.csv"], "No such file"),
        (["."], "is a folder"),
        (["a.csv", "--date", "10.02.2026"], "2026-03-02"),
        (["a.csv", "--covers", "19-22"], "2020..2023"),
        (["a.csv", "--plug", "gnd"], "not spk, gnd, battery"),
        (["a.csv", "--plug", "a b"], "letters, digits"),
        (["a.csv", "--plug", ""], "--plug names no plug"),
        (["a.csv", "--plug", " ", "--into", "job.yaml"], "--plug names no plug"),
        (["a.csv", "-o", ""], "-o names no file"),
        (["a.csv", "--into", "", "--plug", "dash"], "--into names no file"),
        (["a.csv", "--legend", "SB=sky"], "'sky' is no colour"),
        (["a.csv", "--columns", "cavity hue"], "'hue' is no column"),
        (["a.csv", "--heading", "Wire=hue"], "HEADING=COLUMN"),
        (["a.csv", "--ways", "0"], "0 is not in the range"),
        (["a.csv", "-o", "x.yaml", "--into", "job.yaml"], "either -o or --into"),
        (["a.csv", "--into", "job.yaml"], "--plug dash"),
        (["a.csv", "--into", "none.yaml", "--plug", "d"], "No such file"),
        (["a.csv", "-o", "no/such/x.yaml"], "there is no folder"),
        (["a.csv", "-o", "."], "is a folder"),
    ],
)
def test_misuse(arguments: list[str], words: str, ringout, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("pin,function\n1,FL+\n2,FL-\n", encoding="utf-8")
    answer = ringout("chart", *arguments)

    assert (answer.code, answer.out) == (2, "")
    assert words in answer.err
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]


# -- into a job -----------------------------------------------------------------------------------------------

JOB = """\
ringout: 1
title: A job   # of mine
plugs:
  # the one behind the radio
  dash:
    place: behind the radio   # deep
    unit: radio
  seat:
    place: left seat
units:
  radio: {kind: radio}
"""


def test_into_a_plug(ringout, sheet: Path, tmp_path: Path) -> None:
    """Every other line stays as it was, in its place."""
    (tmp_path / "job.yaml").write_bytes(JOB.replace("\n", "\r\n").encode())
    answer = ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "Dash")
    text = (tmp_path / "job.yaml").read_bytes().decode()

    assert answer.code == 1
    assert text == JOB.replace("    unit: radio\n", "    unit: radio\n    source: {chart: sheet 31}\n" + ROWS).replace(
        "\n", "\r\n"
    )
    assert ringout("check", "job.yaml").code == 0


@pytest.mark.parametrize(
    ("job", "after"),
    [
        ("ringout: 1\ntitle: t\n", "ringout: 1\ntitle: t\nplugs:\n  dash:\n    source: {chart: sheet 31}\n" + ROWS),
        (
            "ringout: 1\nplugs:\n   seat:\n      place: x\ntitle: t",
            "ringout: 1\nplugs:\n   seat:\n      place: x\n   dash:\n     source: {chart: sheet 31}\n"
            + ROWS.replace("    cav", "     cav").replace("      ", "       ")
            + "title: t",
        ),
    ],
)
def test_into_a_plug_that_is_not_there(job: str, after: str, ringout, sheet: Path, tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(job, encoding="utf-8")
    ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "dash")

    assert (tmp_path / "job.yaml").read_text(encoding="utf-8") == after


def test_what_a_plug_has_already(ringout, sheet: Path, tmp_path: Path) -> None:
    """Refused with its lines; with --replace the chart's keys give way and the others stay."""
    job = JOB.replace(
        "    unit: radio\n", "    source: old sheet\n    cavities:\n      1: FL+ WH\n    unit: radio\n", 1
    )
    (tmp_path / "job.yaml").write_text(job, encoding="utf-8")
    refused = ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "dash")
    kept = (tmp_path / "job.yaml").read_text(encoding="utf-8")
    told = ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "dash", "--replace")

    assert refused.code == 2
    assert refused.err.startswith("ringout: job.yaml: nothing was written")
    assert "line 7, can't take it: “dash” has `source:` already." in refused.err
    assert "line 8, can't take it: “dash” has `cavities:` already." in refused.err
    assert kept == job
    assert told.code == 1
    assert (tmp_path / "job.yaml").read_text(encoding="utf-8") == JOB.replace(
        "    unit: radio\n", "    source: {chart: sheet 31}\n" + ROWS + "    unit: radio\n", 1
    )


@pytest.mark.parametrize(
    ("own", "made"),
    [
        ("", "    note: My sheet\n"),
        ("    note: look twice\n", "    # chart: My sheet\n"),
    ],
)
def test_what_belongs_to_no_cavity(own: str, made: str, ringout, tmp_path: Path) -> None:
    """It becomes the plug's note, and a remark beside one that is there already."""
    (tmp_path / "a.csv").write_text("My sheet\npin,function\n1,ACC\n2,GND\n", encoding="utf-8")
    (tmp_path / "job.yaml").write_text(JOB.replace("    unit: radio\n", f"    unit: radio\n{own}"), encoding="utf-8")
    ringout("chart", "a.csv", "--into", "job.yaml", "--plug", "dash")

    assert (tmp_path / "job.yaml").read_text(encoding="utf-8") == JOB.replace(
        "    unit: radio\n",
        f"    unit: radio\n{own}    source: {{chart: a}}\n{made}    cavities:\n      1: ACC\n      2: GND\n",
    )


@pytest.mark.parametrize(
    ("job", "words"),
    [
        ("ringout: 1\nplugs: {dash: {place: x}}\n", "is written in one line"),
        ("ringout: 1\nplugs:\n  dash: {place: x}\n", "is written in one line"),
        ("ringout: 1\nplugs:\n  dash: x\n", "stands no table"),
        ("ringout: 1\nplugs: [a]\n", "stands no table"),
        ("ringout: 1\nplugs:\n\tdash:\n", "begins with a tab"),
        ("", "There is nothing in the file"),
        ("\x00", "NUL byte"),
    ],
)
def test_jobs_that_cannot_take_it(job: str, words: str, ringout, sheet: Path, tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(job, encoding="utf-8")
    answer = ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "dash")

    assert (answer.code, answer.out) == (2, "")
    assert words in answer.err
    assert (tmp_path / "job.yaml").read_text(encoding="utf-8") == job


def test_a_plug_whose_rows_are_a_part(ringout, sheet: Path, tmp_path: Path) -> None:
    """Nothing is mixed into the job over the part's rows; what is typed instead works from where one stands."""
    (tmp_path / "far parts").mkdir()
    part = "ringout: 1\nplugs:\n  block:\n    place: deep\n"
    (tmp_path / "far parts" / "p.yaml").write_text(part, encoding="utf-8")
    job = "ringout: 1\ntitle: t\nparts: [far parts/p.yaml]\nplugs:\n  dash: {part: Block}\n  seat: {part: none}\n"
    (tmp_path / "job.yaml").write_text(job, encoding="utf-8")
    refused = ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "dash", "--replace")
    nowhere = ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "seat")
    then = ringout("chart", sheet.name, "--into", "far parts/p.yaml", "--plug", "block")

    assert (refused.code, nowhere.code, then.code) == (2, 2, 1)
    where = os.path.join("far parts", "p.yaml")
    assert f"line 5, can't take it: The rows of “dash” stand in {where}, as its part “block”." in refused.err
    assert f'--into "{where}" --plug block' in refused.err
    assert "“seat” is the part “none”, and no part file has it." in nowhere.err
    assert (tmp_path / "job.yaml").read_text(encoding="utf-8") == job
    assert (tmp_path / "far parts" / "p.yaml").read_text(encoding="utf-8") == (
        part + "    source: {chart: sheet 31}\n" + ROWS
    )


def test_a_full_disk_leaves_the_old_file(ringout, sheet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "job.yaml").write_text(JOB, encoding="utf-8")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    answer = ringout("chart", sheet.name, "--into", "job.yaml", "--plug", "dash")

    assert answer.code == 2
    assert "No space left" in answer.err
    assert (tmp_path / "job.yaml").read_text(encoding="utf-8") == JOB
    assert len(list(tmp_path.iterdir())) == 2


# -- at a terminal --------------------------------------------------------------------------------------------


@pytest.mark.skipif(sys.platform == "win32", reason="a pseudo-terminal is POSIX's")
def test_asked_at_a_terminal(root: Path, tmp_path: Path) -> None:
    """Columns and codes are asked for; a wrong answer is asked again; Enter leaves a code as it is."""
    import pty
    import subprocess

    (tmp_path / "a.csv").write_text("1,ACC,SB\n2,GND,L\n", encoding="utf-8")
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "harness", "chart", "a.csv", "--plug", "dash"],
        cwd=tmp_path, env={**os.environ, "PYTHONPATH": str(root)}, stdin=theirs, stdout=subprocess.PIPE, stderr=theirs,
    )  # fmt: skip
    os.close(theirs)
    os.write(ours, b"cavity function hue\ncavity function colour\nsky\nlight blue\n\n")
    out, _ = process.communicate(timeout=60)
    shown = os.read(ours, 100_000).decode()
    os.close(ours)

    assert process.returncode == 1  # L is left to be asked about
    assert "'hue' is no column" in shown
    assert "black on one legend and sky blue on another" in shown
    assert "'sky' is no colour" in shown
    assert out.decode().endswith("    legend: {SB: light blue}\n    cavities:\n      1: ACC SB\n      2: GND L\n")
