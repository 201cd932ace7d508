"""The scope before the car comes: risks, records under every line, and what a missing fact does."""

from __future__ import annotations

import io
import json
import random
import re
from pathlib import Path

import pdfplumber
import pytest

from tests.cli.conftest import process, ringout

__all__ = ["process", "ringout"]  # fixtures

SHOP = """\
ringout: 1
maps: [maps]
drawer:
  looms:
    L9:
      ends: {unit: {housing: 16-way M, contacts: sockets}, car: {housing: 16-way M, contacts: pins}}
      leads: {1/9: FL, 2/10: FR}
      price: 30.00 EUR
      stock: 1
rates:
  labour: 60.00 EUR
  consumables: 0.00 EUR
  joints: {solder: 6 min, crimp: 2 min}
  mate: 4 min
  cut end off: 1 min
  pull: 1 min
  move: 1 min
  cap: 1 min
  recheck: {position: 30 s, lock: 1 min, tug: 30 s}
dash: [nowhere]
"""
MAP = """\
ringout: 1
title: Hazel van, base audio
plugs:
  dash:
    place: behind the radio
    housing: 16-way M
    face: {rows: 2, columns: 8, view: wire, latch: top, first: top left, count: across}
    source: {chart: shop sheet 31, covers: 2019..2022}
    cavities:
      1/9: FL BN BN/WH
      2/10: FR VT VT/WH
      7: B+ YE
      13/14: CAN OG/GN OG/BN
"""
AMPLIFIED = """\
units:
  famp:
    kind: factory amplifier
    place: under the right seat
    inputs: {in1: 2..10 V differential}
    wakes: bus
"""
SCOPE = """\
ringout: 1
title: Hazel van, front doors
car:
  name: Hazel van
  year: 2021
  steering: left
  audio: base
  drive: petrol
  ownership: owned
  fitted: [stop-start]
features:
  door light: cluster
without: [noise cancelling, emergency call, factory amplifier]
wishes:
  amplify: FL FR
  units:
    two-channel amplifier: under the left seat
"""
FLAGS = {
    "chimes in the factory amplifier", "data-bus wake", "emergency call", "noise cancelling", "high voltage", "lease",
    "restraint",
}  # fmt: skip


class Bench:
    """A folder with a scope, a shop and maps."""

    def __init__(self, folder: Path, run) -> None:
        self.folder, self.run = folder, run
        (folder / "maps").mkdir()
        self.write("shop.yaml", SHOP)
        self.write("maps/base.yaml", MAP)
        self.write("scope.yaml", SCOPE)

    def write(self, name: str, text: str) -> None:
        (self.folder / name).write_text(text, encoding="utf-8")

    def told(self) -> dict:
        answer = self.run("weigh", "--before", "scope.yaml", "--json")
        assert answer.code == 0, answer.out + answer.err
        return json.loads(answer.out)

    def flags(self) -> dict[str, bool]:
        """Each risk told, and whether it hangs on something nobody recorded."""
        made: dict[str, bool] = {}
        for each in self.told()["lines"]:
            if each["kind"] == "risk":
                made[each["flag"]] = made.get(each["flag"], True) and each["if"] is not None
        return made


@pytest.fixture
def bench(tmp_path: Path, ringout) -> Bench:
    return Bench(tmp_path, ringout)


def lines_of(told: dict, kind: str) -> list[dict]:
    return [each for each in told["lines"] if each["kind"] == kind]


# -- risks: raised by a record, open without one, gone where a record rules it out -----------------------------


def test_the_quiet_car_has_its_data_pair_only(bench: Bench) -> None:
    assert bench.flags() == {"data-bus wake": False}


RAISED = {
    "emergency call": ("door light: cluster", "emergency call: cluster", "scope.yaml"),
    "noise cancelling": ("fitted: [stop-start]", "fitted: [noise cancelling]", "scope.yaml"),
    "high voltage": ("drive: petrol", "drive: hybrid", "scope.yaml"),
    "lease": ("ownership: owned", "ownership: leased", "scope.yaml"),
    "restraint": ("      7: B+ YE\n", "      7: B+ YE\n      15/16: SRS YE YE/BK\n", "maps/base.yaml"),
    "chimes in the factory amplifier": ("door light: cluster", "belt tone: cluster", "scope.yaml"),
}


