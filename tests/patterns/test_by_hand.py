"""Each pattern on a face small enough for a pencil; what is expected is worked out in the line above it."""

from __future__ import annotations

import pytest

from harness.patterns import patterns
from harness.patterns.chart import Tone
from tests.patterns.asked import Answer, ask, toned
from tests.patterns.geometry import Grid, Places, Plug

ROW: Grid = [list("12345678")]
# numbered across from the top left
TWO_ROWS: Grid = [list("1234"), list("5678")]
THREE_ROWS: Grid = [list("123"), list("456"), list("789")]
# a keyway behind 4; the numbers go on
KEYWAY: Grid = [["1", "2", "3", "4", None, "5", "6", "7", "8"]]
# the keyway has the number 5, and no cavity
COUNTED: Grid = [["1", "2", "3", "4", None, "6", "7", "8", "9"]]
# down the columns from the bottom right:  8 6 4 2 / 7 5 3 1 with 1 at the bottom
DOWN: Grid = [list("8642"), list("7531")]

FOUR: Places = {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("5", "6"), "RR": ("7", "8")}
THREE: Places = {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("5", "6")}

# name, face, chart, what else the chart has, where the channels really are
BY_HAND: tuple[tuple[str, Grid, Places, dict[str, str], Places], ...] = (
    # a row of eight: 1 is 8, 2 is 7, 3 is 6, 4 is 5
    ("mirrored", ROW, FOUR, {}, {"FL": ("8", "7"), "FR": ("6", "5"), "RL": ("4", "3"), "RR": ("2", "1")}),
    # rows of four: 1 is 4, 2 is 3, 5 is 8, 6 is 7
    ("mirrored", TWO_ROWS, {"FL": ("1", "6"), "FR": ("2", "8"), "RL": ("3", "5")}, {},
     {"FL": ("4", "7"), "FR": ("3", "5"), "RL": ("2", "8")}),
    # a keyway isn't counted: 1 is 8, 4 is 5
    ("mirrored", KEYWAY, THREE, {}, {"FL": ("8", "7"), "FR": ("6", "5"), "RL": ("4", "3")}),
    # 1 is 5, 2 is 6, 3 is 7, 4 is 8
    ("rows exchanged", TWO_ROWS, {"FL": ("1", "6"), "FR": ("2", "7"), "RL": ("3", "4")}, {},
     {"FL": ("5", "2"), "FR": ("6", "3"), "RL": ("7", "8")}),
    # the last two of three: 4 is 7, 5 is 8, 6 is 9; 1, 2 and 3 stay
    ("rows exchanged", THREE_ROWS, {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("8", "6")}, {},
     {"FL": ("1", "2"), "FR": ("3", "7"), "RL": ("5", "9")}),
    # 1 is 8, 2 is 7, 3 is 6, 4 is 5: upside down and from the right
    ("half turn", TWO_ROWS, {"FL": ("1", "6"), "FR": ("2", "5"), "RL": ("4", "3")}, {},
     {"FL": ("8", "3"), "FR": ("7", "4"), "RL": ("5", "6")}),
    # 8 6 4 2 over 7 5 3 1: 8 is 1, 6 is 3, 4 is 5, 2 is 7
    ("half turn", DOWN, {"FL": ("8", "6"), "FR": ("7", "2")}, {}, {"FL": ("1", "3"), "FR": ("2", "7")}),
    # each one higher: 1 is 2, and 6 is 7
    ("shifted", ROW, THREE, {}, {"FL": ("2", "3"), "FR": ("4", "5"), "RL": ("6", "7")}),
    # each one lower
    ("shifted", ROW, {"FL": ("3", "2"), "FR": ("5", "4"), "RL": ("7", "8")}, {},
     {"FL": ("2", "1"), "FR": ("4", "3"), "RL": ("6", "7")}),
    # a chart that counts from 0
    ("shifted", ROW, {"FL": ("0", "1"), "FR": ("2", "3"), "RL": ("4", "5")}, {},
     {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("5", "6")}),
    # the chart counts the keyway as 5: its 6 is 5, its 7 is 6, its 8 is 7; 1 to 4 are right
    ("shifted", KEYWAY, {"FL": ("1", "2"), "FR": ("3", "6"), "RL": ("7", "8")}, {},
     {"FL": ("1", "2"), "FR": ("3", "5"), "RL": ("6", "7")}),
    # the chart leaves out the number of the keyway: its 5 is 6, its 8 is 9
    ("shifted", COUNTED, {"FL": ("1", "2"), "FR": ("3", "5"), "RL": ("7", "8")}, {},
     {"FL": ("1", "2"), "FR": ("3", "6"), "RL": ("8", "9")}),
    # the places of FL are those of FR, and those of RL those of RR
    ("left for right", ROW, FOUR, {}, {"FR": ("1", "2"), "FL": ("3", "4"), "RR": ("5", "6"), "RL": ("7", "8")}),
    ("left for right", ROW, {"FL-TW": ("1", "2"), "FR-TW": ("3", "4"), "C": ("5", "6"), "RL": ("8", "7")}, {},
     {"FR-TW": ("1", "2"), "FL-TW": ("3", "4"), "C": ("5", "6"), "RR": ("8", "7")}),
    # the places of FL are those of RL, and those of FR those of RR
    ("front for rear", ROW, FOUR, {}, {"RL": ("1", "2"), "RR": ("3", "4"), "FL": ("5", "6"), "FR": ("7", "8")}),
    ("+ and − exchanged", ROW, FOUR, {}, FOUR | {"FR": ("4", "3")}),
    ("pairs exchanged", ROW, FOUR, {}, FOUR | {"FL": ("5", "6"), "RL": ("1", "2")}),
    # 7 and 8 are free
    ("pairs exchanged", ROW, THREE, {"7": "empty"}, THREE | {"FR": ("8", "7")}),
    # FL has its − at 8, which the chart leaves free
    ("wrong partner", ROW, THREE, {"8": "empty"}, THREE | {"FL": ("1", "8")}),
    # FL and RL have each other's −
    ("wrong partner", ROW, FOUR, {}, FOUR | {"FL": ("1", "6"), "RL": ("5", "2")}),
)  # fmt: skip


