"""`ringout explain` and `ringout schema`."""

from __future__ import annotations

import json
import re

import jsonschema

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


def test_schema(ringout) -> None:
    """What is printed is a JSON Schema."""
    answer = ringout("schema")
    printed = json.loads(answer.out)

    assert answer.code == 0
    assert printed["$schema"].startswith("http")
    jsonschema.validators.validator_for(printed).check_schema(printed)