@pytest.mark.parametrize("flag", RAISED)
def test_a_record_raises_its_flag(flag: str, bench: Bench) -> None:
    old, new, name = RAISED[flag]
    text = {"scope.yaml": SCOPE, "maps/base.yaml": MAP}[name]
    assert text.count(old) == 1
    bench.write(name, text.replace(old, new))

    assert bench.flags() == {"data-bus wake": False, flag: False}


OPEN = {
    "emergency call": ("without: [noise cancelling, emergency call,", "without: [noise cancelling,"),
    "noise cancelling": ("without: [noise cancelling, ", "without: ["),
    "high voltage": ("  drive: petrol\n", ""),
    "lease": ("  ownership: owned\n", ""),
    "chimes in the factory amplifier": (", factory amplifier]", "]"),
}


@pytest.mark.parametrize("flag", OPEN)
def test_without_a_record_it_is_asked(flag: str, bench: Bench) -> None:
    old, new = OPEN[flag]
    assert SCOPE.count(old) == 1
    bench.write("scope.yaml", SCOPE.replace(old, new))

    assert bench.flags() == {"data-bus wake": False, flag: True}


def test_no_data_pair_in_any_map(bench: Bench) -> None:
    bench.write("maps/base.yaml", MAP.replace("      13/14: CAN OG/GN OG/BN\n", ""))

    assert bench.flags() == {"data-bus wake": True}


def test_a_factory_amplifier_in_the_map(bench: Bench) -> None:
    bench.write("maps/base.yaml", MAP + AMPLIFIED)
    bench.write("scope.yaml", SCOPE.replace(", factory amplifier]", "]"))

    assert bench.flags() == {"data-bus wake": False, "chimes in the factory amplifier": False}


def test_one_of_two_maps_has_it(bench: Bench) -> None:
    """Then it hangs on which map it is; and a scope that says there is none strikes that map out."""
    bench.write("maps/amplified.yaml", MAP.replace("base audio", "amplified") + AMPLIFIED)
    bench.write("scope.yaml", SCOPE.replace(", factory amplifier]", "]"))
    assert bench.flags() == {"data-bus wake": False, "chimes in the factory amplifier": True}
    bench.write("scope.yaml", SCOPE)

    assert [each["file"] for each in bench.told()["maps"]] == ["maps/base.yaml"]


@pytest.mark.parametrize(("carries", "flag"), [("SRS", "restraint"), ("HV", "high voltage")])
def test_a_plug_that_carries_them(carries: str, flag: str, bench: Bench) -> None:
    bench.write("maps/base.yaml", MAP.replace("    housing:", f"    carries: {carries}\n    housing:"))

    assert bench.flags() == {"data-bus wake": False, flag: False}


# -- no line without its records --------------------------------------------------------------------------------


def rests(told: dict, folder: Path) -> None:
    """Every line names records that stand where it says, or says what it hangs on and how that is found out."""
    for each in told["lines"]:
        assert each["basis"] or (each["if"] and each["find_out"]), each
        assert bool(each["if"]) == bool(each["find_out"]), each
        for record in each["basis"]:
            line = (folder / record["file"]).read_text(encoding="utf-8").splitlines()[record["line"] - 1]
            assert record["record"] in line, (record, line)
    assert {each["flag"] for each in told["lines"]} <= {*FLAGS, None}


@pytest.mark.parametrize("seed", range(40))
def test_every_line_rests_on_something_written(seed: int, bench: Bench) -> None:
    """Scopes and maps with facts left out at random."""
    dice = random.Random(seed)

    def thinned(text: str, keep: str) -> str:
        kept = [line for line in text.splitlines() if re.match(keep, line) or dice.random() < 0.7]
        return "\n".join(kept) + "\n"

    always = r"ringout|title|car:|  name|plugs:|  dash:|    cavities:|      1/9|wishes:|  amplify|features:|  door"
    bench.write("maps/base.yaml", thinned(MAP, always))
    for number in range(dice.randint(0, 2)):
        more = thinned(MAP.replace("base audio", f"variant {number}"), always)
        bench.write(f"maps/v{number}.yaml", more + (AMPLIFIED if dice.random() < 0.5 else ""))
    text = thinned(SCOPE, always + "|  units:|    two-channel")
    bench.write("scope.yaml", text + dice.choice(("", "  add: SUB\n", "  replace: FL\n")))

    rests(bench.told(), bench.folder)


