"""`ringout which`: facts on the line and in a file, keys, JSON, mistakes, none of them."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import pytest

from tests.cli.test_locate import at_terminal

DATA_PAIR, NO_WIRE = "cavity 10: YE/GN", "cavity 5: empty"  # as the README shows them


@pytest.fixture
def maps(root: Path) -> str:
    return str(root / "samples" / "maps")


def test_what_is_struck_out_and_by_what(maps: str, ringout) -> None:
    answer = ringout("which", "--maps", maps, DATA_PAIR, NO_WIRE)

    assert answer.code == 0
    assert answer.err == ""
    # the line of cavity 5 in each file, counted by hand
    assert "out: alder-2017-base.yaml: cavity 5: empty; the map has red (RD) (line 18)" in answer.out
    assert "out: alder-2024-base.yaml: cavity 5: empty; the map has brown (BN) (line 18)" in answer.out
    assert "3 could fit:" in answer.out
    assert "ohms between cavities 1 and 11 of the car side?" in answer.out
    assert "Caution: Read volts to the body first" in answer.out


def test_to_the_end_by_looks_ohms_and_a_tone(maps: str, ringout) -> None:
    answer = ringout("which", "--maps", maps, NO_WIRE, "ohm 1/11: 3.8 ohm", "tone 1/11: FR")

    assert answer.code == 0
    assert "It is alder-2020-base-right-hand.yaml" in answer.out
    assert "the only one left of 6" in answer.out


def test_the_amplified_car_by_the_meter(maps: str, ringout) -> None:
    answer = ringout("which", "--maps", maps, NO_WIRE, "ohm 1/11: open")

    assert "It is alder-2020-amplified.yaml" in answer.out


def test_none_of_them_names_the_nearest_and_what_differs(maps: str, ringout) -> None:
    answer = ringout("which", "--maps", maps, NO_WIRE, "cavity 1: WH", "cavity 2: RD")

    assert answer.code == 1
    assert "None of the 6 maps fits." in answer.out
    nearest = answer.out[answer.out.index("Nearest: ") :]
    assert nearest.startswith("Nearest: alder-2020-amplified.yaml")
    assert "cavity 2: red (RD); the map has grey (GY)" in nearest


def test_one_map_alone_is_not_yet_this_plugs(maps: str, ringout) -> None:
    one = f"{maps}/alder-2017-base.yaml"
    asked = ringout("which", "--maps", one)
    assert asked.code == 0
    assert "There is one map only: alder-2017-base.yaml" in asked.out
    assert "It is" not in asked.out
    # its file has `1/11: FL WH WH/BK`
    assert "It is alder-2017-base.yaml" in ringout("which", "--maps", one, "cavity 1: WH").out


def test_facts_from_a_file(maps: str, tmp_path: Path, ringout) -> None:
    (tmp_path / "plug.txt").write_text(
        "# the plug behind the radio\n- cavity 5: empty\n\nohm 1/11: 3.8 ohm  # cold\n", encoding="utf-8"
    )
    answer = ringout("which", "--maps", maps, "--facts", "plug.txt", "tone 1/11: FL", "--json")

    told = json.loads(answer.out)
    assert [Path(told["maps"][at]["file"]).name for at in told["standing"]] == ["alder-2020-base.yaml"]
    assert told["next"] is None


def test_json_has_all_of_it(maps: str, ringout) -> None:
    told = json.loads(ringout("which", "--maps", maps, "--json").out)

    assert len(told["maps"]) == 6
    assert all(each["stands"] for each in told["maps"])
    # By hand: a look at cavity 5 (20 s), then for three of six maps ohms (60 s), then for two of them a tone (180 s).
    assert told["plan"]["mean_seconds"] == pytest.approx(20 + 3 / 6 * 60 + 2 / 6 * 180, abs=1e-3)
    assert told["plan"]["worst_seconds"] == 20 + 60 + 180
    assert told["shortest"] == {
        "tests": ["cavity 5", "ohms 1/11", "tone 1/11"], "seconds": 260, "least_seconds": 260, "proved": True,
    }  # fmt: skip
    assert told["next"]["answers"][0] == {"fact": "cavity 5: BN", "words": "brown (BN)", "left": 1}
    assert told["next"]["unplugged"] is False


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["cavity 5"], "says nothing; write for instance"),
        (["hue 5: RD"], "“hue 5” is none of housing, ways"),
        (["cavity 5: SB"], "“SB” is no colour by itself"),
        (["cavity 5: mauve"], "“mauve” is no colour by itself"),
        (["cavity 5/6: RD"], "wants one cavity"),
        (["ohm 5: 3"], "wants two cavities"),
        (["ohm 1/11: 3,8"], "is no reading"),
        (["tone 1/11: left"], "is no speaker"),
        (["plus 1/11: 3"], "+ is 1 or 11"),
        (["ways: many"], "is no number of cavities"),
        (["cavity 5: RD", "cavity 5: empty"], "contradicts"),
        (["housing: 20-way M"], "no map has “housing: 20-way M”; they have: 20-way L."),
        (["cavity 5: " + "x" * 300], "at most 200 characters"),
    ],
)
def test_mistakes(arguments: list[str], words: str, maps: str, ringout) -> None:
    answer = ringout("which", "--maps", maps, *arguments)

    assert (answer.code, answer.out) == (2, "")
    assert words in answer.err


def test_a_mistake_in_the_file_has_its_place(maps: str, tmp_path: Path, ringout) -> None:
    (tmp_path / "plug.txt").write_text("ways: 20\n  cavity 5: mauve\n", encoding="utf-8")
    answer = ringout("which", "--maps", maps, "--facts", "plug.txt")

    assert answer.code == 2
    assert "plug.txt:2:13: “mauve” is no colour" in answer.err


def test_a_map_that_cannot_be_read_is_no_map_left_out(tmp_path: Path, ringout) -> None:
    (tmp_path / "maps").mkdir()
    (tmp_path / "maps" / "good.yaml").write_text("ringout: 1\nplugs: {a: {cavities: {1: B+}}}\n", encoding="utf-8")
    (tmp_path / "maps" / "bad.yaml").write_text("ringout: 1\nplugs:\n  a: {cavities: {1: B?}}\n", encoding="utf-8")
    answer = ringout("which", "--maps", "maps")

    assert (answer.code, answer.out) == (2, "")
    assert "bad.yaml:3:" in answer.err
    assert "it may be the map that fits" in answer.err


def test_folders_that_are_not_there_or_hold_none(tmp_path: Path, ringout) -> None:
    (tmp_path / "empty").mkdir()

    assert "There is no folder or file" in ringout("which", "--maps", "nowhere").err
    assert "there is no plug in empty" in ringout("which", "--maps", "empty").err
    assert ringout("which", "ways: 3").code == 2


def test_jobs_among_the_maps_are_passed_over_and_told(root: Path, ringout) -> None:
    answer = ringout("which", "--maps", str(root / "samples"))

    assert answer.code == 0
    assert "Left out, since they are jobs, scopes or shop files: " in answer.out
    assert "shop.yaml" in answer.out
    assert "hatch-plug-in.yaml" in answer.out


def test_alike_maps_are_told_as_alike(tmp_path: Path, ringout) -> None:
    """ACC or IGN in a cavity of one colour: neither a look, ohms nor a tone shows it."""
    for name, what in (("one", "ACC"), ("two", "IGN")):
        (tmp_path / f"{name}.yaml").write_text(
            f"ringout: 1\nplugs: {{a: {{cavities: {{1: {what} RD, 2: GND BK}}}}}}\n", encoding="utf-8"
        )
    answer = ringout("which", "--maps", ".")

    assert "Alike in all that can be looked at, metered or toned: one.yaml and two.yaml." in answer.out
    assert "They differ in words only: cavity 1: ACC red in one.yaml; IGN red in two.yaml." in answer.out


def test_a_cavity_that_a_drawn_face_has_not(maps: str, ringout) -> None:
    """The face of 2 by 10 has no cavity 31; that is written as surely as a colour."""
    answer = ringout("which", "--maps", maps, "cavity 31: RD")

    assert answer.code == 1
    assert "cavity 31: red (RD); the map has no cavity 31 (line 6)" in answer.out


def test_not_written_strikes_nothing(tmp_path: Path, ringout) -> None:
    for name, rows in (("says", "1: B+ RD, 2: GND BK"), ("silent", "2: GND BK")):
        (tmp_path / f"{name}.yaml").write_text(
            f"ringout: 1\nplugs: {{a: {{cavities: {{{rows}}}}}}}\n", encoding="utf-8"
        )
    answer = ringout("which", "--maps", ".", "cavity 1: RD")

    assert "out:" not in answer.out
    assert "2 maps fit" in answer.out
    assert "It is silent.yaml" in ringout("which", "--maps", ".", "cavity 1: BU").out


def test_the_same_bytes_in_any_process(maps: str, process) -> None:
    outs = {process("which", "--maps", maps, "--json", PYTHONHASHSEED=seed).stdout for seed in ("0", "1", "77")}

    assert len(outs) == 1
    assert outs != {b""}


@pytest.mark.skipif(sys.platform == "win32", reason="no pseudo-terminals there")
class TestTerminal:
    def test_keys_to_the_end(self, maps: str) -> None:
        """Cavity 5: empty, back, empty again; ohms: a speaker; a tone: right front."""
        shown, code = at_terminal(["which", "--maps", maps], ["4", "-", "4", "x", "1", "2"])

        assert code == 0
        assert "x is no answer here" in shown
        assert "out: alder-2017-base.yaml: cavity 5: empty" in shown
        assert "It is alder-2020-base-right-hand.yaml" in shown
        assert "Traceback" not in shown

    def test_left_out_and_stopped(self, maps: str) -> None:
        """What is left out isn't asked again; what was answered is said as it may be typed."""
        shown, code = at_terminal(["which", "--maps", maps], ["\n", "1", "."])

        assert code == 0
        assert shown.count("in cavity 5 ") == 1
        assert "Stopped; " in shown
        assert "To go on from here, add " in shown

    @pytest.mark.parametrize(("key", "code"), [("\x04", 0), ("\x03", 130)])
    def test_leaving(self, key: str, code: int, maps: str) -> None:
        shown, left = at_terminal(["which", "--maps", maps], [key])

        assert left == code
        assert "Traceback" not in shown


