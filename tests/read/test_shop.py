"""The shop file: read whole, every fault told at its place in one pass, and its schema of one mind with the reader."""

from __future__ import annotations

import re
from pathlib import Path

import jsonschema
import pytest
import yaml

from harness.model.money import Money, read_money
from harness.read.conform import conform
from harness.read.fields import Fields, Listing
from harness.read.job import read_job
from harness.read.nodes import Table, read_text
from harness.read.schema import schema
from harness.read.shop import read_shop, read_shop_text, shop_path
from harness.read.spec_shop import SHOP
from harness.read.troubles import Troubles

WHOLE = """\
ringout: 1
title: Bench two
preset: crimp
as of: 2026-02-27
job date: 2026-03-12
maps: [maps]
parts: [looms.yaml]
dash: [radio, glove box]
note: counted by hand
drawer:
  looms:
    L1: {part: long, price: 38.50 EUR, stock: 2}
    L3:
      ends: {unit: 8-way, car: {housing: 8-way, contacts: pins}}
      through: 1..6
      leads:
        7/8: RL GN GN/BK 18 AWG
        aerial: AERIAL BU
      pins: {1: B+}
      legend: {GR: grey}
      price: 61 EUR
      stock: 0
      days: 9
      arrives: 2026-03-20
      note: green tape
    L5: {ends: {unit: 8-way, car: 8-way}, through: 1..8, cut off: car}
    L4: {ends: {unit: 8-way}, leads: {1/2: FL}, days: 3, price: unknown, stock: unknown}
  parts:
    butt joint: {price: 0.35 EUR, stock: 100, note: red}
    spring connector: {price: 0.5 EUR}
    ring: {price: 0.2 EUR}
    tap: {days: 2}
    heat shrink: {price: 0.1 EUR}
    cap: {price: 0.05 EUR}
rates:
  labour: 84.00 EUR
  consumables: 0.60 EUR
  joints: {solder at the dash: 7 min, solder: 4.5 min, crimp at  kick panel: 90 s}
  mate: 3 min
  cut end off: 2 min
  pull: 2 min
  move: 4 min
  cap: 30 s
  recheck: {position: 20 s, lock: 10 s, tug: 5 s}
  reach a plug: 7..12.5 min
  reach an amplifier: 8 min
  close a place: 300..600 s
  fit a unit: 40..70 min
  fit a speaker: 25 min
  lay a supply cable: 35..50 min
  lay a cable: 9 min
  tone a pair: 90..240 s
  test an output: 2..3 min
  tune a channel: 6..9 min
  try a function: 45 s
"""
PARTS = "ringout: 1\nlooms:\n  long: {ends: {unit: 8-way, car: 8-way}, through: 1..8, stock: 7, price: 12 EUR}\n"


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    (tmp_path / "maps").mkdir()
    (tmp_path / "looms.yaml").write_text(PARTS, encoding="utf-8")
    path = tmp_path / "shop.yaml"
    path.write_text(WHOLE, encoding="utf-8")
    return path


def test_everything_written_is_there(bench: Path) -> None:
    troubles = Troubles()
    shop = read_shop(bench, troubles)
    assert [each.code for each in troubles.findings] == []
    assert shop is not None
    assert (shop.title, shop.preset, shop.as_of, shop.job_date) == ("Bench two", "crimp", "2026-02-27", "2026-03-12")
    assert shop.currency == "EUR"
    assert shop.labour == Money(8400, "EUR")
    assert shop.consumables == Money(60, "EUR")
    # 7 min = 420 s, 4.5 min = 270 s
    assert [(j.method, j.at, j.time_ms) for j in shop.joints] == [
        ("solder", "the dash", 420_000), ("solder", "", 270_000), ("crimp", "kick panel", 90_000),
    ]  # fmt: skip
    assert shop.works == {"mate": 180_000, "cut end off": 120_000, "pull": 120_000, "move": 240_000, "cap": 30_000}
    assert shop.recheck == {"position": 20_000, "lock": 10_000, "tug": 5_000}
    assert shop.spans == {
        "reach a plug": (420_000, 750_000), "reach an amplifier": (480_000, 480_000),
        "close a place": (300_000, 600_000), "fit a unit": (2_400_000, 4_200_000),
        "fit a speaker": (1_500_000, 1_500_000), "lay a supply cable": (2_100_000, 3_000_000),
        "lay a cable": (540_000, 540_000), "tone a pair": (90_000, 240_000), "test an output": (120_000, 180_000),
        "tune a channel": (360_000, 540_000), "try a function": (45_000, 45_000),
    }  # fmt: skip
    assert [Path(folder.path).name for folder in shop.maps] == ["maps"]
    assert shop.dash == ("radio", "glove box")
    assert shop.loose["butt joint"].store.price == Money(35, "EUR")
    # by the calendar: 2026 is no leap year, 2 days after 27 February is 1 March
    assert shop.loose["tap"].store.arrives == "2026-03-01"