def test_the_whole_scope(bench: Bench) -> None:
    rests(bench.told(), bench.folder)


def test_the_sample(root: Path, bench: Bench) -> None:
    answer = bench.run("weigh", "--before", str(root / "samples" / "scopes" / "alder-on-lease.yaml"), "--json")
    told = json.loads(answer.out)

    rests(told, Path("/"))
    assert [each["letter"] for each in told["maps"]] == list("ABCD")
    raised = {each["flag"] for each in told["lines"] if each["flag"] and each["if"] is None}
    assert raised == {"noise cancelling", "lease", "chimes in the factory amplifier"}


def test_a_job_is_its_own_scope(root: Path, bench: Bench) -> None:
    answer = bench.run("weigh", "--before", str(root / "samples" / "hatch-plug-in.yaml"), "--json")
    told = json.loads(answer.out)

    rests(told, Path("/"))
    assert told["maps"][0]["file"].endswith("hatch-plug-in.yaml")
    joints = " ".join(each["words"] for each in lines_of(told, "joint"))
    assert {name for name in ("FL", "FR", "RL", "RR", "SUB", "C") if f" {name} " in joints} == {"FL", "FR", "RL", "RR"}


# -- a fact taken out ----------------------------------------------------------------------------------------------


def test_no_place_written_makes_the_access_open(bench: Bench) -> None:
    access = [each for each in lines_of(bench.told(), "access") if "plug dash" in each["words"]]
    assert [(each["words"], each["if"]) for each in access] == [("Get at plug dash, behind the radio.", None)]
    bench.write("maps/base.yaml", MAP.replace("    place: behind the radio\n", ""))
    told = bench.told()
    access = [each for each in lines_of(told, "access") if "plug dash" in each["words"]]

    assert [(each["words"], each["if"]) for each in access] == [
        ("Get at plug dash, place not recorded.", "its place is known")
    ]
    assert "behind" not in json.dumps(told)
    assert "Place of plug dash?" in [each["words"] for each in lines_of(told, "unknown")]


def test_no_pair_written_makes_its_joints_unknown(bench: Bench) -> None:
    bench.write("maps/base.yaml", MAP.replace("      2/10: FR VT VT/WH\n", ""))
    told = bench.told()

    (joints,) = lines_of(told, "joint")
    assert "FL " in joints["words"]
    assert "FR" not in joints["words"]
    assert ": 4 joints; by hand 2 wires are cut" in joints["words"]
    asked = [each for each in lines_of(told, "unknown") if each["words"] == "Where are the two wires of FR?"]
    assert [each["find_out"] for each in asked] == ["tone it on the car"]


def test_no_housing_written_makes_the_loom_open(bench: Bench) -> None:
    looms = [each["words"] for each in lines_of(bench.told(), "part") if each["words"].startswith("loom ")]
    assert looms == ["loom L9 for plug dash (30.00 EUR, 1 in stock): cuts nothing."]
    bench.write("maps/base.yaml", MAP.replace("    housing: 16-way M\n", ""))
    told = bench.told()

    assert "L9" not in json.dumps(told)
    open_ = [each for each in lines_of(told, "part") if each["words"].startswith("loom for plug dash")]
    assert [each["if"] for each in open_] == ["its housing is known"]


@pytest.mark.parametrize("key", ["name", "year", "steering", "audio", "drive", "ownership"])
def test_a_fact_of_the_car_left_out_is_asked(key: str, bench: Bench) -> None:
    before = [each["words"] for each in lines_of(bench.told(), "unknown")]
    bench.write("scope.yaml", re.sub(rf"  {key}: .*\n", "", SCOPE))
    after = [each for each in lines_of(bench.told(), "unknown") if each["words"] not in before]

    assert [each["if"] for each in after] == ["it is not written"]


