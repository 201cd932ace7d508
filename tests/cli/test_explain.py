"""`ringout explain` and `ringout schema`."""

from __future__ import annotations

import json
import re
from pathlib import Path

import jsonschema
import pytest
import yaml

from harness.checks import catalogue


def test_list(ringout) -> None:
    """Each code once, in order, with severity and title: the checks' and the reader's."""
    answer = ringout("explain", "--list")
    rows = [re.fullmatch(r"([A-Z][0-9]{2}) (STOP|FIX|ASK|NOTE) +\S.*", line) for line in answer.out.splitlines()]

    assert answer.code == 0
    assert all(rows)
    codes = [row[1] for row in rows if row]
    assert codes == sorted(set(codes))
    assert {"C01", "B01", "B06", "F22", "H01", "R01"} <= set(codes)


def test_every_code_is_explained(ringout) -> None:
    """The first line is the list's; what follows says more than the title."""
    for entry in catalogue():
        answer = ringout("explain", entry.code.lower())

        assert answer.code == 0
        assert answer.out.startswith(f"{entry.code} {entry.severity.name} {entry.title}\n")
        assert len(answer.out.split()) > len(entry.title.split()) + 15, entry.code


def test_codes_named_in_passing_are_said_in_words(ringout) -> None:
    """A19 sends readings of other wires to H15: what that is stands below, once, and A19 itself doesn't."""
    below = ringout("explain", "A19").out.partition("Named above:\n")[2]

    assert below == "  H15 Short between two wires\n"


def test_unknown_code_names_its_neighbours(ringout) -> None:
    answer = ringout("explain", "C99")

    assert answer.code == 2
    assert "C01" in answer.err
    assert "F22" not in answer.err


@pytest.mark.parametrize(
    ("option", "file", "right", "wrong"),
    [
        (None, "hatch-plug-in.yaml", "steering: left", "stering: left"),
        ("--shop", "shop.yaml", "labour: 84.00 EUR", "labour: 84.00"),
        ("--shop", "shop.yaml", "fit a unit: 45..75 min", "fit a unit: 45..75"),
        ("--part", "maps/alder-2020-base-right-hand.yaml", "plugs:", "wishes:"),
        ("--part", "parts/alder-hatch.yaml", "plugs:", "plug:"),
        ("--scope", "scopes/alder-on-lease.yaml", "add: SUB", "add: SOB"),
        ("--scope", "scopes/alder-on-lease.yaml", "without: [emergency call]", "without: [a roof]"),
        ("--scope", "scopes/alder-on-lease.yaml", "wishes:", "wish:"),
    ],
)
def test_schema(option: str | None, file: str, right: str, wrong: str, root: Path, ringout) -> None:
    """What is printed is a JSON Schema of just that file: the sample is right by it, and with one slip wrong."""
    answer = ringout("schema", *([option] if option else []))
    printed = json.loads(answer.out)
    text = (root / "samples" / file).read_text(encoding="utf-8")

    assert answer.code == 0
    assert printed["$schema"].startswith("http")
    validator = jsonschema.validators.validator_for(printed)
    validator.check_schema(printed)
    assert right in text
    assert validator(printed).is_valid(yaml.load(text, Loader=yaml.CBaseLoader))
    assert not validator(printed).is_valid(yaml.load(text.replace(right, wrong, 1), Loader=yaml.CBaseLoader))
