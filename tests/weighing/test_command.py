"""`ringout weigh` at the command line: what it refuses, what it lists, what it leaves alone."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from harness.weighing.wording import same_in_all
from tests.weighing.test_samples import ROOT, run


@pytest.fixture
def here(tmp_path: Path) -> Path:
    shutil.copytree(ROOT / "samples", tmp_path / "samples")
    return tmp_path / "samples"


def test_a_shop_file_with_faults_is_told_with_its_line(here: Path) -> None:
    text = (here / "shop.yaml").read_text(encoding="utf-8").replace("pull: 2 min", "pull: 2")
    (here / "shop.yaml").write_text(text, encoding="utf-8")
    line = text[: text.index("pull: 2")].count("\n") + 1
    answer = run("weigh", "hatch-plug-in.yaml", where=here)
    assert answer.returncode == 2
    assert f"shop.yaml:{line}:" in answer.stdout
    assert "pull: 2" in answer.stdout


def test_take_writes_whole_or_not_at_all(here: Path) -> None:
    names = sorted(path.name for path in here.iterdir())
    for arguments, word in (
        (("--take", "9"), "no offer 9"),
        (("--take", "1", "-o", "hatch-plug-in.yaml"), "is there already"),
        (("--take", "1", "-o", "nowhere/x.yaml"), "no folder"),
        (("--take", "1", "-o", "parts"), "is a folder"),
        (("-o", "x.yaml"), "--take"),
        (("--take", "0"), "0"),
        (("--take", "1", "-o", ""), "-o names no file"),
        (("--shop", ""), "--shop names no file"),
    ):
        answer = run("weigh", "hatch-plug-in.yaml", *arguments, where=here)
        assert answer.returncode == 2, arguments
        assert word in answer.stderr, (arguments, answer.stderr)
        assert sorted(path.name for path in here.iterdir()) == names
    assert run("weigh", "hatch-plug-in.yaml", "--take", "1", where=here).returncode == 0
    assert sorted(path.name for path in here.iterdir()) == sorted([*names, "hatch-plug-in-1.yaml"])


NAMED = {
    "a list in brackets": ("parts: [parts/alder-hatch.yaml]", "parts: [parts/alder-hatch.yaml]  # the maker's"),
    "a list in lines": ("parts: [parts/alder-hatch.yaml]", "parts:\n  - parts/alder-hatch.yaml  # the maker's"),
    "a shop file by name": ("parts: [", "shop: ./shop.yaml   # bench two\nparts: ["),
}


@pytest.mark.parametrize("out", ["parts/x.yaml", "cars/tuesday/x.yaml", "../x.yaml"])
@pytest.mark.parametrize("name", NAMED)
def test_taken_into_another_folder_it_reads_from_there(here: Path, name: str, out: str) -> None:
    """The same bytes but for the paths, the same report, and weighed again there the same offers."""
    (here / "cars" / "tuesday").mkdir(parents=True)
    text = (here / "hatch-plug-in.yaml").read_text(encoding="utf-8")
    (here / "hatch-plug-in.yaml").write_text(text.replace(*NAMED[name]), encoding="utf-8")
    assert run("weigh", "hatch-plug-in.yaml", "--take", "2", "-o", "beside.yaml", where=here).returncode == 0
    there = here / out
    made = run("weigh", "hatch-plug-in.yaml", "--take", "2", "-o", out, where=here)
    assert made.returncode == 0, made.stderr
    up = {"parts/x.yaml": "", "cars/tuesday/x.yaml": "../../parts/", "../x.yaml": "samples/parts/"}[out]
    shop = {"parts/x.yaml": "../shop.yaml", "cars/tuesday/x.yaml": "../../shop.yaml", "../x.yaml": "samples/shop.yaml"}
    beside = (here / "beside.yaml").read_text(encoding="utf-8")
    wanted = beside.replace("parts/alder-hatch.yaml", f"{up}alder-hatch.yaml")
    if "./shop.yaml" in wanted:
        wanted = wanted.replace("./shop.yaml", shop[out])
    else:
        wanted = wanted.replace("revision: B\n", f"revision: B\nshop: {shop[out]}\n")
    assert there.read_text(encoding="utf-8") == wanted

    for verb in ("check", "weigh"):
        one = run(verb, "beside.yaml", "--json", where=here)
        other = run(verb, "x.yaml", "--json", where=there.parent)
        assert one.returncode == other.returncode == 0, other.stdout
        assert _without_files(json.loads(other.stdout)) == _without_files(json.loads(one.stdout))


def _without_files(told: object) -> object:
    """A report without paths, and without lines and columns: a line more stands at the top of one of the files."""
    if isinstance(told, dict):
        return {k: _without_files(v) for k, v in told.items() if k not in ("job", "file", "line", "column", "shop")}
    if isinstance(told, list):
        return [_without_files(each) for each in told]
    return told


def test_without_a_shop_file_every_figure_is_called_a_default(here: Path) -> None:
    (here / "shop.yaml").unlink()
    answer = run("weigh", "hatch-plug-in.yaml", where=here)
    assert answer.returncode == 0
    assert "No shop file" in answer.stdout
    told = answer.stdout[answer.stdout.index("Defaults, not the shop's figures:") :]
    for what in ("labour", "consumables", "one crimp", "mate", "cut end off", "pull", "move", "cap", "recheck of tug"):
        assert f"\n  {what}: " in told, what
    # its own two or three loose parts have no price either: at the number, and once more in the break-even
    assert " and loom T1, butt joint and heat shrink without a price = labour " in answer.stdout


def test_a_loom_without_a_price_is_no_gift(here: Path, tmp_path: Path) -> None:
    """By hand, from the figures with the price: 109.60 - 58.00 = 51.60; taken as whole it would beat the other five."""
    before = json.loads(run("weigh", "hatch-plug-in.yaml", "--json", where=here).stdout)["offers"]
    text = (here / "shop.yaml").read_text(encoding="utf-8")
    assert text.count("price: 58.00 EUR, ") == 1
    (here / "shop.yaml").write_text(text.replace("price: 58.00 EUR, ", ""), encoding="utf-8")
    told = json.loads(run("weigh", "hatch-plug-in.yaml", "--json", where=here).stdout)
    own = [each for each in told["offers"] if each["looms_without_price"]]

    assert {each["figures"]["money"] for each in own} == {"51.60 EUR and loom T1 without a price"}
    assert [each["as_planned"] for each in own] == [True]
    assert [each["figures"] for each in told["offers"] if each not in own] == [
        each["figures"] for each in before if not each["as_planned"]
    ]
    assert told["now"]["money"] == "51.60 EUR and loom T1 without a price"
    assert own[0]["figures"]["unpriced"] == ["loom T1"]
    said = run("weigh", "hatch-plug-in.yaml", where=here).stdout
    assert said.count("51.60 EUR and loom T1 without a price") == 3  # as it is now, in the table, and in its own lines
    assert "would pay up to 14.00 EUR; the price of T1 isn't written" in said
    assert "it beats nothing by it" in said
    run("weigh", "hatch-plug-in.yaml", "--paper", str(tmp_path / "paper"), where=here)
    paper = " ".join((tmp_path / "paper" / "packet.txt").read_text(encoding="utf-8").split())
    assert "51.60 EUR and loom T1 without a price" in paper
    assert "no price" in paper


def test_a_quote_says_what_has_no_price(here: Path, tmp_path: Path) -> None:
    answer = run("weigh", "estate-bus-amplifier.yaml", "--json", where=here)
    number = next(each["number"] for each in json.loads(answer.stdout)["offers"] if each["looms_without_price"])
    run(
        "weigh",
        "estate-bus-amplifier.yaml",
        "--take",
        str(number),
        "-o",
        "x.yaml",
        "--paper",
        str(tmp_path),
        where=here,
    )
    paper = " ".join((tmp_path / "packet.txt").read_text(encoding="utf-8").split())

    assert "84.00 EUR and loom T2 without a price" in paper
    assert "What has no price yet: loom T2." in paper


def test_a_loose_part_without_a_price_is_said_at_the_number(here: Path) -> None:
    """By hand: sixteen butt joints of 0.35 are 5.60 less, everywhere."""
    text = (here / "shop.yaml").read_text(encoding="utf-8")
    (here / "shop.yaml").write_text(
        text.replace("    butt joint: {price: 0.35 EUR, ", "    butt joint: {"), encoding="utf-8"
    )
    told = json.loads(run("weigh", "hatch-plug-in.yaml", "--json", where=here).stdout)["offers"]

    assert told[0]["figures"]["money"] == "60.00 EUR and butt joint without a price"  # 65.60 - 5.60
    (part,) = [each for each in told[0]["figures"]["parts"] if each["what"] == "butt joint"]
    assert part == {"what": "butt joint", "number": 16, "money": None}


def test_what_all_mixes_share_is_told_once() -> None:
    assert same_in_all([["a", "b", "c"], ["c", "a"], ["a", "c", "d"]]) == ("a", "c")
    assert same_in_all([["a"], ["b"]]) == ()
    assert same_in_all([["a"]]) == ()


DRAWER = """\
ringout: 1
drawer:
  looms:
    L1:
      ends: {unit: {housing: 16-way, contacts: sockets}, car: {housing: 16-way, contacts: pins}}
      through: {3..6: 3..6, 7: 8, 8: 7}
      leads: {1/9: FL WH WH/BK 18 AWG, car.10: ACC RD, aerial: AERIAL BU}
      pins: {3: ILL}
      price: 38.50 EUR
    L2: {ends: {unit: 8-way}, leads: {1: ACC RD}, stock: 0, days: 9, price: 3 EUR}