def test_written_as_unknown_is_not_written(bench: Bench) -> None:
    bench.write("scope.yaml", SCOPE.replace("drive: petrol", "drive: unknown"))

    assert bench.flags()["high voltage"] is True


def test_maps_of_other_cars_and_years_are_left_out(bench: Bench) -> None:
    bench.write("maps/other.yaml", MAP.replace("Hazel van", "Alder hatch"))
    bench.write("maps/late.yaml", MAP.replace("2019..2022", "2023..2025"))
    told = bench.told()

    assert [each["file"] for each in told["maps"]] == ["maps/base.yaml"]
    assert told["maps_of_other_cars"] == 1
    assert "maps/late.yaml is left out: it covers 2023..2025." in [each["words"] for each in told["lines"]]


def test_no_map_at_all(bench: Bench) -> None:
    (bench.folder / "maps" / "base.yaml").unlink()
    told = bench.told()

    assert lines_of(told, "joint") == []
    said = bench.run("weigh", "--before", "scope.yaml").out
    assert "What is open can add to it: without a map no plug, joint, pair toned or place closed is in it." in said
    assert "What is in the plugs?" in [each["words"] for each in lines_of(told, "unknown")]


def test_more_than_one_map_names_what_tells_them_apart(bench: Bench) -> None:
    """By hand: cavity 1 is brown in one and red in the other; nothing else differs."""
    bench.write("maps/red.yaml", MAP.replace("1/9: FL BN BN/WH", "1/9: FL RD BN/WH").replace("base audio", "red"))
    which = [each for each in lines_of(bench.told(), "unknown") if each["words"] == "Which map is it: A, B?"]

    assert [each["find_out"] for each in which] == ["ringout which, with the plug in hand: cavity 1"]


# -- minutes and money ----------------------------------------------------------------------------------------------


def test_minutes_and_money_by_hand(bench: Bench) -> None:
    """Two pairs, four joints each. The preset `house` allows crimping on both, and that is the cheaper hand.

    By hand 8 x 2 min: 16; with a loom two ends at 4 + 1 min more: 26. One unit: a supply cable, a ground, and a cable
    for both ways of the pairs or one each way; two channels to test and tune. All others are the tool's own: common
    practice, no source. 7 + 2 + 16 + 6 + 30 + 20 + 30 + 4 + 10 + 5 = 130 and 15 + 4 + 26 + 10 + 60 + 60 + 60 + 8 + 30
    + 10 = 283 min, at 60 EUR an hour 130.00 to 283.00.
    """
    told = bench.told()
    minutes = {each["words"]: (each["minutes"]["low"], each["minutes"]["high"]) for each in lines_of(told, "time")}

    assert minutes == {
        "Reach 1 plug and open it.": (7, 15),
        "Try 1 function before, and after.": (2, 4),
        "Make 8 joints, with a loom or by hand.": (16, 26),
        "Tone 2 pairs.": (6, 10),
        "Lay 1 supply cable.": (30, 60),
        "Lay 2 to 3 other cables.": (20, 60),
        "Fit 1 unit, the terminals made.": (30, 60),
        "Test 2 outputs.": (4, 8),
        "Set and tune 2 channels.": (10, 30),
        "Look again, and close 1 place.": (5, 10),
    }
    assert told["minutes"] == {"low": 130, "high": 283}
    assert told["labour"] == {"low": "130.00 EUR", "high": "283.00 EUR"}
    assert told["labour_rate"] == {"an_hour": "60.00 EUR", "default": False}
    named = {rate["what"] for each in lines_of(told, "time") for rate in each["rates"] if rate["default"]}
    assert {each["what"] for each in told["defaults"]} == named
    assert named == {
        "reach a plug", "try a function", "tone a pair", "lay a supply cable", "lay a cable", "fit a unit",
        "test an output", "tune a channel", "close a place",
    }  # fmt: skip


