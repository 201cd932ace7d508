"""Where the tones leave more than one reading, the next tone parts them, with the least way for the probes."""

from __future__ import annotations

import random

import pytest

from harness.patterns.chart import Tone
from tests.patterns.asked import Answer, ask, toned
from tests.patterns.geometry import Grid, Places, Plug, heard_at, random_plug, whole_faults

ROW: Grid = [list("12345678")]
FOUR: Places = {"FL": ("1", "2"), "FR": ("3", "4"), "RL": ("5", "6"), "RR": ("7", "8")}


def test_the_nearest_of_the_tones_that_part_them() -> None:
    """FL's cavities answer with RR: the row mirrored, or the two exchanged. 3/4 and 5/6 part them alike; from 1/2 the
    probes move 2 + 2 cavities to 3/4 and 4 + 4 to 5/6.
    """
    answer = ask(Plug(ROW, FOUR, {}), toned({"RR": ("1", "2")}, [("1", "2")], plus=False))
    assert answer.kind == "several"
    assert answer.names == {"mirrored", "half turn", "pairs exchanged"}
    assert answer.verdict is not None
    assert answer.verdict.probe is not None
    assert {answer.verdict.probe.a, answer.verdict.probe.b} == {"3", "4"}
    # of the whole chart 6 readings, of single pairs 4 turned, 6 exchanged, 4 x 64/2 at free cavities, 2 x 4 x 8 with
    # another partner: 208 in all. 208/2520 is more than 1/20: if it is the exchange, all four pairs must be heard
    assert answer.verdict.more == 3
    # mirrored: RL is at 4/3; exchanged: FR is at 3/4
    by_name = {
        next(iter(names)): outcome[0]
        for (names, _), outcome in zip(answer.left, answer.verdict.probe.outcomes, strict=True)
    }
    assert sorted(by_name.values()) == ["FR", "RL"]


def test_two_tones_of_left_and_right_leave_the_exchange_of_the_two() -> None:
    """FL and FR answer for each other: left for right, or the two exchanged. RL or RR parts them; 5/6 is nearer."""
    real = {"FL": ("3", "4"), "FR": ("1", "2")}
    answer = ask(Plug(ROW, FOUR, {}), toned(real, [("1", "2"), ("3", "4")]))
    assert answer.names == {"left for right", "pairs exchanged"}
    assert answer.verdict is not None
    assert answer.verdict.probe is not None
    assert {answer.verdict.probe.a, answer.verdict.probe.b} == {"5", "6"}


def test_too_few_tones_say_how_many_more() -> None:
    """Eight cavities: one pair at random lies at two given ones with 1/28, a second then with 1/15: 1/420. There are
    six readings of the whole chart (mirrored, half a turn, two shifts, sides, ends): 6/28 is too much, 6/420 isn't.
    """
    answer = ask(Plug(ROW, FOUR, {}), toned({"FL": ("8", "7")}, [("8", "7")]))
    assert (answer.kind, answer.names) == ("too few", {"mirrored", "half turn"})
    assert answer.verdict is not None
    assert answer.verdict.more == 1
    assert answer.verdict.chance == pytest.approx(6 / 28)
    # the next pair along the row: 6/5, where FR is mirrored
    assert answer.verdict.probe is not None
    assert {answer.verdict.probe.a, answer.verdict.probe.b} == {"6", "5"}


def led(seed: int) -> tuple[str, list[tuple[int, Answer]]]:
    """A planted fault of the whole chart; from one tone on, only what is asked for: how many, what was said."""
    dice = random.Random(seed)
    plug = random_plug(dice, others=False)
    name, real = dice.choice(list(whole_faults(plug)))
    places = [next((two for two in plug.chart.values() if heard_at(real, *two)[0]), next(iter(real.values())))]
    said = []
    while True:
        answer = ask(plug, toned(real, places))
        said.append((len(places), answer))
        if answer.verdict is None or answer.verdict.probe is None:
            return name, said
        probe = answer.verdict.probe
        assert {probe.a, probe.b} not in [set(two) for two in places], "asked twice"
        places.append((probe.a, probe.b))