"""


def test_the_drawer_is_read_back_wire_by_wire(here: Path) -> None:
    """Every wire as it is typed above."""
    (here / "mine.yaml").write_text(DRAWER, encoding="utf-8")
    answer = run("weigh", "--shop", "mine.yaml", where=here)
    assert answer.returncode == 0
    told = answer.stdout.splitlines()
    assert told[: told.index("Loose parts:")] == [
        "mine.yaml: shop file, 2 looms",
        "  L1: unit: 16-way, car: 16-way; 38.50 EUR",
        "      straight through: 3..6",
        "      crossed, unit to car: 7 to 8, 8 to 7",
        "      leads at both ends: 1 FL+ WH, 9 FL- WH/BK",
        "      leads at the car end: 10 ACC RD",
        "      leads with a name: aerial AERIAL BU",
        "      pins as its maker says: 3 ILL",
        "  L2: unit: 8-way; 3.00 EUR; 0 in stock; 9 days",
        "      leads at the unit end: 1 ACC RD",
    ]
    looms = json.loads(run("weigh", "--shop", "mine.yaml", "--json", where=here).stdout)["looms"]
    pairs = [("3", "3"), ("4", "4"), ("5", "5"), ("6", "6"), ("7", "8"), ("8", "7")]
    assert [(each["unit"], each["car"]) for each in looms[0]["through"]] == pairs
    assert len(looms[0]["leads"]) == 6  # two at both ends, one at the car's, one with a name
    assert looms[1]["leads"] == [{"end": "unit", "cavity": "1", "name": None, "function": "ACC", "colour": "RD"}]
    assert run("weigh", where=here).returncode in (0, 2)


def test_every_rate_is_read_back_or_called_a_default(here: Path) -> None:
    """As they are typed in the sample's shop file; what isn't there is a default, and nothing is both."""
    said = run("weigh", "--shop", "shop.yaml", where=here).stdout
    rates, own = said[said.index("Rates:") : said.index("Not written")], said[said.index("Not written") :]
    for line in (
        "labour: 84.00 EUR an hour", "consumables: 0.10 EUR a joint", "one solder at dash: 7 min", "one crimp: 1.5 min",
        "mate: 3 min", "cap: 0.5 min", "recheck of tug: 0.25 min", "fit a unit: 45 to 75 min", "tone a pair: 3 min",
        "in the dash: radio, dash, glove box",
    ):  # fmt: skip
        assert f"  {line}\n" in rates, line
        assert f"  {line.partition(':')[0]}: " not in own, line
    for what in ("fit a speaker", "lay a cable", "close a place", "one screw", "one pierce"):
        assert f"  {what}: " in own, what
        assert f"  {what}: " not in rates, what
    assert "  butt joint: 0.35 EUR; 100 in stock\n" in said
    assert "  tap: not written, so its price is said to be missing\n" in said
    assert "Preset: house, a default; a job goes by its own\n" in said
    told = json.loads(run("weigh", "--shop", "shop.yaml", "--json", where=here).stdout)
    assert {"what": "labour", "is": "84.00 EUR an hour"} in told["rates"]
    assert {each["what"] for each in told["rates"]}.isdisjoint(each["what"] for each in told["defaults"])


def test_ranges_that_do_not_fit_are_told_with_their_lines(here: Path) -> None:
    (here / "mine.yaml").write_text(DRAWER.replace("3..6: 3..6", "3..6: 3..5, 9..7: 9..11"), encoding="utf-8")
    answer = run("weigh", "--shop", "mine.yaml", where=here)
    assert answer.returncode == 2
    told = answer.stdout + answer.stderr
    assert "mine.yaml:6:23" in told
    assert "3..6 are 4 cavities, and 3..5 are 3." in told
    assert "mine.yaml:6:29" in told


def test_a_leased_car_and_the_day_are_told(here: Path) -> None:
    path = here / "hatch-plug-in.yaml"
    text = path.read_text(encoding="utf-8").replace("steering: left,", "steering: left, ownership: leased,")
    path.write_text(text.replace("revision: B\n", "revision: B\ndate: 2026-03-18\n"), encoding="utf-8")
    said = run("weigh", "hatch-plug-in.yaml", where=here).stdout
    assert "The car is leased" in said
    assert "8 factory wires cut: it can't be put back as it was, and the car is leased" in said
    # counted on 9 March, nine days: 18 March, the day of the job itself
    assert "not in stock, here on 2026-03-18: by the day of the job (2026-03-18)" in said


def test_a_job_that_can_not_be_read_is_not_weighed(here: Path) -> None:
    (here / "hatch-plug-in.yaml").write_text("ringout: 1\n", encoding="utf-8")
    answer = run("weigh", "hatch-plug-in.yaml", where=here)
    assert answer.returncode == 2
    assert "can’t be weighed" in answer.stderr


def test_paper_and_json_together_are_one_json_and_the_paper(here: Path) -> None:
    alone = run("weigh", "hatch-plug-in.yaml", "--json", where=here)
    both = run("weigh", "hatch-plug-in.yaml", "--json", "--paper", "offers", where=here)
    assert json.loads(both.stdout) == json.loads(alone.stdout)
    assert (here / "offers" / "packet.pdf").is_file()


def test_a_loom_whose_wires_cross_is_named_with_the_cavities(here: Path) -> None:
    text = (
        (here / "shop.yaml")
        .read_text(encoding="utf-8")
        .replace("through: 1 2 7 8", "through: {1: 2, 2: 1, 7..8: 7..8}")
    )
    (here / "shop.yaml").write_text(text, encoding="utf-8")
    said = run("weigh", "hatch-plug-in.yaml", where=here).stdout
    assert "Housing fits, pins don't: L3 at sound: 1 is the wire to 2 there; 2 is the wire to 1 there." in said


def test_where_there_is_nothing_to_weigh_no_mix_is_missed(here: Path) -> None:
    van = here / "van-odd-but-right.yaml"  # a run that begins at two leads at once is left as it is
    text = van.read_text(encoding="utf-8").replace("  - T7.car.B+ >", "  - T7.car.B+ T7.car.8 >")
    van.write_text(text, encoding="utf-8")
    said = run("weigh", "van-odd-but-right.yaml", where=here).stdout
    assert "There is no factory plug to weigh" in said
    assert "No mix" not in said