SPANS = {  # what the shop writes, and how often the work is done: a factory amplifier and a new speaker besides
    "reach a plug": ("4..6 min", 1, 1),
    "reach an amplifier": ("8 min", 1, 1),
    "try a function": ("30..60 s", 2, 2),
    "tone a pair": ("2..2.5 min", 2, 2),
    "lay a supply cable": ("25..35 min", 1, 1),
    "lay a cable": ("5..6 min", 3, 4),
    "fit a unit": ("20..50 min", 1, 1),
    "fit a speaker": ("15..18 min", 1, 1),
    "test an output": ("1..1.5 min", 3, 3),
    "tune a channel": ("2..3 min", 3, 3),
    "close a place": ("3..4 min", 2, 2),
}


def test_what_the_shop_writes_is_taken_and_no_default(bench: Bench) -> None:
    """Each from its words: so many times the first number, and so many times the last."""
    bench.write("maps/base.yaml", MAP + AMPLIFIED)
    bench.write("scope.yaml", SCOPE.replace(", factory amplifier]", "]") + "  add: SUB\n")
    written = "".join(f"  {what}: {words}\n" for what, (words, _, _) in SPANS.items())
    bench.write("shop.yaml", SHOP.replace("  mate: 4 min\n", f"  mate: 4 min\n{written}"))
    told = bench.told()
    found = {each["rates"][0]["what"]: each for each in lines_of(told, "time")}

    for what, (words, least, most) in SPANS.items():
        amount, unit = words.split()
        low, high = (float(each) / (60 if unit == "s" else 1) for each in (amount.split("..") * 2)[:2])
        if ".." not in amount:
            high = low
        assert found[what]["minutes"] == {"low": pytest.approx(least * low), "high": pytest.approx(most * high)}, what
        assert found[what]["count"] == {"low": least, "high": most}
    assert told["defaults"] == []
    assert "a default" not in bench.run("weigh", "--before", "scope.yaml").out


@pytest.mark.parametrize("what", SPANS)
def test_a_figure_taken_out_is_a_default_again(what: str, bench: Bench) -> None:
    bench.write("maps/base.yaml", MAP + AMPLIFIED)
    bench.write("scope.yaml", SCOPE.replace(", factory amplifier]", "]") + "  add: SUB\n")
    written = "".join(f"  {each}: {words}\n" for each, (words, _, _) in SPANS.items() if each != what)
    bench.write("shop.yaml", SHOP.replace("  mate: 4 min\n", f"  mate: 4 min\n{written}"))

    assert [each["what"] for each in bench.told()["defaults"]] == [what]


def test_without_a_shop_the_labour_is_a_default_too(bench: Bench) -> None:
    (bench.folder / "shop.yaml").unlink()

    assert bench.told()["labour_rate"]["default"] is True
    assert " USD an hour, a default." in bench.run("weigh", "--before", "scope.yaml").out


def test_parts_are_counted(bench: Bench) -> None:
    """Two pairs: eight crimps, each a butt joint and a sleeve. Two units of one name, a speaker added."""
    bench.write("scope.yaml", SCOPE.replace("    two-", "    relay box: boot\n    two-") + "  add: SUB\n")
    counts = {each["words"]: (each["count"]["low"], each["count"]["high"]) for each in lines_of(bench.told(), "part")}

    assert counts == {
        "relay box.": (1, 1),
        "two-channel amplifier.": (1, 1),
        "speaker SUB.": (1, 1),
        "loom L9 for plug dash (30.00 EUR, 1 in stock): cuts nothing.": (0, 1),
        "butt joint, for the joints (crimp).": (8, 8),
        "heat shrink, for the joints (crimp).": (8, 8),
        "supply cable from the battery, with its fuse.": (1, 2),
        "ground cable, to bare metal near the unit.": (2, 2),
        "cable for the pairs, plug to unit and back.": (1, 2),
        "speaker cable to what is added.": (1, 1),
        "signal cable from unit to unit.": (0, 1),
    }


