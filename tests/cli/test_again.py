"""`ringout again`: the new file, and what is left alone."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from harness.assets import folder

RECORDS = "".join(
    f"- {{when: 2026-03-02 09:4{n}, by: JM, tone: sound.car.{pair}, charted: {name}, heard: {name}, plus: {pair[0]}, "
    "unplugged: sound, reads: 3.6 ohm, body: open}\n"
    for n, (pair, name) in enumerate([("1/2", "RR"), ("3/4", "FR"), ("5/6", "FL"), ("7/8", "RL")])
)


@pytest.fixture
def job(tmp_path: Path) -> Path:
    shutil.copytree(folder("samples"), tmp_path / "s")
    path = tmp_path / "s" / "hatch-plug-in.yaml"
    path.with_name("hatch-plug-in.evidence.yaml").write_text(RECORDS, encoding="utf-8")
    return path


def _held(where: Path) -> dict[str, bytes]:
    return {path.relative_to(where).as_posix(): path.read_bytes() for path in where.rglob("*") if path.is_file()}


def test_facts_kept_records_none(ringout, job: Path, tmp_path: Path) -> None:
    """The first car has four pairs toned, the next one none; the new file differs in the car's line alone."""
    before = _held(tmp_path)
    answer = ringout("again", "s/hatch-plug-in.yaml", "--car", "Alder hatch, ticket 12")
    after = _held(tmp_path)
    new = after.pop("s/hatch-plug-in-2.yaml").decode()
    counts = [
        json.loads(ringout("check", f"s/{name}", "--json").out)["counts"]
        for name in ("hatch-plug-in.yaml", "hatch-plug-in-2.yaml")
    ]

    assert answer.code == 0
    assert after == before
    assert counts == [
        {"charted": 0, "measured": 0, "toned": 4, "contradicted": 0},
        {"charted": 4, "measured": 0, "toned": 0, "contradicted": 0},
    ]
    changed = [pair for pair in zip(job.read_text(encoding="utf-8").splitlines(), new.splitlines(), strict=True)
               if pair[0] != pair[1]]  # fmt: skip
    assert changed == [
        (
            "car: {name: Alder hatch, year: 2022, steering: left, audio: base, lacks: [C, SUB]}",
            "car: {name: 'Alder hatch, ticket 12', year: 2022, steering: left, audio: base, lacks: [C, SUB]}",
        )
    ]
    assert "no records: nothing is verified on this car" in answer.out
    for pair in ("sound.1/2", "sound.3/4", "sound.5/6", "sound.7/8"):
        assert pair in answer.out


def test_next_number(ringout, job: Path, tmp_path: Path) -> None:
    """A number is counted on; one whose records are there already is passed over."""
    (tmp_path / "s" / "hatch-plug-in-3.evidence.yaml").write_text("", encoding="utf-8")
    made = [ringout("again", f"s/{name}.yaml", "--car", car).out.split(":")[0]
            for name, car in (("hatch-plug-in", "x"), ("hatch-plug-in-2", "y"), ("hatch-plug-in", "z"))]  # fmt: skip

    assert [Path(name).name for name in made] == [
        "hatch-plug-in-2.yaml",
        "hatch-plug-in-4.yaml",
        "hatch-plug-in-5.yaml",
    ]


def test_elsewhere(ringout, job: Path, tmp_path: Path) -> None:
    """In another folder it finds the same parts."""
    (tmp_path / "new").mkdir()
    answer = ringout("again", "s/hatch-plug-in.yaml", "--car", "x", "-o", "new/larch.yaml")

    assert answer.code == 0
    assert ringout("check", "new/larch.yaml").code == 0
    assert "[../s/parts/alder-hatch.yaml]" in (tmp_path / "new" / "larch.yaml").read_text(encoding="utf-8")


