"""A record's line reads back as the very same text: by PyYAML's composer, and by the job's own reader."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from harness.read.nodes import Rows, Table, Text, read_text
from harness.read.troubles import Troubles
from harness.records.flow import flow_line

# anything that prints on one line, with much of what YAML gives a meaning
WORDS = st.text(
    st.one_of(
        st.sampled_from(" :#,[]{}&*!|>'\"%@`-?~\\0123456789yesnoYN=+/.°Ωµ"),
        st.characters(categories=["L", "N", "P", "S"]),
    ),
    min_size=1, max_size=30,
).filter(lambda text: text.strip() == text and text.isprintable())  # fmt: skip


@given(st.lists(WORDS, min_size=1, max_size=5))
def test_read_back_by_yaml(values: list[str]) -> None:
    """Every value comes back as it was, alone and in a list; nothing becomes a key of its own."""
    line = flow_line([*((f"k{at}", value) for at, value in enumerate(values)), ("all", values)])

    (record,) = yaml.compose(line, Loader=yaml.CSafeLoader).value
    read = {key.value: value for key, value in record.value}
    assert [read[f"k{at}"].value for at in range(len(values))] == values
    assert [each.value for each in read["all"].value] == values
    assert "\n" not in line


@given(WORDS)
def test_read_back_by_the_reader(value: str) -> None:
    """The job's reader folds signs of word processors and refuses curly quotes; what it takes is the same text."""
    troubles = Troubles()
    root = read_text(flow_line([("note", value)]), "x.yaml", troubles)
    if troubles.findings or not value.isascii():
        return
    assert isinstance(root, Rows)
    (record,) = root.items
    assert isinstance(record, Table)
    node = record.get("note")
    assert isinstance(node, Text)
    assert node.value == " ".join(value.split("  ")) if "  " in value else node.value == value


@pytest.mark.parametrize("value", ["", "  ", "two\nlines", "a\ttab", "nul\0"])
def test_refused(value: str) -> None:
    """What no line can hold is refused, with the key named."""
    with pytest.raises(ValueError, match="odd"):
        flow_line([("odd", value)])


@pytest.mark.parametrize("word", ["yes", "No", "ON", "off", "true", "null", "~", "12", "1e3", "012", "2026-03-02"])
def test_no_reader_guesses(word: str) -> None:
    """Words that YAML readers turn into truth or nothing stand in quotes (YAML 1.1, types bool and null)."""
    read = yaml.safe_load(flow_line([("note", word)]))[0]["note"]
    if word.lower() in ("yes", "no", "on", "off", "true", "null", "~"):
        assert read == word