def test_a_job_counts_its_own_runs_and_units(root: Path, bench: Bench) -> None:
    """Counted in the file: one run begins at the battery, seven others; dsp, bass and block are fitted."""
    answer = bench.run("weigh", "--before", str(root / "samples" / "hatch-plug-in.yaml"), "--json")
    told = json.loads(answer.out)
    counts = {each["words"]: each["count"]["high"] for each in lines_of(told, "part") if "loom" not in each["words"]}

    assert counts["supply cable from the battery, with its fuse."] == 1
    assert counts["cable, as the runs have it."] == 7
    assert {each for each in counts if each in ("dsp.", "bass.", "block.", "speaker SUB.")} == {
        "dsp.", "bass.", "block.", "speaker SUB.",
    }  # fmt: skip


def test_what_two_maps_leave_open_is_asked_once(bench: Bench) -> None:
    """Both without a place; the joints of both are as many, in other cavities."""
    bare = MAP.replace("    place: behind the radio\n", "")
    bench.write("maps/base.yaml", bare)
    bench.write("maps/other.yaml", bare.replace("1/9: FL", "9/1: FL").replace("base audio", "other"))
    told = bench.told()
    asked = [each for each in lines_of(told, "unknown") if each["words"] == "Place of plug dash?"]
    joints = [(each["words"], each["if"]) for each in lines_of(told, "joint")]

    assert [(each["if"], len(each["basis"])) for each in asked] == [("maps A and B don’t say it", 2)]
    assert joints == [
        ("The same in all of them: 8 joints; by hand 4 wires are cut, with a loom none.", None),
        ("Plug dash, FL 1/9, FR 2/10 (+/−).", "the car is as map A"),
        ("Plug dash, FL 9/1, FR 2/10 (+/−).", "the car is as map B"),
    ]


def test_no_unit_written_is_asked(bench: Bench) -> None:
    bench.write("scope.yaml", SCOPE.replace("  units:\n    two-channel amplifier: under the left seat\n", ""))
    told = bench.told()

    assert "Which unit is to drive FL FR?" in [each["words"] for each in lines_of(told, "unknown")]
    assert not [each for each in lines_of(told, "time") if each["words"].startswith("Lay 1 supply")]


WHEEL = {
    "source": ("covers: 2019..2022}", "covers: 2019..2022, steering: right}", 8, "right"),
    "title": ("Hazel van, base audio", "Hazel van, base audio, right-hand drive", 2, "right-hand"),
}


@pytest.mark.parametrize("by", WHEEL)
def test_a_map_of_a_right_hand_car_is_left_out(by: str, bench: Bench) -> None:
    """The scope's car has its wheel on the left; with the wheel on the right, or not said, the map stays."""
    old, new, line, word = WHEEL[by]
    bench.write("maps/right.yaml", MAP.replace(old, new))
    told = bench.told()
    (out,) = [each for each in told["lines"] if "is left out" in each["words"]]

    assert [each["file"] for each in told["maps"]] == ["maps/base.yaml"]
    assert out["words"] == "maps/right.yaml is left out: it is of a car with the wheel on the right."
    assert [(Path(each["file"]).name, each["line"], each["record"]) for each in out["basis"]] == [
        ("right.yaml", line, word), ("scope.yaml", 6, "left"),
    ]  # fmt: skip
    bench.write("scope.yaml", SCOPE.replace("steering: left", "steering: right"))
    assert len(bench.told()["maps"]) == 2
    bench.write("scope.yaml", SCOPE.replace("  steering: left\n", ""))
    assert len(bench.told()["maps"]) == 2


def test_a_range_that_runs_backwards(bench: Bench) -> None:
    bench.write("shop.yaml", SHOP.replace("  mate: 4 min\n", "  mate: 4 min\n  fit a unit: 40..30 min\n"))
    answer = bench.run("weigh", "--before", "scope.yaml")

    assert answer.code == 2
    assert "shop.yaml:15:" in answer.out
    assert "begins above its end" in answer.out


# -- screen, paper, mistakes -----------------------------------------------------------------------------------------


def test_a_leased_car_with_a_loom_is_not_cut(bench: Bench) -> None:
    """Nothing but the loom's 26 min is left; the record of the lease stands under it."""
    bench.write("scope.yaml", SCOPE.replace("ownership: owned", "ownership: leased"))
    (joints,) = [each for each in lines_of(bench.told(), "time") if " joints, " in each["words"]]

    assert joints["minutes"] == {"low": 26, "high": 26}
    assert "leased" in [each["record"] for each in joints["basis"]]


