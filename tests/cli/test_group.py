"""The verbs' list, their help, and mistakes in the command line."""

from __future__ import annotations

import importlib

import click
import pytest

import harness.checks
from harness import __version__
from harness.cli.group import VERBS


def test_help_lists_the_verbs(ringout) -> None:
    """One line a verb."""
    answer = ringout("--help")

    assert answer.code == 0
    assert all(f"  {verb} " in answer.out for verb in VERBS)


@pytest.mark.parametrize("verb", VERBS)
def test_every_verb_helps_with_an_example(verb: str, ringout) -> None:
    """The help says what the list says, and shows a command line that begins with the verb."""
    answer = ringout(verb, "--help")
    command = importlib.import_module(f"harness.cli.{verb}").command

    assert answer.code == 0
    assert isinstance(command, click.Command)
    assert VERBS[verb] in answer.out
    assert f"Example:\n    ringout {verb}" in answer.out


def test_version(ringout) -> None:
    assert ringout("--version") == (0, f"ringout {__version__}\n", "")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["chekc", "a.yaml"], "did you mean check?"),
        (
            ["sing"],
            "there are demo, check, packet, tone, record, weigh, locate, chart, bundle, take, again, sounds, explain",
        ),
        (["check", "--jason", "a.yaml"], "--json"),
        (["check", "a.yaml", "--need", "luck"], "'toned', 'verified'"),
        (["packet", "a.yaml"], "Missing option"),
        (["explain", "C01", "--list"], "either a CODE or --list"),
        (["explain", "Z99"], "there is no code Z99"),
    ],
)
def test_misuse(arguments: list[str], words: str, ringout) -> None:
    """Exit 2, words on stderr, nothing on stdout."""
    answer = ringout(*arguments)

    assert answer.code == 2
    assert words in answer.err
    assert answer.out == ""


def test_own_fault_is_one_line(ringout, monkeypatch: pytest.MonkeyPatch) -> None:
    """A mistake of the tool gives no traceback, but says where it lies and asks to report it."""
    monkeypatch.setattr(harness.checks, "catalogue", lambda code="": [][1])
    answer = ringout("explain", "--list")

    assert answer.code == 2
    assert answer.err.count("\n") == 1
    assert "a fault of ringout" in answer.err
    assert "IndexError" in answer.err
    assert "test_group.py:" in answer.err


def test_own_fault_for_a_developer(ringout, monkeypatch: pytest.MonkeyPatch) -> None:
    """With RINGOUT_TRACEBACK the exception comes through."""
    monkeypatch.setattr(harness.checks, "catalogue", lambda code="": [][1])
    monkeypatch.setenv("RINGOUT_TRACEBACK", "1")

    with pytest.raises(IndexError):
        ringout("explain", "--list")
