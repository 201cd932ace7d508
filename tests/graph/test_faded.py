"""Fader and balance at their ends: what must answer, may, and what a record of it says. By hand from the job's text."""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.graph.answers import answers
from harness.graph.faded import Setting, faded, play, settings
from harness.graph.wiring import Wiring
from harness.prove import prove
from tests.session.hazel import JOB, hazel

# four channels, and a subwoofer on an output of its own, which no fader of the four turns down
FOUR = JOB.replace("outputs: {FL FR RL:", "outputs: {FL FR RL RR SUB:").replace("lacks: [SUB, C]", "lacks: [C]")
MORE = "      5/11: RR BN BN/BK 0.75 mm2\n      6/12: SUB VT VT/BK 0.75 mm2\n"
FOUR = FOUR.replace("      10: SWC PK 0.35 mm2\n", MORE).replace("  FL FR RL: {place", "  FL FR RL RR SUB: {place")
FOUR = FOUR.replace("through: [3, 9, 10]", "through: [3, 9, 5, 11, 6, 12]")


def wired(folder: Path, *records: str, job: str = FOUR) -> Wiring:
    wiring = hazel(folder, *records, job=job).wiring
    assert wiring is not None
    return wiring


def test_both_ends_of_what_has_two(tmp_path: Path) -> None:
    """The plain job has no right rear: front and rear, left and right are there all the same; one channel has none."""
    words = ["fader full front", "fader full rear", "balance full left", "balance full right"]
    assert [each.words for each in settings(wired(tmp_path))] == words
    assert [each.words for each in settings(wired(tmp_path, job=JOB))] == words
    fronts = JOB.replace("outputs: {FL FR RL:", "outputs: {FL FR:")
    assert [each.words for each in settings(wired(tmp_path, job=fronts))] == words[2:]


@pytest.mark.parametrize(
    ("setting", "must"),
    [
        (Setting("radio", "front"), {"FL", "FR"}), (Setting("radio", "rear"), {"RL", "RR"}),
        (Setting("radio", "", "left"), {"FL", "RL"}), (Setting("radio", "", "right"), {"FR", "RR"}),
        (Setting("radio", "rear", "right"), {"RR"}),
    ],
)  # fmt: skip
def test_what_must_answer_and_what_may(setting: Setting, must: set[str], tmp_path: Path) -> None:
    planned = play(wired(tmp_path), setting)
    assert set(planned.must) == must
    assert planned.may == ("SUB",)


@pytest.mark.parametrize(
    ("record", "silent", "astray", "odd"),
    [
        ("faded: front, heard: FL FR", (), (), ()), ("faded: front, heard: FL FR SUB", (), (), ()),
        ("faded: front, heard: FL FR RL", (), ("RL",), ()), ("faded: front, heard: FL", ("FR",), (), ()),
        ("faded: rear, heard: none", ("RL", "RR"), (), ()),
        ("balanced: left, heard: FR RR", ("FL", "RL"), ("FR", "RR"), ()),
        ("faded: rear, balanced: left, heard: RL", (), (), ()), ("faded: front, heard: FL horn", (), (), ("horn",)),
    ],
)  # fmt: skip
def test_what_a_record_says(
    record: str, silent: tuple[str, ...], astray: tuple[str, ...], odd: tuple[str, ...], tmp_path: Path
) -> None:
    (found,) = faded(wired(tmp_path, f"plays: Radio, {record}"))
    assert (found.silent, found.astray, found.odd) == (silent, astray, odd)


def test_a_record_of_another_car_says_nothing(tmp_path: Path) -> None:
    assert faded(wired(tmp_path, "plays: radio, faded: front, heard: RL, car: Larch van")) == ()
    assert faded(wired(tmp_path, "seen: radio, faded: front, heard: RL")) == (), "nor one of what was looked at"


def test_a_setting_of_which_nobody_wrote_what_answered(tmp_path: Path) -> None:
    """It was turned there, and no word says that a speaker stayed silent."""
    (found,) = faded(wired(tmp_path, "plays: radio, faded: front"))
    assert (found.must, found.silent, found.astray) == (("FL", "FR"), (), ())


def test_it_says_nothing_of_one_output_alone(tmp_path: Path) -> None:
    """A record about an output can't be one of fader and balance, and what is said there is listed."""
    proof = hazel(tmp_path, "plays: radio.FL, faded: rear, heard: none", job=FOUR)
    assert proof.wiring is not None
    assert not answers(proof.wiring)
    assert not faded(proof.wiring)
    assert ("what answers radio.FL", "fader and balance are said of a source: `plays: radio`") in proof.report.unchecked


def test_the_last_of_each_setting_counts(tmp_path: Path) -> None:
    records = ("faded: front, heard: FL FR RL", "balanced: left, heard: FL RL", "faded: front, heard: FL FR")
    found = faded(wired(tmp_path, *(f"plays: radio, {each}" for each in records)))
    assert [(each.setting.words, each.differs) for each in found] == [
        ("balance full left", False), ("fader full front", False),
    ]  # fmt: skip


def test_what_nobody_turned_is_listed_once_outputs_are_heard(tmp_path: Path) -> None:
    def listed(*records: str) -> list[str]:
        report = hazel(tmp_path, *records, job=FOUR).report
        return [what for what, why in report.unchecked if why == "no `faded` or `balanced` is written"]

    assert listed() == listed("before: hands-free, result: works") == []
    every = "what answers radio with fader full front, fader full rear, balance full left and balance full right"
    assert listed("plays: radio.FL, heard: FL") == [every]
    assert listed("plays: radio, faded: front, heard: FL FR") == [every.replace("fader full front, ", "")]


@pytest.mark.parametrize("word", ["faded: middle", "balanced: front"])
def test_an_end_is_one_of_two_words(word: str, tmp_path: Path) -> None:
    path = tmp_path / "hazel.yaml"
    path.write_text(FOUR, encoding="utf-8")
    path.with_name("hazel.evidence.yaml").write_text(f"- {{plays: radio, {word}, heard: FL}}\n", encoding="utf-8")
    assert any(word.split()[1] in each.message for each in prove(path, mends=False).report.findings)