def test_a_loom_of_the_drawer_is_read_as_one_of_a_job(bench: Path) -> None:
    shop = read_shop(bench, Troubles())
    assert shop is not None
    long, third, fourth = shop.looms["L1"], shop.looms["L3"], shop.looms["L4"]
    assert long.loom is not None
    assert len(long.loom.throughs) == 8
    assert (long.store.price, long.store.stock) == (Money(3850, "EUR"), 2)  # the drawer's own over the part's
    assert third.loom is not None
    assert {lead.name for lead in third.loom.leads} == {
        "L3.unit.7", "L3.unit.8", "L3.car.7", "L3.car.8", "L3.aerial",
    }  # fmt: skip
    assert (third.store.stock, third.days, third.store.arrives) == (0, 9, "2026-03-20")
    # by the calendar: three days after 27 February 2026
    assert (fourth.store, fourth.days) == ((None, None, "2026-03-02"), 3)


def test_every_key_of_the_shop_file_stands_in_it() -> None:
    root = read_text(WHOLE, "shop.yaml", Troubles())
    used: set[tuple[int, str]] = set()
    shapes: dict[int, Fields] = {}

    def walk(node: object, shape: object) -> None:
        if isinstance(shape, Fields) and isinstance(node, Table):
            shapes[id(shape)] = shape
            for key, value in node.items:
                inner = shape.keys.get(key.value)
                if inner is not None:
                    used.add((id(shape), key.value))
                else:
                    inner = next(value_shape for word, value_shape in shape.rows if word.fits(key.value))
                walk(value, inner)
        elif isinstance(shape, Listing):
            for item in getattr(node, "items", ()):
                walk(item, shape.item)

    walk(root, SHOP)
    missing = [f"{s.what}: {key}" for s in shapes.values() for key in s.keys if (id(s), key) not in used]
    assert missing == []


WRONG = [
    ("price: 38.50 EUR", "price: 38,50 EUR", "R06", "50 EUR"),
    ("price: 61 EUR", "price: 61", "R09", "61"),
    ("price: 61 EUR", "price: 61 USD", "R09", "61 USD"),
    ("days: 9", "days: soon", "R09", "soon"),
    ("as of: 2026-02-27", "as of: 2026-02-30", "R09", "2026-02-30"),
    ("preset: crimp", "preset: crimps", "R20", "crimps"),
    ("maps: [maps]", "maps: [mops]", "R10", "mops"),
    ("{part: long,", "{part: lang,", "R20", "lang"),
    ("butt joint:", "butt joints:", "R07", "butt joints"),
    ("crimp at  kick panel: 90 s", "crump: 90 s", "R07", "crump"),
    ("mate: 3 min", "mate: 3", "R09", "3"),
    ("    L4:", "    L3:", "R02", "L3"),
    ("    L4:", "    spk:", "R22", "spk"),
    ("7/8: RL GN GN/BK 18 AWG", "7/8: RL GN", "R09", ""),
    ("labour: 84.00 EUR", "labor: 84.00 EUR", "R07", "labor"),
    ("price: 61 EUR", "price: 6² EUR", "R09", "6² EUR"),  # the sign for a square is no digit
    ("stock: 2", "stock: ²", "R09", "²"),
    ("days: 9", "days: 9²", "R09", "9²"),
    ("mate: 3 min", "mate: 3² min", "R09", "3² min"),
]


# what is wrong and what to write, in words of the trade
@pytest.mark.parametrize(
    ("wrong", "message", "do"),
    [
        ("-3 min", "“-3 min” is not a time: it can't be below zero.", "Write 3 min, without a sign."),
        ("+3 min", "“+3 min” is not a time: no plus sign is written.", "Write 3 min, without a sign."),
        ("-3", "“-3” is not a time: the unit is missing.", "Write 3 ms, or the unit that is meant: ms, s, min."),
    ],
)
def test_a_time_with_a_sign_says_what_is_wrong(bench: Path, wrong: str, message: str, do: str) -> None:
    bench.write_text(WHOLE.replace("mate: 3 min", f"mate: {wrong}"), encoding="utf-8")
    troubles = Troubles()
    read_shop(bench, troubles)
    (told,) = troubles.findings
    assert told.code == "R09"
    assert (told.message, told.do) == (message, do)


