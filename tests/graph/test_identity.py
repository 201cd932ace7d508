"""A fact is a plug, a cavity and a field: order, remarks and spelling of the file change nothing of it."""

from __future__ import annotations

import shutil
from collections import Counter
from pathlib import Path

import pytest

from harness.assets import folder
from harness.prove import Proof, prove
from tests.checks.marks import marks_in
from tests.checks.transform import Written, reordered
from tests.graph.random_jobs import random_job
from tests.graph.spelling import respelled
from tests.graph.test_union_find import nets_of

SAMPLES = sorted(path.name for path in folder("samples").glob("*-*.yaml") if not path.name.endswith(".evidence.yaml"))
RANDOM = [f"random {seed}" for seed in range(0, 40, 2)]


def text_of(name: str) -> str:
    if name in SAMPLES:
        return (folder("samples") / name).read_text(encoding="utf-8")
    return random_job(int(name.split()[1]))


def proved(text: str, name: str, where: Path) -> Proof:
    """The proof of a text in a folder that has the sample's part files and evidence."""
    if name in SAMPLES:
        shutil.copytree(folder("samples"), where, dirs_exist_ok=True)
    where.mkdir(exist_ok=True)
    path = where / (name if name in SAMPLES else "job.yaml")
    path.write_text(text, encoding="utf-8")
    proof = prove(path, mends=False)
    assert proof.wiring is not None, [finding.message for finding in proof.report.findings]
    return proof


def facts(proof: Proof) -> dict[tuple[str, str, str], object]:
    """Every fact of a plug by its identity."""
    assert proof.job is not None
    made: dict[tuple[str, str, str], object] = {}
    for plug in proof.job.parts.plugs.values():
        for row in plug.rows:
            made[plug.name, row.cavity, "function"] = row.function.name
            made[plug.name, row.cavity, "colour"] = row.colour and (row.colour.base, row.colour.stripe)
            made[plug.name, row.cavity, "size"] = row.size and row.size.area_mm2
    return made


def named_nets(proof: Proof) -> tuple[set[frozenset[str]], set[frozenset[str]]]:
    assert proof.wiring is not None
    return nets_of(proof.wiring.found), nets_of(proof.wiring.planned)


def contacts(proof: Proof) -> set[str]:
    assert proof.job is not None
    return {name for name in proof.job.contacts if not name.startswith("run.")}


def fates(proof: Proof) -> set[tuple[str, str]]:
    assert proof.wiring is not None
    parts = proof.wiring.job.parts
    all_fates = proof.wiring.fates
    made = {(f"{plug}.{each.row.cavity}", each.fate) for plug in parts.plugs for each in all_fates.cavities(plug)}
    owners = (*parts.looms, *parts.units)
    return made | {(each.lead.name, each.fate) for owner in owners for each in all_fates.leads(owner)}


def said(proof: Proof) -> Counter[tuple[str, str, str]]:
    return Counter((f.code, f.places[0].name, f.message) for f in proof.report.findings)


@pytest.mark.parametrize("name", [*SAMPLES, *RANDOM])
def test_spelling_and_remarks_change_nothing(name: str, tmp_path: Path) -> None:
    text = text_of(name)
    for seed in range(3):
        other = respelled(text, seed)
        assert other != text
        before, after = proved(text, name, tmp_path / "before"), proved(other, name, tmp_path / "after")
        assert contacts(before) == contacts(after)
        assert named_nets(before) == named_nets(after)
        assert facts(before) == facts(after)
        assert fates(before) == fates(after)
        assert said(before) == said(after)


@pytest.mark.parametrize("name", [*SAMPLES, *RANDOM])
def test_order_changes_no_fact(name: str, tmp_path: Path) -> None:
    text = text_of(name)
    other = reordered(Written(text, None)).job
    assert other != text
    before, after = proved(text, name, tmp_path / "before"), proved(other, name, tmp_path / "after")
    assert contacts(before) == contacts(after)
    assert named_nets(before) == named_nets(after)
    assert facts(before) == facts(after)
    assert fates(before) == fates(after)


@pytest.mark.parametrize("name", SAMPLES)
def test_order_changes_no_finding_of_a_sample(name: str, tmp_path: Path) -> None:
    other = reordered(Written(text_of(name), None)).job
    proof = proved(other, name, tmp_path)
    places = [(finding.code, finding.places[0].place) for finding in proof.report.findings]
    here = Counter((code, place.line) for code, place in places if Path(place.file).name == name)
    marks = marks_in(other, name)
    assert here == Counter((mark.code, mark.line) for mark in marks.elements())


def test_spelling_changes_something() -> None:
    """Over the jobs used here each kind of respelling occurs."""
    texts = [(text_of(name), respelled(text_of(name), 0)) for name in RANDOM]
    for sign in ("LF", "lr", "DASH.", "  18 AWG", "# looked at twice"):
        assert any(sign in after and after.count(sign) > before.count(sign) for before, after in texts), sign


def test_a_fact_stands_by_its_place_and_not_by_its_words(tmp_path: Path) -> None:
    """Another colour and another function behind a cavity are another value of the same fact."""
    text = text_of("random 3")
    changed = text.replace(" GN", " OG").replace("ILL", "MUTE")
    before, after = (proved(each, "random 3", tmp_path) for each in (text, changed))
    assert facts(before).keys() == facts(after).keys()
    assert facts(before) != facts(after)
    plugs = {name for name in contacts(before) if name.count(".") == 2 and name.split(".")[0] in before.job.parts.plugs}  # type: ignore[union-attr]
    assert plugs <= contacts(after)
