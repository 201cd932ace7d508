"""What the schema refuses the reader refuses; what the reader refuses for shape, keys or units the schema refuses."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest
import yaml

from harness.read.conform import conform
from harness.read.fields import Either, Fields, Listing, Word
from harness.read.nodes import Table, read_file, read_text
from harness.read.schema import either_case, schema
from harness.read.spec import JOB, PART_FILE
from harness.read.troubles import Troubles

MUTANTS = 1000
# A schema sees keys and texts, not how they were written down. Left out of the comparison, each for its reason:
NOT_FOR_A_SCHEMA = {
    "R01": "no YAML, so there is nothing to hold against a schema",
    "R02": "the parser in front of a schema keeps one of two keys",
    "R03": "anchors, aliases and tags are resolved before a schema sees them",
    "R04": "tabs are gone before a schema sees them",
    "R05": "a schema sees one document",
    "R06": "an empty value is an empty text to the parser used here, and null to others",
    "R12": "length and depth",
    "R13": "characters folded or refused before the text is held against a pattern",
    "R14": "joined lines look like one text",
}
JOBS = Path(__file__).parent / "jobs"
_VALIDATOR = jsonschema.Draft202012Validator(schema())


def _reader_refuses(text: str) -> tuple[bool, set[str]]:
    troubles = Troubles()
    node = read_text(text, "job.yaml", troubles)
    if node is not None:
        conform(node, JOB, troubles)
    return troubles.refused, {finding.code for finding in troubles.findings}


def _schema_refuses(text: str) -> bool:
    return not _VALIDATOR.is_valid(yaml.load(text, Loader=yaml.CBaseLoader))


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())
    jsonschema.Draft202012Validator.check_schema(schema("part"))
    assert json.dumps(schema()) == json.dumps(schema())
    assert schema()["$comment"]


def test_whole_jobs_please_both(jobs: dict[str, str]) -> None:
    for name, text in jobs.items():
        assert not _schema_refuses(text), name
        assert not _reader_refuses(text)[0], name


def test_both_agree_on_spoilt_jobs(jobs: dict[str, str], spoil: Callable[[str, int], str]) -> None:
    texts = list(jobs.values())
    compared = refused = 0
    seed = 0
    while compared < MUTANTS:
        seed += 1
        text = spoil(texts[seed % len(texts)], seed)
        reader, codes = _reader_refuses(text)
        if codes & NOT_FOR_A_SCHEMA.keys():
            assert seed < 4 * MUTANTS, "nearly all copies are left out"
            continue
        compared += 1
        refused += reader
        assert _schema_refuses(text) == reader, f"seed {seed}: reader {sorted(codes)}"
    # both verdicts must be met often, or the comparison shows nothing
    assert MUTANTS * 0.25 < refused < MUTANTS * 0.9


def test_the_comparison_can_fail(jobs: dict[str, str], spoil: Callable[[str, int], str]) -> None:
    """With one pattern of the schema loosened, the mutants tell."""
    loose = json.loads(json.dumps(schema()).replace(json.dumps(either_case(r"(?:ohm|kohm|mohm)"))[1:-1], "[a-z]+"))
    validator = jsonschema.Draft202012Validator(loose)
    text = jobs["wagon.yaml"].replace("nominal: 8 ohm", "nominal: 8 oms")
    assert _reader_refuses(text)[0]
    assert _schema_refuses(text)
    assert validator.is_valid(yaml.load(text, Loader=yaml.CBaseLoader))


def test_part_files_please_their_schema() -> None:
    validator = jsonschema.Draft202012Validator(schema("part"))
    paths = sorted((JOBS / "parts").rglob("*.yaml"))
    assert len(paths) == 2
    for path in paths:
        assert validator.is_valid(yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)), path
    assert not validator.is_valid({"ringout": "1", "title": "x", "car": {"name": "a job's own key"}})


def test_every_example_fits_its_own_pattern(all_shapes: Callable[[], list[object]]) -> None:
    words = [shape for shape in all_shapes() if isinstance(shape, Word)]
    assert len(words) > 40
    for word in words:
        assert word.fits(word.example), (word.what, word.example)
        if word.pattern:
            assert re.fullmatch(word.pattern, word.example, re.ASCII), word.what
            assert re.search(f"^(?:{either_case(word.pattern)})$", word.example), word.what


def test_patterns_are_of_the_dialect_of_json_schema(all_shapes: Callable[[], list[object]]) -> None:
    """No look-behind, no possessive or atomic parts, no space in a class: what ECMA 262 doesn't have."""
    for shape in all_shapes():
        if isinstance(shape, Word) and shape.pattern:
            emitted = either_case(shape.pattern)
            assert not re.search(r"\(\?(?!:)|[*+?}]\+|\\[AZz]|\(\?P", emitted), shape.what
            assert not re.search(r"\[[^\]]* [^\]]*\]", shape.pattern), shape.what
            assert "(?i" not in emitted


@pytest.mark.parametrize(
    ("pattern", "good", "bad"),
    [
        ("(?i:ab|[c-d]x)y", ("aby", "ABy", "CXy", "dxy"), ("abY", "exy")),
        ("a b", ("a b", "a  b", "a \t b"), ("ab",)),
        (r"\.(?:(?i:u)p)+", (".up", ".Upup"), (".uP", "xup")),
    ],
)
def test_either_case_is_written_out(pattern: str, good: tuple[str, ...], bad: tuple[str, ...]) -> None:
    emitted = f"^(?:{either_case(pattern)})$"
    assert all(re.search(emitted, text) for text in good)
    assert not any(re.search(emitted, text) for text in bad)


def test_every_key_stands_in_a_job_of_the_tests(all_shapes: Callable[[], list[object]]) -> None:
    """The sample jobs hold every key of the spec at least once, so that the mutants reach them all."""
    used: set[object] = set()
    for path in sorted(JOBS.rglob("*.yaml")):
        node = read_file(str(path), Troubles())
        assert isinstance(node, Table)
        conform(node, JOB, Troubles())  # replaces the words understood besides
        _walk(node, PART_FILE if "parts" in path.parts else JOB, used)
    missing = [
        f"{shape.what}: {key}"
        for shape in all_shapes()
        if isinstance(shape, Fields)
        for key in shape.keys
        if (id(shape), key) not in used
    ]  # fmt: skip
    assert not missing


def _walk(node: object, shape: object, used: set[object]) -> None:
    if isinstance(shape, Either):
        shape = shape.table if isinstance(node, Table) else shape.listing if hasattr(node, "items") else shape.text
    if isinstance(shape, Fields) and isinstance(node, Table):
        for key, value in node.items:
            if key.value in shape.keys:
                used.add((id(shape), key.value))
                _walk(value, shape.keys[key.value], used)
            else:
                _walk(value, next(each for word, each in shape.rows if word.fits(key.value)), used)
    elif isinstance(shape, Listing) and hasattr(node, "items"):
        for item in node.items:
            _walk(item, shape.item, used)
