"""Every number on paper rests on an entry of the basis, every entry serves something, and few are mere custom."""

from __future__ import annotations

import ast
import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from harness.basis import SEARCH, basis
from harness.checks import all_checks
from harness.cli.locate import command as locate
from harness.planning.bases import numbered
from harness.presets import PRACTICE, names, preset
from harness.prove import prove
from render.blocks import Grid, Sheet, Strong
from render.documents import documents

# Sheets that print what is written, and compute nothing.
AS_WRITTEN = (
    "cover",
    "plug-sheet",
    "lead-list",
    "work-order",
    "splice-list",
    "settings",
    "basis",
    "also-recorded",
    "as-built",
    "handover",
    "photos",
    "customer",
)


def sheets(root: Path) -> list[Sheet]:
    proofs = [prove(path, mends=False) for path in sorted((root / "samples").glob("*-*.yaml"))]
    return [sheet for proof in proofs for kind in documents() for sheet in kind.sheets(proof)]


def test_each_sheet_that_computes_names_entries_that_there_are(root: Path) -> None:
    keys = {entry.key for entry in numbered("house")}
    for sheet in sheets(root):
        assert set(sheet.bases) <= keys, sheet.name
        assert bool(sheet.bases) != sheet.name.startswith(AS_WRITTEN), sheet.name


def test_each_entry_serves_a_sheet_or_a_check(root: Path) -> None:
    """The shop's figures that only a check holds something against are asked for by name in the code."""
    served = {key for sheet in sheets(root) for key in sheet.bases} | {
        key for each in all_checks() for key in each.bases
    }
    served.add(SEARCH)  # said by `locate`, below
    asked = {
        node.value
        for folder in ("graph", "checks", "planning")
        for path in (root / "harness" / folder).glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    for entry in numbered("house"):
        own = entry.key in preset("house").figures and entry.key in asked
        assert entry.key in served or own, entry


def test_each_check_names_entries_that_there_are() -> None:
    keys = {entry.key for entry in numbered("house")}
    assert all(set(each.bases) <= keys for each in all_checks())


# Limits that a finding on a record names: its entries of the basis must say the same figures, with the same units.
LIMIT = re.compile(r"(?:limit|least|most|more than) ([0-9.]+ (?:V|ohm|min))")


@pytest.mark.parametrize("code", ["E06", "E11", "A17"])
def test_a_limit_in_a_message_stands_in_its_entries(code: str, root: Path) -> None:
    says = " ".join(basis(key).says for each in all_checks() if each.code == code for key in each.bases)
    found: set[str] = set()
    for path in sorted((root / "tests" / "checks" / code).glob("bad_*[!e].yaml")):
        if not path.name.endswith(".evidence.yaml"):
            for finding in prove(path, mends=False).report.findings:
                found |= set(LIMIT.findall(finding.message)) if finding.code == code else set()
    assert found
    assert all(figure in says for figure in found), (found, says)


def test_a_finding_on_paper_leads_to_its_entries(root: Path) -> None:
    """The basis sheet prints the numbers of the entries beside the code that rests on them."""
    proof = prove(root / "tests" / "checks" / "E06" / "bad_plain.yaml", mends=False)
    (kind,) = (each for each in documents() if each.name == "basis")
    (sheet,) = kind.sheets(proof)
    entries, rules = (block for block in sheet.blocks if isinstance(block, Grid))
    (row,) = (row for row in rules.rows if row[0] == Strong("E06"))
    numbers = {Strong(number) for number in str(row[-1]).split(", ")}
    said = [str(line[2]) for line in entries.rows if line[0] in numbers]
    assert any("11 to 15 V" in each for each in said)
    assert any("10 V" in each and "1 V" in each for each in said)


def test_locate_says_what_its_odds_and_minutes_rest_on(root: Path) -> None:
    job = str(root / "samples" / "hatch-plug-in.yaml")
    told = CliRunner().invoke(locate, [job, "--symptom", "FL silent", "--answer", "nothing"])
    number = next(entry.number for entry in numbered("house") if entry.key == SEARCH)
    assert f"odds and minutes: entry {number} of the basis, common practice, no source" in told.output
    as_json = json.loads(CliRunner().invoke(locate, [job, "--symptom", "FL silent", "--json"]).output)
    assert as_json["basis"]["kind"] == PRACTICE
    assert "minutes" in as_json["basis"]["says"]


@pytest.mark.parametrize("name", names())
def test_at_most_a_fifth_is_common_practice(name: str) -> None:
    entries = numbered(name)
    practice = [entry.key for entry in entries if PRACTICE in (entry.source, entry.kind)]
    assert len(practice) * 5 <= len(entries), practice


def test_an_entry_has_one_number_and_one_key() -> None:
    entries = numbered("house")
    assert [entry.number for entry in entries] == list(range(1, len(entries) + 1))
    assert len({entry.key for entry in entries}) == len(entries)