def test_json(ringout, job: Path) -> None:
    """A car of 2025: charts of 2020 to 2023 don't cover it."""
    told = json.loads(ringout("again", "s/hatch-plug-in.yaml", "--car", "name: x, year: 2025", "--json").out)

    assert (told["from"], told["counts"]["toned"]) == ("s/hatch-plug-in.yaml", 0)
    assert [each["what"] for each in told["recheck"] if each["kind"] == "chart"] == ["sound", "power"]
    assert len([each for each in told["recheck"] if each["kind"] == "tone"]) == 4
    assert all(each["line"] > 0 for each in told["recheck"])


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["s/hatch-plug-in.yaml"], "Missing option"),
        (["s/hatch-plug-in.yaml", "--car", " "], "--car is empty"),
        (["s/hatch-plug-in.yaml", "--car", "year: next, steering: up"], "--car: "),
        (["s/hatch-plug-in.yaml", "--car", "x", "-o", "s/hatch-solder-in.yaml"], "is there already"),
        (["s/hatch-plug-in.yaml", "--car", "x", "-o", "s/hatch-plug-in.yaml"], "is there already"),
        (["s/hatch-plug-in.yaml", "--car", "x", "-o", "s"], "is a folder"),
        (["s/hatch-plug-in.yaml", "--car", "x", "-o", "no/x.yaml"], "there is no folder"),
        (["s/none.yaml", "--car", "x"], "no job was made"),
    ],
)
def test_refused(arguments: list[str], words: str, ringout, job: Path, tmp_path: Path) -> None:
    """Exit 2, and nothing new is there."""
    before = _held(tmp_path)
    answer = ringout("again", *arguments)

    assert answer.code == 2
    assert words in answer.err
    assert _held(tmp_path) == before


def test_records_there_are_not_taken_for_its_own(ringout, job: Path, tmp_path: Path) -> None:
    (tmp_path / "s" / "new.evidence.yaml").write_text(RECORDS, encoding="utf-8")
    answer = ringout("again", "s/hatch-plug-in.yaml", "--car", "x", "-o", "s/new.yaml")

    assert answer.code == 2
    assert "new.evidence.yaml is there already" in answer.err


def test_all_mistakes_at_once(ringout, job: Path) -> None:
    answer = ringout("again", "s/hatch-plug-in.yaml", "--car", "year: next, steering: up")

    assert answer.err.count("--car: ") == 2


def test_car_over_several_lines(ringout, job: Path) -> None:
    """Told with the line and the user's own words."""
    text = job.read_text(encoding="utf-8").replace("lacks: [C, SUB]}", "lacks: [C,\n  SUB]}")
    job.write_text(text, encoding="utf-8")
    answer = ringout("again", "s/hatch-plug-in.yaml", "--car", "lacks: [C]")

    assert answer.code == 2
    assert "hatch-plug-in.yaml:7: this is written over several lines" in answer.err
    assert "      car: {name: Alder hatch" in answer.err


CROSSED = RECORDS.replace("heard: FL, plus: 5", "heard: RL, plus: 6").replace(
    "heard: RL, plus: 7", "heard: FL, plus: 7"
)


def test_a_chart_that_the_first_car_speaks_against(ringout, job: Path) -> None:
    """5/6 is charted FL and answered RL with + on 6; 7/8 is charted RL and answered FL: from the records above."""
    job.with_name("hatch-plug-in.evidence.yaml").write_text(CROSSED, encoding="utf-8")
    plain = ringout("again", "s/hatch-plug-in.yaml", "--car", "x", "-o", "s/one.yaml")
    told = json.loads(ringout("again", "s/hatch-plug-in.yaml", "--car", "y", "-o", "s/two.yaml", "--json").out)

    assert plain.code == 0
    assert "sound.5/6: charted FL; on Alder hatch 2022 RL answered." in plain.out
    assert "Put the chart right first: ringout check s/hatch-plug-in.yaml" in plain.out
    assert plain.out.index("sound.5/6: charted FL") < plain.out.index("Tone:")
    wrong = [(each["what"], each["known"]) for each in told["recheck"] if each["kind"] == "wrong"]
    assert wrong[-3:] == [
        ("sound.5/6", "charted FL; on Alder hatch 2022 RL answered"),
        ("sound.5/6", "+ charted on 5; on Alder hatch 2022 + was found on 6"),
        ("sound.7/8", "charted RL; on Alder hatch 2022 FL answered"),
    ]
    assert wrong[0][0] == "sound"  # what check says of the chart stands before the pairs