@pytest.mark.parametrize("seed", range(80))
def test_one_tone_after_another_leads_to_the_fault(seed: int) -> None:
    """It ends with the planted fault named, in no more tones than were said as soon as it was among those left."""
    name, said = led(seed)
    many, last = said[-1]
    if last.kind == "right":
        return  # the first tone was at a pair that the fault leaves where it is
    assert name in last.names, last
    for k, answer in said:
        if name in answer.names and answer.verdict is not None and answer.verdict.probe is not None:
            assert many - k <= answer.verdict.more, said


def test_that_takes_few_tones() -> None:
    """Of six ways of being wrong three tones part most: the next tone halves what is left, or does better."""
    many = [said[-1][0] for seed in range(80) for _, said in [led(seed)] if said[-1][1].kind == "named"]
    assert len(many) >= 60
    assert sum(many) / len(many) <= 4


def test_no_tone_where_something_bears_none() -> None:
    """1/2 toned as RR: the row mirrored, or two exchanged, which 3/4 parts. With a data pair charted at 6 and 5, which
    the mirrored chart has at 3 and 4, these four are left alone: 7/8 is offered, or nothing.
    """
    chart = {"FL": ("1", "2"), "RR": ("8", "7")}
    free = Plug(ROW, chart | {"FR": ("3", "4")}, {})
    taken = Plug(ROW, chart, {"6": "CAN-H", "5": "CAN-L", "3": "empty"})
    heard = [Tone("1", "2", frozenset(("RR",)))]
    first, second = ask(free, heard).verdict, ask(taken, heard, keep_off=("5", "6")).verdict
    assert first is not None
    assert second is not None
    assert first.probe is not None
    assert {first.probe.a, first.probe.b} == {"3", "4"} or {first.probe.a, first.probe.b} == {"5", "6"}
    assert second.probe is None or {second.probe.a, second.probe.b} == {"7", "8"}


def test_the_way_is_from_the_tone_taken_last() -> None:
    """Left for right or two exchanged, parted by 1/2 or 11/12: 1/2 is nearer to 3/4, 11/12 to 9/10."""
    row: Grid = [[str(k) for k in range(1, 13)]]
    chart = {"RL": ("1", "2"), "FL": ("3", "4"), "FR": ("9", "10"), "RR": ("11", "12")}
    exchanged = {"FL": ("9", "10"), "FR": ("3", "4")}
    for order, nearest in (([("3", "4"), ("9", "10")], {"11", "12"}), ([("9", "10"), ("3", "4")], {"1", "2"})):
        for places in (order, [order[1], *order]):
            verdict = ask(Plug(row, chart, {}), toned(exchanged, places)).verdict
            assert verdict is not None
            assert verdict.probe is not None
            assert {verdict.probe.a, verdict.probe.b} == nearest, places


def test_where_nothing_explains_one_tone_three_in_all_are_asked_for() -> None:
    """Two pairs heard are the least for a name, and one tone was in vain: 3 − 1 more, and one more at least."""
    heard = [Tone("1", "2", frozenset(("SUB",)))]
    more = [*heard, *toned(FOUR, [("3", "4"), ("5", "6"), ("7", "8")])]
    for tones, count in ((heard, 2), (more, 1)):
        verdict = ask(Plug(ROW, FOUR, {}), tones).verdict
        assert verdict is not None
        assert (verdict.kind, verdict.left, verdict.more) == ("too few", (), count)


def test_without_a_face_the_first_in_number_is_next() -> None:
    """Nobody knows how far it is: 5/6 before 7/8."""
    real = {"FL": ("3", "4"), "FR": ("1", "2")}
    verdict = ask(Plug([], FOUR, {}), toned(real, [("1", "2"), ("3", "4")])).verdict
    assert verdict is not None
    assert verdict.probe is not None
    assert {verdict.probe.a, verdict.probe.b} == {"5", "6"}
