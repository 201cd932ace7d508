"""What the README tells people to type and write works."""

from __future__ import annotations

import re
import shlex
import tomllib
from pathlib import Path

import pytest

from harness.cli.group import VERBS


@pytest.fixture(scope="module")
def readme(root: Path) -> str:
    return (root / "README.md").read_text(encoding="utf-8")


def _blocks(readme: str, language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", readme, flags=re.MULTILINE | re.DOTALL)


def test_two_commands(readme: str, root: Path) -> None:
    """One line sets up and runs the demo, one sets up and runs the tests; Python is all they start from."""
    commands = [line for block in _blocks(readme, "sh") for line in block.splitlines() if " -m venv " in line]
    extras = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]["optional-dependencies"]

    assert len(commands) == 2
    for command in commands:
        steps = [shlex.split(step) for step in command.split("&&")]
        environment = steps[0][3]
        assert steps[0][:3] == ["python3", "-m", "venv"]
        assert all(step[0].startswith(f"{environment}/bin/") for step in steps[1:])
        for extra in re.findall(r"\[(\w+)\]", command):
            assert extra in extras
    assert commands[0].endswith("/ringout demo out")
    assert commands[1].endswith("/python -m pytest -n auto")


def test_ci_takes_them_from_here(readme: str, root: Path) -> None:
    """The patterns by which CI finds the two commands find one line each."""
    script = (root / ".ci" / "run").read_text(encoding="utf-8") if (root / ".ci").is_dir() else ""
    if not script:
        pytest.skip("an sdist has no .ci")
    patterns = re.findall(r"\$\(readme_command '(.*?)'\)", script)

    assert len(patterns) == 2
    for pattern in patterns:
        assert len(re.findall(rf"^python3 -m venv .*{pattern}", readme, flags=re.MULTILINE)) == 1


def test_verbs_exist(readme: str) -> None:
    typed = set(re.findall(r"^ringout (\w+)|`ringout (\w+)", readme, flags=re.MULTILINE))

    assert {first or second for first, second in typed} == set(VERBS) - {"demo"}


def test_files_named_exist(readme: str, root: Path) -> None:
    """Every link and every folder named is there."""
    for target in re.findall(r"\]\(([^)#]+)\)|`((?:samples|templates|tests)/[\w./-]*)`", readme):
        assert (root / (target[0] or target[1])).exists(), target


def test_example_is_a_whole_job(readme: str, tmp_path: Path) -> None:
    """The blocks put one after the other are a job that reads and has nothing to mend."""
    from harness.finding import Severity
    from harness.prove import prove

    job = tmp_path / "hazel.yaml"
    job.write_text("".join(_blocks(readme, "yaml")), encoding="utf-8")
    report = prove(job).report

    assert [found for found in report.findings if found.severity <= Severity.FIX or found.code[0] == "R"] == []
    assert report.verdict == "consistent-not-verified"
    assert report.counts.charted == 2


def test_evidence_in_the_readme_counts(readme: str, tmp_path: Path) -> None:
    """The record shown, put beside the example, makes one of its pairs toned."""
    from harness.prove import prove

    job = tmp_path / "hazel.yaml"
    job.write_text("".join(_blocks(readme, "yaml")), encoding="utf-8")
    record = next(block for block in _blocks(readme, "text") if block.startswith("- {when"))
    (tmp_path / "hazel.evidence.yaml").write_text(record, encoding="utf-8")
    counts = prove(job).report.counts

    assert (counts.charted, counts.toned) == (1, 1)


@pytest.mark.parametrize("upto", range(2, 7))
def test_example_can_be_checked_as_it_grows(upto: int, readme: str, tmp_path: Path) -> None:
    """From the second block on nothing but names that come later is missing; nothing crashes."""
    from harness.prove import prove

    job = tmp_path / "hazel.yaml"
    job.write_text("".join(_blocks(readme, "yaml")[:upto]), encoding="utf-8")
    codes = {found.code for found in prove(job).report.findings if found.code[0] == "R"}

    assert codes <= ({"R20"} if upto == 2 else set())
