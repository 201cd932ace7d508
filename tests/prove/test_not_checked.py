"""What a run leaves unlooked at is told, thing by thing: here the turn-on."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.prove import prove_text

CHAINED = (Path(__file__).parents[1] / "checks/E05/good_chained.yaml").read_text(encoding="utf-8")


def _unchecked(text: str) -> dict[str, str]:
    return {each.what: each.why for each in prove_text(text, "job.yaml").report.unchecked}


def test_a_turn_on_of_which_all_is_written_is_not_listed() -> None:
    assert not [what for what in _unchecked(CHAINED) if "wakes" in what or "turn-on" in what or "draws from" in what]


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        # a current that nobody wrote may be anything: the sum isn't known
        ("rem 35 mA", "rem", "what dsp draws from"),
        # a limit that nobody wrote
        ("gives: {AMP-ON: 100 mA}", "outputs: {FR: 4 V}", "whether dash cavity 4 (blue with white stripe, AMP-ON)"),
        # a unit of which nobody wrote how it wakes
        ("wakes: rem 35 mA", "class: D", "what wakes dsp"),
    ],
)
def test_what_is_not_written_of_the_turn_on_is_listed(old: str, new: str, what: str) -> None:
    assert old in CHAINED, CHAINED
    assert [each for each in _unchecked(CHAINED.replace(old, new)) if each.startswith(what)]