def test_text_says_the_record_or_how_it_is_found_out(bench: Bench) -> None:
    answer = bench.run("weigh", "--before", "scope.yaml")

    assert (answer.code, answer.err) == (0, "")
    assert "Get at plug dash, behind the radio.\n      by base.yaml:4 (dash), scope.yaml:15 (FL FR)\n" in answer.out
    assert "In all 130 to 283 min; labour 130.00 EUR to 283.00 EUR" in answer.out
    assert "      reach a plug 7 to 15 min, a default\n" in answer.out
    assert "      crimp 2 min, the shop’s; mate 4 min, the shop’s; look at a lock 1 min, the shop’s\n" in answer.out


def test_the_sheet_is_readable_and_complete(bench: Bench) -> None:
    answer = bench.run("weigh", "--before", "scope.yaml", "--paper", "paper")
    assert answer.code == 0
    raw = (bench.folder / "paper" / "packet.pdf").read_bytes()
    with pdfplumber.open(io.BytesIO(raw)) as pdf:
        sizes = [char["size"] for page in pdf.pages for char in page.chars]
        text = " ".join(page.extract_text() for page in pdf.pages)

    assert min(sizes) >= 8.99
    for each in bench.told()["lines"]:
        assert set(each["words"].split()) <= set(text.split()), each
        assert set((each["find_out"] or "").split()) <= set(text.replace(".", " ").split()), each
    assert "SCOPE" in (bench.folder / "paper" / "packet.txt").read_text(encoding="utf-8")
    for caution in ("Restraint wiring", "high-voltage", "Battery: negative off", "Fuses: out until", "Hearing: first"):
        assert caution in " ".join(text.split()), caution


def test_the_sample_fits_on_two_pages(root: Path, bench: Bench) -> None:
    scope = str(root / "samples" / "scopes" / "alder-on-lease.yaml")
    assert bench.run("weigh", "--before", scope, "--paper", "paper").code == 0
    raw = (bench.folder / "paper" / "packet.pdf").read_bytes()
    with pdfplumber.open(io.BytesIO(raw)) as pdf:
        assert len(pdf.pages) == 2
        assert min(char["size"] for page in pdf.pages for char in page.chars) >= 8.99


@pytest.mark.parametrize(
    ("name", "old", "new", "place"),
    [
        ("scope.yaml", "amplify: FL FR", "amplify: FL ZZ", "scope.yaml:15:"),
        ("scope.yaml", "wishes:\n", "wish:\n", "scope.yaml:14:"),
        ("scope.yaml", "ownership: owned", "ownership: stolen", "scope.yaml:9:"),
        ("scope.yaml", "amplify: FL FR", "amplify: ACC", "scope.yaml:15:"),
        ("shop.yaml", "labour: 60.00 EUR", "labour: much", "shop.yaml:11:"),
        ("maps/base.yaml", "7: B+ YE", "7: B? YE", "base.yaml:12:"),
    ],
)
def test_mistakes_have_their_place(name: str, old: str, new: str, place: str, bench: Bench) -> None:
    text = {"scope.yaml": SCOPE, "shop.yaml": SHOP, "maps/base.yaml": MAP}[name]
    assert text.count(old) == 1
    bench.write(name, text.replace(old, new))
    answer = bench.run("weigh", "--before", "scope.yaml")

    assert answer.code == 2
    assert place in answer.out
    assert "Traceback" not in answer.out + answer.err


def test_misuse(bench: Bench) -> None:
    assert bench.run("weigh", "a.yaml", "--before", "scope.yaml").code == 2
    assert "no file" in bench.run("weigh", "--before", "nowhere.yaml").out


def test_the_same_bytes_in_any_process(bench: Bench, process) -> None:
    outs = {
        process("weigh", "--before", "scope.yaml", "--json", cwd=bench.folder, PYTHONHASHSEED=seed).stdout
        for seed in ("0", "1", "77")
    }

    assert len(outs) == 1
    assert outs != {b""}
