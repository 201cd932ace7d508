"""An edit makes stale exactly the records that used what it changed, and what says the same wire makes nothing stale.

Which records an edit concerns is read off the two files by hand; each harmful edit is also made together with each
harmless one.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from harness.model.job import Job
from harness.read.facts import facts_of
from harness.read.job import read_job
from harness.read.troubles import Troubles

JOB = """\
ringout: 1
title: Bench
car: {name: Bench hatch, year: 2021, steering: left}
plugs:
  dash:
    place: behind the radio
    unit: radio
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    source: {chart: bench sheet 1, date: 2026-03-02, by: JM}
    cavities:
      1/9: FL WH WH/BK 0.5 mm2
      2/10: FR GY GY/BK 0.5 mm2
      11/12: CAN YE/GN YE/BN 0.35 mm2 twisted
      14: ACC RD/YE 0.75 mm2
  kick:
    place: left kick panel
    face: {rows: 1, columns: 4, view: mating, latch: top, first: top left, count: across}
    cavities:
      3: ILL OG 0.5 mm2
units:
  radio: {kind: radio, outputs: {FL FR: btl 8.5 V}}
  amp: {kind: amplifier, outputs: {out1: 4 V}}
"""
RECORDS = {
    "tone FL": "tone: dash.car.1/9, fact: [1 FL+ WH 0.5 mm2, 9 FL- WH/BK 0.5 mm2, seen from wire], heard: FL",
    "tone FR": "tone: dash.car.2/10, fact: [2 FR+ GY 0.5 mm2, 10 FR- GY/BK 0.5 mm2, seen from wire], heard: FR",
    "ohm FR": "ohm: dash.car.10/2, fact: [10 FR- GY/BK 0.5 mm2, 2 FR+ GY 0.5 mm2, seen from wire], reads: 3.6 ohm",
    "ohm CAN": "ohm: dash.unit.CAN, fact: [11 CAN-H YE/GN 0.35 mm2 twisted, 12 CAN-L YE/BN 0.35 mm2 twisted,"
    " seen from wire], reads: 60 ohm",
    "volts ACC": "volts: dash.car.14, fact: [14 ACC RD/YE 0.75 mm2, seen from wire], reads: 12.1 V, key: run",
    "volts ILL": "volts: kick.car.3, fact: [3 ILL OG 0.5 mm2, seen from mating], reads: 12.0 V, key: run",
    "plays out1": "plays: amp.out1, heard: FL",
    "seen": "seen: the plug behind the radio, found: grey, name: kick",
}
DASH = {"tone FL", "tone FR", "ohm FR", "ohm CAN", "volts ACC"}

# (what is edited, from, to, the records that used it)
HARMFUL = (
    ("function of a pair", "1/9: FL", "1/9: RR", {"tone FL"}),
    ("function of one cavity", "14: ACC", "14: IGN", {"volts ACC"}),
    ("function, kind kept", "11/12: CAN", "12/11: CAN", {"ohm CAN"}),
    ("colour", "WH WH/BK", "BN WH/BK", {"tone FL"}),
    ("colour of the other wire", "WH WH/BK", "WH BN/BK", {"tone FL"}),
    ("colour gone", "FR GY GY/BK 0.5 mm2", "FR 0.5 mm2", {"tone FR", "ohm FR"}),
    ("stripe", "GY GY/BK", "GY GY/RD", {"tone FR", "ohm FR"}),
    ("stripe gone", "RD/YE", "RD", {"volts ACC"}),
    ("size", "0.75 mm2", "1.0 mm2", {"volts ACC"}),
    ("size gone", " 0.75 mm2", "", {"volts ACC"}),
    ("twist", " twisted", "", {"ohm CAN"}),
    ("twist made", "FR GY GY/BK 0.5 mm2", "FR GY GY/BK 0.5 mm2 twisted", {"tone FR", "ohm FR"}),
    ("partners", "1/9: FL WH WH/BK 0.5 mm2\n      2/10:", "1/10: FL WH WH/BK 0.5 mm2\n      2/9:",
     {"tone FL", "tone FR", "ohm FR"}),
    ("signs", "1/9: FL WH WH/BK", "9/1: FL WH/BK WH", {"tone FL"}),
    ("partner", "2/10: FR", "2/8: FR", {"tone FR", "ohm FR"}),
    ("cavity", "14: ACC", "15: ACC", {"volts ACC"}),
    ("row gone", "      14: ACC RD/YE 0.75 mm2\n", "", {"volts ACC"}),
    ("view of the face", "view: wire", "view: mating", DASH),
    ("view gone", "view: wire, ", "", DASH),
    ("another plug's function", "3: ILL", "3: GND", {"volts ILL"}),
    ("another plug's view", "view: mating", "view: wire", {"volts ILL"}),
    ("plug renamed", "  kick:\n", "  knee:\n", {"volts ILL"}),
    ("output gone", "{out1: 4 V}", "{out2: 4 V}", {"plays out1"}),
)  # fmt: skip
HARMLESS = (
    ("a comment", "      1/9: FL", "      # toned twice\n      1/9: FL"),
    ("a comment behind", "GY/BK 0.5 mm2\n", "GY/BK 0.5 mm2   # dusty\n"),
    ("title", "title: Bench", "title: Another title"),
    ("place", "place: behind the radio", "place: behind the glove box"),
    ("latch", "wire, latch: top", "wire, latch: bottom"),
    ("source", "by: JM}", "by: RK}"),
    ("housing", "    unit: radio\n", "    unit: radio\n    housing: 16-way grey\n"),
    ("one more plug", "  kick:\n", "  boot:\n    cavities:\n      1/9: RR VT VT/BK\n  kick:\n"),
    ("one more row", "      14: ACC", "      8: GND BK\n      14: ACC"),
    ("another plug's new row", "      3: ILL", "      4: GND BK\n      3: ILL"),
    ("revision", "car: {", "revision: B\ncar: {"),
    ("a feature", "units:\n", "features: {belt tone: radio}\nunits:\n"),
    ("a unit", "units:\n", "units:\n  bass: {kind: amplifier}\n"),
    ("level of an output", "btl 8.5 V", "btl 9 V"),
)  # fmt: skip
SAME_WIRE = (
    ("colour in words", "FL WH WH/BK", "FL white white/black"),
    ("colour in small letters", "RD/YE", "rd/ye"),
    ("size with one more nought", "0.75 mm2", "0.750 mm2"),
    ("function the other way about", "1/9: FL", "1/9: LF"),
    ("function in small letters", "14: ACC", "14: acc"),
    ("long form", "14: ACC RD/YE 0.75 mm2", "14: {function: ACC, colour: RD/YE, size: 0.75 mm2, note: dusty}"),
    ("rows apart", "2/10: FR GY GY/BK 0.5 mm2", "10: FR- GY/BK 0.5 mm2\n      2: FR+ GY 0.5 mm2"),
    ("order of rows", "      1/9: FL WH WH/BK 0.5 mm2\n      2/10: FR GY GY/BK 0.5 mm2\n",
     "      2/10: FR GY GY/BK 0.5 mm2\n      1/9: FL WH WH/BK 0.5 mm2\n"),
)  # fmt: skip


def read(text: str, folder: Path, records: dict[str, str] | None = None) -> tuple[Job, list[str]]:
    """The job, and the names of the records that no longer hold."""
    path = folder / "bench.yaml"
    path.write_text(text, encoding="utf-8")
    written = RECORDS if records is None else records
    evidence = "".join(f"- {{when: 2026-03-02 09:40, by: JM, {record}}}\n" for record in written.values())
    (folder / "bench.evidence.yaml").write_text(evidence, encoding="utf-8")
    troubles = Troubles()
    job = read_job(path, troubles)
    assert job is not None
    assert len(job.records) == len(written), [finding.message for finding in troubles.findings]
    return job, [name for name, record in zip(written, job.records, strict=True) if record.stale]


def edited(old: str, new: str, text: str = JOB) -> str:
    assert old in text, old
    return text.replace(old, new, 1)


def test_as_it_was_all_of_it_holds(tmp_path: Path) -> None:
    assert read(JOB, tmp_path)[1] == []


def test_the_words_are_those_that_a_record_keeps(tmp_path: Path) -> None:
    """A session writes by these words what it rests on: the row of each cavity, and from which side it is seen."""
    job = read(JOB, tmp_path)[0]
    for name, record in zip(RECORDS, job.records, strict=True):
        said = record.word("fact")
        if said:
            contacts = [job.contacts[each] for each in record.contacts]
            assert ", ".join(facts_of(contacts, job.parts.plugs)) == said, name


@pytest.mark.parametrize(("what", "old", "new", "stale"), HARMFUL, ids=[row[0] for row in HARMFUL])
def test_an_edit_of_a_row_makes_stale_what_used_it(
    what: str, old: str, new: str, stale: set[str], tmp_path: Path
) -> None:
    assert set(read(edited(old, new), tmp_path)[1]) == stale, what


@pytest.mark.parametrize(
    ("what", "old", "new"), [*HARMLESS, *SAME_WIRE], ids=[row[0] for row in [*HARMLESS, *SAME_WIRE]]
)
def test_what_says_the_same_wire_makes_nothing_stale(what: str, old: str, new: str, tmp_path: Path) -> None:
    assert read(edited(old, new), tmp_path)[1] == [], what


@pytest.mark.parametrize(("what", "old", "new"), HARMLESS, ids=[row[0] for row in HARMLESS])
def test_together_it_is_the_row_that_counts(what: str, old: str, new: str, tmp_path: Path) -> None:
    for harmful, before, after, stale in HARMFUL:
        once = edited(old, new)
        if before in once:
            assert set(read(edited(before, after, once), tmp_path)[1]) == stale, f"{harmful}, with {what}"


def test_what_changed_is_said_in_words(tmp_path: Path) -> None:
    job = read(edited("WH WH/BK 0.5 mm2", "VT WH/BK 0.5 mm2"), tmp_path)[0]
    assert job.records[0].stale == "1 was FL+ WH 0.5 mm2, is now FL+ VT 0.5 mm2"


def test_a_chart_put_right_by_a_tone_rests_on_it(tmp_path: Path) -> None:
    """The tone of 1/9 heard RR, and the chart was corrected to RR; corrected to anything else it is stale."""
    records = {"tone": RECORDS["tone FL"].replace("heard: FL", "heard: RR")}
    assert read(edited("1/9: FL", "1/9: RR"), tmp_path, records)[1] == []
    assert read(edited("1/9: FL", "1/9: RL"), tmp_path, records)[1] == ["tone"]


def test_which_wire_is_plus_is_put_right_only_by_a_tone_that_found_it(tmp_path: Path) -> None:
    turned = edited("1/9: FL WH WH/BK", "9/1: FL WH/BK WH")
    assert read(turned, tmp_path, {"tone": f"{RECORDS['tone FL']}, plus: 9"})[1] == []
    assert read(turned, tmp_path, {"tone": f"{RECORDS['tone FL']}, plus: 1"})[1] == ["tone"]
    assert read(JOB, tmp_path, {"tone": f"{RECORDS['tone FL']}, plus: 9"})[1] == []  # told of the chart, by A14


@pytest.mark.parametrize(
    ("said", "year", "stale"),
    [
        ("Bench hatch 2021", "2021", False),
        ("bench  HATCH", "2021", False),
        ("Bench hatch 2020", "2021", True),
        ("Hazel van 2021", "2021", True),
        ("Hazel van", "", True),
        ("Bench hatch 2020", "", False),  # nobody wrote the year of this one
        ("Bench hatch estate", "", True),
    ],
)
def test_a_record_of_another_car_proves_nothing(said: str, year: str, stale: bool, tmp_path: Path) -> None:
    text = JOB if year else edited(", year: 2021", "")
    job, found = read(text, tmp_path, {"tone": f"{RECORDS['tone FL']}, car: {said}"})
    assert bool(found) == stale
    assert bool(job.tones) == (not stale)


@pytest.mark.parametrize("verb", ["before", "after"])
def test_a_function_with_a_dot_in_its_name_is_no_contact(verb: str, tmp_path: Path) -> None:
    assert read(JOB, tmp_path, {"trial": f"{verb}: no.2-camera, result: works"})[1] == []