def asked(plug: Plug, real: Places) -> Answer:
    places = [*plug.chart.values(), *(two for two in real.values() if two not in plug.chart.values())]
    return ask(plug, toned(real, places))


@pytest.mark.parametrize(("name", "grid", "chart", "held", "real"), BY_HAND)
def test_named_as_worked_out(name: str, grid: Grid, chart: Places, held: dict[str, str], real: Places) -> None:
    answer = asked(Plug(grid, chart, held), real)
    assert answer.kind == "named"
    assert name in answer.names
    assert [places for _, places in answer.left] == [real]


def test_every_pattern_is_worked_out() -> None:
    assert {each.name for each in patterns()} == {name for name, *_ in BY_HAND}


def test_in_one_row_half_a_turn_is_the_mirrored_view() -> None:
    answer = asked(Plug(ROW, FOUR, {}), BY_HAND[0][4])
    assert answer.names == {"mirrored", "half turn"}


def test_a_pair_of_which_plus_is_not_known_is_not_turned() -> None:
    real = FOUR | {"FR": ("4", "3")}
    assert ask(Plug(ROW, FOUR, {}), toned(real, FOUR.values(), plus=False)).kind == "right"


def test_without_a_face_only_words_and_pairs_can_be_wrong() -> None:
    """A mirrored chart is no pattern then, left for right is one."""
    plug = Plug([], FOUR, {})
    mirrored = {"FL": ("7", "8"), "FR": ("5", "6"), "RL": ("3", "4"), "RR": ("1", "2")}
    sides = {"FR": ("1", "2"), "FL": ("3", "4"), "RR": ("5", "6"), "RL": ("7", "8")}
    assert asked(plug, mirrored).kind == "no pattern"
    assert asked(plug, sides).names == {"left for right"}


def test_what_would_fall_off_the_end_forbids_a_shift() -> None:
    """A feed charted at 8 has no cavity to be one higher at."""
    real = {"FL": ("2", "3"), "FR": ("4", "5"), "RL": ("6", "7")}
    assert "shifted" in asked(Plug(ROW, THREE, {"8": "empty"}), real).names
    assert "shifted" not in asked(Plug(ROW, THREE, {"8": "B+"}), real).names


# -- tones that don't go with it -----------------------------------------------------------------------------

TEN: Places = {
    "FL": ("1", "2"), "FR": ("3", "4"), "RL": ("5", "6"), "RR": ("7", "8"), "C": ("9", "10"), "SUB": ("11", "12"),
}  # fmt: skip
TWELVE: Grid = [[str(k) for k in range(1, 13)]]
# k is 13 − k
TWELVE_MIRRORED: Places = {
    "FL": ("12", "11"), "FR": ("10", "9"), "RL": ("8", "7"), "RR": ("6", "5"), "C": ("4", "3"), "SUB": ("2", "1"),
}  # fmt: skip


