"""The line of a record: read back by two loaders of YAML and by the job's own reader."""

from __future__ import annotations

import unicodedata

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from harness.read.nodes import Rows, Table, read_text
from harness.read.troubles import Troubles
from harness.records.flow import flow_line, is_whole, record_end

# Every character that a value may hold: printable ones and the spaces of other widths; no word processor's quotes.
_HARD = st.sampled_from([*"""-?:,[]{}#&*!|>%@`"'\\ ~=<.x7/+""", ": ", " #", "- ", "  ", "\u00a0", "–", "−", "é", "Ω"])
_ANY = st.characters(exclude_categories=["C", "Zl", "Zp"], exclude_characters="“”„‟‘’‚‛")
_TEXT = st.one_of(st.lists(_HARD, min_size=1, max_size=8).map("".join), st.text(_ANY, min_size=1, max_size=30))
VALUES = _TEXT.filter(
    lambda text: bool(text.strip()) and all(char.isprintable() or unicodedata.category(char) == "Zs" for char in text)
)
LISTS = st.lists(VALUES, min_size=1, max_size=3)


def _composed(line: str, loader: type) -> dict[str, object]:
    """The record as YAML reads it, everything kept as text."""
    root = yaml.compose(line, Loader=loader)
    assert isinstance(root, yaml.SequenceNode)
    (record,) = root.value
    made: dict[str, object] = {}
    for key, value in record.value:
        is_list = isinstance(value, yaml.SequenceNode)
        made[key.value] = [each.value for each in value.value] if is_list else value.value
    return made


@settings(max_examples=1000, deadline=None)
@given(one=VALUES, two=VALUES, several=LISTS)
@example(one="a" * 3000, two='b "' * 900, several=["c: " * 900 + "d"])
@example(one="–", two="− x", several=["-"])
def test_yaml_reads_the_same_text(one: str, two: str, several: list[str]) -> None:
    line = flow_line([("note", one), ("list", several), ("last", two)])
    expected = {"note": one, "list": several, "last": two}
    assert "\n" not in line
    assert _composed(line, yaml.CSafeLoader) == expected
    assert _composed(line, yaml.SafeLoader) == expected
    assert record_end(line) == len(line)
    assert is_whole(line)


# From format.md: word processors' spaces, dashes, Ω, µF, × and ² are folded, and runs of spaces are one.
_FOLDED = set("\u1680\u00a0\u202f\u205f\u3000−‐‑–﹣－²×ΩΩµμ") | {chr(code) for code in range(0x2000, 0x200B)}


@settings(max_examples=1000, deadline=None)
@given(one=VALUES, several=LISTS)
@example(one="–", several=["− x", "\u00a0#x", ":\u00a0"])
def test_the_job_reader_reads_it_without_a_word(one: str, several: list[str]) -> None:
    troubles = Troubles()
    text = flow_line([("note", one), ("list", several), ("by", "JM")]) + "\n"
    root = read_text(text, "x.yaml", troubles)
    assert not list(troubles.findings), text
    assert isinstance(root, Rows)
    record = root.items[0]
    assert isinstance(record, Table)
    assert [key.value for key, _ in record] == ["note", "list", "by"]
    items = record.get("list")
    assert isinstance(items, Rows)
    read = [record.get("note").value, *(item.value for item in items)]  # type: ignore[union-attr]
    assert len(read) == 1 + len(several)
    for value, back in zip([one, *several], read, strict=True):
        if not _FOLDED & set(value) and "  " not in value:
            assert back == value


