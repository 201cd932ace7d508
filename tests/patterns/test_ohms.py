"""A wrong partner by a meter: worked by hand."""

from __future__ import annotations

from harness.patterns.chart import Chart, Pair
from harness.patterns.face import Face
from harness.patterns.ohms import Ohms, partners

FACE = Face((tuple("12345678"),))
CHART = Chart(FACE, (Pair("FL", "3", "4"), Pair("FR", "1", "2")), {"7": "empty"})


def test_open_as_charted_and_a_speaker_with_another() -> None:
    """3/4 is open and 3/7 reads 3.5 ohm: the pair is 3 and 7. 4 ohm nominal reads 3.1 to 4.0 (a retailer's table)."""
    (found,) = partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 3.5)])
    assert (found.pair.name, found.legs) == ("FL", (("3", "7", 3.5),))


def test_the_other_wire_may_be_the_right_one() -> None:
    (found,) = partners(CHART, [Ohms("7", "4", 3.5), Ohms("4", "3", None)])
    assert found.legs == (("4", "7", 3.5),)


def test_two_pairs_with_each_others_wire() -> None:
    """3/4 and 1/2 are open, 3 reads with 2 and 4 with 1: two speakers of 4 ohm, 3.1 to 4.0 each (the same table)."""
    read = [Ohms("3", "4", None), Ohms("1", "2", None), Ohms("2", "3", 3.4), Ohms("4", "1", 3.6)]
    assert [(each.pair.name, each.legs) for each in partners(CHART, read)] == [
        ("FL", (("3", "2", 3.4), ("4", "1", 3.6))), ("FR", (("1", "4", 3.6), ("2", "3", 3.4))),
    ]  # fmt: skip


def test_what_is_no_such_thing() -> None:
    """The charted pair reads; 2.2 kohm is no speaker, nor is 0.9 ohm, as wires that touch read 0.77 (a wire table); two
    partners are a short, and one with both is three wires on a speaker; nobody read the charted pair.
    """
    assert not partners(CHART, [Ohms("3", "4", 3.5), Ohms("3", "7", 3.5)])
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 2200.0)])
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 0.9)])
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 3.5), Ohms("3", "8", 3.5)])
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 3.5), Ohms("4", "7", 3.5)])
    assert not partners(CHART, [Ohms("3", "7", 3.5)])


def test_read_again_the_last_counts() -> None:
    assert not partners(CHART, [Ohms("3", "4", None), Ohms("3", "7", 3.5), Ohms("4", "3", 3.4)])