def test_one_tone_of_six_may_be_left_unexplained() -> None:
    """A dead speaker, too, doesn't hide that the chart is mirrored; two do."""
    tones = toned(TWELVE_MIRRORED, TWELVE_MIRRORED.values())
    one = [tones[0]._replace(heard=frozenset()), *tones[1:]]
    two = [one[0], tones[1]._replace(heard=frozenset()), *tones[2:]]
    answer = ask(Plug(TWELVE, TEN, {}), one)
    assert (answer.kind, answer.names) == ("named", {"mirrored", "half turn"})
    assert answer.verdict is not None
    assert [tone.cavities for tone in answer.verdict.left[0].odd] == [{"12", "11"}]
    assert ask(Plug(TWELVE, TEN, {}), two).kind == "no pattern"


def test_one_tone_is_spared_where_three_speak_against_the_chart_and_four_agree() -> None:
    """The number 5 is left out; behind it all is one higher. FL and FR agree, RL and RR too, one higher; at 11/12, C's,
    one answers that isn't charted. Three speak against the chart as written; without that of RR two, and three agree.
    """
    grid: Grid = [["1", "2", "3", "4", None, "6", "7", "8", "9", "10", "11", "12"]]
    chart = {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("6", "7"), "RR": ("8", "9"), "C": ("10", "11")}
    real = chart | {"RL": ("7", "8"), "RR": ("9", "10"), "C": ("11", "12")}
    tones = toned(real, real.values())
    tones[4] = tones[4]._replace(heard=frozenset(("SUB",)))
    answer = ask(Plug(grid, chart, {}), tones)
    assert (answer.kind, answer.names) == ("named", {"shifted"})
    assert ask(Plug(grid, chart, {}), [*tones[:3], tones[4]]).kind == "no pattern"


def test_a_speaker_of_no_pair_speaks_against_the_wires_of_two() -> None:
    """SUB isn't charted, and answers between FL's + and FR's +: then one of these is not what the chart says."""
    odd = Tone("1", "3", frozenset(("SUB",)))
    assert ask(Plug(ROW, FOUR, {}), [*toned(FOUR, FOUR.values()), odd]).kind == "too few"
    # at two cavities that nobody recorded, or knew, it is news, and no contradiction; at a feed or none it is one
    heard = [Tone("5", "7", frozenset(("SUB",)))]
    for held, kind in (({}, "right"), ({"5": "unknown", "7": "unknown"}, "right"), ({"5": "B+"}, "too few")):
        assert ask(Plug(ROW, {"FL": ("1", "2")}, held), heard).kind == kind
    assert ask(Plug(ROW, {"FL": ("1", "2")}, {"5": "empty"}), heard).kind == "too few"


def test_four_rows_the_other_way_up() -> None:
    """Rows of three: 1 is 10, 2 is 11, 4 is 7, 5 is 8, 6 is 9."""
    grid: Grid = [list("123"), list("456"), list("789"), ["10", "11", "12"]]
    real = {"FL": ("10", "7"), "FR": ("8", "11"), "RL": ("12", "9")}
    answer = asked(Plug(grid, {"FL": ("1", "4"), "FR": ("5", "2"), "RL": ("3", "6")}, {}), real)
    assert (answer.kind, answer.names) == ("named", {"rows exchanged"})
    assert answer.left[0][1] == real


def test_one_tone_against_five_is_asked_for_again() -> None:
    """Five pairs answer as charted, one answers with a speaker that the chart doesn't have."""
    tones = toned(TEN, TEN.values())
    odd = [*tones[:5], tones[5]._replace(heard=frozenset(("RR-TW",)))]
    answer = ask(Plug(TWELVE, TEN, {}), odd)
    assert answer.kind == "too few"
    assert answer.left == ()


def test_one_silent_pair_is_no_fault_of_the_chart() -> None:
    tones = toned(FOUR, FOUR.values())
    assert ask(Plug(ROW, FOUR, {}), [tones[0]._replace(heard=frozenset()), *tones[1:]]).kind == "right"


def test_silence_alone_is_never_no_pattern() -> None:
    """With the tone not reaching the wires, every pair of every chart is silent."""
    silent = [tone._replace(heard=frozenset(), plus="") for tone in toned(FOUR, FOUR.values())]
    assert ask(Plug(ROW, FOUR, {}), silent).kind == "too few"


def test_the_last_tone_of_a_pair_counts() -> None:
    wrong, right = toned(BY_HAND[0][4], FOUR.values()), toned(FOUR, FOUR.values())
    assert ask(Plug(ROW, FOUR, {}), [*wrong, *right]).kind == "right"
    assert ask(Plug(ROW, FOUR, {}), [*right, *wrong]).kind == "named"