def test_the_page_of_the_format() -> None:
    """The two records of format.md, written as there: none of these values needs quotes."""
    tone = [
        ("when", "2026-03-02 09:40"), ("by", "JM"), ("tone", "dash.car.1/11"), ("charted", "FL"), ("heard", "FL FL-TW"),
        ("plus", "1"), ("unplugged", "dash"), ("reads", "3.5 ohm"), ("body", "open"),
    ]  # fmt: skip
    assert flow_line(tone) == (
        "- {when: 2026-03-02 09:40, by: JM, tone: dash.car.1/11, charted: FL, heard: FL FL-TW, plus: 1, "
        "unplugged: dash, reads: 3.5 ohm, body: open}"
    )
    assert flow_line([("by", "JM"), ("photo", ["a.jpg", "b.jpg"])]) == "- {by: JM, photo: [a.jpg, b.jpg]}"


@pytest.mark.parametrize(
    ("value", "written"),
    [
        ("-3 dB", "-3 dB"), ("..80 Hz", "..80 Hz"), ("it's", "it's"), ('12" box', '12" box'), ("no", "no"),
        ("012", "012"), ("20..20000 Hz", "20..20000 Hz"), ("car#2", "car#2"), ("a\\b", "a\\b"), ("Müller", "Müller"),
        ("8,5 V", '"8,5 V"'), ("sheet #114", '"sheet #114"'), ("why?", '"why?"'), ("a: b", '"a: b"'),
        ("a:", '"a:"'), ("-", '"-"'), ('"so', '"\\"so"'), ("\\ {", '"\\\\ {"'), (" x", '" x"'), ("@home", '"@home"'),
    ],
)  # fmt: skip
def test_quotes_only_where_needed(value: str, written: str) -> None:
    assert flow_line([("k", value)]) == f"- {{k: {written}}}"


@pytest.mark.parametrize(
    "value",
    ["", " ", "\u00a0", "a\nb", "a\rb", "a\tb", "a\u2028b", "a\x85b", "a\x00", "\x1b[0m", "a\u200bb", "\ud800", "“so”",
     "5’", "\ufeffa", "a\u202eb", "\uffff"],
)  # fmt: skip
def test_what_could_not_be_read_again_is_refused(value: str) -> None:
    for made in (value, ["a", value]):
        with pytest.raises(ValueError, match=r"^note: "):
            flow_line([("by", "JM"), ("note", made)])


def test_the_apostrophe_of_a_phone() -> None:
    assert flow_line([("note", "it’s")]) == "- {note: it’s}"


@pytest.mark.parametrize(
    "fields",
    [[], [("note", [])], [("a", "1"), ("A", "2")], [("", "x")], [("a b", "x")], [("7", "x")], [("a\n", "x")]],
)
def test_keys_and_lists(fields: list[tuple[str, str | list[str]]]) -> None:
    with pytest.raises(ValueError):
        flow_line(fields)


@pytest.mark.parametrize(
    ("line", "whole"),
    [
        ("- {a: b}", True), ("- {a: b} ", True), ("- {a: b} # said by JM", True), ("- {a: {b: [c, d]}}", True),
        ("- {a: it's}", True), ("- {a: 'it''s }'}", True), ('- {a: "}\\""}', True), ("- {a: 09:40}", True),
        ("  - {a: b}", True), ('- {"a": "b"}', True), ("- {a: x#y}", True), ("-  {a: b}", True),
        ("- {a: b", False), ("- {a: b]", False), ("- {a: [b}", False), ("- {a: 'b}", False), ('- {a: "b\\"}', False),
        ("- {a: b #}", False), ("- {a: b} c", False), ("- {a: b}#c", False), ("a: {b}", False), ("", False),
        ("-{a: b}", False), ("- {a: :'b}", True), ('- {"a":"}"}', True),
    ],
)  # fmt: skip
def test_whole_records(line: str, whole: bool) -> None:
    assert is_whole(line) is whole


@settings(max_examples=300, deadline=None)
@given(fields=st.lists(st.one_of(VALUES, LISTS), min_size=1, max_size=4))
def test_no_beginning_of_a_record_is_a_whole_one(fields: list[str | list[str]]) -> None:
    line = flow_line([(f"k{number}", value) for number, value in enumerate(fields)])
    assert [cut for cut in range(len(line)) if is_whole(line[:cut])] == []