def test_an_empty_shop_file_is_not_taken_for_a_job() -> None:
    for text in ("", "# nothing yet\n"):
        troubles = Troubles()
        read_shop_text(text, "shop.yaml", troubles)
        (told,) = troubles.findings
        assert told.message == "There is nothing in the file."
        assert "a shop file begin" in told.do


@pytest.mark.parametrize(("right", "wrong", "code", "name"), WRONG, ids=[each[1] for each in WRONG])
def test_what_is_wrong_is_told_where_it_stands(bench: Path, right: str, wrong: str, code: str, name: str) -> None:
    assert WHOLE.count(right) == 1
    bench.write_text(WHOLE.replace(right, wrong), encoding="utf-8")
    line = WHOLE[: WHOLE.index(right)].count("\n") + 1
    troubles = Troubles()
    read_shop(bench, troubles)
    told = [(each.code, each.places[0].place.line) for each in troubles.findings]
    assert (code, line) in told
    assert any(name in each.places[0].name for each in troubles.findings if each.code == code)
    assert troubles.refused


def test_all_faults_in_one_pass(bench: Path) -> None:
    text = WHOLE
    for right, wrong, _, _ in (WRONG[1], WRONG[4], WRONG[6], WRONG[10]):
        text = text.replace(right, wrong)
    bench.write_text(text, encoding="utf-8")
    troubles = Troubles()
    read_shop(bench, troubles)
    assert len(troubles.findings) == 4


def test_the_schema_of_the_shop_file_is_of_one_mind_with_the_reader() -> None:
    drawn = schema("shop")
    jsonschema.Draft202012Validator.check_schema(drawn)
    validator = jsonschema.Draft202012Validator(drawn)
    texts = [WHOLE, *(WHOLE.replace(right, wrong) for right, wrong, _, _ in WRONG)]
    both = set()
    for text in texts:
        troubles = Troubles()
        node = read_text(text, "shop.yaml", troubles)
        if any(each.code in ("R02", "R06") for each in troubles.findings) or node is None:
            continue  # a schema doesn't see these
        conform(node, SHOP, troubles)
        fine = validator.is_valid(yaml.load(re.sub(r"  +kick", " kick", text), Loader=yaml.CBaseLoader))
        assert fine != troubles.refused, text
        both.add(fine)
    assert both == {True, False}


def test_a_file_that_is_no_table_or_not_there(tmp_path: Path) -> None:
    for text in ("", "- a\n", "just words\n"):
        troubles = Troubles()
        assert read_shop_text(text, "shop.yaml", troubles) is None
        assert troubles.refused
    troubles = Troubles()
    assert read_shop(tmp_path / "none.yaml", troubles) is None
    assert [each.code for each in troubles.findings] == ["R10"]


def test_the_shop_of_a_job_is_named_by_it_or_lies_beside_it(bench: Path) -> None:
    job = bench.parent / "job.yaml"
    job.write_text("ringout: 1\ntitle: a\n", encoding="utf-8")
    read = read_job(job, Troubles())
    assert read is not None
    assert Path(shop_path(read)) == bench
    job.write_text("ringout: 1\ntitle: a\nshop: ../other.yaml\n", encoding="utf-8")
    read = read_job(job, Troubles())
    assert read is not None
    assert Path(shop_path(read)) == bench.parent.parent / "other.yaml"
    bench.unlink()
    job.write_text("ringout: 1\ntitle: a\n", encoding="utf-8")
    read = read_job(job, Troubles())
    assert read is not None
    assert shop_path(read) == ""


# hand sums: hundredths of each
@pytest.mark.parametrize(
    ("text", "minor", "words"),
    [("38.5 EUR", 3850, "38.50 EUR"), ("0.05 GBP", 5, "0.05 GBP"), ("7 USD", 700, "7.00 USD")],
)
def test_money_is_whole_hundredths(text: str, minor: int, words: str) -> None:
    money = read_money(text)
    assert money.minor == minor
    assert money.words == words
    for wrong in (text.replace(" ", ""), "5².00 EUR", "5.0² EUR"):
        with pytest.raises(ValueError):
            read_money(wrong)
