"""The next car's file: its car as asked, every other line as it was. Read again by PyYAML alone, all values as text."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
import yaml

from harness.again.asked import asked_fields
from harness.again.next_car import with_car
from harness.again.refused import NotChanged
from harness.assets import folder

HEAD = "ringout: 1\ntitle: A job   # mine\n"
TAIL = "# below\nunits:\n  radio: {kind: radio}   # as it is\n"


def read(text: str) -> dict[str, object]:
    """PyYAML's base loader: every value is text, as the job's own reader has it."""
    made = yaml.load(text, Loader=yaml.BaseLoader)
    assert isinstance(made, dict)
    return made


def changed(car: str, asked: str, tail: str = TAIL) -> str:
    made = with_car(HEAD + car + tail, "job.yaml", "new.yaml", asked_fields(asked))
    assert made.startswith(HEAD)
    assert made.endswith(tail)
    return made[len(HEAD) : len(made) - len(tail)]


def test_the_day_of_the_first_car_is_left_out() -> None:
    before = HEAD + "date: 2026-03-02   # a Monday\ncar: {name: Larch}\nsteps:\n- {date: kept}\n" + TAIL
    made = with_car(before, "job.yaml", "new.yaml", asked_fields("Fir"))
    assert made == before.replace("date: 2026-03-02   # a Monday\n", "").replace("Larch", "Fir")
    with pytest.raises(NotChanged, match=r"job\.yaml:3: take `date:` away by hand"):
        with_car(HEAD + "date:\n  2026-03-02\n" + TAIL, "job.yaml", "new.yaml", asked_fields("Fir"))


@pytest.mark.parametrize(
    ("car", "asked", "after"),
    [
        # a name alone
        ("car: {name: Larch, year: 2022}  # his\n", "Fir 2", "car: {name: Fir 2, year: 2022}  # his\n"),
        ("car:\n  name: Larch  # his\n  year: 2022\n", "Fir, red", "car:\n  name: 'Fir, red'  # his\n  year: 2022\n"),
        ("car: {name: 'Lar''ch, old'}\n", "It's", "car: {name: 'It''s'}\n"),
        ('car: {name: "a \\" }", year: 2022}\n', "B", "car: {name: B, year: 2022}\n"),
        # fields, in one line and from back to front
        (
            "car: {name: A, year: 2022, steering: left}\n",
            "steering: right, name: Bee, year: 2023",
            "car: {name: Bee, year: 2023, steering: right}\n",
        ),
        # fields that weren't there
        ("car: {name: A}\n", "year: 2023", "car: {name: A, year: 2023}\n"),
        ("car: { name: A }\n", "year: 2023", "car: { name: A, year: 2023 }\n"),
        ("car:\n  name: A\n  # last\n", "year: 2023", "car:\n  name: A\n  year: 2023\n  # last\n"),
        ("car:\n    lacks:\n    - C\n    - ACC\n", "name: B", "car:\n    lacks:\n    - C\n    - ACC\n    name: B\n"),
        # over several lines in brackets
        ("car: {name: A,\n      year: 2022}  # x\n", "year: 2023", "car: {name: A,\n      year: 2023}  # x\n"),
        ("car: {name: A,  # }\n year: 22\n }\n", "audio: base", "car: {name: A,  # }\n year: 22\n , audio: base}\n"),
        ("car: {\n  name: A,\n}\n", "audio: base", "car: {\n  name: A,\n audio: base}\n"),
        ("car: {name: A-#1, year: 2022}\n", "audio: base", "car: {name: A-#1, year: 2022, audio: base}\n"),
        # lists
        ("car: {lacks: [C, SUB], name: A}\n", "lacks: [ACC], name: B", "car: {lacks: [ACC], name: B}\n"),
        ("car: {name: A}\n", "fitted: [stop-start, battery sensor]",
         "car: {name: A, fitted: [stop-start, battery sensor]}\n"),
        ("car: {name: A}\n", "orange: ['left sill, low']", "car: {name: A, orange: ['left sill, low']}\n"),
        # values that the editor could take for something else
        ("car: {name: A}\n", "on", "car: {name: 'on'}\n"),
        ("car: {name: A}\n", "2022", "car: {name: '2022'}\n"),
        ("car: {name: A}\n", 'name: "a: b # c"', "car: {name: 'a: b # c'}\n"),
        # none yet
        ("", "Fir 2", "car: {name: Fir 2}\n"),
    ],
)  # fmt: skip
def test_text(car: str, asked: str, after: str) -> None:
    assert changed(car, asked) == after


def test_line_ends_and_mark_stay() -> None:
    text = "\ufeff" + (HEAD + "car: {name: A}\n" + TAIL).replace("\n", "\r\n")
    made = with_car(text, "job.yaml", "new.yaml", {"name": "B"})

    assert made == text.replace("name: A", "name: B")


def test_parts_from_another_folder() -> None:
    """They lead to the same files; in the same folder nothing is touched."""
    text = HEAD + "car: {name: A}\nparts: [parts/a.yaml, ../b.yaml]  # both\n" + TAIL
    block = HEAD + "car: {name: A}\nparts:\n- parts/a.yaml   # one\n- ../b.yaml\n" + TAIL

    assert "parts: [../parts/a.yaml, ../../b.yaml]  # both\n" in with_car(
        text, "x/job.yaml", "x/y/n.yaml", {"name": "B"}
    )
    assert "- x/parts/a.yaml   # one\n- b.yaml\n" in with_car(block, "x/job.yaml", "n.yaml", {"name": "B"})
    assert "[parts/a.yaml, ../b.yaml]" in with_car(text, "x/job.yaml", "x/n.yaml", {"name": "B"})


@pytest.mark.parametrize(
    ("written", "there"),
    [
        ("shop: shop.yaml   # ours\n", "shop: ../shop.yaml   # ours\n"),
        ("shop: ../of the bay/shop.yaml\n", "shop: ../../of the bay/shop.yaml\n"),
        ("shop: 'a, b.yaml'\n", "shop: '../a, b.yaml'\n"),
        ("shop: /srv/shop.yaml\n", "shop: /srv/shop.yaml\n"),
    ],
)
def test_the_shop_file_from_another_folder(written: str, there: str) -> None:
    """It is the same file; in the same folder nothing is touched, nor where the whole path is written."""
    text = HEAD + "car: {name: A}\n" + written + TAIL

    assert there in with_car(text, "x/job.yaml", "x/y/n.yaml", {"name": "B"})
    assert written in with_car(text, "x/job.yaml", "x/n.yaml", {"name": "B"})


@pytest.mark.parametrize(
    ("car", "asked", "line"),
    [
        ("car:\n  name: A\n  lacks:\n    - C\n", "lacks: [SUB]", 6),
        ("car:\n  note: |\n    long\n    text\n", "note: short", 4),
        ("car: {name: A, lacks: [C,\n  SUB]}\n", "lacks: [ACC]", 3),
    ],
)
def test_what_cannot_be_changed_by_lines(car: str, asked: str, line: int) -> None:
    """Told with the line; nothing is written half."""
    with pytest.raises(NotChanged) as wrong:
        changed(car, asked)

    assert f"job.yaml:{line}: this is written over several lines" in wrong.value.told[0]


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ("", "--car is empty"),
        ("year: next", "year"),
        ("yaer: 2023", "no field of car"),
        ("foo: 1", "no field of car"),
        ("name: A, year: 20222", "year"),
        ("name: A, steering: middle", "left or right"),
        ("lacks: [NOTHING]", "NOTHING"),
        ("name: A, colour: red", "colour"),
        ("name: A, name: B", "already"),
        ("name: 'A", "quote"),
        ("name: A}", ""),
        ("name: A}\nunits: {x: {kind: radio}", ""),
        ("year: 2022, fitted: [jets]", "jets"),
        ("name: &x A", "anchor"),
    ],
)
def test_fields_that_are_none(asked: str, words: str) -> None:
    with pytest.raises(NotChanged) as wrong:
        asked_fields(asked)

    assert words in " ".join(wrong.value.told)


_CARS = (
    "car: {%s}\n", "car: { %s }   # his\n", "car:\n  {%s}\n",
)  # fmt: skip
_VALUES = {
    "name": ["Larch estate", "'a, b'", '"x: # y"', "Größe"],
    "year": ["2022", "unknown"],
    "steering": ["left", "right"],
    "audio": ["base", "'no: sound'"],
    "lacks": ["[C, SUB]", "ACC", "[]"],
    "fitted": ["[stop-start]"],
    "drive": ["petrol", "unknown"],
    "supply": ["alternator 120 A"],
}


@pytest.mark.parametrize("seed", range(200))
def test_any_car(seed: int) -> None:
    """Fields changed and added on cars in brackets and in lines: what PyYAML reads is the old with the new in it."""
    draw = random.Random(seed)
    keys = draw.sample(list(_VALUES), draw.randrange(1, 8))
    pairs = [f"{key}: {draw.choice(_VALUES[key])}" for key in keys]
    if draw.random() < 0.5:
        car = draw.choice(_CARS) % ", ".join(pairs)
    else:
        car = "car:\n" + "".join(f"   {pair}{draw.choice(['', '  # so'])}\n" for pair in pairs)
    asked = ", ".join(f"{key}: {draw.choice(_VALUES[key])}" for key in draw.sample(list(_VALUES), draw.randrange(1, 8)))
    text = HEAD + car + TAIL
    made = with_car(text, "job.yaml", "new.yaml", asked_fields(asked))
    before, wanted = read(text), read(f"car: {{{asked}}}")["car"]

    assert isinstance(before["car"], dict)
    assert isinstance(wanted, dict)
    assert read(made) == before | {"car": before["car"] | wanted}
    assert made.count("#") - asked.count("#") <= text.count("#")


@pytest.mark.parametrize("sample", sorted(path.name for path in folder("samples").glob("*-*.yaml")))
def test_samples_change_in_one_line(sample: str) -> None:
    path: Path = folder("samples") / sample
    text = path.read_text(encoding="utf-8")
    made = with_car(text, str(path), str(path.with_name("new.yaml")), {"name": "Fir 2"})
    lines = [(old, new) for old, new in zip(text.splitlines(), made.splitlines(), strict=True) if old != new]

    assert len(lines) == 1
    assert "name: Fir 2" in lines[0][1]