# 5/6 answered FL as charted, and later nothing: what went is a wire or speaker of that car
SILENT = RECORDS + RECORDS.splitlines(keepends=True)[2].replace("heard: FL, plus: 5", "heard: none")


@pytest.mark.parametrize(
    "records",
    [RECORDS, SILENT, CROSSED.replace("unplugged: sound", "unplugged: sound, car: Birch van 2019"), CROSSED + RECORDS],
    ids=["as charted", "fell silent since", "of another car", "toned again as charted"],
)
def test_nothing_against_the_chart(records: str, ringout, job: Path) -> None:
    job.with_name("hatch-plug-in.evidence.yaml").write_text(records, encoding="utf-8")
    told = json.loads(ringout("again", "s/hatch-plug-in.yaml", "--car", "x", "--json").out)

    assert not [each for each in told["recheck"] if each["kind"] == "wrong"]


@pytest.mark.parametrize(
    ("car", "code"),
    [("Alder hatch", 2), ("name: alder  HATCH, year: 2022", 2), ("year: 2022", 2),
     ("name: Alder hatch, year: 2023", 0), ("Alder hatch, ticket 2", 0)],
)  # fmt: skip
def test_the_car_of_the_old_job(car: str, code: int, ringout, job: Path, tmp_path: Path) -> None:
    """The sample's car is Alder hatch of 2022: records can't tell another one of that name and year apart."""
    before = _held(tmp_path)
    answer = ringout("again", "s/hatch-plug-in.yaml", "--car", car)

    assert answer.code == code
    if code:
        assert '--car "name: ' in answer.err
        assert _held(tmp_path) == before


def test_a_joint_turned_for_the_first_cars_speaker(ringout, job: Path) -> None:
    """FL was turned in the first car, and J5, the first joint under the seat (after J1 to J4 at the kick panel), turns
    it back: by its name and its leads. Not where the joint isn't turned, or the speaker lay as marked.
    """
    text = job.read_text(encoding="utf-8").replace("T1.car.FL: dsp.out1", "T1.car.FL: dsp.out1 reversed")
    records = RECORDS.replace("charted: FL, heard: FL, plus: 5", "charted: FL, heard: FL, plus: 6")
    turned = "- {when: 2026-03-02 10:00, by: RK, polarity: spk.FL, found: turned, how: seen}\n"

    def listed(text: str, records: str) -> list[dict[str, str]]:
        job.write_text(text, encoding="utf-8")
        job.with_name("hatch-plug-in.evidence.yaml").write_text(records, encoding="utf-8")
        told = json.loads(ringout("again", "s/hatch-plug-in.yaml", "--car", "x", "--json").out)
        return [each for each in told["recheck"] if each["kind"] == "turned"]

    (one,) = listed(text, records + turned)
    assert one["what"] == "J5"
    assert one["known"].startswith("T1 car end 5 (white, FL+) to dsp out1− and T1 car end 6 ")
    assert one["known"].endswith("reversed, as FL was turned on Alder hatch 2022 (RK 2026-03-02)")
    assert "Find + of this pair" in one["do"]
    assert not listed(text, records)
    assert not listed(text, records + turned + turned.replace("found: turned", "found: as marked"))
    assert not listed(text.replace(" reversed", ""), records + turned)
    answer = ringout("again", "s/hatch-plug-in.yaml", "--car", "y")
    assert "Turned for a speaker" not in answer.out