def test_a_look_that_only_may_tell(tmp_path: Path, ringout) -> None:
    """One map says red, the other nothing: red leaves both, another wire strikes the first. It is asked last."""
    for name, rows in (("says", "1: B+ RD, 2: GND BK"), ("silent", "2: GND BK")):
        (tmp_path / f"{name}.yaml").write_text(
            f"ringout: 1\nplugs: {{a: {{cavities: {{{rows}}}}}}}\n", encoding="utf-8"
        )
    told = json.loads(ringout("which", "--maps", ".", "--json").out)

    assert (told["next"]["kind"], told["next"]["cavities"], told["next"]["sure"]) == ("cavity", ["1"], False)
    assert {each["fact"]: each["left"] for each in told["next"]["answers"]} == {
        "cavity 1: RD": 2, "cavity 1: empty": 1, "cavity 1: other": 1,
    }  # fmt: skip
    assert told["shortest"]["tests"] == []
    assert "It may tell: not every map says something of it." in ringout("which", "--maps", ".").out


def test_a_test_that_is_not_made_is_named_with_the_map_that_forbids_it(tmp_path: Path, ringout) -> None:
    """Two maps that only a tone parts, and a third that has the airbag in these cavities."""
    for name, rows in (("left", "1/2: FL"), ("right", "1/2: FR"), ("bag", "1/2: SRS")):
        (tmp_path / f"{name}.yaml").write_text(
            f"ringout: 1\nplugs: {{a: {{cavities: {{{rows}, 3: SWC {'BU' if name == 'bag' else 'RD'}}}}}}}\n",
            encoding="utf-8",
        )
    answer = ringout("which", "--maps", ".", "cavity 3: RD")

    assert answer.code == 0
    assert "Next" not in answer.out
    assert "Tone 1/2 would tell, and is not asked for: bag.yaml has something there" in answer.out
